/** What is refused of a formula before the calculator sees it: too large, not understood, unknown names, several values. */

import { countFault } from '../../functions/check-args.ts';
import { didYouMean } from '../../functions/nearest.ts';
import { counted } from '../../functions/number-text.ts';
import { unit } from '../../functions/units.ts';
import { cellText, tableText, textOf } from '../book/address.ts';
import { LOST_WORD } from '../book/references.ts';
import { type Position, readReference } from './addresses.ts';
import { type Fault, NO_SUCH_NAME, NOT_UNDERSTOOD, REFUSED } from './errors.ts';
import { FORMULA_BOUNDS, tooLong, tooMany } from './formula-bounds.ts';
import { type Ast, type Hyper, type Parsed, type Reference, said } from './hyper.ts';
import { offered, STATE } from './register.ts';
import { argumentAt, signatureOf } from './signatures.ts';

/** The children of a tree, in the order in which they are written. */
export function children(ast: Ast): readonly Ast[] {
  if ('left' in ast) return [ast.left, ast.right];
  if (ast.type === 'FUNCTION_CALL') return ast.args;
  if (ast.type === 'ARRAY') return ast.args.flat();
  if (ast.type === 'PARENTHESES') return [ast.expression];
  if (ast.type === 'MINUS_UNARY_OP' || ast.type === 'PLUS_UNARY_OP' || ast.type === 'PERCENT_OP') return [ast.value];
  return [];
}

export function* everyPart(ast: Ast): Generator<Ast> {
  yield ast;
  for (const child of children(ast)) yield* everyPart(child);
}

type Call = Extract<Ast, { type: 'FUNCTION_CALL' }>;

/** Functions that the standard's larger groups or other programs have, and why they are not here. */
const LEFT_OUT: Readonly<Record<string, string>> = {
  NOW: 'the same book gives the same numbers on any day. Put the date into a cell as a given',
  TODAY: 'the same book gives the same numbers on any day. Put the date into a cell as a given',
  RAND: 'the same book gives the same numbers each time',
  RANDBETWEEN: 'the same book gives the same numbers each time',
  OFFSET: 'which cells it reads can not be known beforehand. Use INDEX',
  TEXT: 'numbers are laid out by their cell. Use SHOW to put a number with its unit into a text',
};

const notOffered = (name: string): Fault => ({ word: NO_SUCH_NAME, message: `${name} is not offered: ${LEFT_OUT[name] ?? ''}.` });

export interface Names {
  /** Whether a name stands for a cell or a range of the book. */
  has(name: string): boolean;
  all(): Iterable<string>;
  /** What took the place of a name that an earlier edition had. */
  went(name: string): string | undefined;
  /** The names of the tables. */
  tables(): Iterable<string>;
  /** The table on a sheet and its size; undefined for the sheet of a formula that lies in no table. */
  table(sheet: number): { readonly name: string; readonly rows: number; readonly columns: number } | undefined;
}

/** The calculator has blank cells for ever; a book's table ends, and what lies past its end is a slip, not a 0. */
function pastTheEdge(cell: Position, names: Names): Fault | undefined {
  const table = names.table(cell.sheet);
  if (!table || (cell.row < table.rows && cell.col < table.columns)) return undefined;
  const size = `${counted(table.rows, 'row')} and ${counted(table.columns, 'column')}`;
  const name = tableText(table.name);
  const last = table.rows > 0 && table.columns > 0 ? `, and ends at ${cellText(table.columns - 1, table.rows - 1)}` : '';
  return { word: 'no such cell', message: `There is no cell ${textOf(table.name, cell.col, cell.row)}: ${name} has ${size}${last}.` };
}

const suggested = new Map<string, string>();
/** Suggestions for a function's name; a book that calls it a hundred times asks once. */
function suggestion(name: string): string {
  const known = suggested.get(name);
  if (known !== undefined) return known;
  if (suggested.size > 1000) suggested.clear();
  const found = didYouMean(name, offered);
  suggested.set(name, found);
  return found;
}

