/** The cells that a picture block reads: found by their references, followed from scenario to scenario, and what is amiss with them in words. */
import { type At, placeIn, type Reference, readReference, tableNamed } from '../book/address.ts';
import type { Book, Table } from '../book/book.ts';
import { addressOf, baseColumn, columnHeading, named, rowHeading, titleOf } from '../book/look-up.ts';
import { LOST } from '../book/references.ts';
import type { Value, Values } from '../engine/types.ts';
import { lineOf, valueAt } from '../shown.ts';
import type { PictureBlock, PictureRead } from './picture.ts';

export interface PictureCells {
  /** The scenarios' table, where what `key` names stands in one. */
  readonly table: Table | undefined;
  /** A column of it, one after another; of any other table the one that is named. */
  readonly columns: readonly number[];
  /** The scenario's heading, `A`; empty where there are no scenarios. */
  letter(column: number): string;
  columnId(column: number): string;
  readonly base: string;
  /** What the row or cell is called. */
  name(key: string): string;
  /** The block names a cell for it, whether or not the book has that. */
  says(key: string): boolean;
  /** In that scenario. */
  value(key: string, column: number): Value | undefined;
  number(key: string, column: number): number | undefined;
  /** All cells of a run, in order. */
  run(key: string, column: number): readonly Value[];
  /** What the rows of a run are called, in the same order. */
  headings(key: string): readonly string[];
  /** Why there is no such value: the cell is not chosen, not there, or not worked out. */
  miss(key: string, column: number): string;
}

/** `reads`: what the kind reads; `lead`: the key whose table says which scenarios there are. */
export function cellsOf(block: PictureBlock, reads: readonly PictureRead[], book: Book, values: Values, lead: string): PictureCells {
  const found = new Map<string, { readonly table: Table; readonly reference: Reference }>();
  for (const [key, text] of Object.entries(block.reads)) {
    const reference = readReference(named(book, text) ?? text);
    const table = reference?.table === undefined ? undefined : tableNamed(book, reference.table);
    if (reference && table && placeIn(table, reference.from.column, reference.from.row)) found.set(key, { table, reference });
  }
  const first = found.get(lead);
  const comparing = first?.table.form === 'scenarios' ? first.table : undefined;
  const at = (key: string, column: number): At | undefined => {
    const place = found.get(key);
    if (!place) return undefined;
    const { table, reference } = place;
    return placeIn(table, table.form === 'scenarios' ? column : reference.from.column, reference.from.row);
  };
  const value = (key: string, column: number): Value | undefined => {
    const cell = at(key, column);
    return cell && valueAt(values, addressOf(cell));
  };
  const cellsOfRun = (key: string, column: number): readonly At[] => {
    const place = found.get(key);
    if (!place) return [];
    const { table, reference } = place;
    const c = table.form === 'scenarios' ? column : reference.from.column;
    return Array.from({ length: Math.max(0, reference.to.row - reference.from.row + 1) }, (_, i) => placeIn(table, c, reference.from.row + i)).filter(
      (cell) => cell !== undefined,
    );
  };
  return {
    table: comparing,
    columns: comparing ? comparing.columns.map((_, i) => i) : [first?.reference.from.column ?? 0],
    letter: (column) => {
      const cell = comparing && placeIn(comparing, column, 0);
      return cell ? columnHeading(cell) : '';
    },
    columnId: (column) => first?.table.columns[column]?.id ?? '',
    base: comparing ? (comparing.columns[baseColumn(comparing)]?.id ?? '') : '',
    name: (key) => {
      const cell = at(key, 0);
      return cell ? (cell.table.form === 'scenarios' ? rowHeading(cell) : titleOf(cell)) : '';
    },
    says: (key) => (block.reads[key] ?? '') !== '',
    value,
    number: (key, column) => {
      const known = value(key, column);
      return known?.kind === 'number' ? known.base : undefined;
    },
    run: (key, column) => cellsOfRun(key, column).map((cell) => valueAt(values, addressOf(cell))),
    headings: (key) => cellsOfRun(key, found.get(key)?.reference.from.column ?? 0).map(rowHeading),
    miss: (key, column) => {
      const name = reads.find((read) => read.key === key)?.name ?? key;
      const said = block.reads[key] ?? '';
      if (said === '') return `no cell is chosen for the ${name}`;
      const cell = at(key, column);
      if (!cell) return said === LOST ? `the cell for the ${name} is gone` : `there is no cell ${said} for the ${name}`;
      const known = valueAt(values, addressOf(cell));
      const title = comparing ? rowHeading(cell) : titleOf(cell);
      if (known.kind === 'error') return `${title}: ${lineOf(known)}`;
      return known.kind === 'blank' ? `${title} has no value yet` : `${title} does not say the ${name}`;
    },
  };
}

/** What is amiss, said once for all scenarios of which it is true: `A, B: no cell is chosen for the mount height`. */
export function missTexts(misses: readonly { readonly letter: string; readonly why: string }[]): readonly string[] {
  const letters = new Map<string, string[]>();
  for (const { letter, why } of misses) letters.set(why, [...(letters.get(why) ?? []), letter]);
  return [...letters].map(([why, of]) => (of.some((letter) => letter === '') ? why : `${of.join(', ')}: ${why}`));
}
