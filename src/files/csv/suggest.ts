/** A first mapping for a file that is not tidy, by its headings and by what stands in its columns; the person who brings it in has the last word. */
import { readContent } from '../../../functions/quantity-text.ts';
import { tableNamed } from '../../book/address.ts';
import type { Book, Table } from '../../book/book.ts';
import { plainText } from '../../book/content.ts';
import { goesByNames } from '../../book/list-rows.ts';
import { columnHeading } from '../../book/look-up.ts';
import { tableNameProblem } from '../../book/names.ts';
import { unguard } from './csv.ts';
import { EVERYDAY_NAMES } from './everyday-names.ts';
import { type Heading, readHeading } from './heading.ts';
import type { Mapping } from './mapped.ts';
import type { Staged } from './staged.ts';
import { unitOfOthers } from './units.ts';

type Rows = Mapping & { to: 'rows' };

/**
 * Rows of the table that fits best, where more than half of the columns find their place in it; else a new table.
 * @param goal where it is to go: a table's id, or a new one
 */
export function suggestMapping(book: Book, staged: Staged, goal?: { readonly table: string } | 'new table'): Mapping {
  const headings = staged.headings.map((text) => readHeading(text, book.currency));
  if (goal === 'new table') return newTable(book, staged, headings);
  const known = (id: string): readonly Heading[] =>
    knownBy(
      book.tables.find((table) => table.id === id),
      headings,
    );
  if (goal) {
    const only = book.tables.filter((table) => table.id === goal.table);
    return fitting(only, staged, () => known(goal.table)) ?? inOrder(book, staged, goal.table);
  }
  const own = mostOf(
    fitting(book.tables, staged, () => headings),
    headings,
  );
  const tables = own ? book.tables.filter((table) => table.id === own.table) : book.tables;
  return (
    mostOf(
      fitting(tables, staged, ({ id }) => known(id)),
      headings,
    ) ?? newTable(book, staged, headings)
  );
}

/** Where more than half of the file's columns find their place. */
function mostOf(found: Rows | undefined, headings: readonly Heading[]): Rows | undefined {
  const spoken = found ? found.columns.length + (typeof found.into === 'string' ? 0 : 1) + (found.unitFrom === undefined ? 0 : 1) : 0;
  return spoken * 2 > headings.length ? found : undefined;
}

/** The headings as a list has them, where the file has an everyday name for a column that no other heading of it names. */
function knownBy(table: Table | undefined, headings: readonly Heading[]): readonly Heading[] {
  if (table?.form !== 'list') return headings;
  const taken = new Set(headings.flatMap(({ title }) => columnCalled(table, title)?.id ?? []));
  return headings.map((heading) => {
    if (columnCalled(table, heading.title)) return heading;
    for (const [title, names] of Object.entries(EVERYDAY_NAMES)) {
      const column = names.includes(same(heading.title)) ? columnCalled(table, title) : undefined;
      if (!column || taken.has(column.id)) continue;
      taken.add(column.id);
      return { ...heading, title };
    }
    return heading;
  });
}

/**
 * A grid of numbers without headings goes over the table's own numbers, in order: what names a row stays. Of a file with other headings than the
 * table's nothing is known.
 */
function inOrder(book: Book, staged: Staged, id: string): Rows {
  const table = book.tables.find((t) => t.id === id);
  const first = table?.rows.find((row) => !row.head);
  const named = (column: string): boolean => readContent(table?.cells[first?.id ?? '']?.[column]?.content ?? '').kind === 'text';
  const open = staged.headingsAt === 0 ? (table?.columns.filter((column) => !named(column.id)) ?? []) : [];
  const columns = open.slice(0, staged.headings.length).map((column, from) => ({ from, column: column.id }));
  return { to: 'rows', table: id, into: columns.length > 0 ? 'start' : 'end', columns };
}

function fitting(tables: readonly Table[], staged: Staged, headingsFor: (table: Table) => readonly Heading[]): Rows | undefined {
  let best: Rows | undefined;
  for (const table of tables) {
    const headings = headingsFor(table);
    for (const found of [byLabels(table, staged, headings), byColumns(table, staged, headings)]) {
      if (found && found.columns.length > (best?.columns.length ?? 0)) best = found;
    }
  }
  return best;
}

