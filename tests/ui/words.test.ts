import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unitAfter } from '../../functions/unit-at.ts';
import { referenceText } from '../../src/book/address.ts';
import { otherReference } from '../../src/book/other-writing.ts';
import { closed, standingAt, takesReference, wordsOf } from '../../src/ui/cells/words.ts';
import { runs } from '../cases.ts';

const unitLength = (after: string): number => {
  const found = unitAfter(after, 'EUR');
  return found && 'length' in found ? found.length : 0;
};
const words = (text: string) => wordsOf(text, unitLength);
/** The caret is where the bar stands. */
const split = (text: string): readonly [string, number] => [text.replace('|', ''), text.indexOf('|')];
const standing = (text: string) => {
  const [formula, caret] = split(text);
  const found = standingAt(words(formula), caret);
  return found && `${found.name} ${found.argument}`;
};

describe('the words of a formula', () => {
  it('are references in any writing while someone writes, where that is asked', () => {
    const found = wordsOf("=Scenarios!B2+[$'Light map'.A1:.B2]+Scenarios.b2", unitLength, otherReference).flatMap(({ text, reference }) =>
      reference ? [`${text}: ${referenceText(reference)}`] : [],
    );
    expect(found).toEqual(['Scenarios!B2: Scenarios.B2', "[$'Light map'.A1:.B2]: 'Light map'.A1:B2", 'Scenarios.b2: Scenarios.B2']);
  });

  it('are told apart: functions, names, references, amounts, texts', () => {
    const kinds = words('=DLI(Scenarios.B2, 16 h/d)*tariff+\'Light map\'.$A$1:B2&"A1, x"').map(({ kind, text }) => `${kind}: ${text}`);
    expect(kinds).toEqual([
      'sign: =',
      'call: DLI',
      'open: (',
      'reference: Scenarios.B2',
      'comma: ,',
      'space:  ',
      'number: 16',
      'unit:  h/d',
      'close: )',
      'sign: *',
      'name: tariff',
      'sign: +',
      "reference: 'Light map'.$A$1:B2",
      'sign: &',
      'text: "A1, x"',
    ]);
  });

  it('does not take the raised digits of a unit for cells', () => {
    expect(words('=200 umol/m2/s+M2').map(({ kind }) => kind)).toEqual(['sign', 'number', 'unit', 'sign', 'reference']);
    expect(words('=a×b÷c').map(({ text }) => text)).toEqual(['=', 'a', '×', 'b', '÷', 'c']);
  });

  it('cover any text from end to end, each beginning where the one before ends', () => {
    const piece = fc.oneof(fc.constantFrom('B7', 'Brief.A1', "'a b'.C3", 'IF(', '"', '"x"', '6 in', ' ', ',', '=', '×', '(', ')', '16 h/d', "'"), fc.string());
    fc.assert(
      fc.property(fc.array(piece), (parts) => {
        const text = parts.join('');
        const found = words(text);
        expect(found.map((word) => word.text).join('')).toBe(text);
        expect(found.every((word, i) => word.from === (found[i - 1]?.to ?? 0) && word.to > word.from)).toBe(true);
      }),
      runs(1000, 11),
    );
  });
});

describe('the argument in which the caret stands', () => {
  it.each([
    ['=DLI(|)', 'DLI 0'],
    ['=DLI(B7|,C7)', 'DLI 0'],
    ['=DLI(B7,|C7)', 'DLI 1'],
    ['=DLI(B7, 16 h/d|)', 'DLI 1'],
    ['=IF(B7>0,DLI(1,|2),3)', 'DLI 1'],
    ['=IF(B7>0,DLI(1,2)|,3)', 'IF 1'],
    ['=IF(B7>0,DLI(1,2),|3)', 'IF 2'],
    ['=IF("a,(b",|1)', 'IF 1'],
    ['=IF("a"",(b",|1)', 'IF 1'],
    ['=IF("a,(b|', 'IF 0'],
    ['=DLI((B7+|C7)*2,1)', 'DLI 0'],
    ['=DLI((B7+C7)*2,|1)', 'DLI 1'],
    ['=SUM({1,2;3,|4},5)', 'SUM 0'],
    ['=SUM({1,2;3,4},|5)', 'SUM 1'],
    ["=SUM('a,(b'.A1,|2)", 'SUM 1'],
    ['=bench.mean (B3, |', 'BENCH.MEAN 1'],
    ['=DLI(1,2)|', undefined],
    ['=|DLI(1,2)', undefined],
    ['=(1,|2)', undefined],
    ['=DL|I(1)', undefined],
  ])('%s is %s', (text, expected) => {
    expect(standing(text)).toBe(expected);
  });

  it('is counted right however deep calls are nested and whatever texts stand before it', () => {
    // Each level: a function, and whole arguments before the one in which the next level stands.
    const whole = fc.constantFrom('B7', '"a,b(c"', '(1+2)', 'MAX(1,2)', '{1,2;3}', "'x,y'.A1", '6 in', '""');
    const level = fc.record({ name: fc.constantFrom('IF', 'DLI', 'BENCH.MEAN', 'SUM'), before: fc.array(whole, { maxLength: 4 }) });
    fc.assert(
      fc.property(fc.array(level, { minLength: 1, maxLength: 6 }), (levels) => {
        const text = `=${levels.map(({ name, before }) => `${name}(${before.map((each) => `${each},`).join('')}`).join('')}`;
        const last = levels.at(-1);
        expect(standingAt(words(text), text.length)).toMatchObject({ name: last?.name, argument: last?.before.length });
      }),
      runs(1000, 12),
    );
  });
});

describe('where a reference can be put in', () => {
  it.each(['=|', '=B7+|', '=DLI(|', '=DLI(|)', '=DLI(B7, |)', '=B7*|+2', '=A1:|', '= |'])('it can at %s', (text) => {
    const [formula, caret] = split(text);
    expect(takesReference(words(formula), caret)).toBe(true);
  });

  it.each(['=B7|', '=5|', '=5 |', '=5%|', '="a|', '=DL|', '=DLI(B7)|', '=|B7', '=B|7', '|=B7'])('it can not at %s', (text) => {
    const [formula, caret] = split(text);
    expect(takesReference(words(formula), caret)).toBe(false);
  });
});

describe('half a formula', () => {
  it.each([
    ['=B7+C7', '=B7+C7', true],
    ['=IF(B7+C7', '=IF(B7+C7)', false],
    ['=SUM({1,2', '=SUM({1,2})', false],
    ['=50%', '=50%', true],
    ['=")("&IF(1', '=")("&IF(1)', false],
  ])('%s is looked at as %s', (typed, text, whole) => {
    expect(closed(typed, words(typed))).toEqual({ text, whole });
  });

  it.each(['=', '=B7+', '=DLI(', '=DLI(B7,', '="a', '=Brief!', ''])('%s waits for more', (typed) => {
    expect(closed(typed, words(typed))).toBeUndefined();
  });
});
