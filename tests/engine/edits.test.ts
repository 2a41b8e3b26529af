/** Whatever is edited, in whatever order: the values are those of an engine built afresh from the book. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Book, Cell, Table } from '../../src/book/book.ts';
import type { Change, Edit } from '../../src/book/change.ts';
import { createEngine } from '../../src/engine/engine.ts';
import type { Values } from '../../src/engine/types.ts';
import { runs } from '../cases.ts';
import { book, table } from './helpers.ts';

const CONTENTS = [
  '1',
  '2.5',
  '3 m',
  '36 in',
  '60 W',
  '25 °C',
  'lamp',
  'TRUE',
  '',
  '=A1+B1',
  '=SUM(A1:C3)',
  '=IF(A1>B2,C1,C2)',
  '=COUNT(A1:B3)&"x"',
  '=IFERROR(A1/B1,0)',
  '=Other.A1*2',
  '=Other.B2',
  '=total+1',
  '=B2',
  '=A1*UNIT(2,"m")',
  '=MAX(Other.A1:B2)',
  '=C3',
  '=NOSUCH(1)',
  '=ISBLANK(A2)',
  '=COUNTBLANK(A1:C3)',
  '=INDEX(A1:C3,2,2)',
] as const;

const cellOf = (content: string | null, unit: string | undefined): Cell | null => (content === null ? null : { content, ...(unit !== undefined && { unit }) });

const step = fc.record({
  table: fc.constantFrom(0, 1),
  kind: fc.constantFrom('cell', 'cell', 'cell', 'cell', 'row unit', 'row label', 'insert row', 'delete row'),
  row: fc.nat(2),
  col: fc.nat(2),
  content: fc.option(fc.constantFrom(...CONTENTS), { nil: null }),
  unit: fc.option(fc.constantFrom('m', 'ft', 'W', ''), { nil: undefined }),
});

type Step = typeof step extends fc.Arbitrary<infer T> ? T : never;

let fresh = 0;

/** The edits of one step and the book after it; undefined where it does not apply. */
function made(before: Book, s: Step): { after: Book; change: Change } | undefined {
  const t = before.tables[s.table];
  const row = t?.rows[s.row];
  const column = t?.columns[s.col];
  if (!t || !row || !column) return undefined;
  const replaced = (changed: Table): Book => ({ ...before, tables: before.tables.map((each) => (each === t ? changed : each)) });
  const done = (changed: Table, edits: readonly Edit[]) => ({ after: replaced(changed), change: { label: s.kind, edits } });
  if (s.kind === 'cell') {
    const old = t.cells[row.id]?.[column.id] ?? null;
    const next = cellOf(s.content, s.unit);
    const line = { ...t.cells[row.id] };
    if (next) line[column.id] = next;
    else delete line[column.id];
    return done({ ...t, cells: { ...t.cells, [row.id]: line } }, [{ at: 'cell', table: t.id, row: row.id, column: column.id, before: old, after: next }]);
  }
  if (s.kind === 'row unit' || s.kind === 'row label') {
    const { unit: _, ...rest } = row;
    const next = s.kind === 'row label' ? { ...row, label: `row ${s.content}` } : { ...rest, ...(s.unit !== undefined && { unit: s.unit }) };
    return done({ ...t, rows: t.rows.map((each) => (each === row ? next : each)) }, [{ at: 'row', table: t.id, index: s.row, before: row, after: next }]);
  }
  if (s.kind === 'insert row') {
    const next = { id: `new${fresh++}` };
    return done({ ...t, rows: t.rows.toSpliced(s.row, 0, next) }, [{ at: 'row', table: t.id, index: s.row, before: null, after: next }]);
  }
  if (t.rows.length < 2) return undefined;
  const { [row.id]: gone = {}, ...cells } = t.cells;
  const emptied: Edit[] = Object.entries(gone).map(([id, cell]) => ({ at: 'cell', table: t.id, row: row.id, column: id, before: cell, after: null }));
  return done({ ...t, rows: t.rows.filter((each) => each !== row), cells }, [...emptied, { at: 'row', table: t.id, index: s.row, before: row, after: null }]);
}

const start = (): Book =>
  book(
    [
      table('Main', [
        ['1', '2', '=A1+B1'],
        ['3 m', '=A2', '=SUM(A1:B1)'],
        ['', 'x', '=Other.A1'],
      ]),
      table('Other', [
        ['5', '=Main.C1'],
        ['2 m', ''],
      ]),
    ],
    { total: 'Main.C1' },
  );

it('gives what a fresh build gives, after any run of edits', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 12 }), async (steps) => {
      const engine = createEngine();
      let now = start();
      const kept: Record<string, Values[string]> = { ...(await engine.load(now)) };
      for (const s of steps) {
        const next = made(now, s);
        if (!next) continue;
        now = next.after;
        for (const [address, value] of Object.entries(await engine.apply([next.change], now))) {
          expect(kept[address] ?? { kind: 'blank' }, `${address} was said to differ`).not.toEqual(value);
          if (value.kind === 'blank') delete kept[address];
          else kept[address] = value;
        }
      }
      const built = createEngine();
      expect(kept).toEqual(await built.load(now));
      engine.close();
      built.close();
    }),
    runs(60, 20261125),
  );
});
