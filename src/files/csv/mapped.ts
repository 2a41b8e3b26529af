/**
 * Records of any file into cells, as a mapping says: into a new table, or into rows and columns of one that is there.
 * A value is read as if it were typed into its cell; what is worked out by a formula is never written over. An empty field empties its cell where
 * the records go over the rows in order, as a grid goes over a grid; anywhere else it leaves its cell as it is.
 */
import { readContent, textContent } from '../../../functions/quantity-text.ts';
import { unit } from '../../../functions/units.ts';
import { type At, textOf } from '../../book/address.ts';
import { notAllowed } from '../../book/allowed.ts';
import type { Cell, Row, Table } from '../../book/book.ts';
import { BOUNDS, count } from '../../book/bounds.ts';
import { wentSaid } from '../../book/edition/said.ts';
import { said } from '../../book/label.ts';
import { keyOf, rowKey } from '../../book/list-rows.ts';
import { addressOf, columnHeading, standingOf, titleOf, unitOf } from '../../book/look-up.ts';
import type { Value, Values } from '../../engine/types.ts';
import { unguard } from './csv.ts';
import type { Draft, NewTable } from './draft.ts';
import { fieldsKey, type ListRows, type NameField, nameFields, nameIn } from './list-names.ts';
import type { CsvRecord } from './records.ts';
import type { Put } from './tidy-in.ts';
import { UnitsTold } from './units.ts';
import { valueAt } from './values.ts';

/** Reads what was typed: `readQuantity` of functions/quantity-text.ts fits as it is. */
export type ReadTyped = (
  typed: string,
  options: { readonly unit?: string; readonly decimalMark?: '.' | ','; readonly currency: string },
) =>
  | { readonly kind: 'number'; readonly base: number; readonly unit: string; readonly content: string; readonly said?: string }
  | { readonly kind: 'text'; readonly content: string; readonly said?: string }
  | { readonly kind: 'yes or no'; readonly content: string }
  | { readonly kind: 'blank'; readonly content: '' }
  | { readonly kind: 'formula' }
  | { readonly kind: 'refused'; readonly message: string };

export type Mapping =
  | {
      readonly to: 'new table';
      readonly name: string;
      /** Title of the page it goes to; a page of that title is made where there is none. */
      readonly page: string;
      readonly columns: readonly { readonly from: number; readonly heading: string; readonly unit?: string }[];
    }
  | {
      readonly to: 'rows';
      /** A table's id. */
      readonly table: string;
      /** After the last filled row; over the rows from the first one on, in order; or into the row whose label, or whose cell in a column (an id), says the same as field `from`. */
      readonly into: 'end' | 'start' | { readonly from: number; readonly column: 'label' | { readonly id: string } };
      /** A field that says the unit of its record's bare numbers. */
      readonly unitFrom?: number;
      readonly columns: readonly { readonly from: number; readonly column: string; readonly unit?: string }[];
    };

export interface PlaceOptions {
  readonly read: ReadTyped;
  readonly decimalMark: '.' | ',';
  /** Of the file's columns. */
  readonly headings: readonly string[];
  /** As the engine gives them: what says the same as before stays untouched. */
  readonly values: Values;
  /** The place of the first row that is added to a list. */
  readonly addAt?: number;
}

/** What became of one record's fields. A field counts when it is not empty, or empties its cell. */
export interface Placed {
  readonly put: readonly (Put & { readonly column: number })[];
  readonly missed: readonly { readonly column: number; readonly message: string }[];
  /** Why none of the fields that the mapping speaks of could be placed, and how many they are. */
  readonly whole?: { readonly message: string; readonly fields: number };
  /** Fields that the mapping does not speak of, or that a formula works out anyway. */
  readonly leftOut: number;
}

export interface Placer {
  place(record: CsvRecord): Placed;
  /** What deserves a word when all is done. */
  closing(): readonly string[];
  rows(): ListRows | undefined;
}

type Content = { readonly content: string; readonly said?: string };

abstract class Base implements Placer {
  protected readonly draft: Draft;
  protected readonly options: PlaceOptions;
  protected readonly told = new UnitsTold();

  constructor(draft: Draft, options: PlaceOptions) {
    this.draft = draft;
    this.options = options;
  }

  abstract place(record: CsvRecord): Placed;
  abstract closing(): readonly string[];

  rows(): ListRows | undefined {
    return undefined;
  }

