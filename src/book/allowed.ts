/** Whether a value keeps to its cell's allowed range: what is written, and, where the engine asks, what a given's formula gives. */
import { didYouMean } from '../../functions/nearest.ts';
import { readContent, showNumber, withSpaces } from '../../functions/quantity-text.ts';
import { fromBase, need, toBase, type Unit, unit, withCurrency } from '../../functions/units.ts';
import { type At, placeIn, readReference, tableNamed } from './address.ts';
import type { Book, Range } from './book.ts';
import { saying, wholeLines } from './goes-with.ts';
import { rangeOf, titleOf, unitOf } from './look-up.ts';
import { gaugeChoices, isGauge } from './wires.ts';

/** Why the content is not allowed there: what was given, where, and what is allowed; undefined where it is. Formulas are not judged. */
export function notAllowed(book: Book, at: At, content: string): string | undefined {
  const range = rangeOf(at);
  if (!range) return undefined;
  const said = readContent(content, book.currency);
  if (said.kind === 'blank' || said.kind === 'formula') return undefined;
  const given = (said.kind === 'text' ? said.text : content).slice(0, MOST_LETTERS);
  const choices = choicesOf(book, at, range);
  if (choices) {
    const text = said.kind === 'text' ? said.text : content;
    // An amount is the same in any unit: 0.015 cm² is a choice where 1.5 mm² is one.
    const isIt = (choice: string): boolean => {
      const one = said.kind === 'number' ? readContent(choice, book.currency) : undefined;
      if (said.kind === 'number' && one?.kind === 'number') return unit(one.unit)?.dimension === unit(said.unit)?.dimension && close(one.base, said.base);
      return choice.toLowerCase() === text.toLowerCase();
    };
    if (choices.some(isIt)) return undefined;
    const lines = wholeLines(book, at) ?? [];
    if (lines.some(isIt) || (said.kind === 'number' && isGauge(at, range, said.base))) return undefined;
    if (!limitsOf(book, range))
      return `${titleOf(at)}: “${given}” is not one of the choices: ${listed(gaugeChoices(book, at, range) ?? choices.map(shownChoice))}.${meant(book, text, choices, lines)}`;
  }
  const limits = limitsOf(book, range);
  if (!limits) return undefined;
  if (said.kind !== 'number') return `${titleOf(at)} takes a number, ${shownSpan(at, limits)}; “${given}” is none.`;
  return beyond(at, limits, { base: said.base, unit: unit(said.unit), text: content });
}

/**
 * What a refused text may have meant. Of amounts it is the next smaller one and never a larger: who has a breaker of 15 A must not be talked into the 16 A
 * that the wire does not stand. Of numbers without a unit none: of wire gauges the larger number is the thinner wire.
 */
function meant(book: Book, text: string, choices: readonly string[], lines: readonly string[]): string {
  const near = saying(lines, text);
  if (near.length > 0 && near.length <= MOST_NEAR) return ` Did you mean ${near.map((line) => `“${line}”`).join(' or ')}?`;
  const amounts = choices.map((choice) => readContent(choice, book.currency));
  if (!amounts.some((amount) => amount.kind === 'number')) return didYouMean(text, choices.map(shownChoice));
  const said = readContent(text, book.currency);
  const kind = said.kind === 'number' ? unit(said.unit)?.dimension : undefined;
  if (said.kind !== 'number' || unit(said.unit)?.symbol === '') return '';
  const below = amounts.flatMap((amount, i) =>
    amount.kind === 'number' && unit(amount.unit)?.dimension === kind && amount.base < said.base ? [{ base: amount.base, text: choices[i] }] : [],
  );
  const [nearest] = below.toSorted((a, b) => b.base - a.base);
  return nearest ? ` Did you mean ${nearest.text}?` : '';
}

/** The limits of a number that a formula gives for a given. What is said to be worked or a check answers to none. */
export function resultLimits(book: Book, at: At): Limits | undefined {
  const kind = at.cell?.kind ?? at.row.kind ?? at.column.kind;
  const range = kind === 'worked' || kind === 'check' ? undefined : rangeOf(at);
  return range && limitsOf(book, range);
}

/** Why such a number, in base units and shown in a unit, is not allowed; undefined where it is. */
export const resultNotAllowed = (at: At, limits: Limits, base: number, shown = limits.unit.symbol): string | undefined =>
  beyond(at, limits, { base, unit: unit(shown), text: withSpaces(showNumber(base, shown).text) });

export interface Limits {
  readonly range: Range;
  readonly unit: Unit;
  /** The book's measures: in a US customary one limits are not said in metres too. */
  readonly metric: boolean;
}

function limitsOf(book: Book, range: Range): Limits | undefined {
  if (range.low === undefined && range.high === undefined) return undefined;
  const symbol = withCurrency(range.unit ?? '', book.currency);
  const found = unit(symbol);
  return found && { range: { ...range, unit: symbol }, unit: found, metric: book.measures === 'metric' };
}

function beyond(at: At, limits: Limits, said: { readonly base: number; readonly unit: Unit | undefined; readonly text: string }) {
  const { range, unit: limit } = limits;
  // A plain 0 is no quantity in particular; any other number must be of the kind that the limits are.
  if (said.unit?.dimension !== limit.dimension && said.base !== 0) {
    const needs = limit.symbol === '' ? 'a plain number' : `a quantity in ${limit.symbol} or the like`;
    return `${titleOf(at)} takes ${needs}, ${shownSpan(at, limits)}; ${said.text} is not one.`;
  }
  const past = (bound: number | undefined, sign: 1 | -1): boolean =>
    bound !== undefined && sign * (said.base - toBase(bound, limit)) > 0 && !close(said.base, toBase(bound, limit));
  const where = past(range.low, -1) ? 'below' : past(range.high, 1) ? 'above' : undefined;
  return where && `${titleOf(at)}: ${said.text} is ${where} what is allowed, ${shownSpan(at, limits, said.unit?.symbol)}.`;
}

