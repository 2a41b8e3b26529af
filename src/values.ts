/**
 * The values of a book at one moment. They lie by table, row and column, and are never written on: what comes later is another moment, which shares
 * every row and every table in which nothing is another. So `===` says of a table, and of a row of it, whether anything in it changed.
 *
 * They can be looked up by address as well, as in the plain record that an engine gives, by whoever has an address or wants all of them.
 */
import { cellText, tableText, textOf } from './book/address.ts';
import type { Book, Table } from './book/book.ts';
import { sameValue } from './engine/same-value.ts';
import type { Address, Value, Values } from './engine/types.ts';

/** Of a row, by column; what is blank is undefined. */
export type RowValues = readonly (Value | undefined)[];
/** Of a table, by row. */
export type TableValues = readonly (RowValues | undefined)[];

/** By what a formula calls the table. */
type Moment = ReadonlyMap<string, TableValues>;

const moments = new WeakMap<Values, Moment>();
const NO_TABLE: TableValues = [];

/** The values of one table. */
export function tableValues(values: Values, table: Table): TableValues {
  const moment = moments.get(values);
  if (moment) return moment.get(tableText(table.name)) ?? NO_TABLE;
  return table.rows.map((_, row) => table.columns.map((_, column) => values[textOf(table.name, column, row)]));
}

/** Values that come in one after the other, over those of a moment before. Many of them come in parts, and are seen when all of them are in. */
export class Gathering {
  readonly #tables: Map<string, TableValues>;
  /** Arrays that were made here, and may still be written on. */
  #own = new Set<object>();
  /** What came. */
  readonly addresses = new Set<Address>();

  constructor(before: Values) {
    this.#tables = new Map(moments.get(before));
  }

  add(fresh: Values): void {
    for (const address of Object.keys(fresh)) {
      const value = fresh[address] as Value;
      const place = splitAddress(address);
      if (place) this.#row(place.table, place.row)[place.column] = value.kind === 'blank' ? undefined : value;
      this.addresses.add(address);
    }
  }

  #row(name: string, row: number): (Value | undefined)[] {
    const rows = this.#owned(this.#tables.get(name), (made) => this.#tables.set(name, made));
    return this.#owned(rows[row], (made) => {
      rows[row] = made;
    });
  }

  /** The array itself where it was made here, else a copy put in its place. */
  #owned<T>(list: readonly T[] | undefined, put: (made: T[]) => void): T[] {
    if (list && this.#own.has(list)) return list as T[];
    const made = list ? [...list] : [];
    this.#own.add(made);
    put(made);
    return made;
  }

  /** The moment as it is now. */
  seen(): Values {
    this.#own = new Set();
    return looking(new Map(this.#tables));
  }
}

/** A moment without values. */
export const noValues = (): Values => looking(new Map());

/** The values with the cells that they are of, at the addresses which these have in the later book. */
export function carried(values: Values, before: Book, after: Book): Values {
  const moment = moments.get(values);
  const made = new Map<string, TableValues>();
  for (const table of after.tables) {
    const old = before.tables.find((each) => each.id === table.id);
    const known = old && moment?.get(tableText(old.name));
    if (known) made.set(tableText(table.name), carriedTable(known, old, table));
  }
  return looking(made);
}

function carriedTable(known: TableValues, old: Table, table: Table): TableValues {
  const columns = from(old.columns, table.columns);
  const rows = from(old.rows, table.rows);
  if (!rows && !columns) return known;
  const inRow = (row: RowValues | undefined): RowValues | undefined => (columns && row ? columns.map((column) => row[column]) : row);
  return (rows ?? table.rows.map((_, i) => i)).map((row) => inRow(known[row]));
}

/** Where each line stood before, -1 for a new one; undefined where all stand where they stood. */
function from(old: readonly { readonly id: string }[], now: readonly { readonly id: string }[]): readonly number[] | undefined {
  if (old === now || (old.length === now.length && now.every((line, i) => line.id === old[i]?.id))) return undefined;
  const places = new Map(old.map((line, i) => [line.id, i]));
  return now.map((line) => places.get(line.id) ?? -1);
}

/** The later moment, sharing with the one before what says the same; and the addresses at which it says something else. */
export function compared(before: Values, now: Values): { readonly values: Values; readonly changed: ReadonlySet<Address> } {
  const changed = new Set<Address>();
  const [was, is] = [moments.get(before) ?? new Map(), moments.get(now) ?? new Map()];
  const made = new Map<string, TableValues>();
  for (const name of new Set([...was.keys(), ...is.keys()])) {
    const shared = sharedTable(was.get(name) ?? NO_TABLE, is.get(name) ?? NO_TABLE, (column, row) => changed.add(`${name}.${cellText(column, row)}`));
    if (shared.length > 0) made.set(name, shared);
  }
  return { values: looking(made), changed };
}

function sharedTable(was: TableValues, is: TableValues, differs: (column: number, row: number) => void): TableValues {
  if (was === is) return was;
  let all = was.length === is.length;
  const rows = Array.from({ length: Math.max(was.length, is.length) }, (_, r) => {
    const [old, now] = [was[r] ?? [], is[r] ?? []];
    let same = true;
    for (let c = 0; c < Math.max(old.length, now.length) && old !== now; c++) {
      if (sameValue(old[c], now[c])) continue;
      same = false;
      differs(c, r);
    }
    all &&= same;
    return same ? was[r] : is[r];
  });
  return all ? was : rows;
}

interface AddressParts {
  readonly table: string;
  readonly row: number;
  readonly column: number;
}

/** Where an address as an engine gives it (`'Day light'.B7`) leads; undefined for anything else. Asked for each value that comes, so it reads this one form alone. */
function splitAddress(address: string): AddressParts | undefined {
  const end = address.lastIndexOf('.');
  let column = 0;
  let at = end + 1;
  for (let letter = address.charCodeAt(at) - 64; letter >= 1 && letter <= 26; letter = address.charCodeAt(++at) - 64) column = column * 26 + letter;
  const row = Number(address.slice(at)) - 1;
  return end > 0 && column > 0 && row >= 0 ? { table: address.slice(0, end), row, column: column - 1 } : undefined;
}

/** A moment as it is looked up by address. */
function looking(moment: Moment): Values {
  const at = (key: string | symbol): Value | undefined => {
    const place = typeof key === 'string' ? splitAddress(key) : undefined;
    return place && moment.get(place.table)?.[place.row]?.[place.column];
  };
  const values = new Proxy<Values>(Object.create(null), {
    get: (_, key) => at(key),
    has: (_, key) => at(key) !== undefined,
    ownKeys: () => addressesOf(moment),
    getOwnPropertyDescriptor: (_, key) => {
      const value = at(key);
      return value && { value, enumerable: true, configurable: true, writable: false };
    },
    set: () => false,
    defineProperty: () => false,
    deleteProperty: () => false,
  });
  moments.set(values, moment);
  return values;
}

function addressesOf(moment: Moment): Address[] {
  const found: Address[] = [];
  for (const [name, rows] of moment)
    rows.forEach((row, r) => {
      row?.forEach((value, c) => {
        if (value) found.push(`${name}.${cellText(c, r)}`);
      });
    });
  return found;
}
