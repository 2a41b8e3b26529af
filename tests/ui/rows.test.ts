/** What rows are drawn from: the data of a row are those of the book, the values and what is chosen, whatever it was drawn from before. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Table } from '../../src/book/book.ts';
import type { Values } from '../../src/engine/types.ts';
import { alike } from '../../src/ui/table/alike.ts';
import { foldsOf } from '../../src/ui/table/folds.ts';
import { foldModel, type LineModel, rowModel, type View } from '../../src/ui/table/rows.ts';
import { carried, compared, Gathering, noValues, tableValues } from '../../src/values.ts';
import { command, played } from '../book/arbitrary.ts';
import { freshValues } from '../book/fake-engine.ts';
import { sample } from '../book/sample.ts';
import { runs } from '../cases.ts';

const spot = fc.record({ row: fc.nat({ max: 5 }), column: fc.nat({ max: 3 }) });
const area = fc
  .record({
    table: fc.constant('any'),
    row: fc.nat({ max: 3 }),
    column: fc.nat({ max: 2 }),
    rows: fc.integer({ min: 1, max: 3 }),
    columns: fc.integer({ min: 1, max: 3 }),
  })
  .map((found) => found);
const marks = fc
  .dictionary(fc.constantFrom('Scenarios.A1', 'Scenarios.B2', 'Brief.A1', "'Fixture list'.A2"), fc.constantFrom('a', 'b', '45'))
  .map((found) => new Map(Object.entries(found)));
const view: fc.Arbitrary<View> = fc.record({
  chosen: fc.option(spot, { nil: undefined }),
  area: fc.option(area, { nil: undefined }),
  taken: fc.option(area, { nil: undefined }),
  letters: marks,
  pending: marks,
  large: fc.option(
    fc.constantFrom({ edges: [180, 292, 404, 516, 628, 740, 852], rowHeight: 24, above: 1 }, { edges: [0, 180, 292, 404, 516, 628], rowHeight: 44, above: 2 }),
    {
      nil: undefined,
    },
  ),
});
const step = fc.oneof(
  { weight: 3, arbitrary: fc.tuple(command, fc.option(fc.constantFrom('Scenarios.A1', 'Scenarios.B2', 'Brief.A1'))).map(([run, value]) => ({ run, value })) },
  view.map((seen) => ({ seen })),
);

/** All lines of a table, by their keys. */
function lines(book: Book, table: Table, now: Values, seen: View, before: ReadonlyMap<string, LineModel>): ReadonlyMap<string, LineModel> {
  const own = tableValues(now, table);
  const columns = seen.large && table.columns.map((_, i) => i).filter((i) => i !== 1);
  const rows = table.rows.map(({ id }, row): [string, LineModel] => [
    id,
    rowModel(book, table, own, seen, { row, line: row, ...(columns && { columns }) }, before.get(id)),
  ]);
  const folds = foldsOf(table, own).folds.map((fold): [string, LineModel] => [fold.id, foldModel(table, fold, false, seen, 0, before.get(fold.id))]);
  return new Map([...rows, ...folds]);
}

function worked(book: Book, before: Values): Values {
  const fresh = freshValues(book);
  const gathering = new Gathering(before);
  gathering.add(Object.fromEntries([...Object.keys(before).map((address) => [address, { kind: 'blank' as const }] as const), ...Object.entries(fresh)]));
  // As a session does: what says the same is the same object.
  return compared(before, gathering.seen()).values;
}

function withValue(before: Values, address: string): Values {
  const gathering = new Gathering(before);
  gathering.add({ [address]: { kind: 'text', text: 'another' } });
  return gathering.seen();
}

const NOTHING: View = { chosen: undefined, area: undefined, taken: undefined, letters: new Map(), pending: new Map(), large: undefined };

describe('the rows of a table', () => {
  it('are drawn from the same after any changes as from nothing, and from the same objects where they say the same', () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 12 }), (steps) => {
        let book = sample;
        let values = worked(book, noValues());
        let seen = NOTHING;
        const drawn = new Map<string, ReadonlyMap<string, LineModel>>();
        for (const each of steps) {
          if ('seen' in each) seen = each.seen;
          else {
            book = played(book, each.run)?.book ?? book;
            values = worked(book, values);
          }
          // A value alone may be another, as where a formula reads a cell of another table.
          if (!('seen' in each) && each.value) values = withValue(values, each.value);
          for (const table of book.tables) {
            const before = drawn.get(table.id) ?? new Map();
            const now = lines(book, table, values, seen, before);
            const afresh = lines(book, table, values, seen, new Map());
            expect(now).toEqual(afresh);
            for (const [key, line] of now) if (alike(before.get(key), line)) expect(line).toBe(before.get(key));
            drawn.set(table.id, now);
          }
        }
      }),
      runs(800, 61),
    );
  });

  it('that a change does not reach are drawn from the same objects as before it', () => {
    const [, table] = sample.tables as [Table, Table, Table];
    const values = worked(sample, noValues());
    const before = lines(sample, table, values, NOTHING, new Map());
    const [first, ...others] = table.rows.map(({ id }) => id);
    const book = { ...sample, tables: sample.tables.with(1, { ...table, cells: { ...table.cells, [first as string]: { a: { content: '99 cm' } } } }) };
    const now = lines(book, book.tables[1] as Table, worked(book, values), NOTHING, before);
    expect(now.get(first as string)).not.toEqual(before.get(first as string));
    for (const id of others) expect(now.get(id), id).toBe(before.get(id));
  });

  it('are drawn anew where a heading of their list or the name of their table is another', () => {
    const table = sample.tables[2] as Table;
    const values = worked(sample, noValues());
    const before = lines(sample, table, values, NOTHING, new Map());
    const [head, first] = table.rows.map(({ id }) => id) as [string, string];
    const column = table.columns[1]?.id as string;
    const headed = { ...table, cells: { ...table.cells, [head]: { ...table.cells[head], [column]: { content: 'Dearness' } } } };
    const renamed = { ...table, name: 'Lamps' };
    for (const other of [headed, renamed]) {
      // The values of their cells are the same objects.
      const now = lines(
        { ...sample, tables: sample.tables.with(2, other) },
        other,
        carried(values, sample, { ...sample, tables: sample.tables.with(2, other) }),
        NOTHING,
        before,
      );
      const cell = (found: LineModel | undefined) => (found?.kind === 'row' ? found.cells[1]?.cell : undefined);
      expect(cell(now.get(first))?.name.includes('Dearness')).toBe(other === headed);
      expect(cell(now.get(first))?.address.startsWith('Lamps.')).toBe(other === renamed);
    }
  });
});

describe('plain data are alike', () => {
  it('exactly where they are equal as JSON would have them, whichever object they are', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 3 }), fc.jsonValue({ maxDepth: 3 }), (a, b) => {
        expect(alike(a, structuredClone(a))).toBe(true);
        expect(alike({ a }, { a, b })).toBe(false);
        expect(alike([a], { 0: a })).toBe(false);
        expect(alike(a, b)).toBe(fc.stringify(a) === fc.stringify(b));
      }),
      runs(3000, 62),
    );
  });
});
