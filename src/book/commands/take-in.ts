/**
 * Takes in what the present edition of a template checks and a book of an earlier one does not: rows, columns, tables and names that came, and
 * formulas that nobody wrote on since. What the owner wrote stays: contents, units, sources, notes and order.
 */
import { columnText } from '../address.ts';
import { apply } from '../apply.ts';
import type { Book, Cell, Column, Range, Row, Table } from '../book.ts';
import { tooFull } from '../bounds.ts';
import type { Edit } from '../change.ts';
import { isFormula } from '../content.ts';
import { type Edition, type Follow, firstText, follow, followed, keyIn, rowIn, tableIn } from '../edition/frame.ts';
import { compare, isCheck, isEarlier, modelOf, type Stale } from '../edition/lacks.ts';
import { wantedRows } from '../edition/wanted.ts';
import { blockIds, followLines, freshIds, lineEdit } from '../lines.ts';
import { baseColumn } from '../look-up.ts';
import { LOST, rewriteTarget } from '../references.ts';
import { type Answer, refused } from '../refused.ts';

const LABELS = 4;

export function takeIn(book: Book, template: Book, past: Edition): Answer {
  const { template: origin, went } = book;
  const edition = template.template;
  if (!origin || !edition || !isEarlier(book, template)) return refused('This book has all that its template checks.');
  const clash = template.tables.find((table) => !tableIn(book, table.id) && book.tables.some(({ name }) => name.toLowerCase() === table.name.toLowerCase()));
  if (clash) return refused(`A table here is called ${clash.name}, as one of the template’s. Give yours another name.`);
  const found = compare(book, template, past);
  const taking = new Taking(book, template, past);
  taking.tables();
  taking.columns();
  const rows = taking.rows(wantedRows(book, template, past, found.stale));
  taking.names();
  taking.fill();
  taking.update(found.stale);
  const after = template.went ? { ...went, ...template.went } : went;
  taking.make([
    {
      at: 'book',
      before: { template: origin, ...(went && { went }) },
      after: { template: { slug: origin.slug, edition: edition.edition }, ...(after && { went: after }) },
    },
  ]);
  const full = tooFull(apply(book, { label: '', edits: taking.edits }));
  if (full !== undefined) return refused(full);
  const idle = Object.keys(template.went ?? {}).filter((name) => keyIn(book.names, name) !== undefined);
  const words = [
    counted(rows, 'row', 'added'),
    counted(found.stale.length, 'formula', 'brought up to date'),
    listed(found.own, 'stays as it was written here', 'stay as they were written here'),
    listed(idle, 'is read no more', 'are read no more'),
    listed(taking.unmade, 'can’t be worked out here', 'can’t be worked out here'),
  ];
  return { label: `Edition ${edition.edition} of the template taken in: ${words.filter(Boolean).join('; ')}`, edits: taking.edits };
}

const counted = (n: number, what: string, done: string): string => (n === 0 ? '' : `${n} ${what}${n === 1 ? '' : 's'} ${done}`);

function listed(labels: readonly string[], one: string, several: string): string {
  if (labels.length === 0) return '';
  const said = labels.length > LABELS ? `${labels.slice(0, LABELS - 1).join(', ')} and ${labels.length - LABELS + 1} more` : labels.join(', ');
  return `${said} ${labels.length === 1 ? one : several}`;
}

/** A given that the template brings: what it says for everyone comes along, another client's answer is asked for. */
const forEveryone = (source: string | undefined): boolean => source !== undefined && source.trim() !== '' && !/^\s*(client|measured|ours)\b/iu.test(source);

class Taking {
  /** As it is with all edits made so far. */
  book: Book;
  readonly edits: Edit[] = [];
  /** What reads a cell that this book has not. */
  readonly unmade: string[] = [];
  readonly #template: Book;
  readonly #past: Edition;
  /** Lines that are new in the book and still without cells, by table. */
  readonly #newRows = new Map<string, Set<string>>();
  readonly #newColumns = new Map<string, Set<string>>();

  constructor(book: Book, template: Book, past: Edition) {
    this.book = book;
    this.#template = template;
    this.#past = past;
  }

  make(edits: readonly Edit[]): void {
    this.edits.push(...edits);
    this.book = apply(this.book, { label: '', edits });
  }

