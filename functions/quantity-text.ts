/**
 * Reads what people type and paste into a cell: `36"`, `3 ft 6 in`, `1,2 m`, `16 h/d`, `0.22 €/kWh`, `85 %`, `1 250,5`.
 * Nothing is guessed in silence: where a text could be two numbers it is refused or the reading is said.
 */
import { MINUS, showNumber, symbolCalled, withSpaces } from './number-text.ts';
import { aQuantity, currencyOf, type Dimension, fromBase, PLAIN, toBase, type Unit, unit, withCurrency } from './units.ts';
import { readGauge, wireArea } from './wire-gauge.ts';

export { counted, plainText, showNumber, spokenUnit, withSpaces } from './number-text.ts';

export interface TypedOptions {
  /** The cell's shown unit. Left out or empty: none is set and any quantity is taken. `"1"`: plain numbers only. */
  readonly unit?: string;
  readonly decimalMark?: '.' | ',';
  readonly currency: string;
}

export type Typed =
  | {
      readonly kind: 'number';
      /** In `unit`, as typed. */
      readonly value: number;
      readonly base: number;
      readonly unit: string;
      /** In which it is shown from now on, where that is another: `5'4"` is stored in inches and shown in feet. */
      readonly shown?: string;
      /** To be stored: point decimal, unit written. */
      readonly content: string;
      /** What was typed, where it differs from the content. */
      readonly typed?: string;
      /** To be said to the person who typed it. */
      readonly said?: string;
    }
  | { readonly kind: 'text'; readonly content: string; readonly said?: string }
  | { readonly kind: 'yes or no'; readonly yes: boolean; readonly content: string }
  | { readonly kind: 'blank'; readonly content: '' }
  | { readonly kind: 'formula' }
  | { readonly kind: 'refused'; readonly message: string };

/** Stored contents, read without asking a locale: see `Cell.content` of a book. */
export type Content =
  | { readonly kind: 'number'; readonly base: number; readonly unit: string; readonly given: number }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'yes or no'; readonly yes: boolean }
  | { readonly kind: 'blank' }
  | { readonly kind: 'formula'; readonly formula: string };

const STORED = /^(-?\d+(?:\.\d+)?(?:e[-+]?\d+)?)(?: ?(\S.*))?$/i;

const inCurrency = new Map<string, Map<string, Unit | undefined>>();

/** The unit a stored or typed text names, in the book's currency (any, where none is said); undefined where it names none, or another currency. */
export function unitIn(text: string, currency?: string): Unit | undefined {
  if (currency === undefined) return unit(text);
  const known = inCurrency.get(currency) ?? new Map<string, Unit | undefined>();
  inCurrency.set(currency, known);
  if (known.has(text)) return known.get(text);
  const found = unit(withCurrency(text, currency));
  const named = found && currencyOf(found.symbol);
  const taken = named === undefined || named === currency ? found : undefined;
  if (known.size < 5000) known.set(text, taken);
  return taken;
}

/** The currency of a stored text that is an amount in another currency than the book's (`5 USD` in a book in EUR); undefined for all else. */
export function otherCurrency(text: string, currency: string): string | undefined {
  const match = STORED.exec(text);
  const found = match?.[2] === undefined ? undefined : unit(match[2]);
  const named = found && currencyOf(found.symbol);
  return named === currency ? undefined : named;
}

const BLANK: Content = { kind: 'blank' };

/** What a stored content says. Without a currency money of any is taken. Fast: it is asked of every cell of a book. */
export function readContent(content: string, currency?: string): Content {
  const first = content.charCodeAt(0);
  if (content === '') return BLANK;
  if (first === 61 /* = */) return { kind: 'formula', formula: content };
  if (first === 39 /* ' */) return { kind: 'text', text: content.slice(1) };
  if (first === 45 /* - */ || (first >= 48 && first <= 57)) {
    const match = STORED.exec(content);
    if (match) {
      const u = match[2] === undefined ? undefined : unitIn(match[2], currency);
      const given = Number(match[1]);
      if (Number.isFinite(given) && (u || match[2] === undefined)) return { kind: 'number', base: u ? toBase(given, u) : given, unit: u?.symbol ?? '', given };
    }
  } else if (content === 'TRUE') return { kind: 'yes or no', yes: true };
  else if (content === 'FALSE') return { kind: 'yes or no', yes: false };
  return { kind: 'text', text: content };
}

