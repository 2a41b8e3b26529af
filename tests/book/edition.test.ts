/** Books of an earlier edition of their template: what they lack is said, and taken in without a word of the owner's being changed. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import type { Book, Cell, Row, Table } from '../../src/book/book.ts';
import { checkBook } from '../../src/book/check.ts';
import { addScenario } from '../../src/book/commands/add-scenario.ts';
import { deleteLines } from '../../src/book/commands/delete-lines.ts';
import { insertLines } from '../../src/book/commands/insert-lines.ts';
import { moveLines } from '../../src/book/commands/move-lines.ts';
import { renameTable } from '../../src/book/commands/rename.ts';
import { takeIn } from '../../src/book/commands/take-in.ts';
import type { Edition } from '../../src/book/edition/frame.ts';
import { withLacks } from '../../src/book/edition/lacks.ts';
import { lacksSaid, wentSaid } from '../../src/book/edition/said.ts';
import { invert } from '../../src/book/invert.ts';
import { lineEdit } from '../../src/book/lines.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { parseBook } from '../../src/files/book/book-file.ts';
import { openSession } from '../../src/session.ts';

const read = (path: string): string => readFileSync(new URL(path, import.meta.url), 'utf8');
/** A book of version 2, as the first edition of the trade bench was. */
const first = ((): Book => {
  const opened = parseBook(read('../templates/old/trade-bench.1.json'));
  if (!opened.ok) throw new Error(opened.message);
  return opened.book;
})();
const past = JSON.parse(read('../../templates/editions/trade-bench.1.json')) as Edition;

const done = (book: Book, answer: Answer): Book => {
  if (isRefused(answer)) throw new Error(answer.message);
  return apply(book, answer);
};
const tableOf = (book: Book, id: string): Table => {
  const found = book.tables.find((table) => table.id === id);
  if (!found) throw new Error(`no table ${id}`);
  return found;
};
const rowAt = (book: Book, table: string, row: string): number => tableOf(book, table).rows.findIndex(({ id }) => id === row);
const cell = (book: Book, table: string, row: string, column = 'a'): Cell | undefined => tableOf(book, table).cells[row]?.[column];

/** Puts a whole row after another one. */
function withRow(book: Book, table: string, after: string, row: Row, cells: Readonly<Record<string, Cell>>): Book {
  const at = rowAt(book, table, after) + 1;
  const wider = done(book, insertLines(book, { table, axis: 'row', at }));
  const made = tableOf(wider, table);
  const before = made.rows[at];
  if (!before) throw new Error('no row');
  return apply(wider, {
    label: '',
    edits: [
      lineEdit(made, 'row', at, before, row),
      ...Object.entries(cells).map(([column, content]) => ({ at: 'cell' as const, table, row: row.id, column, before: null, after: content })),
    ],
  });
}
const written = (book: Book, table: string, row: string, column: string, content: string): Book =>
  apply(book, {
    label: '',
    edits: [{ at: 'cell', table, row, column, before: cell(book, table, row, column) ?? null, after: { ...cell(book, table, row, column), content } }],
  });

/**
 * A second edition: what a wire carries is worked out from a given that came, its check reads that, the old given went with its name; a check in
 * the middle and one at the end came, with their lines in Checks, and a column of Supplies that says whether an output is limited.
 */
