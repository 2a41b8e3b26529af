import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { cellText } from '../../src/book/address.ts';
import type { Position } from '../../src/engine/addresses.ts';
import { Hyper, type Parsed } from '../../src/engine/hyper.ts';
import { shapeOf } from '../../src/engine/shapes.ts';
import { runs } from '../cases.ts';

const TABLES = ['Big', 'Light map', 'A1', "It's", 'T2', 'LOG10'];
const at = (row: number, col: number, sheet = 0): Position => ({ sheet, row, col });

describe('the shape of a formula', () => {
  test('is the same where its cells stand in the same way to its own, and another where they do not', () => {
    expect(shapeOf('=A1+B1', at(0, 2))).toBe(shapeOf('=B7+C7', at(6, 3)));
    expect(shapeOf('=SUM(A1:B3)', at(4, 0))).toBe(shapeOf('=SUM(B2:C4)', at(5, 1)));
    expect(shapeOf('=$A1*A$1', at(0, 1))).toBe(shapeOf('=$A2*A$1', at(1, 1)));
    const others: [string, Position][] = [
      ['=A1+B1', at(1, 2)],
      ['=A1+B2', at(0, 2)],
      ['=A1+B1', at(0, 2, 1)],
      ['=A1-B1', at(0, 2)],
      ['=$A1+B1', at(0, 2)],
    ];
    for (const [formula, from] of others) expect(shapeOf(formula, from)).not.toBe(shapeOf('=A1+B1', at(0, 2)));
  });

  test('counts nothing for a cell that stands in a text, a name, a number, a function or the name of a table', () => {
    const pairs: [string, string][] = [
      ['="A1"', '="A2"'],
      ['=LOG10(5)', '=LOG11(5)'],
      ['=rail_A1', '=rail_A2'],
      ['=1E5', '=1E6'],
      ["='A1'!B1", "='A2'!B2"],
      ['=A1!B1', '=A2!B2'],
    ];
    for (const [one, other] of pairs) expect(shapeOf(one, at(0, 0))).not.toBe(shapeOf(other, at(1, 0)));
  });

  test('is not told where a word may be a cell in another writing, or whole columns or rows', () => {
    for (const formula of ['=a1', '=ABC1', '=A1b', '=A01', '=é1', '=SUM(A:B)', '=SUM(1 : 2)', '=SUM($A:$B)'])
      expect(shapeOf(formula, at(0, 4))).toBeUndefined();
  });

  test('is not told where a range has a corner that stays and one that may move past it', () => {
    expect(shapeOf('=SUM($A$5:A1)', at(0, 2))).toBeUndefined();
  });
});

describe('a calculator that has read other formulas of the same shape', () => {
  const made: Hyper[] = [];
  const calculator = (): Hyper => {
    const hyper = new Hyper(TABLES, {});
    made.push(hyper);
    return hyper;
  };
  afterAll(() => {
    for (const hyper of made) hyper.dispose();
  });

  /** Cells and what might be taken for one, written for a cell in the row and column. */
  const piece = fc.oneof(
    fc.record({ row: fc.integer({ min: -3, max: 3 }), col: fc.integer({ min: -2, max: 40 }), fixed: fc.constantFrom('', 'c', 'r', 'cr') }),
    fc.constantFrom(
      '1',
      '1e5',
      '"A1"',
      '"a""B2"',
      'rail_A1',
      'LOG10(A2)',
      'MAX(B3,C4)',
      "'Light map'!A1",
      'A1!B2',
      "'It''s'!C3",
      'T2!A1',
      'Gone!A1',
      'SUM(A1:B2)',
      'sum( b2 )',
      'b2',
      'A1(B2)',
      'T2(1)',
      'A',
      '3',
      '$A',
      '#REF!A1',
      'A1.5',
      'é1',
      'ZZ9',
      'AAA1',
      'A99999',
      '(A1)',
      '-B2',
      '{1,2}',
      '#REF!',
    ),
  );
  type Piece = typeof piece extends fc.Arbitrary<infer T> ? T : never;
  const written = (one: Piece, { row, col }: Position): string => {
    if (typeof one === 'string') return one;
    const text = cellText(Math.max(0, col + one.col), Math.max(0, row + one.row));
    const [, letters = '', digits = ''] = /^([A-Z]+)(\d+)$/.exec(text) ?? [];
    return `${one.fixed.includes('c') ? '$' : ''}${letters}${one.fixed.includes('r') ? '$' : ''}${digits}`;
  };
  const formula = fc.tuple(
    fc.array(piece, { minLength: 1, maxLength: 5 }),
    fc.array(fc.constantFrom('+', '*', ' - ', '&', ':', '=', ',', ''), { minLength: 5, maxLength: 5 }),
  );

  test('reads each as one that has read nothing does', () => {
    const [shared, alone] = [calculator(), calculator()];
    // The calculator's own reading, with nothing of ours before it.
    const { _parser } = alone.hf as unknown as { readonly _parser: { parse(text: string, from: Position): Parsed } };
    const own = (Object.getPrototypeOf(_parser) as typeof _parser).parse.bind(_parser);
    const apart = (text: string, from: Position) => {
      const { ast, errors } = own(text, from);
      return { errors: errors.map((error) => error.message), text: errors.length > 0 ? '' : alone.text(ast, from) };
    };
    fc.assert(
      fc.property(
        formula,
        fc.integer({ min: 0, max: 12 }),
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: 0, max: 1 }),
        ([pieces, signs], row, col, sheet) => {
          for (const from of [at(row, col, sheet), at(row + 1, col, sheet), at(row + 9, col + 2, sheet)]) {
            const text = `=${pieces.map((one, i) => `${i > 0 ? signs[i] : ''}${written(one, from)}`).join('')}`;
            const { ast, errors } = shared.parse(text, from);
            const read = { errors: errors.map((error) => error.message), text: errors.length > 0 ? '' : shared.text(ast, from) };
            expect({ text, from, read }).toEqual({ text, from, read: apart(text, from) });
          }
        },
      ),
      runs(4000, 20_261),
    );
  });
});