function call(ast: Call): Fault | undefined {
  const name = ast.procedureName;
  if (!offered.has(name)) {
    if (name === STATE) return { word: NO_SUCH_NAME, message: `${STATE} is for the notebook's own use.` };
    return Object.hasOwn(LEFT_OUT, name) ? notOffered(name) : { word: NO_SUCH_NAME, message: `There is no function ${name}.${suggestion(name)}` };
  }
  const signature = signatureOf(name);
  const lost = ast.args.findIndex(isLost);
  const asked = signature && argumentAt(signature, lost);
  if (asked) return gone(`${name} read as its ${asked}`);
  const message = signature && countFault(signature, ast.args.length);
  return message === undefined ? undefined : { word: REFUSED, message };
}

const isLost = (ast: Ast): boolean => ast.type === 'ERROR' && ast.error?.type === 'REF';

/** A row, column or table was deleted under a formula, which keeps a mark where it read it. */
const gone = (what: string): Fault => ({
  word: 'no such cell',
  message: `What ${what} was deleted. Write another cell in place of ${LOST_WORD}.`,
});

/** A reference to a table that is not in the book. */
function noTable(hyper: Hyper, ast: Ast, at: Position, names: Names): Fault {
  const written = hyper.text(ast, at).slice(1);
  const name = readReference(written)?.table ?? written;
  return { word: 'no such cell', message: `${written}: there is no table ${name} in this book.${didYouMean(name, names.tables())}` };
}

function unknown(ast: Ast, names: Names): Fault | undefined {
  if (ast.type === 'FUNCTION_CALL') return call(ast);
  if (ast.type === 'NAMED_EXPRESSION' && !names.has(ast.expressionName)) {
    const name = ast.expressionName;
    const went = names.went(name);
    if (went !== undefined) return { word: NO_SUCH_NAME, message: went };
    const call = offered.has(name.toUpperCase()) ? ` ${name.toUpperCase()} is a function: its arguments go in brackets.` : didYouMean(name, names.all());
    return { word: NO_SUCH_NAME, message: `Nothing is called ${name} in this book.${call}` };
  }
  if (ast.type === 'COLUMN_RANGE' || ast.type === 'ROW_RANGE') {
    const clock = ast.type === 'ROW_RANGE' ? ' A time of day is written in hours, such as 6 h + 30 min.' : '';
    return { word: 'too large', message: `A whole row or column can not be read: say from which cell to which, such as A1:A20.${clock}` };
  }
  if (ast.type === 'ERROR_WITH_RAW_INPUT') return { word: 'no such cell', message: `${said(ast.rawInput ?? 'A reference')} names a cell that no table has.` };
  if (isLost(ast)) return gone('this formula read');
  if (ast.type === 'ERROR') return { word: 'error', message: 'An error is written into this formula. To say that there is no value, write NA().' };
  return undefined;
}

function judge(hyper: Hyper, ast: Ast, at: Position, names: Names): Fault | undefined {
  const isThere = ({ sheet }: Position): boolean => sheet === at.sheet || names.table(sheet) !== undefined;
  let references = 0;
  let rangeCells = 0;
  for (const part of everyPart(ast)) {
    const fault = unknown(part, names);
    if (fault) return fault;
    if (part.type === 'CELL_REFERENCE') {
      references++;
      const cell = part.reference.toSimpleCellAddress(at);
      if (!isThere(cell)) return noTable(hyper, part, at, names);
      const past = pastTheEdge(cell, names);
      if (past) return past;
    }
    if (part.type === 'CELL_RANGE') {
      references++;
      const [start, end] = [part.start.toSimpleCellAddress(at), part.end.toSimpleCellAddress(at)];
      if (start.sheet !== end.sheet) return { word: 'no such cell', message: 'A range lies in one table: both its corners must.' };
      if (!isThere(start)) return noTable(hyper, part, at, names);
      rangeCells += (Math.abs(end.row - start.row) + 1) * (Math.abs(end.col - start.col) + 1);
    }
  }
  return tooMany(references, rangeCells);
}