  /** A field as its cell would take it; a text says why it can't. */
  protected content(field: string, from: number, shown: string | undefined, inHeading: string | undefined): Content | string {
    const { currency } = this.draft.book;
    const { decimalMark } = this.options;
    const asText = (text: string): Content => ({ content: textContent(text) });
    if (field.startsWith("'")) return asText(unguard(field));
    const wanted = inHeading ?? shown;
    const read = this.options.read(field, { currency, decimalMark, ...(wanted !== undefined && { unit: wanted }) });
    switch (read.kind) {
      case 'refused':
        return read.message;
      case 'formula':
        return asText(field);
      case 'number': {
        if (shown !== undefined && shown !== '' && isOther(read.unit, shown)) return `It takes ${taken(shown)}; ${read.content} is another kind.`;
        this.told.see(from, field, wanted ?? '');
        return { content: read.content, ...(read.said !== undefined && { said: read.said }) };
      }
      case 'text':
        if (shown !== undefined && shown !== '') return `It takes ${taken(shown)}; “${field.slice(0, 60)}” is none.`;
        return { content: read.content, ...(read.said !== undefined && { said: read.said }) };
      default:
        return { content: read.content };
    }
  }
}

export class NewTablePlacer extends Base {
  private row = 0;
  private readonly table: NewTable | string;
  private readonly mapping: Mapping & { to: 'new table' };

  constructor(draft: Draft, mapping: Mapping & { to: 'new table' }, options: PlaceOptions) {
    super(draft, options);
    this.mapping = mapping;
    this.table = draft.begin(mapping.name, mapping.page);
    if (typeof this.table === 'string') return;
    this.table.rows.set(0, { head: true });
    for (const [c, { heading, unit: symbol }] of mapping.columns.entries()) {
      if (symbol !== undefined) this.table.columns.set(c, { unit: symbol });
      draft.put(this.table, c, 0, { content: textContent(heading) });
    }
  }

  override place({ fields }: CsvRecord): Placed {
    const { table } = this;
    const put: (Put & { column: number })[] = [];
    const missed: { column: number; message: string }[] = [];
    const spoken = new Set(this.mapping.columns.map(({ from }) => from));
    const problem = typeof table === 'string' ? table : noRow(this.row + 1);
    if (problem !== undefined || typeof table === 'string') return none(fields, spoken, problem ?? '');
    for (const [c, { from, unit: symbol }] of this.mapping.columns.entries()) {
      const field = fields[from] ?? '';
      if (field.trim() === '') continue;
      const read = this.content(field, from, undefined, symbol);
      const problem = typeof read === 'string' ? read : this.draft.put(table, c, this.row + 1, { content: read.content });
      if (problem !== undefined || typeof read === 'string') missed.push({ column: from, message: problem ?? '' });
      else
        put.push({
          column: from,
          where: textOf(this.mapping.name, c, this.row + 1),
          content: read.content,
          ...(read.said !== undefined && { said: read.said }),
        });
    }
    if (put.length > 0) this.row++;
    return { put, missed, leftOut: others(fields, spoken) };
  }

  override closing(): readonly string[] {
    return this.told.mixed(this.options.headings);
  }
}

export class RowsPlacer extends Base {
  private readonly table: Table;
  private readonly mapping: Mapping & { to: 'rows' };
  /** Rows by what their key says; `undefined` where two say the same. */
  private readonly keys = new Map<string, number | undefined>();
  private next: number;
  private readonly written = new Set<string>();
  /** Blank fields that left a filled cell as it was. */
  private passed = 0;
  /** Fields of the file by which a list's rows are found; what it does not have is added to it. */
  private readonly names: readonly NameField[];
  /** By the places of the rows that the file speaks of: what it says anew. */
  private readonly touched = new Map<number, string[]>();
  private readonly fresh = new Map<number, string>();

  constructor(draft: Draft, mapping: Mapping & { to: 'rows' }, options: PlaceOptions) {
    super(draft, options);
    const table = draft.book.tables.find(({ id }) => id === mapping.table);
    if (!table) throw new RangeError(`the mapping speaks of a table that is not in the book: ${mapping.table}`);
    this.table = table;
    this.mapping = mapping;
    const last =
      mapping.into === 'start'
        ? (row: Row) => row.head
        : (row: Row) => row.head || Object.values(table.cells[row.id] ?? {}).some((cell) => cell.content !== '');
    this.names = nameFields(table, mapping);
    this.next = this.names.length > 0 && options.addAt !== undefined ? options.addAt : table.rows.findLastIndex(last) + 1;
    if (this.names.length > 0) this.indexNames();
    else if (typeof mapping.into !== 'string') this.index(mapping.into.column);
  }