const second = ((): Book => {
  let book = first;
  book = withRow(book, 'electrics', 'wire_area', { id: 'wire_cores', label: 'Loaded cores', kind: 'given' }, { a: { content: '2', source: 'default' } });
  book = apply(book, {
    label: '',
    edits: [{ at: 'name', name: 'wire_cores', before: null, after: `Electrics.$A$${rowAt(book, 'electrics', 'wire_cores') + 1}` }],
  });
  const columns = ['a', 'b', 'c'];
  const each = (content: (letter: string) => string, more: Partial<Cell> = {}): Record<string, Cell> =>
    Object.fromEntries(columns.map((column) => [column, { content: content(column.toUpperCase()), ...more }]));
  book = withRow(
    book,
    'scenarios',
    'drop_share',
    { id: 'carries', label: 'The wire carries', unit: 'A' },
    each(() => '=UNIT(8,"A")*wire_cores'),
  );
  const carries = rowAt(book, 'scenarios', 'carries') + 1;
  const amps = rowAt(book, 'scenarios', 'output_amps') + 1;
  for (const column of columns)
    book = written(book, 'scenarios', 'c_wire', column, `=CHECK.AT.MOST(${column.toUpperCase()}${amps},${column.toUpperCase()}${carries})`);
  book = done(book, deleteLines(book, { table: 'electrics', axis: 'row', at: rowAt(book, 'electrics', 'wire_amps'), count: 1 }));
  book = withRow(
    book,
    'scenarios',
    'c_wire',
    { id: 'c_cores', label: 'Cores', kind: 'check' },
    each(() => '=CHECK.AT.MOST(wire_cores,4)'),
  );
  const count = rowAt(book, 'scenarios', 'count') + 1;
  book = withRow(
    book,
    'scenarios',
    'c_hang',
    { id: 'c_many', label: 'Not too many', kind: 'check' },
    each((letter) => `=CHECK.AT.MOST(${letter}${count},10)`),
  );
  const checks = tableOf(book, 'checks');
  const labelled = (text: string): string => checks.rows.find((row) => checks.cells[row.id]?.a?.content === text)?.id ?? '';
  book = withRow(book, 'checks', labelled('Wire current'), { id: 'r77' }, { a: { content: 'Cores' }, b: { content: 'Few enough.' } });
  book = withRow(book, 'checks', labelled('Hanging load'), { id: 'r78' }, { a: { content: 'Not too many' }, b: { content: 'Few enough to hang.' } });
  const [from, to] = [rowAt(book, 'scenarios', 'c_target') + 1, rowAt(book, 'scenarios', 'c_many') + 1];
  for (const column of columns)
    book = written(
      book,
      'scenarios',
      'verdict',
      column,
      `=VERDICT(${column.toUpperCase()}${from}:${column.toUpperCase()}${to},Checks.$A$2:$A$${tableOf(book, 'checks').rows.length})`,
    );
  const supplies = tableOf(book, 'supplies');
  book = apply(book, {
    label: '',
    edits: [
      { at: 'column', table: 'supplies', index: supplies.columns.length, before: null, after: { id: 'limited', needed: true } },
      { at: 'cell', table: 'supplies', row: 'head', column: 'limited', before: null, after: { content: 'Limited' } },
      ...['r1', 'r2'].map((row) => ({ at: 'cell' as const, table: 'supplies', row, column: 'limited', before: null, after: { content: 'yes' } })),
    ],
  });
  return { ...book, template: { slug: 'trade-bench', edition: 2 }, went: { wire_amps: 'The size of the wire and its cores say now what it carries.' } };
})();

/** As a client's book is begun from a template. */
const begun: Book = { ...first, id: '7b1f', title: 'Bench by the door', client: 'A school' };

const taken = (book: Book): Book => done(book, takeIn(book, second, past));

/** Every value by the ids of its cell. */
async function values(book: Book): Promise<Map<string, string>> {
  const session = openSession(book, createEngine());
  await session.settled();
  const found = new Map<string, string>();
  for (const table of book.tables)
    for (const [r, row] of table.rows.entries())
      for (const [c, column] of table.columns.entries()) {
        const value = session.values[`${/\s/u.test(table.name) ? `'${table.name}'` : table.name}.${String.fromCharCode(65 + c)}${r + 1}`];
        const said = table.form === 'list' && !row.head ? (table.cells[row.id]?.[table.columns[0]?.id ?? '']?.content ?? row.id) : row.id;
        if (value && value.kind !== 'error')
          found.set(`${table.id} ${said} ${column.id}`, value.kind === 'number' ? value.base.toPrecision(12) : JSON.stringify(value));
        else if (value?.kind === 'error') found.set(`${table.id} ${said} ${column.id}`, value.word);
      }
  session.close();
  return found;
}

