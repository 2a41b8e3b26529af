/** The words of a formula as it is written, whole or half done: where each begins and ends, and what it is. */
import { REFERENCE, type Reference, referenceOf } from '../../book/address.ts';

export interface Word {
  readonly kind:
    | 'text'
    /** A text whose closing quote is still missing. */
    | 'open text'
    | 'reference'
    | 'table'
    /** The name of a function, without its bracket. */
    | 'call'
    | 'name'
    | 'number'
    | 'unit'
    | 'open'
    | 'close'
    | 'comma'
    | 'sign'
    | 'space';
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** Of a reference: what it points at. */
  readonly reference?: Reference;
}

/** × and ÷ lie among the letters of Latin-1. */
const LETTER = 'A-Za-z_\\u00C0-\\u00D6\\u00D8-\\u00F6\\u00F8-\\u02AF';
const NAME = new RegExp(`[${LETTER}][${LETTER}\\d.]*`, 'uy');
/** A table without its cell yet. Without quotes it is a name that ends in a point: whether there is such a table is the book's to say. */
const TABLE = new RegExp(`'(?:[^']|'')+'[.!]|[${LETTER}\\d]+!`, 'uy');
const TEXT = /"(?:[^"]|"")*"/y;
const NUMBER = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+(?![\w.]))?/y;
const SPACE = /\s+/y;
const MARKS: Readonly<Record<string, Word['kind']>> = { '(': 'open', '{': 'open', ')': 'close', '}': 'close', ',': 'comma', ';': 'comma' };

type Reads = (text: string, at: number) => RegExpExecArray | null | undefined;

/**
 * `unitLength` tells how long the unit is that stands after a number's digits, gap and all; without it, units are not told from names.
 * `other` reads references that are written otherwise than they are kept, as they may be while someone writes.
 */
export function wordsOf(formula: string, unitLength: (after: string) => number = () => 0, other: Reads = () => undefined): readonly Word[] {
  const words: Word[] = [];
  let at = 0;
  const match = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = at;
    return pattern.exec(formula);
  };
  const put = (kind: Word['kind'], length: number, reference?: Reference): void => {
    words.push({ kind, from: at, to: at + length, text: formula.slice(at, at + length), ...(reference && { reference }) });
    at += length;
  };
  while (at < formula.length) {
    const found = other(formula, at) ?? match(REFERENCE);
    const reference = found && referenceOf(found);
    const space = match(SPACE);
    const text = match(TEXT);
    const number = reference ? null : match(NUMBER);
    const table = match(TABLE);
    const name = match(NAME);
    if (space) put('space', space[0].length);
    else if (text) put('text', text[0].length);
    else if (formula[at] === '"') put('open text', formula.length - at);
    else if (reference) put('reference', found[0].length, reference);
    else if (table) put('table', table[0].length);
    else if (number) {
      put('number', number[0].length);
      const unit = unitLength(formula.slice(at));
      if (unit > 0) put('unit', unit);
    } else if (name) put(/^\s*\(/.test(formula.slice(at + name[0].length)) ? 'call' : 'name', name[0].length);
    else put(MARKS[formula[at] ?? ''] ?? 'sign', 1);
  }
  return words;
}

/** Where the caret stands among the arguments of the innermost function round it. */
export interface Standing {
  readonly name: string;
  /** Which argument, from 0. */
  readonly argument: number;
}

export function standingAt(words: readonly Word[], caret: number): Standing | undefined {
  const open: { name: string | undefined; argument: number; sign: string }[] = [];
  let before: Word | undefined;
  for (const word of words) {
    // The caret is inside a bracket once it is past it.
    if (word.from >= caret) break;
    if (word.kind === 'open') open.push({ name: before?.kind === 'call' ? before.text.toUpperCase() : undefined, argument: 0, sign: word.text });
    else if (word.kind === 'close') open.pop();
    else if (word.kind === 'comma') {
      const last = open.at(-1);
      if (last && last.sign === '(') last.argument++;
    }
    if (word.kind !== 'space') before = word;
  }
  // A bracket that only groups belongs to the argument in which it stands.
  return open.findLast((each) => each.name !== undefined) as Standing | undefined;
}

/** The word that ends at or holds the caret, and the last word before it that is no space. */
export function wordsAt(words: readonly Word[], caret: number): { readonly word: Word | undefined; readonly before: Word | undefined } {
  const word = words.find((each) => each.from < caret && caret <= each.to);
  const before = words.filter((each) => each.to <= caret && each.kind !== 'space').at(-1);
  return { word, before };
}

/** Whether a reference can be put in where the caret stands: after a sign, a bracket or a comma, and before none but those. */
export function takesReference(words: readonly Word[], caret: number): boolean {
  const { word, before } = wordsAt(words, caret);
  if (word && word.kind !== 'space' && word.to > caret) return false;
  const after = words.find((each) => each.from >= caret && each.kind !== 'space');
  const free = after === undefined || after.kind === 'close' || after.kind === 'comma' || after.kind === 'sign';
  // A per cent sign ends a value; the other signs ask for one.
  return free && (before?.kind === 'open' || before?.kind === 'comma' || (before?.kind === 'sign' && before.text !== '%'));
}

/**
 * A formula that is not finished, with its brackets closed, so that what is there already can be looked at. `whole`: nothing was missing.
 * Undefined where a value is still missing at its end, or a text is open.
 */
export function closed(formula: string, words: readonly Word[]): { readonly text: string; readonly whole: boolean } | undefined {
  const last = words.filter((word) => word.kind !== 'space').at(-1);
  if (
    !last ||
    last.kind === 'open text' ||
    last.kind === 'comma' ||
    last.kind === 'open' ||
    last.kind === 'table' ||
    (last.kind === 'name' && last.text.endsWith('.'))
  )
    return undefined;
  if (last.kind === 'sign' && last.text !== '%') return undefined;
  const open: string[] = [];
  for (const word of words) {
    if (word.kind === 'open') open.push(word.text === '{' ? '}' : ')');
    else if (word.kind === 'close') open.pop();
  }
  return { text: formula + open.reverse().join(''), whole: open.length === 0 };
}
