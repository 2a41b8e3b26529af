/**
 * Finds what the sheet says in a book by what it means, never by where it stands: rows of the comparing table and rows of other tables by
 * their ids, single cells by their names. What a book has not is undefined, and its line is left out.
 */
import { unitAfter } from '../../functions/number-text.ts';
import { type At, placeIn } from '../book/address.ts';
import type { Book, Table } from '../book/book.ts';
import { addressOf, baseColumn, columnHeading, decimalsOf, placeOf, rowHeading, type Standing, sourceOf, standingOf } from '../book/look-up.ts';
import type { Address, Value, Values } from '../engine/types.ts';
import { checkOf, lineOf, numberOf, type State, valueAt } from '../shown.ts';

/** One cell as the sheet prints it. */
export interface Found {
  readonly at: At;
  readonly address: Address;
  readonly label: string;
  readonly standing: Standing;
  readonly value: Value;
  /** As the cell shows it; "unknown" where nothing stands in it. */
  readonly text: string;
  /** The end of the text that is its unit. */
  readonly unit: string;
  readonly state?: State;
  /** Of a check: the word at the head of its text. */
  readonly word?: string;
  readonly source: string;
}

export const UNKNOWN = 'unknown';

export class Reader {
  readonly book: Book;
  readonly values: Values;
  /** Where scenarios are compared; undefined in a book that compares none. */
  readonly scenarios: Table | undefined;
  /** Of the scenario that is handed over. */
  readonly column: number;
  readonly #wanted: boolean;

  constructor(book: Book, values: Values, wanted?: string) {
    this.book = book;
    this.values = values;
    this.scenarios = book.tables.find((table) => table.form === 'scenarios');
    this.column = this.#columnOf(wanted);
    this.#wanted = wanted !== undefined;
  }

  /** The headings of the scenarios, `A`, `B`, … */
  get letters(): readonly string[] {
    return this.scenarios?.columns.map((column) => column.label ?? '') ?? [];
  }

  get letter(): string {
    return this.letters[this.column] ?? '';
  }

  /** The scenario asked for; without one the cheapest that holds; where none holds, the one that the others are compared with. */
  #columnOf(wanted: string | undefined): number {
    const cheapest = this.named('cheapest')?.value;
    const letter = wanted ?? (cheapest?.kind === 'text' ? cheapest.text : undefined);
    const column = this.letters.findIndex((label) => label.toLowerCase() === letter?.toLowerCase());
    return column >= 0 ? column : this.scenarios ? baseColumn(this.scenarios) : 0;
  }

  /** Why the one that is handed over is only the one that the others are compared with; undefined where it was asked for or is the cheapest that holds. */
  get fellBack(): string | undefined {
    const cheapest = this.named('cheapest')?.value;
    if (this.#wanted || !cheapest || this.letters.length < 2 || (cheapest.kind === 'text' && this.letters.includes(cheapest.text))) return undefined;
    return cheapest.kind === 'text' ? 'None holds' : 'None can be called the cheapest';
  }

  /** A row of the comparing table, in the scenario that is handed over or in another. */
  row(id: string, column = this.column): Found | undefined {
    const { scenarios } = this;
    const index = scenarios?.rows.findIndex((row) => row.id === id) ?? -1;
    const at = scenarios && index >= 0 ? placeIn(scenarios, column, index) : undefined;
    return at && this.found(at);
  }

  named(name: string): Found | undefined {
    const at = placeOf(this.book, name);
    return at && this.found(at);
  }

  /** A row of the comparing table, else the cell of that name. */
  line(id: string): Found | undefined {
    return this.row(id) ?? this.named(id);
  }

  lines(ids: readonly string[]): readonly Found[] {
    return ids.flatMap((id) => this.line(id) ?? []);
  }

  first(ids: readonly string[]): Found | undefined {
    return this.lines(ids)[0];
  }

  /** A number in base units. */
  number(id: string): number | undefined {
    const value = this.line(id)?.value;
    return value?.kind === 'number' ? value.base : undefined;
  }

  found(at: At): Found {
    const address = addressOf(at);
    const value = valueAt(this.values, address);
    const standing = standingOf(at);
    const decimals = decimalsOf(at);
    const check = standing === 'check' ? checkOf(value) : undefined;
    return {
      at,
      address,
      label: rowHeading(at),
      standing,
      value,
      text: value.kind === 'blank' ? UNKNOWN : lineOf(value, decimals),
      unit: value.kind === 'number' ? unitAfter(numberOf(value, decimals)) : '',
      ...(check && { state: check.state, word: check.word }),
      source: sourceOf(at) ?? '',
    };
  }

  /** The row of a look-up table whose first cells say these texts, with the headings of its columns. */
  entry(tableId: string, ...keys: readonly (Found | undefined)[]): readonly { readonly heading: string; readonly cell: Found }[] {
    const table = this.book.tables.find((t) => t.id === tableId);
    if (!table || keys.some((key) => key === undefined)) return [];
    const row = table.rows.findIndex((_, r) => keys.every((key, c) => this.#at(table, c, r)?.text === key?.text));
    if (row < 0) return [];
    return table.columns.flatMap((_, c) => {
      const cell = this.#at(table, c, row);
      return cell && cell.value.kind !== 'blank' ? [{ heading: columnHeading(cell.at), cell }] : [];
    });
  }

  #at(table: Table, column: number, row: number): Found | undefined {
    const at = placeIn(table, column, row);
    return at && this.found(at);
  }

  /** Every row of a table, cell by cell. */
  grid(table: Table): readonly (readonly Found[])[] {
    return table.rows.map((_, r) => table.columns.flatMap((__, c) => this.#at(table, c, r) ?? []));
  }

  /** Every check that bears on the plan: those of the scenario, and those that stand in tables of one column. */
  get checks(): readonly Found[] {
    const { scenarios } = this;
    const own = scenarios?.rows.flatMap((row) => this.row(row.id) ?? []) ?? [];
    const others = this.book.tables.filter((t) => t.form === 'plain' || t.form === 'brief').flatMap((t) => this.grid(t).flat());
    return [...own, ...others].filter((found) => found.standing === 'check');
  }
}
