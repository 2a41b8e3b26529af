import { placeIn, tableNamed, textOf } from '../book/address.ts';
import type { Table } from '../book/book.ts';
import { decimalsOf } from '../book/look-up.ts';
import type { Value, Values } from '../engine/types.ts';
import { columns, left, type Printed, right } from './columns.ts';
import { openBook } from './open-book.ts';
import { print } from './output.ts';
import { unitText, valueText, valueWithUnit } from './say-value.ts';
import type { Verb } from './verb.ts';
import { amongThese, WrongUse } from './wrong-use.ts';

/** Layouts and sources are sentences; they must not push the scenarios off the screen. */
const WIDEST = 40;

export const verb: Verb = {
  usage: 'BOOK [TABLE]',
  about: 'Prints the tables of a book, or one of them, with everything worked out.',
  options: {},
  async run(operands) {
    const [file, name, more] = operands;
    if (file === undefined) throw new WrongUse('a book is missing');
    if (more !== undefined) throw new WrongUse(`one table at a time, not also ${more}`);
    const session = await openBook(file);
    const { book, values } = session;
    session.close();
    const only = name === undefined ? undefined : tableNamed(book, name);
    if (name !== undefined && !only) {
      const names = book.tables.map((t) => t.name);
      throw new WrongUse(`${file} has no table ${name}; ${amongThese(name, names)}`);
    }
    const parts = (only ? [only] : book.tables).map((table) => tableLines(table, values).join('\n'));
    await print(only ? `${parts[0]}\n` : `${[book.title, book.client].filter(Boolean).join(', ')}\n\n${parts.join('\n\n')}\n`);
    return 0;
  },
};

function tableLines(table: Table, values: Values): string[] {
  const labelled = table.rows.some((row) => row.label);
  const titled = table.columns.some((column) => column.label);
  const numbers = table.columns.map((_, c) => table.rows.some((_, r) => values[textOf(table.name, c, r)]?.kind === 'number'));
  const heading = titled ? [[left(''), ...table.columns.map((c, i) => ({ text: c.label ?? '', right: numbers[i] ?? false })), left('')]] : [];
  const rows = table.rows.map((row, r): Printed[] => {
    const cells = table.columns.map((_, c) => values[textOf(table.name, c, r)]);
    // A unit that a whole row shares is said once, at its end.
    const shared = sharedUnit(cells);
    const texts = cells.map((value, c): Printed => {
      const at = placeIn(table, c, r);
      const decimals = at && decimalsOf(at);
      const text = shared === undefined ? valueWithUnit(value, decimals) : valueText(value, decimals);
      return numbers[c] && (value?.kind === 'number' || table.form === 'scenarios') ? right(text) : left(text);
    });
    return [left(row.label ?? ''), ...texts, left(shared ?? '')];
  });
  const all = [...heading, ...rows];
  const lines = columns(labelled ? all : all.map((row) => row.slice(1)), WIDEST);
  return [table.name, ...lines.map((line) => `  ${line}`), ...errorLines(table, values)];
}

function sharedUnit(cells: readonly (Value | undefined)[]): string | undefined {
  const units = new Set(cells.filter((v) => v?.kind === 'number').map(unitText));
  return units.size === 1 ? [...units][0] : units.size === 0 ? '' : undefined;
}

function errorLines(table: Table, values: Values): string[] {
  const lines: string[] = [];
  for (const [r] of table.rows.entries()) {
    for (const [c] of table.columns.entries()) {
      const address = textOf(table.name, c, r);
      const value = values[address];
      // What only passes an error on says where it began.
      if (value?.kind === 'error') lines.push(`  ${address}: ${value.from && value.from !== address ? `see ${value.from}` : value.message}`);
    }
  }
  return lines;
}
