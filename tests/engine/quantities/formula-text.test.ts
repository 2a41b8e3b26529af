import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { editableContent, toCanonical, toEditable } from '../../../src/engine/formula-text.ts';
import { runs } from '../../cases.ts';
import { Sheet } from './sheet.ts';

const canonical = (typed: string): string => {
  const result = toCanonical(typed, 'EUR');
  if (!result.ok) throw new Error(result.message);
  return result.content;
};

const refusal = (typed: string): string => {
  const result = toCanonical(typed, 'EUR');
  return result.ok ? `taken as ${result.content}` : result.message;
};

describe('A formula as typed and as stored', () => {
  test.each([
    ['=C5+6 in', '=C5+UNIT(6,"in")'],
    ['=C5 + 6in', '=C5 + UNIT(6,"in")'],
    ['=dli (200 umol/m2/s, 16 h/d)', '=DLI(UNIT(200,"µmol/m²/s"), UNIT(16,"h/d"))'],
    ['=UNIT(200,"umol/m2/s")', '=UNIT(200,"µmol/m²/s")'],
    ['=16 h/d2', '=UNIT(16,"h")/D2'],
    ['=12 mol/M2', '=UNIT(12,"mol")/M2'],
    ['=5 W/m2', '=UNIT(5,"W/m²")'],
    ['=5/m2', '=5/M2'],
    ['=2 m^2', '=UNIT(2,"m²")'],
    ['=200 µmol m⁻² s⁻¹*2', '=UNIT(200,"µmol/m²/s")*2'],
    ['=5 m -2', '=UNIT(5,"m") -2'],
    ['=16 h-2', '=UNIT(16,"h")-2'],
    ['=-5 °F+A1', '=UNIT(-5,"°F")+A1'],
    ['=A1-5 °F', '=A1-UNIT(5,"°F")'],
    ['=A1--5 °F', '=A1-UNIT(-5,"°F")'],
    ['=-(5 m)', '=-(UNIT(5,"m"))'],
    ['=1E15', '=1e15'],
    ['=6.6E-34', '=6.6e-34'],
    ['=.5 m', '=UNIT(0.5,"m")'],
    ['="a""b"', '=("a"&CHAR(34)&"b")'],
    ['=A1×2÷3−1', '=A1*2/3-1'],
    ['=IF(a1≥3,b1≠2,c1≤1)', '=IF(A1>=3,B1<>2,C1<=1)'],
    ["='Light map'.a1*2 m", '=\'Light map\'.A1*UNIT(2,"m")'],
    ['=0.22 €/kWh*A1', '=UNIT(0.22,"EUR/kWh")*A1'],
    ['=5 %', '=5 %'],
    ['=0.05 /h', '=UNIT(0.05,"/h")'],
    ['=true', '=TRUE'],
    ['=54 lx per umol/m2/s*2', '=UNIT(54,"lx per µmol/m²/s")*2'],
    ['=SUM (A1:A5)', '=SUM(A1:A5)'],
    ['={1,2;3,4}', '={1,2;3,4}'],
    ['="6 in"&A1', '="6 in"&A1'],
    ['=bench_length/2', '=bench_length/2'],
    ['=scenarios.b7*2 m', '=scenarios.B7*UNIT(2,"m")'],
    ["=SUM('Day light'!a1:b2)", "=SUM('Day light'.A1:B2)"],
    ['=[Scenarios.B7]+[.c3]+SUM([$T.$A$1:.$B$2])', '=Scenarios.B7+C3+SUM(T.$A$1:$B$2)'],
    ['=max(1 m;[.A1])', '=MAX(UNIT(1,"m"),A1)'],
    ['=SUM({1,2;3,4};5)', '=SUM({1,2;3,4},5)'],
    ['=2024.E5', '=2024e5'],
    ['=B7+5 ft 4 in', '=B7+UNIT(64,"in")'],
    ['=B7-5′ 4 1/2″', '=B7-UNIT(64.5,"in")'],
    ['=-5 ft 4 in', '=UNIT(-64,"in")'],
    ['=5 ft', '=UNIT(5,"ft")'],
    ['=5 ft+4 in', '=UNIT(5,"ft")+UNIT(4,"in")'],
    ['=bench.mean(2)+rail.low', '=BENCH.MEAN(2)+rail.low'],
  ])('%s is stored as %s', (typed, stored) => {
    expect(canonical(typed)).toBe(stored);
  });

  test.each([
    ['=1,2', 'In a formula the decimal mark is a point: 1.2'],
    ['=1.234,5', 'In a formula the decimal mark is a point: 1234.5'],
    ['=1,000 W', 'In a formula the decimal mark is a point: 1.000. Thousands stand without a mark: 1000'],
    ['=A1+1,234,567.5', 'In a formula the decimal mark is a point: 1.234. Thousands stand without a mark: 1234567.5'],
    ['=12 345 W', 'In a formula thousands stand without a gap: 12345'],
    ['=12 AWG', 'A wire gauge is a plain number here: WIRE.AREA(12) gives the cross-section of AWG 12.'],
    ['=36"', 'In a formula inches are written “36 in”.'],
    ["=3'", 'In a formula feet are written “3 ft”.'],
    ['=5 h 30 min', 'Join the parts of a length with a plus: 5 h + …'],
    ['=3 ft 14 in', '“3 ft 14 in” can not be read as a length such as 1 in. 14 in is a foot or more: write 4 ft 2 in, or 50 in.'],
    ['=MAX(0,5;1)', 'The arguments of a function are separated by commas.'],
    ['=1;2', 'The arguments of a function are separated by commas.'],
    ['=(1;2)', 'The arguments of a function are separated by commas.'],
    ['="a', 'A text in this formula is not closed: a double quote (") is missing.'],
    ['=0.22 $/kWh', 'This book is in EUR; $/kWh is another currency’s, and a book has no rate of exchange.'],
  ])('%s is refused: %s', (typed, message) => {
    expect(refusal(typed).replaceAll("'", '’')).toBe(message.replaceAll("'", '’'));
  });

  test.each([
    ['=UNIT(6,"in")', '=6 in'],
    ['=-UNIT(5,"m")', '=-UNIT(5,"m")'],
    ['=UNIT(3,"m")^2', '=UNIT(3,"m")^2'],
    ['=UNIT(3,"m")+UNIT(3,"m")^2', '=3 m+UNIT(3,"m")^2'],
    ['=UNIT(A1,"m")', '=UNIT(A1,"m")'],
    ['=("a"&CHAR(34)&"b")', '="a""b"'],
    ['=UNIT(120,"°")', '=120 °'],
    ['=SUM(#REF!,UNIT(2,"m"))&"#REF!"', '=SUM(lost_cell,2 m)&"#REF!"'],
  ])('%s is shown for editing as %s', (stored, shown) => {
    expect(toEditable(stored, 'EUR')).toBe(shown);
    expect(canonical(shown)).toBe(stored);
  });

  test('a text is edited with its apostrophe, a given as it is stored', () => {
    expect(editableContent("'36", 'EUR')).toBe("'36");
    expect(editableContent('36 in', 'EUR')).toBe('36 in');
    expect(editableContent('=UNIT(6,"in")', 'EUR')).toBe('=6 in');
  });
});