const verdictOf = async (book: Book, column = 'a'): Promise<string | undefined> => (await values(book)).get(`scenarios verdict ${column}`);

/** What an owner does to a book in the meantime. */
const owned: readonly (readonly [string, (book: Book) => Book])[] = [
  ['as it was begun', (book) => book],
  [
    'with a row of the owner’s between the checks',
    (book) => done(book, insertLines(book, { table: 'scenarios', axis: 'row', at: rowAt(book, 'scenarios', 'supplies') })),
  ],
  [
    'with rows in another order',
    (book) => done(book, moveLines(book, { table: 'electrics', axis: 'row', at: rowAt(book, 'electrics', 'wire_area'), count: 1, to: 0 })),
  ],
  ['with tables called otherwise', (book) => done(book, renameTable(book, { table: 'Electrics', name: 'Wires and breakers' }))],
  ['with a fourth scenario', (book) => done(book, addScenario(book, { table: 'scenarios' }))],
];

describe('a book of an earlier edition', () => {
  it('says which checks it lacks and which work by older rules, also in its verdict', async () => {
    const opened = withLacks(begun, second, past);
    expect(opened.template).toEqual({ slug: 'trade-bench', edition: 1, lacks: { checks: ['Cores', 'Not too many'], older: ['Wire current'] } });
    expect(lacksSaid(opened)).toBe(
      'This book was begun from an earlier edition of its template. It lacks 2 checks of the present one: Cores, Not too many. 1 check works by older rules: Wire current.',
    );
    expect(await verdictOf(begun, 'a')).toBe('{"kind":"text","text":"holds"}');
    expect(await verdictOf(opened, 'a')).toBe('{"kind":"text","text":"holds, 2 checks lacking, 1 by older rules"}');
    expect(await verdictOf(opened, 'b')).toMatch(/"close to limit 1: [^"]*; 2 checks lacking, 1 by older rules"/);
    expect(checkBook(opened)).toMatchObject({ ok: true });
  });

  it('says nothing where it is of the present edition, or its template is not known', () => {
    expect(withLacks({ ...second, id: '7b1f' }, second, past).template).toEqual({ slug: 'trade-bench', edition: 2 });
    const { template: _, ...unknown } = begun;
    expect(withLacks(unknown, second, past)).toBe(unknown);
    expect(lacksSaid(unknown)).toBe('');
    expect(takeIn(unknown, second, past)).toMatchObject({ refused: true });
  });

  it.each(owned)('%s, takes them in, and works out then what the present edition works out', async (_, made) => {
    const before = withLacks(made(begun), second, past);
    const after = taken(before);
    expect(checkBook(after)).toMatchObject({ ok: true });
    expect(after.template).toEqual({ slug: 'trade-bench', edition: 2 });
    const [got, wanted] = [await values(after), await values(second)];
    const wrong = [...wanted].filter(([key, value]) => got.get(key) !== value);
    expect(wrong.map(([key, value]) => `${key}: ${value}, not ${got.get(key)}`)).toEqual([]);
    expect(got.get('scenarios verdict c')).toBe(wanted.get('scenarios verdict c'));
  });

  it('judges a scenario that was added by what came, too', async () => {
    const more = done(begun, addScenario(begun, { table: 'scenarios' }));
    const got = await values(taken(more));
    const id = more.tables.find((table) => table.id === 'scenarios')?.columns[3]?.id ?? '';
    for (const row of ['carries', 'c_cores', 'c_wire', 'verdict']) expect(got.get(`scenarios ${row} ${id}`), row).toBe(got.get(`scenarios ${row} a`));
  });

  it('keeps every content, unit, source, note and place that its owner wrote, and is undone as one step to what it was', () => {
    const mine = written(written(begun, 'electrics', 'wire_amps', 'a', '7 A'), 'scenarios', 'c_drop', 'a', '=CHECK.AT.MOST(A36,UNIT(1,"V"))');
    const before = withLacks(mine, second, past);
    const answer = takeIn(before, second, past);
    if (isRefused(answer)) throw new Error(answer.message);
    const after = apply(before, answer);
    for (const table of before.tables) {
      const now = tableOf(after, table.id);
      const kept = now.rows.filter(({ id }) => table.rows.some((row) => row.id === id));
      expect(kept.map(({ id }) => id)).toEqual(table.rows.map(({ id }) => id));
      for (const row of table.rows)
        for (const [column, was] of Object.entries(table.cells[row.id] ?? {})) {
          const { content, ...said } = now.cells[row.id]?.[column] ?? { content: 'gone' };
          const { content: old, ...saidBefore } = was;
          if (!old.startsWith('=')) expect(content, `${table.id} ${row.id}`).toBe(old);
          expect(said).toEqual(saidBefore);
        }
    }
    // The owner's own check still asks what the owner asks.
    expect(cell(after, 'scenarios', 'c_drop')?.content).toMatch(/^=CHECK\.AT\.MOST\(A\d+,UNIT\(1,"V"\)\)$/);
    expect(answer.label).toMatch(/^Edition 2 of the template taken in: 4 rows added; \d+ formulas brought up to date; wire_amps is read no more$/);
    expect(apply(after, invert(answer))).toEqual(before);
  });

  it('asks what only its owner can know: of a product that was changed nothing is taken over', () => {
    const mine = written(begun, 'supplies', 'r2', 'b', '280 W');
    const after = taken(mine);
    const limited = (row: string): string | undefined => cell(after, 'supplies', row, 'limited')?.content;
    expect([limited('head'), limited('r1'), limited('r2')]).toEqual(['Limited', 'yes', undefined]);
  });

  it('gets back a row that its owner took out where what came reads it', async () => {
    const mine = done(begun, deleteLines(begun, { table: 'scenarios', axis: 'row', at: rowAt(begun, 'scenarios', 'output_amps'), count: 1 }));
    expect(cell(mine, 'scenarios', 'c_wire')?.content).toContain('#REF!');
    const [got, wanted] = [await values(taken(mine)), await values(second)];
    for (const row of ['output_amps', 'c_wire', 'verdict']) expect(got.get(`scenarios ${row} a`), row).toBe(wanted.get(`scenarios ${row} a`));
  });

  it('refuses where a table of the owner’s has the name of one that comes', () => {
    const table: Table = {
      id: 'fuses',
      name: 'Fuses',
      form: 'plain',
      columns: [{ id: 'a' }],
      rows: [{ id: 'r1', label: 'Kind' }],
      cells: { r1: { a: { content: 'gG', source: 'default' } } },
    };
    const third = { ...second, tables: [...second.tables, table] };
    const mine = { ...begun, tables: [...begun.tables, { ...table, id: 'mine' }] };
    expect(takeIn(mine, third, past)).toMatchObject({ refused: true, message: expect.stringContaining('Fuses') });
    const free = takeIn(begun, third, past);
    if (isRefused(free)) throw new Error(free.message);
    expect(cell(apply(begun, free), 'fuses', 'r1')).toEqual({ content: 'gG', source: 'default' });
  });

  it('says of a name that went what took its place, also to a formula of its owner’s', async () => {
    expect(wentSaid(second, 'WIRE_AMPS')).toBe('wire_amps is no longer given. The size of the wire and its cores say now what it carries.');
    const session = openSession(second, createEngine());
    const typed = await session.type('Scenarios.A1', '=wire_amps*2');
    await session.settled();
    const value = session.values['Scenarios.A1'];
    const message = typed.ok ? (value?.kind === 'error' ? value.message : '') : typed.message;
    expect(message).toBe('wire_amps is no longer given. The size of the wire and its cores say now what it carries.');
    session.close();
  });
});