/** A text as it is stored: an apostrophe goes before one that would read as a number, a formula or TRUE. */
export function textContent(text: string, currency?: string): string {
  const read = readContent(text, currency);
  return read.kind === 'text' && read.text === text ? text : text === '' ? '' : `'${text}`;
}

const SPACES = /[\u0020\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000\t]+/g;

/** Dashes that stand for a minus before a number, and spaces of every width, become the plain ones. */
const tidy = (typed: string): string =>
  typed
    .normalize('NFC')
    .replace(SPACES, ' ')
    .trim()
    .replace(/(^|[\s(€$£¥])[−–‒﹣－](?=[\s\d.,€$£¥])/g, '$1-');

/** A number as written, with what comes after it. */
interface Piece {
  /** Canonical digits: `-1250.50`. */
  readonly digits: string;
  readonly rest: string;
  /** The marks were read in a way that deserves a word. */
  readonly doubtful: boolean;
}

const DIGITS = /^(\d[\d.,'’\u0020_]*\d|\d)(?![\d])/;
const EXPONENT = /^(?:e([-+]?\d+)(?![\w.])|\s?[×x]\s?10(?:\^(-?\d+)|([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)))/i;
const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const lowered = (text: string): string => [...text].map((c) => (c === '⁻' ? '-' : RAISED.indexOf(c))).join('');

type Marked = { readonly digits: string; readonly doubtful: boolean } | { readonly ambiguous: readonly [string, string] } | undefined;

/** Groups of three between gaps, apostrophes or one kind of mark. */
function ungrouped(text: string): string | undefined {
  const match = /^([1-9]\d{0,2})([ '’_.,])\d{3}(?:\2\d{3})*$/.exec(text);
  return match ? text.replaceAll(match[2] ?? '', '') : undefined;
}

/** Which marks are decimal, which part thousands. */
function marks(text: string, decimalMark: '.' | ','): Marked {
  if (/^\d+$/.test(text)) return { digits: text, doubtful: false };
  const last = Math.max(text.lastIndexOf('.'), text.lastIndexOf(','));
  const mark = last < 0 ? '' : (text[last] ?? '');
  if (mark === '') {
    const digits = ungrouped(text);
    return digits === undefined ? undefined : { digits, doubtful: false };
  }
  const [whole, fraction] = [text.slice(0, last), text.slice(last + 1)];
  const single = text.indexOf(mark) === last;
  if (single && /^\d+$/.test(fraction)) {
    const plain = /^\d+$/.test(whole);
    const grouped = plain ? whole : ungrouped(whole);
    // `1,234.5`: the one mark that comes last and only once is the decimal mark, if the other parts thousands.
    if (!plain && grouped !== undefined && !whole.includes(mark)) return { digits: `${grouped}.${fraction}`, doubtful: false };
    if (plain) {
      const couldGroup = ungrouped(text);
      if (mark === decimalMark || couldGroup === undefined) return { digits: `${whole}.${fraction}`, doubtful: mark !== decimalMark };
      // A point before three digits, where the decimal mark is a comma: everything shown here has a decimal point.
      if (mark === '.') return { ambiguous: [couldGroup, `${whole}${decimalMark}${fraction}`] };
      return { digits: couldGroup, doubtful: true };
    }
    return undefined;
  }
  const digits = ungrouped(text);
  return digits === undefined ? undefined : { digits, doubtful: true };
}

/** `3/4`, `1 1/2`, `½`, `2½`. */
const FRACTION = /^(?:(\d+) (?=\d+\/)|(\d*) ?(?=[¼½¾⅓⅔⅛⅜⅝⅞])|)(?:([¼½¾⅓⅔⅛⅜⅝⅞])|(\d+)\/([2-9]|16|32|64)(?!\d))/;
const INCHES_OR_FEET = /^ ?(?:"|″|in\b|inch|'|′|ft\b|foot|feet)/;

/** What is written with a stroke may be a date: it is a fraction where a unit follows, and nothing else. */
const isFraction = (rest: string, stroke: boolean): boolean =>
  !stroke || INCHES_OR_FEET.test(rest) || (unit(rest.trim()) !== undefined && rest.trim() !== '') || symbolCalled(rest.trim()) !== undefined;

/** The number that a text begins with. */
function leading(text: string, decimalMark: '.' | ','): Piece | { readonly ambiguous: readonly [string, string] } | undefined {
  const sign = /^([-+]) ?/.exec(text);
  let rest = sign ? text.slice(sign[0].length) : text;
  const fraction = FRACTION.exec(rest);
  if (fraction && isFraction(rest.slice(fraction[0].length), fraction[3] === undefined)) {
    const [above = '', below] = fraction[3] === undefined ? [fraction[4], fraction[5]] : fraction[3].normalize('NFKC').split('⁄');
    const value = Number(fraction[1] ?? fraction[2] ?? 0) + Number(above) / Number(below);
    return { digits: `${sign?.[1] === '-' ? '-' : ''}${value}`, rest: rest.slice(fraction[0].length), doubtful: false };
  }
  if (/^[.,]\d/.test(rest)) rest = `0${rest}`;
  let found = DIGITS.exec(rest)?.[1];
  // Gaps and apostrophes may belong to what follows (`3 6`, `3'6"`): give them back until the rest reads as a number.
  while (found !== undefined) {
    const read = marks(found, decimalMark);
    const feet = /['’]/.test(found) && rest[found.length] === '"';
    if (read && !feet) {
      if ('ambiguous' in read) return read;
      let after = rest.slice(found.length);
      const exponent = EXPONENT.exec(after);
      let digits = read.digits;
      if (exponent) {
        digits += `e${exponent[1] ?? exponent[2] ?? lowered(exponent[3] ?? '')}`;
        after = after.slice(exponent[0].length);
      }
      return { digits: `${sign?.[1] === '-' ? '-' : ''}${digits}`, rest: after, doubtful: read.doubtful };
    }
    const cut = Math.max(found.lastIndexOf(' '), found.lastIndexOf("'"), found.lastIndexOf('’'));
    found = cut > 0 ? found.slice(0, cut).trimEnd() : undefined;
  }
  return undefined;
}

const signs = new Map<string, string>();
/** The sign of the book's currency: `$` in a book that reckons in CAD. */
function currencySign(currency: string): string {
  const known = signs.get(currency);
  if (known !== undefined) return known;
  let sign = currency;
  try {
    const parts = new Intl.NumberFormat('en', { style: 'currency', currency, currencyDisplay: 'narrowSymbol' }).formatToParts(1);
    sign = parts.find((p) => p.type === 'currency')?.value ?? currency;
  } catch {
    // Not a code of ISO 4217: it has no sign.
  }
  signs.set(currency, sign);
  return sign;
}

/** A currency sign or code before the number goes to its unit: `€0.22/kWh` → `0.22 EUR/kWh`. */
function moneyBehind(text: string, currency: string): string {
  const match = /^([-+]?) ?(\p{Sc}|[A-Z]{3}|[A-Z]{1,2}\p{Sc}) ?([-+]?[\d.,][^/]*)(\/.*)?$/u.exec(text);
  if (!match) return text;
  const [, before = '', sign = '', number = '', per = ''] = match;
  if (!/\p{Sc}/u.test(sign) && currencyOf(sign) === undefined) return text;
  return `${before}${number.trim()} ${sign === currencySign(currency) ? currency : sign}${per}`;
}

/** The unit as the book means it: its own currency's sign stands for its code. */
function meantUnit(text: string, currency: string): string {
  const sign = currencySign(currency);
  return sign === currency || !/\p{Sc}|kr|zł/u.test(sign) ? text : text.replaceAll(sign, currency);
}

/** ISO 4217, Codes for the representation of currencies, 2015 (from memory): money of which a hundredth is called a cent. */
const OF_CENTS = new Set([
  'AUD',
  'BBD',
  'BSD',
  'BZD',
  'CAD',
  'EUR',
  'FJD',
  'HKD',
  'JMD',
  'KES',
  'LKR',
  'MUR',
  'NAD',
  'NZD',
  'SGD',
  'TTD',
  'TWD',
  'TZS',
  'USD',
  'XCD',
  'ZAR',
]);
const OF_PENCE = new Set(['GBP']);
const HUNDREDTHS = /^([-+]? ?[\d.,][\d.,' ]*?) ?(?:(cents?|ct|c|¢)|(pence|penny|p))(?: ?\/ ?(.+)| per (.+))?$/iu;

/** An amount in hundredths of money, `17 cents/kWh` or `17p per kWh`, as if it were whole: to be divided by a hundred. What they are no part of is refused, with what to write. */
function inHundredths(text: string, currency: string): { readonly whole: string; readonly refusal?: string } | undefined {
  const [, number = '', cents, pence, stroke, words] = HUNDREDTHS.exec(text) ?? [];
  if (cents === undefined && pence === undefined) return undefined;
  const each = stroke ?? words;
  const per = each === undefined ? '' : `/${symbolCalled(each) ?? each}`;
  const whole = `${number} ${currency}${per}`;
  if (cents === undefined ? OF_PENCE.has(currency) : OF_CENTS.has(currency)) return { whole };
  const plain = Number(number.replace(',', '.'));
  const written = Number.isFinite(plain) ? `: write ${Number((plain / 100).toPrecision(12))} ${currency}${per}, if that is meant` : '';
  return { whole, refusal: `This book is in ${currency}, not in ${cents === undefined ? 'pence' : 'cents'}${written}.` };
}

/** Written digits with the point two places to the left: `17` is `0.17`, and `17.5` exactly `0.175`. */
function hundredth(digits: string): string {
  const [, sign = '', whole = '', fraction = '', exponent = ''] = /^(-?)(\d+)(?:\.(\d+))?(e.*)?$/i.exec(digits) ?? [];
  const all = whole.padStart(3, '0');
  return `${sign}${all.slice(0, -2).replace(/^0+(?=\d)/, '')}.${all.slice(-2)}${fraction}${exponent}`;
}

const refused = (message: string): Typed => ({ kind: 'refused', message });

/** What typed text becomes in a cell. Formulas (`=…`) are left to the formula reader. */
export function readQuantity(typed: string, options: TypedOptions): Typed {
  const { currency, decimalMark = '.' } = options;
  const text = tidy(typed);
  if (text === '') return { kind: 'blank', content: '' };
  if (text.startsWith('=')) return { kind: 'formula' };
  if (text.startsWith("'")) return { kind: 'text', content: textContent(typed.trim().slice(1), currency) };
  if (/^(true|false)$/i.test(text)) return { kind: 'yes or no', yes: /^t/i.test(text), content: text.toUpperCase() };

  const set = options.unit ? unitIn(options.unit, currency) : undefined;
  const awg = set?.symbol === 'mm²' ? readGauge(text) : undefined;
  if (set && awg !== undefined) return intoCell(typed, text, { digits: String(wireArea(awg)), unit: set, doubtful: false }, set, options.unit ?? '');
  const small = set === undefined || currencyOf(set.symbol) === undefined ? undefined : inHundredths(text, currency);
  if (small?.refusal !== undefined) return refused(small.refusal);
  const read = readPieces(small?.whole ?? moneyBehind(text, currency), decimalMark, currency, set);
  const pieces = small && 'digits' in read ? { ...read, digits: hundredth(read.digits), doubtful: true } : read;
  if (!('digits' in pieces)) {
    if (pieces.refusal !== undefined) return refused(pieces.refusal);
    if (set && /^[-+]?[.,]?\d/.test(text)) return refused(`“${text}” can not be read as ${quantityOf(set)}.${pieces.hint}`);
    return { kind: 'text', content: textContent(typed.trim(), currency), ...(pieces.hint && { said: `Kept as text.${pieces.hint}` }) };
  }
  return intoCell(typed, text, pieces, set, options.unit ?? '');
}

const quantityOf = (u: Unit): string => `${aQuantity(u.dimension, u.reading)}${u.symbol === '' ? '' : ` such as 1 ${u.symbol}`}`;

interface Amount {
  readonly digits: string;
  /** Undefined where no unit was typed. */
  readonly unit: Unit | undefined;
  readonly shown?: string;
  readonly doubtful: boolean;
}
interface NoAmount {
  readonly refusal?: string;
  readonly hint: string;
}

/** `12'6` and `12'6 1/2` are 12 feet and some inches; three digits after the mark are thousands. */
const BARE_INCHES = /^[-+]? ?\d+ ?['’′] ?\d{1,2}(?: \d\/[248]| \d{1,2}\/(?:16|32|64)| ?[¼½¾⅛⅜⅝⅞])?$/;
const FEET_LESS = /^[-+]? ?[\d.,]+ ?(?:['’′]|ft|foot|feet) ?[-–−] ?\d/;

function readPieces(text: string, decimalMark: '.' | ',', currency: string, set: Unit | undefined): Amount | NoAmount {
  if (FEET_LESS.test(text)) return { hint: ' Feet and inches are written without a dash: 5\'4".' };
  const bareInches = BARE_INCHES.test(text);
  const amounts: Amount[] = [];
  let rest = bareInches ? `${text}"` : text;
  for (let n = 0; n < 3 && rest !== ''; n++) {
    const piece = leading(rest, decimalMark);
    if (!piece) return { hint: '' };
    if ('ambiguous' in piece) {
      const [a, b] = piece.ambiguous;
      return { refusal: `“${text}” can be read as ${a} or as ${b}: please write one of the two.`, hint: '' };
    }
    // Telephone numbers, postcodes and the like are no amounts.
    if (!set && /^-?0\d/.test(piece.digits)) return { hint: '' };
    // Telephones write curled marks.
    const after = piece.rest
      .trimStart()
      .replaceAll('’', "'")
      .replace(/”|'{2}/g, '"');
    // `12'6` is 12 ft and 6 in, never a foot to the sixth power.
    const whole = /^['′] ?\d/.test(after) ? undefined : unitText(after, currency);
    if (whole !== undefined || after === '') {
      amounts.push({ digits: piece.digits, unit: whole, doubtful: piece.doubtful });
      rest = '';
      break;
    }
    const foreign = foreignMoney(after, currency);
    if (foreign) return { refusal: `This book is in ${currency}; ${foreign} can’t be converted, as a book has no rate of exchange.`, hint: '' };
    // `3 ft 6 in`: a unit and then another number.
    const next = /^([^\d]+?)\s?(?=\d)/.exec(after)?.[1]?.trim();
    const part = next === undefined ? undefined : unitText(next, currency);
    if (next === undefined || part === undefined) return { hint: /^[^\d\s]+$/.test(after) ? ` There is no unit called “${after}” here.` : '' };
    amounts.push({ digits: piece.digits, unit: part, doubtful: piece.doubtful });
    rest = after.slice(next.length).trimStart();
  }
  const [first] = amounts;
  if (!first || rest !== '') return { hint: '' };
  return amounts.length === 1 ? first : together(amounts, bareInches);
}

function unitText(text: string, currency: string): Unit | undefined {
  if (text === '') return undefined;
  const symbol = symbolCalled(text);
  return unitIn(meantUnit(text, currency), currency) ?? (symbol === undefined ? undefined : unit(symbol));
}

function foreignMoney(text: string, currency: string): string | undefined {
  const meant = meantUnit(text, currency);
  const named = unit(meant) ? currencyOf(meant) : undefined;
  return named !== undefined && named !== currency ? named : undefined;
}

/** `3 ft 6 in` is 42 in: the last unit, which is the smallest, says it without a remainder. */
function together(amounts: readonly Amount[], doubtful: boolean): Amount | NoAmount {
  const [first] = amounts;
  const last = amounts.at(-1);
  const u = last?.unit;
  if (!first?.unit || !u || u.reading) return { hint: '' };
  const negative = first.digits.startsWith('-');
  let base = 0;
  let before = Number.POSITIVE_INFINITY;
  for (const [i, amount] of amounts.entries()) {
    const own = amount.unit;
    if (own?.dimension !== u.dimension || own.dimension === PLAIN) return { hint: '' };
    if (i > 0 && (amount.digits.startsWith('-') || toBase(1, own) >= before)) return { hint: '' };
    before = toBase(1, own);
    base += toBase(Math.abs(Number(amount.digits)), own);
  }
  const tape = first.unit.symbol === 'ft' && u.symbol === 'in';
  const fault = tape ? noTape(first.digits, last.digits, negative) : undefined;
  if (fault !== undefined) return { hint: ` ${fault}` };
  return {
    digits: `${negative ? '-' : ''}${fromBase(base, u)}`,
    unit: u,
    ...(tape && { shown: 'ft' }),
    doubtful: doubtful || amounts.some((a) => a.doubtful),
  };
}

/** Why feet and inches are not what a tape says: the feet must be whole, and the inches fewer than twelve. */
function noTape(feet: string, inches: string, negative: boolean): string | undefined {
  if (!Number.isInteger(Number(feet))) return 'Feet that inches follow are whole feet.';
  if (Number(inches) < 12) return undefined;
  const all = Math.abs(Number(feet)) * 12 + Number(inches);
  const sign = negative ? '-' : '';
  return `${Number(inches)} in is a foot or more: write ${sign}${Math.floor(all / 12)} ft ${all % 12} in, or ${sign}${all} in.`;
}

/** Puts an amount into a cell, whose unit may be set. */
function intoCell(typed: string, text: string, amount: Amount, set: Unit | undefined, setText: string): Typed {
  const value = Number(amount.digits);
  if (!Number.isFinite(value)) return refused(`${text} is too large a number.`);
  let u = amount.unit ?? set;
  if (amount.unit && set && !sameKind(amount.unit, set)) return refused(otherKind(amount.unit, set, amount.digits));
  if (u?.symbol === '' || setText === '1') u = amount.unit;
  const symbol = u?.symbol ?? '';
  const digits = canonical(amount.digits);
  const content = symbol === '' ? digits : `${digits} ${symbol}`;
  const base = u ? toBase(value, u) : value;
  const said: string[] = [];
  const asRead = amount.shown === undefined ? content : withSpaces(showNumber(base, amount.shown).text);
  if (amount.doubtful && text !== content) said.push(`${text} read as ${asRead}`);
  if (amount.unit && set && (amount.shown ?? amount.unit.symbol) !== set.symbol) said.push(`${content} is ${withSpaces(showNumber(base, set.symbol).text)}`);
  if (!amount.unit && set?.symbol === '%' && value !== 0 && Math.abs(value) < 1) said.push(`${digits} read as ${content}, which is ${plainShare(base)}`);
  return {
    kind: 'number',
    value,
    base,
    unit: symbol,
    ...(amount.shown !== undefined && { shown: amount.shown }),
    content,
    ...(content !== typed && { typed }),
    ...(said.length > 0 && { said: said.join('; ').replaceAll(MINUS, '-') }),
  };
}

const plainShare = (base: number): string => String(Number(base.toPrecision(12)));

/** The digits as typed, without what only other programs need: no sign plus, no capital E. */
const canonical = (digits: string): string => digits.replace('E', 'e').replace('e+', 'e');

const sameKind = (a: { dimension: Dimension; reading: boolean }, b: { dimension: Dimension; reading: boolean }): boolean =>
  a.dimension === b.dimension && a.reading === b.reading;

function otherKind(typed: Unit, set: Unit, digits: string): string {
  const nearly = nearUnit(typed, set);
  const mend = nearly ? ` Did you mean ${digits} ${nearly}?` : '';
  const name = (u: Unit): string => (u.symbol === '' ? 'a plain number' : `${aQuantity(u.dimension, u.reading)} in ${u.symbol}`);
  return `This cell takes ${name(set)}; ${typed.symbol === '' ? digits : `${digits} ${typed.symbol}`} is ${aQuantity(typed.dimension, typed.reading)}.${mend}`;
}

/** Hours where hours a day are meant, kelvins where a reading is meant: the unit to write instead. */
function nearUnit(typed: Unit, set: Unit): string | undefined {
  if (set.reading && typed.symbol === 'K') return set.symbol;
  if (typed.reading && !set.reading && set.symbol === 'K') return 'K';
  const candidate = `${typed.symbol}/d`;
  return unit(candidate)?.dimension === set.dimension ? candidate : undefined;
}