const UNITS = ['m', 'in', 'ft²', 'h/d', 'µmol/m²/s', '°', '°C', '°F', 'EUR/kWh', '/h', '%', 'kWh', 'lx per µmol/m²/s', 'd/year', 'W/m²', 'm^0.5', 'mol', 'd'];

const leaf = fc.oneof(
  fc.tuple(fc.integer({ min: -999, max: 999 }), fc.constantFrom(...UNITS)).map(([n, u]) => `UNIT(${n},"${u}")`),
  fc.tuple(fc.integer({ min: 0, max: 9999 }), fc.integer({ min: 1, max: 4 })).map(([n, p]) => (n / 10 ** p).toFixed(p)),
  fc.constantFrom('A1', '$B$2', "'Light map'.C3", 'Brief.D4', 'bench_length', 'TRUE', 'SUM(A1:B9)', 'M2', 'D2', '1e15', 'A1:A9'),
  fc.stringMatching(/^[a-z "\\'µ0-9,;()]{0,8}$/).map((text) => canonical(`="${text.replaceAll('"', '""')}"`).slice(1)),
);

const formula: fc.Arbitrary<string> = fc
  .letrec<{ part: string }>((tie) => ({
    part: fc.oneof(
      { maxDepth: 4, withCrossShrink: true },
      leaf,
      fc.tuple(tie('part'), fc.constantFrom('+', '-', '*', '/', '^', '&', '>=', '<>', ' + '), tie('part')).map((parts) => parts.join('')),
      tie('part').map((part) => `(${part})`),
      tie('part').map((part) => `-${part}`),
      tie('part').map((part) => `${part}%`),
      fc
        .tuple(fc.constantFrom('IF', 'DLI', 'BENCH.MEAN', 'LOG10'), fc.array(tie('part'), { maxLength: 3 }))
        .map(([name, args]) => `${name}(${args.join(',')})`),
    ),
  }))
  .part.map((part) => `=${part}`);

describe('Round trips', () => {
  test('what is stored is stored again when its editable form is committed', () => {
    fc.assert(
      fc.property(formula, (stored) => {
        fc.pre(canonical(stored) === stored);
        expect(canonical(toEditable(stored, 'EUR'))).toBe(stored);
      }),
      runs(3000, 7),
    );
  });

  test('canonical text is its own canonical text', () => {
    fc.assert(
      fc.property(formula, (typed) => {
        const once = canonical(typed);
        expect(canonical(once)).toBe(once);
      }),
      runs(3000, 8),
    );
  });

  test('the calculator reads every text literal back as it was typed', () => {
    const sheet = new Sheet({});
    fc.assert(
      fc.property(fc.stringMatching(/^[a-z "\\'µ²0-9,;()=]{0,12}$/), (text) => {
        const formula = canonical(`="${text.replaceAll('"', '""')}"`);
        expect(sheet.hyper.hf.calculateFormula(formula, 0)).toBe(text);
      }),
      runs(500, 9),
    );
  });
});
