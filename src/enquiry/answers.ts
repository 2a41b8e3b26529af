/** What a text says, as answers to the givens of one template's book: each sure or to be asked; the rest said and not used; what is missing. */
import { textContent } from '../../functions/quantity-text.ts';
import { currencyOf, fromBase, toBase, unit } from '../../functions/units.ts';
import type { At } from '../book/address.ts';
import { notAllowed } from '../book/allowed.ts';
import type { Book } from '../book/book.ts';
import { addressOf, unitOf } from '../book/look-up.ts';
import { labelled } from './labels.ts';
import { marksOf } from './numbers.ts';
import { cropsOf } from './plants.ts';
import { CIRCUIT } from './rules.ts';
import { overlaps, type Stretch } from './sentences.ts';
import { type Candidate, nameOf, type Takes, takesOf } from './takes.ts';
import { type Heard, NO_CURRENCY, type Said, SEVERAL, type Value } from './things.ts';

export type { Value } from './things.ts';

export interface Finding {
  /** The name of the given, else its address. */
  readonly given: string;
  /** In the quantity of the given. */
  readonly value: Value;
  readonly unit: string;
  readonly sure: boolean;
  /** As the client wrote them. */
  readonly words: string;
  /** Where they stand, in UTF-16 units, the end exclusive. */
  readonly at: readonly [from: number, to: number];
  /** Why it is to be asked, or what is wrong with it. */
  readonly said?: string;
}

export interface Unused {
  readonly words: string;
  readonly value: Value;
  readonly unit: string;
  readonly at: readonly [from: number, to: number];
  readonly said?: string;
}

export interface Answers {
  readonly findings: readonly Finding[];
  readonly unused: readonly Unused[];
  /** Questions for the client that the text does not answer. */
  readonly missing: readonly string[];
  /** The code of the money that is spoken of, where it is one and said. */
  readonly currency?: string;
  /** Feet and inches are written. */
  readonly measures?: Book['measures'];
}

/** However plainly it is said: what else hangs there, and what is written on it, is for somebody who looks. */
const ALWAYS_ASKED = new Set(['breaker', 'circuits_free', 'spare_power']);

/** Money that is named apart from an amount: `30 cents, euro of course`. A dollar may be one of several. */
const MONEY_WORDS: readonly (readonly [word: RegExp, code: string])[] = [
  [/(?<!\p{L})euros?(?!\p{L})|€/u, 'EUR'],
  [/(?<!\p{L})us dollars?(?!\p{L})|us ?\$/u, 'USD'],
  [/£|(?<!\p{L})pounds? sterling(?!\p{L})/u, 'GBP'],
  [/(?<!\p{L})swiss (?:francs?|money)(?!\p{L})/u, 'CHF'],
  [/(?<!\p{L})(?:nz|new zealand|kiwi) (?:dollars?|cents?|money)(?!\p{L})/u, 'NZD'],
  [/(?<!\p{L})(?:au|aussie|australian) (?:dollars?|cents?|money)(?!\p{L})/u, 'AUD'],
  [/(?<!\p{L})canadian (?:dollars?|cents?|money)(?!\p{L})/u, 'CAD'],
];

