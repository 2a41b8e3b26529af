/** A formula in words: the headings of its cells in place of their addresses, the branch that is taken in place of all, and our functions by what they give. */
import { digits } from '../../../functions/define.ts';
import { showNumber } from '../../../functions/number-text.ts';
import { cellText } from '../../book/address.ts';
import { columnHeading, decimalsOf, rowHeading } from '../../book/look-up.ts';
import type { Position, Span } from '../addresses.ts';
import type { Ast, BinaryType } from '../hyper.ts';
import { recordOf } from '../register.ts';
import type { Value } from '../types.ts';
import type { Workbook } from '../workbook.ts';
import type { Entry, Taking } from './taken.ts';

const SIGNS: Partial<Readonly<Record<BinaryType, string>>> = {
  PLUS_OP: '+',
  MINUS_OP: '−',
  TIMES_OP: '×',
  DIV_OP: '÷',
  CONCATENATE_OP: '&',
  EQUALS_OP: '=',
  NOT_EQUAL_OP: '≠',
  GREATER_THAN_OP: '>',
  LESS_THAN_OP: '<',
  GREATER_THAN_OR_EQUAL_OP: '≥',
  LESS_THAN_OR_EQUAL_OP: '≤',
};

const IS: Readonly<Record<string, string>> = { ISBLANK: 'blank', ISNUMBER: 'a number', ISTEXT: 'a text' };
const ROUNDED: Readonly<Record<string, string>> = { ROUND: '', ROUNDUP: ' up', ROUNDDOWN: ' down' };
const SAID: Readonly<Record<string, string>> = { SUM: 'sum', MIN: 'lowest', MAX: 'highest', AVERAGE: 'mean', MEDIAN: 'median' };

export class Words {
  private readonly book: Workbook;
  private readonly at: Position;
  private readonly taking: Taking;

  constructor(book: Workbook, at: Position, taking: Taking) {
    this.book = book;
    this.at = at;
    this.taking = taking;
  }

  of(ast: Ast): string {
    if ('left' in ast)
      return ast.type === 'POWER_OP' ? `${this.of(ast.left)}^${this.of(ast.right)}` : `${this.of(ast.left)} ${SIGNS[ast.type]} ${this.of(ast.right)}`;
    switch (ast.type) {
      case 'NUMBER':
        return digits(ast.value);
      case 'STRING':
        return `“${ast.value}”`;
      case 'PARENTHESES':
        return `(${this.of(ast.expression)})`;
      case 'MINUS_UNARY_OP':
        return `−${this.of(ast.value)}`;
      case 'PLUS_UNARY_OP':
        return this.of(ast.value);
      case 'PERCENT_OP':
        return `${this.of(ast.value)} %`;
      case 'FUNCTION_CALL':
        return this.call(ast.procedureName, ast.args, ast);
      default: {
        const span = this.book.span(ast, this.at);
        return span ? this.cells(span) : '';
      }
    }
  }

  private call(name: string, args: readonly Ast[], ast: Ast): string {
    const [first, second] = args;
    if (name === 'UNIT' && first && second?.type === 'STRING') return `${this.of(first)} ${second.value}`;
    if (name === 'NUMBER.IN' && first && second?.type === 'STRING') return `${this.of(first)} in ${second.value}`;
    const entry = this.taking.of(ast).entries.at(-1);
    if (entry) return name === 'MATCH' ? this.counted(entry) : this.cell(entry.at);
    const standing = this.taking.standing(ast);
    if (standing !== ast) return bracketed(standing, this.of(standing));
    const record = recordOf(name);
    if (record) return record.returns.quantity;
    const is = IS[name];
    if (is && first) return `${this.of(first)} is ${is}`;
    const rounded = ROUNDED[name];
    if (rounded !== undefined && first && (!second || (second.type === 'NUMBER' && second.value === 0)))
      return `${bracketed(first, this.of(first))} rounded${rounded}`;
    if (name === 'NOT' && first) return `not ${bracketed(first, this.of(first))}`;
    if (name === 'AND' || name === 'OR') return args.map((arg) => bracketed(arg, this.of(arg))).join(` ${name.toLowerCase()} `);
    const said = SAID[name];
    return said ? `${said} of (${args.map((arg) => this.of(arg)).join(', ')})` : `${name}(${args.map((arg) => this.of(arg)).join(', ')})`;
  }

  private cells({ start, end }: Span): string {
    if (start.row === end.row && start.col === end.col) return this.cell(start);
    return spanText(this.book, { start, end });
  }

  /** "Mount height", with its column where that is another, "PPF of Rail 90" of a list. */
  private cell(at: Position): string {
    const place = this.book.sheets.inBook(at);
    if (!place) return this.book.sheets.address(at);
    if (place.table.form === 'list') return `${columnHeading(place)} of ${nameOf(this.book, at)}`;
    const column = columnHeading(place);
    const near = at.sheet === this.at.sheet && at.col === this.at.col;
    return near || place.table.columns.length === 1 || place.table.form === 'brief' || column === '' ? rowHeading(place) : `${rowHeading(place)}, ${column}`;
  }

  /** "row 3 of 12: Rail 90". */
  private counted({ at, among, count, along }: Entry): string {
    const of = along === 'row' ? among.end.row - among.start.row : among.end.col - among.start.col;
    return `${along} ${count} of ${of + 1}: ${nameOf(this.book, at)}`;
  }

  /** What a look-up came to, with its value: "Fixtures, Rail 90: PPF 640 µmol/s". */
  found(entry: Entry, asPlace: boolean): string {
    const place = this.book.sheets.inBook(entry.at);
    const table = place?.table.name ?? '';
    if (asPlace) return `${table}, ${this.counted(entry)}`;
    const column = place ? columnHeading(place) : '';
    return `${table}, ${nameOf(this.book, entry.at)}: ${column === '' ? '' : `${column} `}${said(this.book, entry.at, this.book.valueAt(entry.at))}`;
  }
}

/** Our comparisons and sums beside another sign. */
const bracketed = (ast: Ast, text: string): string => ('left' in ast ? `(${text})` : text);

/** What the row of a cell is called: by its label, by what stands first in a list, or by the text in the cell itself. */
export function nameOf(book: Workbook, at: Position): string {
  const place = book.sheets.inBook(at);
  const value = book.valueAt(at);
  if (!place) return book.sheets.address(at);
  return !place.row.label && place.columnIndex === 0 && value.kind === 'text' ? value.text : rowHeading(place);
}

/** The value of a cell in a line, as its cell shows it. */
export function said(book: Workbook, at: Position, value: Value): string {
  if (value.kind === 'number') {
    const place = book.sheets.inBook(at);
    return value.shown ?? showNumber(value.base, value.unit, place && decimalsOf(place)).text;
  }
  if (value.kind === 'yes or no') return value.yes ? 'yes' : 'no';
  return value.kind === 'text' ? value.text : value.kind === 'error' ? value.word : 'blank';
}

export const spanText = (book: Workbook, { start, end }: Span): string => `${book.sheets.address(start)}:${cellText(end.col, end.row)}`;