/** A table's labels down and its columns across, as wide files have it. A brief's one column takes the first column of values. */
function byLabels(table: Table, staged: Staged, headings: readonly Heading[]): Rows | undefined {
  const labels = new Set(table.rows.map((row) => same(row.label ?? '')).filter(Boolean));
  const keys = keysIn(staged, 0);
  const known = keys.filter((key) => labels.has(key)).length;
  if (known === 0 || known * 2 < keys.length) return undefined;
  const unitFrom = headings.findIndex((heading, i) => i > 0 && same(heading.title) === 'unit');
  const alone = table.columns.length === 1 && headings.filter((_, i) => i > 0 && i !== unitFrom).length === 1;
  const columns = headings.flatMap((heading, from) => {
    if (from === 0 || from === unitFrom) return [];
    const column = alone ? table.columns[0] : columnCalled(table, heading.title);
    return column ? [{ from, column: column.id, ...unitIn(heading) }] : [];
  });
  return columns.length === 0 ? undefined : { to: 'rows', table: table.id, into: { from: 0, column: 'label' }, ...(unitFrom > 0 && { unitFrom }), columns };
}

/**
 * Records as rows of a list: found by its names, where it has some and what it lacks is added; or by the text of its first column where most are there
 * already; else put after the last. Where nothing but numbers stands under those headings, or nothing yet, they are readings, and new ones go over the
 * old: after them no formula that reads them would see the new ones.
 */
function byColumns(table: Table, staged: Staged, headings: readonly Heading[]): Rows | undefined {
  const columns = headings.flatMap((heading, from) => {
    const column = columnCalled(table, heading.title);
    return column ? [{ from, column: column.id, ...unitIn(heading) }] : [];
  });
  const [first] = table.columns;
  const key = columns.find((column) => column.column === first?.id);
  if (columns.length === 0) return undefined;
  if (areReadings(table, columns)) return { to: 'rows', table: table.id, into: 'start', columns };
  if (!first || !key) return { to: 'rows', table: table.id, into: 'end', columns };
  const there = new Set(table.rows.map((row) => same(plainText(table.cells[row.id]?.[first.id]?.content ?? ''))).filter(Boolean));
  const rest = columns.filter((column) => column !== key);
  const found: Rows = { to: 'rows', table: table.id, into: { from: key.from, column: { id: first.id } }, columns: rest };
  if (goesByNames(table)) return found;
  const keys = keysIn(staged, key.from);
  if (keys.filter((text) => there.has(text)).length * 2 <= keys.length) return { to: 'rows', table: table.id, into: 'end', columns };
  return found;
}

function areReadings(table: Table, columns: Rows['columns']): boolean {
  const rows = table.rows.filter((row) => !row.head);
  const contents = rows.flatMap((row) => columns.map(({ column }) => table.cells[row.id]?.[column]?.content ?? ''));
  return rows.length > 0 && contents.filter(Boolean).every((content) => readContent(content).kind === 'number');
}

/** What the first records say in a column, where they say anything. */
const keysIn = (staged: Staged, column: number): string[] =>
  staged.records
    .slice(0, 200)
    .map((record) => same(unguard(record.fields[column] ?? '')))
    .filter(Boolean);

function newTable(book: Book, staged: Staged, headings: readonly Heading[]): Mapping {
  const bare = staged.name.replace(/\.[^.]*$/u, '').replaceAll(/[!:"[\]{}\\\p{Cc}]|\.(?=[A-Za-z]+\d+$)/gu, ' ');
  const name =
    bare
      .slice(0, 50)
      .trim()
      .replaceAll(/^'+|'+$/gu, '') || 'New table';
  const free = (text: string): boolean => tableNameProblem(text) === undefined && !tableNamed(book, text);
  const start = tableNameProblem(name) === undefined ? name : `Table ${name}`;
  let chosen = start;
  for (let n = 2; !free(chosen); n++) chosen = `${start} ${n}`;
  const columns = headings.map(({ title, unit }, from) => {
    const told = unit ?? unitOfOthers(staged, from, book.currency);
    return { from, heading: title, ...(told !== undefined && { unit: told }) };
  });
  return { to: 'new table', name: chosen, page: chosen, columns };
}

const unitIn = ({ unit }: Heading): { readonly unit?: string } => (unit === undefined ? {} : { unit });

const same = (text: string): string =>
  text
    .trim()
    .replaceAll(/[\s_]+/gu, ' ')
    .toLowerCase();

function columnCalled(table: Table, title: string): Table['columns'][number] | undefined {
  const row = table.rows[0];
  if (!row || title === '') return undefined;
  return table.columns.find((column, columnIndex) => same(columnHeading({ table, row, column, rowIndex: 0, columnIndex, cell: undefined })) === same(title));
}