  override place({ fields }: CsvRecord): Placed {
    const { columns, into, unitFrom } = this.mapping;
    const spoken = new Set(columns.map(({ from }) => from));
    if (typeof into !== 'string') spoken.add(into.from);
    if (unitFrom !== undefined) spoken.add(unitFrom);
    const put: (Put & { column: number })[] = [];
    const missed: { column: number; message: string }[] = [];
    let worked = 0;
    const row = this.rowFor(fields);
    if (typeof row === 'string') return none(fields, spoken, row);
    const keyColumn = typeof into === 'string' ? undefined : into.from;
    for (const from of [...spoken].sort((a, b) => a - b)) {
      const added = from === keyColumn && this.fresh.has(row) ? this.names[0] : undefined;
      const target = columns.find((column) => column.from === from) ?? added;
      if ((fields[from] ?? '').trim() === '') {
        const emptied = target && this.blank(row, target.column);
        if (typeof emptied === 'string') missed.push({ column: from, message: emptied });
        else if (emptied) put.push({ ...emptied, column: from });
      } else if (!target) put.push({ column: from, where: from === keyColumn ? `row ${row + 1}` : 'unit', content: fields[from] ?? '' });
      else {
        const done = this.field(fields[from] ?? '', row, target, unitFrom === undefined ? '' : (fields[unitFrom] ?? ''));
        if (done === 'worked') worked++;
        else if (typeof done === 'string') missed.push({ column: from, message: done });
        else put.push({ ...done, column: from });
      }
    }
    if (into === 'start' || (into === 'end' && put.length > 0)) this.next++;
    return { put, missed, leftOut: others(fields, spoken) + worked };
  }

  override closing(): readonly string[] {
    const { name, rows } = this.table;
    // A column that says the units of the others speaks for those without.
    const said: string[] = this.mapping.unitFrom === undefined ? this.told.mixed(this.options.headings) : [];
    const added = this.names.length > 0 ? 0 : this.next - rows.length;
    if (added > 0) said.push(`${name} is ${added} ${added === 1 ? 'row' : 'rows'} longer. Formulas that read it up to row ${rows.length} do not see them.`);
    const beyond = this.mapping.into === 'start' ? this.lastFilled() - this.next + 1 : 0;
    if (beyond > 0) said.push(`The file ends before ${name} does: from row ${this.next + 1} on ${name} stays as it was.`);
    if (this.passed > 0) said.push(`${count(this.passed)} blank ${this.passed === 1 ? 'field leaves its cell' : 'fields leave their cells'} as before.`);
    return said;
  }

  /** The last row in which a column that the mapping speaks of says anything. */
  private lastFilled(): number {
    const { rows, cells } = this.table;
    return rows.findLastIndex((row) => !row.head && this.mapping.columns.some(({ column }) => (cells[row.id]?.[column]?.content ?? '') !== ''));
  }

  /** What a blank field does: nothing where its cell is blank or worked out. */
  private blank(row: number, column: string): Put | string | undefined {
    const at = this.draft.placeIn(
      this.table,
      this.table.columns.findIndex(({ id }) => id === column),
      row,
    );
    if (!at?.cell || at.cell.content === '' || ['worked', 'check'].includes(standingOf(at))) return undefined;
    if (this.mapping.into !== 'start') {
      this.passed++;
      return undefined;
    }
    // Who said so was said of the content that goes.
    const { typed: _, source: __, ...kept } = at.cell;
    const where = addressOf(at);
    return this.draft.set(at, { ...kept, content: '' }) ?? { where, content: '', said: `${where} is emptied` };
  }

  override rows(): ListRows | undefined {
    if (this.names.length === 0) return undefined;
    const { table, fresh, touched } = this;
    const known = [...touched].flatMap(([r, cells]) => {
      const row = table.rows[r];
      return row && !fresh.has(r) ? [{ name: nameIn(table, row, this.names), row, cells }] : [];
    });
    const changed = known.filter(({ cells }) => cells.length > 0);
    const added = [...fresh].map(([r, name]) => ({ name, cells: touched.get(r) ?? [] }));
    return { table, changed, added, same: known.length - changed.length, stay: this.keys.size - known.length - fresh.size };
  }

  private indexNames(): void {
    const ids = this.names.map(({ column }) => column);
    for (const [r, row] of this.table.rows.entries()) {
      const key = row.head ? '' : rowKey(this.table, row, ids);
      if (key.trim() !== '') this.keys.set(key, this.keys.has(key) ? undefined : r);
    }
  }

  private index(column: 'label' | { readonly id: string }): void {
    for (const [r, row] of this.table.rows.entries()) {
      if (row.head) continue;
      const text = keyOf([column === 'label' ? (row.label ?? '') : (this.table.cells[row.id]?.[column.id]?.content ?? '')]);
      if (text !== '') this.keys.set(text, this.keys.has(text) ? undefined : r);
    }
  }