  /** Whole tables that came, each on the page on which the template has it, or on the last. */
  tables(): void {
    for (const model of this.#template.tables) {
      if (tableIn(this.book, model.id) || tableIn(this.#past, model.id)) continue;
      this.make([{ at: 'table', index: this.book.tables.length, before: null, after: { ...model, cells: {} } }]);
      this.#newRows.set(model.id, new Set(model.rows.map((row) => row.id)));
      const shownOn = this.#template.pages.find((page) => page.blocks.some((block) => block.kind === 'table' && block.table === model.id));
      const page = this.book.pages.find((each) => each.id === shownOn?.id) ?? this.book.pages.at(-1);
      const [id = ''] = freshIds(blockIds(this.book), 'b', 1);
      if (page && shownOn) this.make([{ at: 'block', page: page.id, index: page.blocks.length, before: null, after: { id, kind: 'table', table: model.id } }]);
    }
  }

  /** Columns of tables that compare nothing; what a list needs is needed from now on. */
  columns(): void {
    for (const model of this.#template.tables) {
      const before = tableIn(this.#past, model.id);
      if (!before || model.form === 'scenarios') continue;
      for (const [m, column] of model.columns.entries()) {
        const table = tableIn(this.book, model.id);
        if (!table) break;
        const index = table.columns.findIndex((each) => each.id === column.id);
        const has = table.columns[index];
        if (has && column.needed && !has.needed) this.make([lineEdit(table, 'column', index, has, { ...has, needed: true })]);
        if (has || before.columns.some((each) => each.id === column.id)) continue;
        this.#insert(table, 'column', placeAfter(model.columns, m, table.columns), column);
        note(this.#newColumns, table.id, column.id);
      }
    }
  }

  /** Rows by table; and of a list the rows that say what a check that came is about. How many came. */
  rows(wanted: ReadonlyMap<string, ReadonlySet<string>>): number {
    const labels = new Set<string>();
    let count = 0;
    for (const model of this.#template.tables) {
      for (const [m, row] of model.rows.entries()) {
        const table = tableIn(this.book, model.id);
        if (!table || !wanted.get(model.id)?.has(row.id) || table.rows.some((each) => each.id === row.id)) continue;
        if (isCheck(model, row)) labels.add(row.label ?? '');
        this.#insert(table, 'row', placeAfter(model.rows, m, table.rows), row);
        note(this.#newRows, table.id, row.id);
        count++;
      }
    }
    for (const model of this.#template.tables) {
      if (model.form !== 'list') continue;
      for (const [m, row] of model.rows.entries()) {
        const table = tableIn(this.book, model.id);
        if (!table || row.head || !labels.has(firstText(model, row)) || rowNamed(table, firstText(model, row))) continue;
        const before = model.rows.slice(0, m).findLastIndex((_, i) => rowIn(model, table, i) !== undefined);
        const at = (rowIn(model, table, before) ?? table.rows.length - 1) + 1;
        const [id = ''] = freshIds([...table.rows, ...model.rows], 'r', 1);
        this.#insert(table, 'row', at, { ...row, id });
        const cells = model.cells[row.id] ?? {};
        const edits = table.columns.flatMap(({ id: column }): Edit[] =>
          cells[column] ? [{ at: 'cell', table: table.id, row: id, column, before: null, after: cells[column] }] : [],
        );
        this.make(edits);
      }
    }
    return count;
  }

  #insert(table: Table, axis: 'row' | 'column', at: number, line: Row | Column): void {
    const { edits } = followLines(this.book, table, axis, { kind: 'insert', at, count: 1 });
    this.make([...edits, lineEdit(table, axis, at, null, line)]);
  }

  /** Names that came; a name that the owner gave to something else stays theirs. */
  names(): void {
    for (const [name, target] of Object.entries(this.#template.names)) {
      if (keyIn(this.#past.names, name) !== undefined || keyIn(this.book.names, name) !== undefined) continue;
      const made = rewriteTarget(target, this.#follow.rewrite(undefined));
      if (made !== LOST) this.make([{ at: 'name', name, before: null, after: made }]);
    }
  }

  /** From the template as it is to the book as it is now. */
  get #follow(): Follow {
    return follow(this.#template, this.book);
  }

  /** Fills the lines that came. */
  fill(): void {
    for (const model of this.#template.tables) {
      const table = tableIn(this.book, model.id);
      if (!table) continue;
      const [rows, columns] = [this.#newRows.get(table.id), this.#newColumns.get(table.id)];
      const edits: Edit[] = [];
      for (const [r, row] of table.rows.entries()) {
        for (const { id: column } of table.columns) {
          const isNew = rows?.has(row.id) === true || (columns?.has(column) === true && this.#sameProduct(model, table, row));
          const after = isNew ? this.#cell(model, table, r, column) : undefined;
          if (after) edits.push({ at: 'cell', table: table.id, row: row.id, column, before: null, after });
        }
        const range = rows?.has(row.id) ? row.range : undefined;
        const made = range && this.#range(range);
        if (made && made !== range) edits.push(lineEdit(table, 'row', r, row, { ...row, range: made }));
      }
      this.make(edits);
    }
  }

  /** What a new column says of a product holds only for one on which the owner changed nothing; of others it is asked. */
  #sameProduct(model: Table, table: Table, row: Row): boolean {
    if (row.head) return true;
    const line = model.rows[rowIn(table, model, table.rows.indexOf(row)) ?? -1];
    if (!line || firstText(table, row) === '') return false;
    const shared = table.columns.filter(({ id }) => model.columns.some((each) => each.id === id) && !this.#newColumns.get(table.id)?.has(id));
    return shared.every(({ id }) => (model.cells[line.id]?.[id]?.content ?? '') === (table.cells[row.id]?.[id]?.content ?? ''));
  }

  #cell(model: Table, table: Table, r: number, column: string): Cell | undefined {
    const row = table.rows[r];
    const from = modelOf(model, table, column);
    const line = row && model.rows[rowIn(table, model, r) ?? -1];
    const cell = line && from && model.cells[line.id]?.[from.id];
    if (!row || !line || !from || !cell) return undefined;
    const { typed: _, ...said } = cell;
    const range = cell.range && this.#range(cell.range);
    const placed = { ...said, ...(range && { range }) };
    if (isFormula(cell.content)) return this.#worked(model, table, row, placed, from.over);
    const given = (cell.kind ?? row.kind) === 'given';
    if (!given || model.form === 'list') return placed;
    // A scenario that the template has not is as the one that all are compared with.
    if (model.form === 'scenarios' && from.id !== column) return { ...placed, content: `=${columnText(baseColumn(table))}${r + 1}`, kind: 'given' };
    return forEveryone(cell.source ?? line.source) ? placed : { ...placed, content: '' };
  }

  #worked(model: Table, table: Table, row: Row, cell: Cell, over: { readonly from: number; readonly to: number }): Cell | undefined {
    const content = followed(this.#follow, model, cell.content, over);
    if (!content.includes(LOST)) return { ...cell, content };
    const called = row.label ?? table.name;
    if (!this.unmade.includes(called)) this.unmade.push(called);
    return undefined;
  }

  #range(range: Range): Range {
    if (range.from === undefined) return range;
    const from = rewriteTarget(range.from, this.#follow.rewrite(undefined));
    return from === range.from ? range : { ...range, from };
  }

  /** Formulas that the template writes otherwise now and that nobody wrote on since; and what a given may be, where that is still as it was. */
  update(stale: readonly Stale[]): void {
    const edits: Edit[] = [];
    for (const { table: id, row, column, model: from } of stale) {
      const [table, model] = [tableIn(this.book, id), tableIn(this.#template, id)];
      const [line, before] = [table?.rows.find((each) => each.id === row), table?.cells[row]?.[column]];
      const content = model?.cells[row]?.[from]?.content;
      const over = table && model && modelOf(model, table, column)?.over;
      if (!table || !model || !line || !before || content === undefined || !over) continue;
      const { typed: _, ...kept } = before;
      const after = this.#worked(model, table, line, { ...kept, content }, over);
      if (after && after.content !== before.content) edits.push({ at: 'cell', table: id, row, column, before, after });
    }
    for (const model of this.#template.tables) {
      const [table, was] = [tableIn(this.book, model.id), tableIn(this.#past, model.id)];
      for (const line of (table && was && model.rows) || []) {
        const index = table?.rows.findIndex((each) => each.id === line.id) ?? -1;
        const [row, before] = [table?.rows[index], was?.rows.find((each) => each.id === line.id)];
        if (!table || !row?.range || !before?.range || !line.range || JSON.stringify(row.range) !== JSON.stringify(before.range)) continue;
        if (JSON.stringify(line.range) !== JSON.stringify(before.range) && line.range.from === undefined)
          edits.push(lineEdit(table, 'row', index, row, { ...row, range: line.range }));
      }
    }
    this.make(edits);
  }
}

function note(map: Map<string, Set<string>>, table: string, line: string): void {
  map.set(table, (map.get(table) ?? new Set()).add(line));
}

const rowNamed = (table: Table, text: string): boolean => table.rows.some((row) => !row.head && firstText(table, row) === text);

/** Behind the line that stands before it in the template, else before the one that stands after it. */
function placeAfter(model: readonly { readonly id: string }[], index: number, lines: readonly { readonly id: string }[]): number {
  const place = (id: string | undefined): number => lines.findIndex((line) => line.id === id);
  for (let i = index - 1; i >= 0; i--) if (place(model[i]?.id) >= 0) return place(model[i]?.id) + 1;
  for (let i = index + 1; i < model.length; i++) if (place(model[i]?.id) >= 0) return place(model[i]?.id);
  return lines.length;
}
