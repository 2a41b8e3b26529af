/** Reads as much of a broken book file as there is, and completes it to something that can be looked at. */

import { BOUNDS } from '../../book/bounds.ts';

type Stored = Record<string, unknown>;

/** `cut`: the text ends before the book does, and is sound up to there. */
export function rescue(text: string): { readonly found: Stored | undefined; readonly cut: boolean } {
  const { json, cut } = closed(text.replace(/^\uFEFF/u, ''));
  if (json === undefined) return { found: undefined, cut };
  try {
    const found: unknown = JSON.parse(json);
    return { found: isStored(found) ? completed(found) : undefined, cut };
  } catch {
    return { found: undefined, cut: false };
  }
}

/** A bracket that is open, and the one around it. */
interface Open {
  readonly closer: '}' | ']';
  readonly around: Open | undefined;
}

/** The text up to its last whole value, with the brackets that are open there closed. Each letter is looked at once. */
function closed(text: string): { readonly json: string | undefined; readonly cut: boolean } {
  let open: Open | undefined;
  let end = 0;
  let openAtEnd: Open | undefined;
  let previous = '';
  let at = 0;
  for (;;) {
    const token = tokenAt(text, at);
    if (!token) break;
    const { mark, kind } = token;
    at = token.end;
    if (mark === '{' || mark === '[') open = { closer: mark === '{' ? '}' : ']', around: open };
    else if (mark === '}' || mark === ']') {
      if (open?.closer !== mark) break;
      open = open.around;
    }
    // A text before a colon is a key, no value yet; a number at the very end may have lost digits.
    const isKey = kind === 'text' && open?.closer === '}' && previous !== ':';
    const isValue = kind === 'mark' ? mark !== ':' && mark !== ',' : !isKey && (kind === 'text' || at < text.length);
    if (isValue) {
      end = at;
      openAtEnd = open;
    }
    previous = mark;
    if (!open) break;
  }
  // What is left over is the beginning of one token where the text was cut, and something else where it was spoilt.
  const cut = open !== undefined && isPartOfToken(text, at);
  let ends = '';
  for (let each = openAtEnd; each; each = each.around) ends += each.closer;
  return { json: end === 0 ? undefined : text.slice(0, end) + ends, cut };
}

interface Token {
  readonly kind: 'mark' | 'text' | 'word';
  /** The bracket, comma or colon. */
  readonly mark: string;
  readonly end: number;
}

const WORD = /-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?|true|false|null/uy;

function tokenAt(text: string, from: number): Token | undefined {
  const at = afterBlanks(text, from);
  const first = text[at] ?? '';
  if (first !== '' && '{}[]:,'.includes(first)) return { kind: 'mark', mark: first, end: at + 1 };
  if (first === '"') {
    const end = endOfText(text, at);
    return end === undefined ? undefined : { kind: 'text', mark: '', end };
  }
  WORD.lastIndex = at;
  return WORD.test(text) ? { kind: 'word', mark: '', end: WORD.lastIndex } : undefined;
}

const BLANKS = ' \n\r\t';

function afterBlanks(text: string, from: number): number {
  let at = from;
  while (at < text.length && BLANKS.includes(text.charAt(at))) at++;
  return at;
}

/** Behind the closing quote; undefined where there is none before the text ends or is spoilt. An expression would need room for every letter. */
function endOfText(text: string, from: number): number | undefined {
  for (let at = from + 1; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === QUOTE) return at + 1;
    if (isControl(code)) return undefined;
    if (code === BACKSLASH && isControl(text.charCodeAt(++at))) return undefined;
  }
  return undefined;
}

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const isControl = (code: number): boolean => code < 0x20 || (code >= 0x7f && code < 0xa0);

function isPartOfToken(text: string, from: number): boolean {
  const rest = text.slice(from).trim();
  if (!rest.startsWith('"')) return rest === '' || (rest.length < LONGEST_WORD && PART_OF_WORD.test(rest));
  // It has no closing quote, or it would be a whole one.
  for (let at = 0; at < rest.length; at++) if (isControl(rest.charCodeAt(at))) return false;
  return true;
}

const LONGEST_WORD = 400;
const PART_OF_WORD = /^(?:[-\d.eE+]+|t(?:ru?)?|f(?:a(?:ls?)?)?|n(?:ul?)?)$/u;

/** Puts empty lists where the rest of the book is missing, and leaves out what was cut through. */
function completed(stored: Stored): Stored {
  const tables = list(stored.tables)
    .filter((t) => Array.isArray(t.columns) && Array.isArray(t.rows))
    .map(completedTable);
  const ids = new Set(tables.map((table) => table.id));
  const pages = list(stored.pages)
    .filter((page) => typeof page.title === 'string')
    .map((page) => ({ ...page, blocks: list(page.blocks).filter((block) => whole(block) && (block.kind !== 'table' || ids.has(block.table))) }));
  // The mark between table and cell is that of any version.
  const places = new Set(tables.flatMap(({ name }) => [`${name}`, `'${String(name).replaceAll("'", "''")}'`]));
  const names = entries(stored.names).filter(([, target]) => typeof target === 'string' && places.has(placeBefore(target)));
  return { client: '', currency: 'EUR', measures: 'metric', ...stored, pages, tables, names: Object.fromEntries(names) };
}

/** What says the table in front of an address. */
const placeBefore = (target: string): string => (target.length > BOUNDS.title ? '' : (/^('(?:[^']|'')*'|[^.!]*)[.!]/u.exec(target)?.[1] ?? ''));

function completedTable(table: Stored): Stored {
  const columns = list(table.columns).filter((column) => typeof column.id === 'string');
  const rows = list(table.rows).filter((row) => typeof row.id === 'string');
  const cells = entries(table.cells).map(([row, line]) => [
    row,
    Object.fromEntries(entries(line).filter(([, cell]) => isStored(cell) && typeof cell.content === 'string')),
  ]);
  return { ...table, columns, rows, cells: Object.fromEntries(cells) };
}

function whole(block: Stored): boolean {
  if (block.kind === 'prose') return typeof block.text === 'string';
  if (block.kind === 'table') return typeof block.table === 'string';
  return block.kind === 'picture' && typeof block.picture === 'string' && typeof block.caption === 'string' && typeof block.reads === 'object';
}

const isStored = (value: unknown): value is Stored => typeof value === 'object' && value !== null && !Array.isArray(value);
const entries = (value: unknown): [string, unknown][] => (isStored(value) ? Object.entries(value) : []);
const list = (value: unknown): Stored[] => (Array.isArray(value) ? value.filter(isStored) : []);
