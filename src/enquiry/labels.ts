/** Answers that are written out as a list: `Bench length: 3.6 m`, `mains_volts = 230 V`, `Crop is sweet basil`. Each is read just as if it were typed into its cell. */
import { readContent } from '../../functions/quantity-text.ts';
import { fromBase, unit } from '../../functions/units.ts';
import { type At, placeIn } from '../book/address.ts';
import type { Book } from '../book/book.ts';
import { plainText } from '../book/content.ts';
import { addressOf, namesOf, rangeOf, standingOf, titleOf, unitOf } from '../book/look-up.ts';
import { readPlain, unitInBook } from '../book/read-plain.ts';
import type { Marks } from './numbers.ts';
import { plain } from './plain.ts';

export interface Labelled {
  readonly at: At;
  readonly value: number | string | boolean;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
  /** Of a text that its cell does not take. */
  readonly refused?: string;
  /** It may be said in other words, which the rules know. */
  readonly soft: boolean;
  /** The value's own words. */
  readonly written: string;
}

const keyOf = (text: string): string => plain(text).trim().replace(/\s+/gu, ' ');

interface Called {
  readonly names: ReadonlyMap<string, At>;
  /** The first words of all of them: most lines begin with none. */
  readonly firsts: ReadonlySet<string>;
}

const known = new WeakMap<Book['tables'], Called>();

const FIRST = /^[^\s:=]*/u;

/** What givens are called: by their headings where only one is called so, by name and by address. */
function called(book: Book): Called {
  const before = known.get(book.tables);
  if (before) return before;
  const [titles, own] = [new Map<string, At | undefined>(), new Map<string, At>()];
  for (const table of book.tables) {
    for (let r = 0; r < table.rows.length; r++) {
      for (let c = 0; c < table.columns.length; c++) {
        const at = placeIn(table, c, r);
        if (!at || !['given', 'as'].includes(standingOf(at))) continue;
        const title = keyOf(titleOf(at));
        titles.set(title, titles.has(title) ? undefined : at);
        own.set(addressOf(at).toLowerCase(), at);
        for (const name of namesOf(book, at)) {
          own.set(name.toLowerCase(), at);
          if (name.includes('_')) titles.set(keyOf(name.replaceAll('_', ' ')), at);
        }
      }
    }
  }
  const names = new Map<string, At>(own);
  for (const [title, at] of titles) if (at && !names.has(title)) names.set(title, at);
  const made: Called = { names, firsts: new Set(Array.from(names.keys(), (name) => FIRST.exec(name)?.[0] ?? '')) };
  known.set(book.tables, made);
  return made;
}

const BULLET = /^[\s>*•·#-]*(?:\(?\d{1,3}[.)]\s+)?/u;
const THE = /^the /u;
const PARTS = /\s*(?::|=|(?<!\p{L})(?:is|are)(?!\p{L}))\s*/gu;
const LONGEST_LABEL = 200;
const LONGEST = 2000;

/** `text`: plain, of the length of the original. */
export function labelled(book: Book, original: string, text: string, marks: Marks): readonly Labelled[] {
  const names = called(book);
  const found: Labelled[] = [];
  let place = 0;
  for (const line of text.split('\n')) {
    const start = place;
    place += line.length + 1;
    if (line.length > LONGEST) continue;
    const whole = read(book, names, original, text, { from: start, to: start + line.length }, marks);
    if (whole) {
      found.push(whole);
      continue;
    }
    let from = start;
    for (const part of line.split(/(?<=;|\.(?=\s))/u)) {
      const one = part.length < line.length ? read(book, names, original, text, { from, to: from + part.length }, marks) : undefined;
      if (one) found.push(one);
      from += part.length;
    }
  }
  return found;
}

function read(
  book: Book,
  { names, firsts }: Called,
  original: string,
  text: string,
  stretch: { from: number; to: number },
  marks: Marks,
): Labelled | undefined {
  const line = text.slice(stretch.from, stretch.to);
  const bullet = BULLET.exec(line)?.[0].length ?? 0;
  const begins = line.slice(bullet, bullet + LONGEST_LABEL);
  if (![begins, begins.replace(THE, '')].some((label) => firsts.has(FIRST.exec(label)?.[0] ?? ''))) return undefined;
  let refused: Labelled | undefined;
  for (const { 0: sign, index } of line.slice(0, bullet + LONGEST_LABEL).matchAll(PARTS)) {
    const label = line.slice(bullet, index).trim().replace(/\s+/gu, ' ');
    const at = index <= bullet ? undefined : (names.get(label) ?? names.get(label.replace(THE, '')));
    if (!at) continue;
    const rest = original.slice(stretch.from + index + sign.length, stretch.to);
    const written = rest.trim().replace(/[;,]$/u, '').trim();
    const soft = /is|are/u.test(sign) || rangeOf(at)?.from !== undefined || rangeOf(at)?.oneOf?.every((one) => !/^\d/u.test(one)) === true;
    const [from, to] = [stretch.from + bullet, stretch.from + index + sign.length + rest.trimEnd().length];
    if (written === '' || written.startsWith('=')) continue;
    const taken = readPlain(book, at, written, unitInBook(book, at) ?? '', marks === 'comma' ? ',' : '.');
    const again =
      taken.ok || !written.endsWith('.') ? taken : readPlain(book, at, written.slice(0, -1), unitInBook(book, at) ?? '', marks === 'comma' ? ',' : '.');
    // A longer label may begin as this one does.
    if (!again.ok) refused ??= { at, value: written, unit: '', from, to, refused: again.message, soft, written };
    else return { at, ...amountIn(book, at, again.content), from, to, soft, written };
  }
  return refused;
}

/** A content in the unit of its given. */
export function amountIn(book: Book, at: At, content: string): { readonly value: number | string | boolean; readonly unit: string } {
  const said = readContent(content, book.currency);
  if (said.kind === 'yes or no') return { value: said.yes, unit: '' };
  if (said.kind !== 'number') return { value: plainText(content), unit: '' };
  const own = unit(said.unit);
  const set = unit(unitOf(at) ?? said.unit);
  const shown = set && own && set.dimension === own.dimension && set.reading === own.reading ? set : own;
  return {
    value: shown ? Number(fromBase(said.base, shown).toPrecision(15)) : said.given,
    unit:
      shown === set && own?.symbol.includes('/')
        ? own?.dimension === shown?.dimension
          ? symbolOf(shown?.symbol ?? '', own.symbol)
          : ''
        : (shown?.symbol ?? ''),
  };
}

/** Of two units of one kind the one that is set; of money the currency that was written. */
function symbolOf(set: string, written: string): string {
  return /^[A-Z]{3}(?:\/|$)/u.test(written) ? set.replace(/^[A-Z]{3}/u, written.slice(0, 3)) : set;
}
