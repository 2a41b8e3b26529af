/** A blank in a list's needed column, beside a filled first cell, is a given that is not answered: nothing reads it as nothing. */
import { describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import type { Book, Table } from '../../src/book/book.ts';
import type { Change, Edit } from '../../src/book/change.ts';
import { createEngine } from '../../src/engine/engine.ts';
import type { Values } from '../../src/engine/types.ts';
import { book, put, short, table } from './helpers.ts';

/** Two lights of which the second has no price, and a blank row at the foot. */
const lights = (needed: boolean): Table => {
  const made = table('Lights', [
    ['Light', 'Power', 'Price'],
    ['Rail', '40', '90'],
    ['Tile', '150', null],
    [null, null, null],
  ]);
  return {
    ...made,
    form: 'list',
    columns: made.columns.map((column) => (needed && column.id !== 'c1' ? { ...column, needed: true as const } : column)),
    rows: made.rows.map((row, i) => (i === 0 ? { ...row, head: true } : row)),
  };
};
const reads = table('T', [
  ['=INDEX(Lights.$C$2:$C$4,1)', '=INDEX(Lights.$C$2:$C$4,2)', '=SUM(Lights.$C$2:$C$4)', '=2*INDEX(Lights.$C$2:$C$4,2)', '=MATCH("Tile",Lights.$A$2:$A$4,0)'],
  [
    '=CHECK.AT.MOST(INDEX(Lights.$C$2:$C$4,2),100)',
    '=VERDICT(A2:A3,{"Price";"Power"})',
    '=CHEAPEST.HOLDING({"holds","holds"},A1:B1)',
    '=SUM(Lights.$B$2:$B$4)',
    '=VERDICT(A3:A3,{"Power"},A2:A2,{"Price"})',
  ],
  ['=CHECK.AT.MOST(INDEX(Lights.$B$2:$B$4,2),200)', null, null, null, null],
]);
const lightsBook = (needed: boolean): Book => book([lights(needed), reads]);
const at = (values: Values, cell: string) => short(values[`T.${cell}`] ?? { kind: 'blank' });
const NOT_ANSWERED = 'not answered yet: Tile, Price (Lights.C3) is not answered yet.';

describe('a price that a list needs', () => {
  it('was read as nothing where no column says that it is needed', async () => {
    const values = await createEngine().load(lightsBook(false));
    expect(['B1', 'C1', 'D1'].map((cell) => at(values, cell))).toEqual([null, 90, 0]);
  });

  it('is not answered yet in all that reads it, also through INDEX and SUM, and stands so in its cell', async () => {
    const values = await createEngine().load(lightsBook(true));
    expect(short(values['Lights.C3'] ?? { kind: 'blank' })).toBe(NOT_ANSWERED);
    expect(['B1', 'C1', 'D1', 'A2'].map((cell) => at(values, cell))).toEqual(Array(4).fill(NOT_ANSWERED));
    // What reads other rows and columns has its value.
    expect(['A1', 'E1', 'D2'].map((cell) => at(values, cell))).toEqual([90, 2, 190]);
    expect(values['Lights.C4']).toBeUndefined();
  });

  it('makes a verdict unknown, and leaves its scenario out of the ranking', async () => {
    const values = await createEngine().load(lightsBook(true));
    expect(at(values, 'B2')).toBe('unknown 1: Price');
    expect(at(values, 'C2')).toBe(1);
    // Also where it stands apart from the other checks.
    expect(at(values, 'E2')).toBe('unknown 1: Price');
  });

  it('is asked for when a row begins to be filled, and no longer when it is emptied', async () => {
    const engine = createEngine();
    const start = lightsBook(true);
    await engine.load(start);
    const filled = put(start, 'Lights', 'r4', 'c1', 'Bar');
    const after = await engine.apply([filled.change], filled.book);
    expect(short(after['Lights.C4'] ?? { kind: 'blank' })).toBe('not answered yet: Bar, Price (Lights.C4) is not answered yet.');
    expect(at(after, 'D2')).toBe('not answered yet: Bar, Power (Lights.B4) is not answered yet.');
    const emptied = put(filled.book, 'Lights', 'r4', 'c1', null);
    const again = await engine.apply([emptied.change], emptied.book);
    expect(again['Lights.C4']).toEqual({ kind: 'blank' });
    expect(at(again, 'D2')).toBe(190);
  });

  it('is asked for from the moment on when the column says that it is needed', async () => {
    const engine = createEngine();
    const start = lightsBook(false);
    await engine.load(start);
    const [list] = start.tables;
    const column = list?.columns[2];
    if (!list || !column) throw new Error('no such column');
    const edit: Edit = { at: 'column', table: list.id, index: 2, before: column, after: { ...column, needed: true } };
    const change: Change = { label: 'needed', edits: [edit] };
    const after = await engine.apply([change], apply(start, change));
    expect(at(after, 'C1')).toBe(NOT_ANSWERED);
  });
});
