import { describe, expect, test } from 'vitest';
import { toEditable } from '../../../src/engine/formula-text.ts';
import { plan } from './plan.ts';

/** Formula as typed; what its message must name: the cells at fault by heading and address, and the kinds. */
const MISTAKEN: readonly (readonly [typed: string, ...names: string[]])[] = [
  // Sums of different kinds.
  ['=A1+A9', 'a length (Bench length, A1)', 'a power (Power, A9)'],
  ['=A9-A1', 'a length (Bench length, A1)', 'a power (Power, A9)'],
  ['=A5+A18', 'PPFD', 'Mean PPFD, A5', 'DLI', 'Target DLI, A18'],
  ['=A1+A30', 'a length (Bench length, A1)', 'an area (Area, A30)'],
  ['=A1+A16', 'a plain number (Fixtures, A16)', 'a length (Bench length, A1)'],
  ['=A16+A1', 'a plain number (Fixtures, A16)', 'a length (Bench length, A1)'],
  ['=A15-A1/A30', 'A1/A30', 'Maintenance, A15'],
  ['=A9*A6+A32', 'A9*A6', 'Energy, A32'],
  ['=A22+A6', 'Photoperiod, A6', 'L90, A22'],
  ['=A25+A7', 'Years, A25', 'Days a year, A7'],
  ['=A6*A7+A22', 'A6*A7', 'L90, A22'],
  ['=A10+A31', 'Price, A10', 'Saving, A31'],
  ['=A10+A8', 'Price, A10', 'Tariff, A8'],
  ['=A4+A5', 'Fixture output, A4', 'Mean PPFD, A5'],
  ['=A23+A5', 'Lux reading, A23', 'Mean PPFD, A5'],
  ['=2*3+A1', '2*3', 'Bench length, A1'],
  ['=A1+10%', '10%', 'Bench length, A1'],
  ['=A1+TRUE', 'TRUE', 'Bench length, A1'],
  ['=A1+A17', 'Crop, A17', 'text'],
  ['=A1*A17', 'Crop, A17', 'text'],
  ['=1 m+1 W', 'a length (1 m)', 'a power (1 W)'],
  ['=6 in+A9', '6 in', 'Power, A9'],
  ['=bench_length+A9', 'Bench length, A1', 'Power, A9'],
  // One kind needed.
  ['=SUM(A1,A9)', 'SUM', 'Bench length, A1', 'Power, A9'],
  ['=SUM(D1:D3)', 'D1:D3', 'Length of one, D1', 'Load of one, D2'],
  ['=SUM(F1:G3)', 'F1:G3', 'Load 1, F1', 'Price 1, G1'],
  ['=MIN(A5,A18)', 'MIN', 'Mean PPFD, A5', 'Target DLI, A18'],
  ['=AVERAGE(B1:B4,C1)', 'AVERAGE', 'B1:B4', 'Segment 1, C1'],
  ['=MAX(F1:F3,A16)', 'MAX', 'F1:F3', 'Fixtures, A16'],
  ['=MEDIAN(A1,A9)', 'MEDIAN', 'Bench length, A1', 'Power, A9'],
  ['=MOD(A1,A9)', 'MOD', 'Bench length, A1', 'Power, A9'],
  ['=QUOTIENT(A1,A30)', 'QUOTIENT', 'Bench length, A1', 'Area, A30'],
  ['=IF(A29,A1,A9)', 'IF', 'Bench length, A1', 'Power, A9'],
  ['=IF(A29,A1,A16)', 'IF', 'Bench length, A1', 'Fixtures, A16'],
  ['=IFERROR(A1,A9)', 'IFERROR', 'Bench length, A1', 'Power, A9'],
  ['=CHOOSE(1,A1,A9)', 'CHOOSE', 'Bench length, A1', 'Power, A9'],
  ['=IF(A1,A9,A33)', 'IF', 'Bench length, A1', 'yes or no'],
  ['=AND(A1,A29)', 'AND', 'Bench length, A1'],
  // Comparisons.
  ['=A1>A9', 'compares', 'Bench length, A1', 'Power, A9'],
  ['=A5>=A18', 'compares', 'Mean PPFD, A5', 'Target DLI, A18'],
  ['=A5>A16', 'compares', 'Mean PPFD, A5', 'Fixtures, A16'],
  ['=A1=A29', 'compares', 'Bench length, A1', 'Turned, A29'],
  ['=A12>A14', 'compares', 'Ambient, A12', 'Margin, A14'],
  // Powers.
  ['=2^A1', 'Bench length, A1', 'plain number'],
  ['=A1^A16', 'Bench length, A1', 'written number'],
  ['=A1^(A16-7)', 'Bench length, A1'],
  ['=A1^0.3', 'Bench length, A1', '0.3'],
  // Plain numbers only.
  ['=ROUND(A3,0)', 'ROUND', 'Mount height, A3', 'NUMBER.IN'],
  ['=ROUNDUP(A1,0)', 'ROUNDUP', 'Bench length, A1'],
  ['=INT(A4)', 'INT', 'Fixture output, A4'],
  ['=CEILING(A1,1)', 'CEILING', 'Bench length, A1'],
  ['=EXP(A22)', 'EXP', 'L90, A22'],
  ['=LN(A5)', 'LN', 'Mean PPFD, A5'],
  ['="h "&A3', 'Mount height, A3', 'SHOW'],
  ['=CONCATENATE("h ",A3)', 'CONCATENATE', 'Mount height, A3'],
  ['=LEN(A3)', 'LEN', 'Mount height, A3'],
  ['=A1%', 'Bench length, A1', 'percent'],
  ['=FACT(A1)', 'FACT', 'Bench length, A1'],
  ['=UNIT(A1,"in")', 'UNIT', 'Bench length, A1'],
  ['=NUMBER.IN(A9,"in")', 'NUMBER.IN', 'Power, A9'],
  ['=SHOW(A9,"m")', 'SHOW', 'Power, A9'],
  ['=CONVERT(A1,"m","ft")', 'CONVERT', 'Bench length, A1'],
  ['=UNIT(5,A17)', 'UNIT', 'quotes'],
  ['=UNIT(5,"furlong")', 'furlong'],
  ['=SIN(A1)', 'SIN', 'Bench length, A1'],
  // Temperatures.
  ['=A12+A13', 'Ambient, A12', 'Derates from, A13', 'temperatures'],
  ['=SUM(A12,A13)', 'SUM', 'Ambient, A12', 'temperature'],
  ['=A12*2', 'Ambient, A12', 'temperature'],
  ['=A12/A13', 'Ambient, A12', 'temperature'],
  ['=-A12', 'Ambient, A12', 'reading'],
  ['=A12^2', 'Ambient, A12', 'reading'],
  ['=A14-A12', 'Ambient, A12', 'Margin, A14'],
  ['=A12+A1', 'Ambient, A12', 'Bench length, A1'],
  ['=MAX(A12,A14)', 'MAX', 'Ambient, A12', 'Margin, A14'],
  // Look-ups and criteria.
  ['=INDEX(F1:G3,A16,I1)', 'Load 1, F1', 'Price 1, G1', 'write the number'],
  ['=MATCH(A1,F1:F3,0)', 'MATCH', 'Bench length, A1', 'F1:F3'],
  ['=MATCH(A16,F1:F3,0)', 'MATCH', 'Fixtures, A16', 'F1:F3'],
  ['=LOOKUP(A1,F1:F3,G1:G3)', 'LOOKUP', 'Bench length, A1'],
  ['=VLOOKUP(A1,F1:G3,2)', 'VLOOKUP', 'Bench length, A1'],
  ['=INDEX(F1:F3,A1)', 'INDEX', 'Bench length, A1'],
  ['=COUNTIF(B1:B4,">"&A1)', 'COUNTIF', 'Bench length, A1', 'B1:B4'],
  ['=COUNTIF(B1:B4,A16)', 'COUNTIF', 'Fixtures, A16', 'B1:B4'],
  ['=COUNTIF(B1:B4,">5 W")', 'COUNTIF', '5 W', 'B1:B4'],
  ['=SUMIF(F1:F3,">"&A10,G1:G3)', 'SUMIF', 'Price, A10', 'F1:F3'],
  ['=RANK(A1,F1:F3)', 'RANK', 'Bench length, A1', 'F1:F3'],
  ['=FORECAST(A1,G1:G3,F1:F3)', 'FORECAST', 'Bench length, A1', 'F1:F3'],
  ['=PRODUCT(C1:C4)', 'PRODUCT', 'C1:C4'],
  // Money.
  ['=PMT(A26,A25,A10)', 'PMT', 'Years, A25'],
  ['=NPV(A26,G1:G3,A31)', 'NPV', 'G1:G3', 'Saving, A31'],
  // Our own.
  ['=DLI(A4,A6)', 'DLI', 'Fixture output, A4'],
  ['=DLI(A5,A22)', 'DLI', 'L90, A22', 'h/d'],
  ['=DLI(A5,A16)', 'DLI', 'Fixtures, A16', 'h/d'],
  ['=DLI(A6,A5)', 'DLI', 'Photoperiod, A6'],
  ['=BEAM.EXPONENT(A1)', 'BEAM.EXPONENT', 'Bench length, A1'],
  ['=FOOTPRINT.WIDTH(A9,A11)', 'FOOTPRINT.WIDTH', 'Power, A9'],
  ['=POINT.PPFD(A5,A11,A3,0)', 'POINT.PPFD', 'Mean PPFD, A5'],
];