export function answers(original: string, { plain, said, rest }: Heard, template: Book): Answers {
  const codes = new Set([...said, ...rest].flatMap(({ unit: symbol }) => currencyOf(symbol) ?? []));
  const spoken = codes.size === 0 ? MONEY_WORDS.filter(([word]) => word.test(plain)).map(([, code]) => code) : [...codes];
  const currency = spoken.length === 1 ? spoken[0] : undefined;
  const book: Book = currency === undefined ? template : { ...template, currency };
  const takes = takesOf(template);
  const lines = labelled(book, original, plain, marksOf(plain));
  // What a cell does not take may be said in other words, which the rules know.
  const inLine = overlaps(lines.filter(({ refused, soft }) => refused === undefined || !soft));
  const candidates: Candidate[] = lines.flatMap((line) => (line.refused === undefined ? [{ ...line, line: true as const, ask: askOfLine(book, line) }] : []));
  const unused: Unused[] = [];
  const free = said.filter((one) => !inLine(one));
  const hasCrop = free.filter(({ means }) => means === 'crop' || means === 'stage');
  for (const one of free) {
    if (one.means === 'crop' || one.means === 'stage') continue;
    const placed = placeFor(takes, book, one, plain);
    if (placed) candidates.push(placed);
    else if (!TWICE.has(one.means)) unused.push(unusedOf(original, one));
  }
  const plants = cropsOf(takes.plants, hasCrop);
  const cropAt = takes.plants?.crop;
  const unknown = ({ means, value }: Said): string | undefined =>
    means === 'crop' && cropAt ? notAllowed(book, cropAt, textContent(String(value))) : undefined;
  const others = unused.concat(
    plants.rest.map((one): Unused => ({ ...unusedOf(original, one), ...(unknown(one) === undefined ? {} : { said: unknown(one) as string }) })),
    rest.filter((one) => !inLine(one)).map((one) => unusedOf(original, one)),
  );
  const all = candidates.concat(plants.candidates);
  // Where the answer itself is said, the height of a roof is no other answer.
  const told = new Set(all.filter(({ near }) => !near).map(({ at }) => addressOf(at)));
  const isBeside = ({ near, at }: Candidate): boolean => near === true && told.has(addressOf(at));
  for (const one of all.filter(isBeside)) others.push({ ...trimmed(original, one), value: one.value, unit: one.unit });
  const findings = settle(
    book,
    original,
    all.filter((one) => !isBeside(one)),
    currency,
  );
  for (const { refused, soft, value, unit: symbol, from, to } of lines)
    if (refused !== undefined && !(soft && [...findings, ...others].some(({ at: [start] }) => start >= from && start < to)))
      others.push({ words: original.slice(from, to), value, unit: symbol, at: [from, to], said: refused });
  const answered = new Set(findings.map(({ given }) => given));
  return {
    findings,
    unused: others.sort((a, b) => a.at[0] - b.at[0]),
    missing: takes.questions.filter((name) => !answered.has(name)),
    ...(currency === undefined ? {} : { currency }),
    ...(/\d ?(?:ft|feet|foot|inch(?:es)?|in|"|')(?!\p{L})|°f/u.test(plain) ? { measures: 'US customary' as const } : {}),
  };
}

/** Said in another way already: hours on and off say the hours too, and nobody reads the meter's kind off a text where it is not asked. */
const TWICE: ReadonlySet<string> = new Set(['hours', 'on', 'off', 'meter']);

/** Without the gaps at their ends. */
function trimmed(original: string, { from, to }: Stretch): { readonly words: string; readonly at: readonly [number, number] } {
  const words = original.slice(from, to);
  const start = from + (words.length - words.trimStart().length);
  return { words: words.trim(), at: [start, start + words.trim().length] };
}

const unusedOf = (original: string, one: Said): Unused => ({ ...trimmed(original, one), value: one.value, unit: one.unit });

function askOfLine(book: Book, { at, unit: symbol, written }: { readonly at: At; readonly unit: string; readonly written: string }): string | undefined {
  if (ALWAYS_ASKED.has(nameOf(book, at))) return CIRCUIT;
  const money = currencyOf(symbol);
  return money !== undefined && currencyOf(written) === undefined && !/[A-Z]{3}|\p{Sc}/u.test(written) ? NO_CURRENCY : undefined;
}

/** Where in the book a thing that was said belongs; undefined where the template asks for nothing of the kind. */
function placeFor({ places }: Takes, book: Book, one: Said, text: string): Candidate | undefined {
  const found = places.get(one.means);
  if (!found) return undefined;
  const { at, place } = found;
  const own = ALWAYS_ASKED.has(place.name ?? '') ? CIRCUIT : (place.ask ?? (place.asked?.where.test(text) ? place.asked.why : undefined) ?? one.ask);
  // One reading is a grid of one.
  const value = place.readings && typeof one.value === 'number' ? [[one.value]] : one.value;
  return {
    at,
    value,
    unit: one.unit,
    from: one.from,
    to: one.to,
    ask: notListed(book, at, one) ?? own,
    ...(place.ask !== undefined && { near: true as const }),
  };
}

/** A given that takes texts of a list: a lamp that the list does not have can't be meant. */
const notListed = (book: Book, at: At, one: Said): string | undefined =>
  one.means === 'lamp kind' && notAllowed(book, at, textContent(String(one.value))) !== undefined ? 'It is not in the list.' : undefined;

/** Values of one given that are shown beside one another: nobody picks among more. */
const MOST_VALUES = 12;

/** Each in the quantity of its given, held against its range; what is said twice is said once, and what contradicts is asked. */
function settle(book: Book, original: string, candidates: readonly Candidate[], currency: string | undefined): readonly Finding[] {
  const made = candidates.flatMap((one): Finding[] => {
    const given = nameOf(book, one.at);
    const turned = inQuantity(book, one, currency);
    const { value } = turned;
    const symbol = one.line && one.ask === NO_CURRENCY ? turned.unit.replace(/^[A-Z]{3}\//u, '/') : turned.unit;
    const wrong =
      Array.isArray(value) || one.listed ? undefined : notAllowed(book, one.at, contentOf(book, value as number | string | boolean, turned.content));
    // A currency that is spoken of elsewhere is that of a price without one.
    const own = one.ask === NO_CURRENCY && turned.ask === undefined && !one.line ? undefined : one.ask;
    const ask = wrong ?? turned.ask ?? own;
    return [{ given, value, unit: symbol, sure: ask === undefined, ...trimmed(original, one), ...(ask === undefined ? {} : { said: ask }) }];
  });
  const kept: Finding[] = [];
  for (const all of grouped(made).values()) {
    const byValue = new Map<string, Finding>();
    for (const one of all) {
      const key = `${JSON.stringify(one.value)} ${one.unit}`;
      if (!byValue.has(key) || (one.sure && !byValue.get(key)?.sure)) byValue.set(key, one);
    }
    const once = [...byValue.values()].slice(0, MOST_VALUES);
    for (const one of once) kept.push(once.length === 1 ? one : { ...one, sure: false, said: one.said ?? SEVERAL });
  }
  return kept.sort((a, b) => a.at[0] - b.at[0] || a.at[1] - b.at[1]);
}

function grouped(all: readonly Finding[]): ReadonlyMap<string, readonly Finding[]> {
  const found = new Map<string, Finding[]>();
  for (const one of all) {
    const same = found.get(one.given);
    if (same) same.push(one);
    else found.set(one.given, [one]);
  }
  return found;
}

const contentOf = (book: Book, value: number | string | boolean, symbol: string): string => {
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return typeof value === 'string' ? textContent(value, book.currency) : `${value}${symbol === '' ? '' : ` ${symbol}`}`;
};

/** The value in the unit of its given. `content`: that unit as the book stores it. */
function inQuantity(
  book: Book,
  { at, value, unit: symbol }: Candidate,
  currency: string | undefined,
): { readonly value: Value; readonly unit: string; readonly content: string; readonly ask?: string } {
  if (typeof value !== 'number') return { value, unit: symbol, content: '' };
  const set = unitOf(at);
  if (symbol === '/kWh' || /^[A-Z]{3}\//u.test(symbol)) {
    const own = currencyOf(symbol) ?? currency;
    const rest = symbol.slice(symbol.indexOf('/'));
    return { value, unit: `${own ?? ''}${rest}`, content: `${own ?? book.currency}${rest}`, ...(own === undefined ? { ask: NO_CURRENCY } : {}) };
  }
  const [from, to] = [unit(symbol), unit(set ?? '')];
  if (!from || !to || set === undefined || from.symbol === to.symbol || from.dimension !== to.dimension || from.reading !== to.reading)
    return { value, unit: symbol, content: symbol };
  return { value: Number(fromBase(toBase(value, from), to).toPrecision(12)), unit: to.symbol, content: to.symbol };
}