/** What stands behind a number where its unit would, from a word that could not be read on. */
function unitAt(formula: string, word: string): string | undefined {
  if (!/^[\p{L}°]/u.test(word)) return undefined;
  for (const [, text = ''] of formula.matchAll(/(?<![\p{L}\d.$])\d[\d.]*\s*([\p{L}°][^\s(){},;*+&=<>"!-]*)/gu)) if (text.startsWith(word)) return text;
  return undefined;
}

/** Where a formula stops making sense, in words. */
function notUnderstood(formula: string, parsed: Parsed | undefined): Fault {
  const open = [...formula.replaceAll(/"[^"]*"/g, '')];
  const balance = open.filter((c) => c === '(').length - open.filter((c) => c === ')').length;
  if ((formula.split('"').length - 1) % 2 === 1)
    return { word: NOT_UNDERSTOOD, message: 'A text in this formula is not closed: a double quote (") is missing.' };
  if (balance > 0) return { word: NOT_UNDERSTOOD, message: `${balance === 1 ? 'A bracket is' : `${balance} brackets are`} not closed in this formula.` };
  if (balance < 0) return { word: NOT_UNDERSTOOD, message: 'This formula closes a bracket that it never opened.' };
  const found = said(parsed?.errors[0]?.message ?? '');
  // Of what was expected and what was found there, the second is in the formula.
  const near = /but found:?\s*(?:-->\s*)?'?(.*?)'?(?:\s*<--)?$|unexpected character: ->(.+?)<-/i.exec(found);
  const word = near?.[1] || near?.[2];
  const unitText = word && unitAt(formula, word);
  if (unitText) {
    const small = unitText.toLowerCase();
    const meant = small !== unitText && unit(small) ? ` Did you mean ${small}?` : '';
    return { word: NOT_UNDERSTOOD, message: `There is no unit “${unitText}” here.${meant}` };
  }
  return {
    word: NOT_UNDERSTOOD,
    message: word
      ? // Half of a character outside the first plane is said whole.
        `This formula can not be read at “${[...formula].find((c) => c.startsWith(word)) ?? word}”.`
      : 'This formula can not be read: something is missing at its end, or a sign is where a value belongs.',
  };
}

/** Single cells of what was judged to be sound, by what was read of it: good as long as tables and names stay. */
export type Sound = Map<Parsed, readonly Reference[]>;

/** The same for one of many: of formulas that say the same seen from their cells the first is judged, and of the others what hangs on their place. */
export function objectionToOne(hyper: Hyper, formula: string, at: Position, names: Names, sound: Sound): Fault | undefined {
  const known = formula.length <= FORMULA_BOUNDS.formulaCharacters ? hyper.known(formula, at) : undefined;
  const references = known && sound.get(known);
  if (!references) {
    const fault = objection(hyper, formula, at, names);
    const read = fault ? undefined : hyper.known(formula, at);
    if (read)
      sound.set(
        read,
        [...everyPart(read.ast)].flatMap((part) => (part.type === 'CELL_REFERENCE' ? [part.reference] : [])),
      );
    return fault;
  }
  for (const reference of references) {
    const past = pastTheEdge(reference.toSimpleCellAddress(at), names);
    if (past) return past;
  }
  return undefined;
}

/** Why a formula can't stand in a cell, or undefined where it can. */
export function objection(hyper: Hyper, formula: string, at: Position, names: Names): Fault | undefined {
  const long = tooLong(formula);
  if (long) return long;
  // The calculator's parser turns OFFSET into a reference, and no trace of it is left in the tree.
  if (/\bOFFSET\s*\(/i.test(formula.replaceAll(/"[^"]*"/g, ''))) return notOffered('OFFSET');
  let parsed: Parsed | undefined;
  try {
    parsed = hyper.parse(formula, at);
    if (parsed.errors.length > 0) return notUnderstood(formula, parsed);
    const fault = judge(hyper, parsed.ast, at, names);
    if (fault) return fault;
    if (hyper.spills(parsed.ast, at))
      return { word: 'more than one value', message: 'This gives several values, and a cell holds one: put it inside SUM, INDEX or the like.' };
  } catch {
    return notUnderstood(formula, parsed);
  }
  return undefined;
}

export const tooMuchText = (text: string): Fault | undefined =>
  text.length > FORMULA_BOUNDS.text
    ? {
        word: 'too large',
        message: `A cell's text is at most ${FORMULA_BOUNDS.text.toLocaleString('en-GB')} characters long; this has ${text.length.toLocaleString('en-GB')}.`,
      }
    : undefined;