/** 36 in must pass a limit of 0.9144 m whatever the last bit says. */
const close = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));

/** The allowed contents, or undefined where the range is one of numbers, or lists cells of which one is worked out by a formula, or all are blank. */
export function choicesOf(book: Book, at: At, range: Range): readonly string[] | undefined {
  if (range.oneOf) return range.oneOf;
  const reference = range.from === undefined ? undefined : readReference(range.from);
  const table = reference && (reference.table === undefined ? at.table : tableNamed(book, reference.table));
  if (!reference || !table) return undefined;
  const choices: string[] = [];
  for (let r = reference.from.row; r <= reference.to.row; r++) {
    for (let c = reference.from.column; c <= reference.to.column; c++) {
      const stored = placeIn(table, c, r)?.cell?.content ?? '';
      const content = readContent(stored);
      if (content.kind === 'formula') return undefined;
      if (content.kind !== 'blank') choices.push(content.kind === 'text' ? content.text : stored);
    }
  }
  return choices.length > 0 ? [...new Set(choices)] : undefined;
}

/** Its list is what is offered, and other numbers may be written too. */
export const isOpen = (range: Range): boolean => range.oneOf !== undefined && (range.low !== undefined || range.high !== undefined);

/** What is stored of a given, in the word that its cell shows. */
export const shownChoice = (content: string): string => (content === 'TRUE' ? 'yes' : content === 'FALSE' ? 'no' : content);

/** What a typed text stands for: yes and no are TRUE and FALSE where one of the two stands, or is to stand. */
export function meantChoice(book: Book, at: At, typed: string): string {
  const meant = ['TRUE', 'FALSE'].find((content) => shownChoice(content) === typed.trim().toLowerCase());
  if (!meant) return typed;
  const range = rangeOf(at);
  const here = (range && choicesOf(book, at, range)) ?? [at.cell?.content ?? ''];
  return here.every((content) => shownChoice(content) !== content) ? meant : typed;
}

/** "from 0.1 to 3 m", "at least 0", "at most 24 h/d". */
export function spanText({ low, high, unit: symbol = '' }: Range): string {
  const end = symbol === '' || symbol === '1' ? '' : ` ${symbol}`;
  // Feet with a fraction are said as a tape has them.
  const tape = symbol === 'ft' && [low, high].some((bound) => bound !== undefined && !Number.isInteger(bound));
  const said = (bound: number | undefined, last: boolean): string => {
    if (tape && bound !== undefined) return withSpaces(showNumber(toBase(bound, need('ft')), 'ft').text);
    return `${bound}${last ? end : ''}`;
  };
  if (low === undefined) return `at most ${said(high, true)}`;
  return high === undefined ? `at least ${said(low, true)}` : `from ${said(low, false)} to ${said(high, true)}`;
}

/** In the unit in which the cell is shown, or else the number is written, and then as the range has it: "from 0.329 to 9.84 ft (0.1 to 3 m)". */
function shownSpan(at: At, { range, metric }: Limits, written = ''): string {
  const shown = rangeIn(range, unitOf(at) ?? written);
  if (shown === range) return spanText(range);
  return metric ? `${spanText(shown)} (${spanText(range).replace(/^from /, '')})` : spanText(shown);
}

/** The limits in another unit of their kind, to three digits, rounded inwards: what is said to be allowed is. The range itself where it has none such. */
export function rangeIn(range: Range, symbol: string): Range {
  const [limit, other] = [unit(range.unit ?? ''), unit(symbol)];
  if (!limit || !other || limit.symbol === other.symbol || limit.dimension !== other.dimension || limit.reading !== other.reading) return range;
  const turned = (bound: number | undefined, round: (number: number) => number, by: typeof threeDigits): number | undefined =>
    bound === undefined ? undefined : by(fromBase(toBase(bound, limit), other), round);
  const by = other.symbol === 'ft' ? eighths : threeDigits;
  const [low, high] = [turned(range.low, Math.ceil, by), turned(range.high, Math.floor, by)];
  return { ...range, ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }), unit: other.symbol };
}

/** Feet in whole eighths of an inch; what is shorter than one, to three digits. */
function eighths(feet: number, round: (number: number) => number): number {
  const found = round(Number((feet * 96).toPrecision(10)));
  return found === 0 ? threeDigits(feet, round) : found / 96;
}

function threeDigits(number: number, round: (number: number) => number): number {
  // What the turning of units left behind the tenth digit is no reason to round by one.
  const clean = Number(number.toPrecision(10));
  if (clean === 0) return 0;
  const step = 10 ** (Math.floor(Math.log10(Math.abs(clean))) - 2);
  return Number((round(Number((clean / step).toPrecision(10))) * step).toPrecision(10));
}

const MOST_LISTED = 8;
/** Letters of a list within a message. */
const LONGEST_LIST = 60;
/** Of lines that hold each word of what was written. */
const MOST_NEAR = 3;

/** Letters of a refused text that are said again. */
const MOST_LETTERS = 60;

function listed(choices: readonly string[]): string {
  let shown = 1;
  while (shown < Math.min(choices.length, MOST_LISTED) && choices.slice(0, shown + 1).join(', ').length <= LONGEST_LIST) shown++;
  const more = choices.length - shown;
  return choices.slice(0, shown).join(', ') + (more > 0 ? ` and ${more} more` : '');
}