  private rowFor(fields: readonly string[]): number | string {
    const { into } = this.mapping;
    if (typeof into === 'string') return noRow(this.next) ?? this.next;
    const text = unguard(fields[into.from] ?? '').trim();
    const key = fieldsKey(fields, this.names.length > 0 ? this.names : [into]);
    const found = this.keys.get(key);
    if (this.names.length > 0) return this.listRow(text, key, found);
    if (found !== undefined) return found;
    const went = wentSaid(this.draft.book, text);
    if (went !== undefined && !this.keys.has(key)) return went;
    return this.keys.has(key) ? `Two rows of ${this.table.name} are called “${text}”.` : `${this.table.name} has no row “${text.slice(0, 60)}”.`;
  }

  private listRow(name: string, key: string, found: number | undefined): number | string {
    const { table, keys, touched } = this;
    if (name === '') return 'It has no name.';
    if (found !== undefined && touched.has(found)) return `“${name.slice(0, 60)}” stands in the file a second time; the first stands.`;
    if (found === undefined && keys.has(key)) return `Two rows of ${table.name} are called “${name.slice(0, 60)}”.`;
    const row = found ?? this.next++;
    if (found === undefined) this.fresh.set(row, name);
    keys.set(key, row);
    touched.set(row, []);
    return row;
  }

  private field(field: string, row: number, target: { readonly from: number; readonly column: string; readonly unit?: string }, inUnit: string): Put | string {
    const c = this.table.columns.findIndex(({ id }) => id === target.column);
    if (c < 0) throw new RangeError(`the mapping speaks of a column that is not in ${this.table.name}: ${target.column}`);
    if (!this.draft.placeIn(this.table, c, row)) {
      const problem = this.draft.reach(this.table, c, row);
      if (problem !== undefined) return problem;
    }
    const at = this.draft.placeIn(this.table, c, row);
    if (!at) return `${this.table.name} has no row ${row + 1}.`;
    const standing = standingOf(at);
    if (standing === 'worked' || standing === 'check') return 'worked';
    const where = addressOf(at);
    if (this.written.has(where)) return `${where} is given a second time; the first stands.`;
    const symbol = target.unit ?? (inUnit === '' ? undefined : unguard(inUnit));
    if (symbol !== undefined && !unit(symbol)) return `“${symbol}” is no unit.`;
    const read = this.content(field, target.from, unitOf(at), symbol);
    if (typeof read === 'string') return `${titleOf(at)}: ${read}`;
    const after = { ...without(at.cell), content: read.content };
    const same = this.saysTheSame(at, read.content);
    const problem = notAllowed(this.draft.book, at, read.content) ?? (same ? undefined : this.draft.set(at, after));
    if (problem !== undefined) return problem;
    const [before, now] = [said(this.draft.book, at, at.cell), said(this.draft.book, at, after)];
    if (!same && target !== this.names[0]) this.touched.get(row)?.push(`${columnHeading(at)} ${this.fresh.has(row) ? '' : `${before} → `}${now}`);
    this.written.add(where);
    return { where, content: read.content, ...(read.said !== undefined && { said: read.said }) };
  }

  /** So that a file which comes back unchanged leaves "as A" what is as A. */
  private saysTheSame(at: At, content: string): boolean {
    return at.cell !== undefined && holdsAlready(valueAt(this.options.values, at), content);
  }
}

export const placerFor = (draft: Draft, mapping: Mapping, options: PlaceOptions): Placer =>
  mapping.to === 'new table' ? new NewTablePlacer(draft, mapping, options) : new RowsPlacer(draft, mapping, options);

const taken = (shown: string): string => (shown === '1' ? 'a plain number' : `a quantity in ${shown}`);

function without(cell: Cell | undefined): Cell | undefined {
  if (!cell) return undefined;
  const { typed: _, ...rest } = cell;
  return rest;
}

const noRow = (row: number): string | undefined => (row < BOUNDS.rows ? undefined : `A table has at most ${count(BOUNDS.rows)} rows.`);

function none(fields: readonly string[], spoken: ReadonlySet<number>, message: string): Placed {
  const leftOut = others(fields, spoken);
  const wanted = fields.filter((field) => field.trim() !== '').length - leftOut;
  return { put: [], missed: [], ...(wanted > 0 && { whole: { message, fields: wanted } }), leftOut };
}

const others = (fields: readonly string[], spoken: ReadonlySet<number>): number => fields.filter((field, i) => field.trim() !== '' && !spoken.has(i)).length;

function isOther(a: string, b: string): boolean {
  const [x, y] = [unit(a), unit(b)];
  return !!x && !!y && (x.dimension !== y.dimension || x.reading !== y.reading);
}

function holdsAlready(value: Value, content: string): boolean {
  const read = readContent(content);
  if (value.kind === 'number') return read.kind === 'number' && Math.abs(value.base - read.base) <= 1e-12 * Math.max(Math.abs(value.base), Math.abs(read.base));
  if (value.kind === 'text') return read.kind === 'text' && read.text === value.text;
  return value.kind === 'yes or no' && read.kind === 'yes or no' && read.yes === value.yes;
}
