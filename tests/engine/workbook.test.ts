/** A crash inside the calculator, structure changes, bounds of a book, unit-only changes. */
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book/book.ts';
import { FORMULA_BOUNDS } from '../../src/engine/formula-bounds.ts';
import { Workbook } from '../../src/engine/workbook.ts';
import { book, put, short, table } from './helpers.ts';

const small = book([table('T', [['1 m', '=A1*2', '=B1*2']])]);

/** Lets the next change of the calculator fail half-way. */
function breakOnce(workbook: Workbook): void {
  const { hf } = workbook.hyper;
  const batch = hf.batch.bind(hf);
  hf.batch = (work) => {
    hf.batch = batch;
    batch(work);
    hf.setCellContents({ sheet: 0, row: 0, col: 1 }, '=1/0');
    throw new Error('There is no AST with such key in the cache');
  };
}

describe('a crash inside the calculator', () => {
  it('is mended by building again from the book', () => {
    const workbook = new Workbook({});
    workbook.load(small);
    breakOnce(workbook);
    const edit = put(small, 'T', 'r1', 'c1', '5 m');
    const differ = workbook.apply([edit.change], edit.book);
    expect(Object.entries(differ).map(([address, value]) => [address, short(value)])).toEqual([
      ['T.A1', 5],
      ['T.B1', 10],
      ['T.C1', 20],
    ]);
    const next = put(edit.book, 'T', 'r1', 'c1', '6 m');
    expect(short(workbook.apply([next.change], next.book)['T.C1'] ?? { kind: 'blank' })).toBe(24);
  });
});

describe('what differs after a change', () => {
  it('is nothing where the same content is put in again', () => {
    const workbook = new Workbook({});
    workbook.load(small);
    const same = put(small, 'T', 'r1', 'c1', '100 cm');
    expect(Object.keys(workbook.apply([same.change], same.book))).toEqual(['T.A1', 'T.B1', 'T.C1']);
    const again = put(same.book, 'T', 'r1', 'c1', '100 cm');
    expect(workbook.apply([again.change], again.book)).toEqual({});
  });

  it('is the shown unit alone where only that changes, also in cells that take it over', () => {
    const workbook = new Workbook({});
    workbook.load(small);
    const shown = put(small, 'T', 'r1', 'c1', { content: '1 m', unit: 'ft' });
    expect(workbook.apply([shown.change], shown.book)).toEqual({
      'T.A1': { kind: 'number', base: 1, unit: 'ft' },
      'T.B1': { kind: 'number', base: 2, unit: 'ft' },
      'T.C1': { kind: 'number', base: 4, unit: 'ft' },
    });
  });

  it('is every cell behind a mistake of quantities, and again when it is mended', () => {
    const workbook = new Workbook({});
    const sum = book([table('T', [['1 m', '=A1+UNIT(1,"m")', '=IFERROR(B1,0)', '=COUNT(B1)']])]);
    workbook.load(sum);
    const wrong = put(sum, 'T', 'r1', 'c1', '1 kg');
    const differ = workbook.apply([wrong.change], wrong.book);
    for (const cell of ['B1', 'C1', 'D1']) expect(differ[`T.${cell}`]).toMatchObject({ kind: 'error', word: 'unit error' });
    const mended = workbook.apply(
      [{ label: '', edits: [{ at: 'cell', table: 't', row: 'r1', column: 'c1', before: { content: '1 kg' }, after: { content: '1 m' } }] }],
      sum,
    );
    expect(['B1', 'C1', 'D1'].map((cell) => short(mended[`T.${cell}`] ?? { kind: 'blank' }))).toEqual([2, 2, 1]);
  });
});

it('gives a cell that was taken out as blank', () => {
  const workbook = new Workbook({});
  workbook.load(small);
  const gone = put(small, 'T', 'r1', 'c1', null);
  expect(workbook.apply([gone.change], gone.book)).toMatchObject({ 'T.A1': { kind: 'blank' }, 'T.B1': { base: 0 } });
});

describe('bounds of a book', () => {
  const wide = (columns: number): Book => book([table('T', [Array.from({ length: columns }, (_, i) => `${i}`)])]);

  it('works out the hundredth column and keeps the next aside with a word', () => {
    const values = new Workbook({}).load(wide(101));
    expect(short(values['T.CV1'] ?? { kind: 'blank' })).toBe(99);
    expect(values['T.CW1']).toMatchObject({ kind: 'error', word: 'too large', message: expect.stringContaining('at most 20,000 rows and 100 columns') });
  });

  it('keeps a row past the last aside, and takes an edit there without harm', () => {
    const tall = book([table('T', [['1', '=A1']])]);
    const [first] = tall.tables;
    if (!first) throw new Error('no table');
    const rows = Array.from({ length: FORMULA_BOUNDS.rows + 1 }, (_, i) => ({ id: `r${i + 1}` }));
    const last = `r${FORMULA_BOUNDS.rows + 1}`;
    const whole: Book = { ...tall, tables: [{ ...first, rows, cells: { ...first.cells, [last]: { c1: { content: '7' } } } }] };
    const workbook = new Workbook({});
    const values = workbook.load(whole);
    expect(values[`T.A${FORMULA_BOUNDS.rows + 1}`]).toMatchObject({ word: 'too large' });
    const edit = put(whole, 'T', last, 'c1', '8');
    expect(workbook.apply([edit.change], edit.book)).toEqual({});
    expect(short(values['T.B1'] ?? { kind: 'blank' })).toBe(1);
  });

  it('refuses a text of more than 32,000 characters in a cell', () => {
    const values = new Workbook({}).load(book([table('T', [['x'.repeat(32_001), 'x'.repeat(32_000)]])]));
    expect(values['T.A1']).toMatchObject({ word: 'too large' });
    expect(values['T.B1']).toMatchObject({ kind: 'text' });
  });
});