describe('Mistaken formulas are found, with the right cells named', () => {
  const sheet = plan();

  test('there are at least 60 of them, each once', () => {
    expect(new Set(MISTAKEN.map(([typed]) => typed)).size).toBe(MISTAKEN.length);
    expect(MISTAKEN.length).toBeGreaterThanOrEqual(60);
  });

  test.each(MISTAKEN.map(([typed, ...names]) => [typed, names] as const))('%s', (typed, names) => {
    const committed = sheet.commit(typed);
    if ('refused' in committed) throw new Error(committed.refused);
    for (const name of names) expect(committed.fault?.message).toContain(name);
    sheet.set('Z50', committed.content);
    const kind = sheet.kind('Z50');
    expect(kind.is === 'fail' && sheet.address(kind.at)).toBe('Z50');
  });
});

describe('Mends', () => {
  const mend = (typed: string) => {
    const committed = plan().commit(typed, 'Z50');
    return 'refused' in committed ? undefined : committed.fault?.mend;
  };

  test.each([
    ['=DLI(A5,A16)', 'give A16 the unit h/d', 'A16', '9 h/d'],
    ['=A3+A16', 'give A16 the unit in', 'A16', '9 in'],
    ['=A5>A16', 'give A16 the unit µmol/m²/s', 'A16', '9 µmol/m²/s'],
    ['=ROUND(A3,0)', 'write NUMBER.IN(A3,"in")', 'Z50', '=ROUND(NUMBER.IN(A3,"in"),0)'],
    ['="h "&A3*2', 'write SHOW(A3*2,"in")', 'Z50', '="h "&SHOW(A3*2,"in")'],
    ['=2*3+A3', 'write UNIT(2*3,"in")', 'Z50', '=UNIT(2*3,"in")+A3'],
    ['=LN((A5))', 'write NUMBER.IN((A5),"µmol/m²/s")', 'Z50', '=LN(NUMBER.IN((A5),"µmol/m²/s"))'],
  ])('%s: %s', (typed, label, cell, content) => {
    expect(mend(typed)).toMatchObject({ label, cell, content });
  });

  test('every mend that is offered mends: its content, put in, leaves no error of that cell', () => {
    let offered = 0;
    for (const [typed] of MISTAKEN) {
      const sheet = plan();
      const committed = sheet.commit(typed, 'Z50');
      if ('refused' in committed || !committed.fault?.mend?.content) continue;
      const { cell = '', content } = committed.fault.mend;
      sheet.set('Z50', committed.content);
      sheet.set(cell, content);
      const kind = sheet.kind('Z50');
      // SIN of a length and the like have another mistake behind the first.
      if (kind.is === 'fail') expect(kind.message, `${typed} mended to ${toEditable(content, 'EUR')}`).not.toBe(committed.fault.message);
      else offered++;
    }
    expect(offered).toBeGreaterThan(20);
  });

  test('a stored formula with a bare number is a mistake whose mend writes the unit', () => {
    const sheet = plan({ Z1: '=DLI(200,A6)', Z2: '=A3+6' });
    expect(sheet.kind('Z1')).toMatchObject({ is: 'fail', mend: { cell: 'Z1', content: '=DLI(UNIT(200,"µmol/m²/s"),A6)' } });
    expect(sheet.kind('Z2')).toMatchObject({ is: 'fail', mend: { cell: 'Z2', content: '=A3+UNIT(6,"in")' } });
  });
});
