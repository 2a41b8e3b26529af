/**
 * Amounts in a plain text: a number with its unit, lengths of feet and inches, sizes of two or three lengths, money, spans of hours by the clock. What each
 * of them answers is another question (`rules.ts`).
 */
import { fromBase, need, toBase } from '../../functions/units.ts';
import { type Marks, type Numeral, numerals } from './numbers.ts';

/** What an amount is of, however its unit is written. */
export type Quantity =
  | 'length'
  | 'area'
  | 'time'
  | 'days'
  | 'voltage'
  | 'current'
  | 'power'
  | 'energy'
  | 'price'
  | 'money'
  | 'angle'
  | 'temperature'
  | 'illuminance'
  | 'ppfd'
  | 'dli'
  | 'ppf'
  | 'efficacy'
  | 'lumens'
  | 'kelvin'
  | 'percent'
  | 'mass'
  | 'plain';

export interface Amount {
  readonly from: number;
  readonly to: number;
  readonly quantity: Quantity;
  /** In `unit`; two where both could be meant, or where a span is said: `14 to 16 hours`. */
  readonly values: readonly number[];
  /** The unit that goes with the quantity; of money the code of its currency, or nothing where none is said. */
  readonly unit: string;
  /** As it was written: `ft`. */
  readonly said: string;
  /** Lengths that belong together, `4 x 2 ft`: the same for all of them. */
  readonly size?: number;
  /** The unit was not written, and is taken from what stands beside it. */
  readonly lent?: boolean;
  readonly inWords: boolean;
}

const UMOL = '(?:µ|u|micro-?|micro )mol(?:e?s)?';
const PER = ' ?(?:/|·|\\.|\\*| per | a )? ?';
const SQUARE_METRE = '(?:m ?\\^?[-⁻]?[²2]|sqm|sq\\.? ?m(?:et(?:er|re)s?)?|square met(?:er|re)s?)';
const SECOND = '(?:s(?:ec(?:ond)?s?)?(?: ?\\^?[-⁻]?[1¹])?)';
const DAY = '(?:d(?:ay)?s?(?: ?\\^?[-⁻]?[1¹])?)';

/**
 * How units are written in mails, the longer first: the pattern, what it is a quantity of, the unit that the reader of quantities knows it by.
 * What has no unit there stands with the number of another one.
 */
const UNITS: readonly (readonly [said: string, quantity: Quantity, unit: string, times?: number])[] = [
  [`${UMOL}(?: ?/ ?| per | a )j(?:oule)?s?|per joule`, 'efficacy', 'µmol/J'],
  [`${UMOL}${PER}${SQUARE_METRE}${PER}${SECOND}`, 'ppfd', 'µmol/m²/s'],
  [`${UMOL}${PER}${SECOND}${PER}${SQUARE_METRE}`, 'ppfd', 'µmol/m²/s'],
  [`${UMOL}${PER}${SQUARE_METRE}`, 'ppfd', 'µmol/m²/s'],
  [`${UMOL}(?: ?/ ?| per | a | )${SECOND}`, 'ppf', 'µmol/s'],
  [UMOL, 'ppfd', 'µmol/m²/s'],
  ['ppfd|"?par"?(?! ?-?(?:meter|sensor|38|30|20|16))', 'ppfd', 'µmol/m²/s'],
  [`mol(?:e?s)?${PER}${SQUARE_METRE}${PER}${DAY}`, 'dli', 'mol/m²/d'],
  [`mol(?:e?s)?(?:(?: ?/ ?| per | a )${DAY})?`, 'dli', 'mol/m²/d'],
  ['dli', 'dli', 'mol/m²/d'],
  ['k ?lux|klx', 'illuminance', 'klx'],
  ['lux|lx', 'illuminance', 'lx'],
  ['f(?:oo|ee)?t[- ]?candles?|footcandles?|fcs?', 'illuminance', 'fc'],
  ['lumens?|lm', 'lumens', 'lm'],
  ['(?:sq\\.? ?|square )(?:ft|feet|foot)|ft ?²|ft2|sf', 'area', 'ft²'],
  ['sqm|sq\\.? ?m(?:et(?:er|re)s?)?|square met(?:er|re)s?|m ?²|m2', 'area', 'm²'],
  ['kwhs?|kw-h|kilowatt[- ]?hours?', 'energy', 'kWh'],
  ['kw|kilowatts?|kva', 'power', 'kW'],
  ['w(?:att(?:er)?s?)?|va', 'power', 'W'],
  ['v(?:olts?)?(?:[ -]?(?:ac|dc))?', 'voltage', 'V'],
  ['amp(?:ere)?s?', 'current', 'A'],
  ['(?:°|deg(?:rees?)?)? ?(?:celsius|centigrade)|° ?c|deg(?:rees?)? c', 'temperature', '°C'],
  ['(?:°|deg(?:rees?)?)? ?(?:fahrenheit)|° ?f|deg(?:rees?)? f', 'temperature', '°F'],
  ['°|deg(?:rees?)?', 'angle', '°'],
  ['%|per ?cent', 'percent', '%'],
  ['mm|millimet(?:er|re)s?', 'length', 'mm'],
  ['cms?|centimet(?:er|re)s?', 'length', 'cm'],
  ["(?:feet|foot|ft\\.?|')(?!\\p{L})", 'length', 'ft'],
  ["inch(?:es)?|ins|in\\.|\"|''", 'length', 'in'],
  ['yards?|yds?', 'length', 'ft', 3],
  ['met(?:er|re)s?|mtrs?|m', 'length', 'm'],
  ['hours?|hrs?|h', 'time', 'h'],
  ['days?', 'days', 'd'],
  ['kilos?|kgs?|kilograms?', 'mass', 'kg'],
  ['lbs?', 'mass', 'lb'],
  ['kelvin', 'kelvin', 'K'],
];

/** In which unit an amount of each quantity goes on. */
const GOES_ON: Partial<Record<Quantity, string>> = { length: 'm', illuminance: 'lx', power: 'W', temperature: '°C', area: 'm²' };

const UNIT = new RegExp(`[ -]?\\s{0,40}(?:${UNITS.map(([said]) => `(${said})`).join('|')})(?:(?<=['"])|(?![\\p{L}\\d]))`, 'yu');
/** Letters that are words of their own elsewhere: what must follow `in`, and the `A` and `C` that are written large or stand close. */
const IN =
  /[ -]?in(?=\s*(?:$|[,;:.)x/]|by |wide|long|deep|high|tall|apart|between|clear|of |above|below|from |and |gap|spac|headroom|over|under|tray|shel|square|each|or |- |max|off|short))/uy;
const SIGN = '(?:(?:us|ca|au|nz|hk|s)? ?\\$|€|£|¥|(?:eur|euros?|usd|gbp|chf|cad|aud|nzd|sek|nok|dkk|pln|czk|jpy|inr|zar|fr\\.) ?)';
const BEFORE = new RegExp(`(?<![\\p{L}\\d])${SIGN} ?$`, 'u');
const AFTER = new RegExp(
  ` ?(?:(${SIGN}|dollars?|bucks?|pounds? sterling|quid|pounds?|swiss francs?|francs?|kr(?:oner|onor|ona|one)?\\.?|kč|kc|zł|zloty)|(euro ?cents?|cents?|ct|cts|¢|c|p|pence|penny|pennies|øre|öre|rappen|rp))(?![\\p{L}\\d])`,
  'yu',
);
const PER_KWH = /\s?(?:(?:\/|per|a|an|pr|pro|for (?:a|one|each)) ?(?:kwh|kw-h|kw\/h|kw ?h|kilowatt[- ]?hours?|units?)|\/ ?unit)(?!\p{L})/uy;
/** A kilowatt is no energy: it is said so often for a kilowatt-hour that it is asked. */
const PER_KW = /\s?(?:\/|per|a) ?(?:kw|kilowatts?)(?![\p{L}/-])/uy;

const CODES: readonly (readonly [sign: RegExp, code: string])[] = [
  [/^ca ?\$|^cad/u, 'CAD'],
  [/^au ?\$|^aud/u, 'AUD'],
  [/^nz ?\$|^nzd/u, 'NZD'],
  [/^hk ?\$/u, 'HKD'],
  [/^s ?\$/u, 'SGD'],
  [/\$|^usd|^dollar|^buck/u, 'USD'],
  [/€|^eur/u, 'EUR'],
  [/£|^gbp|^pound|^quid|^p$|^pence|^penn/u, 'GBP'],
  [/^chf|franc|^fr\.|rappen|^rp$/u, 'CHF'],
  [/^sek|^kronor|^öre/u, 'SEK'],
  [/^nok/u, 'NOK'],
  [/^dkk/u, 'DKK'],
  [/^pln|^zł|zloty/u, 'PLN'],
  [/^czk|^kč|^kc/u, 'CZK'],
  [/¥|^jpy/u, 'JPY'],
  [/^inr/u, 'INR'],
  [/^zar/u, 'ZAR'],
];

/** Nothing where the sign is that of several currencies: `kr`, `cents`. */
const codeOf = (sign: string): string => CODES.find(([pattern]) => pattern.test(sign.trim()))?.[1] ?? '';

const stick = (pattern: RegExp, text: string, place: number): RegExpExecArray | null => {
  pattern.lastIndex = place;
  return pattern.exec(text);
};

interface Unitary {
  readonly to: number;
  readonly quantity: Quantity;
  readonly unit: string;
  readonly times: number;
  readonly said: string;
  readonly more?: number;
}

/** The unit that follows a number. `original`: large letters are seen there. */
function unitAt(text: string, original: string, place: number): Unitary | undefined {
  const found = stick(UNIT, text, place);
  if (found) {
    const i = found.findIndex((part, n) => n > 0 && part !== undefined) - 1;
    const row = UNITS[i];
    // A mark of inches stands close to its number: after a gap it is a quote.
    if (row && !(/^['"]/u.test(found[i + 1] ?? '') && /^\s/u.test(found[0])))
      return { to: place + found[0].length, quantity: row[1], unit: row[2], times: row[3] ?? 1, said: found[i + 1] ?? '' };
  }
  const inch = stick(IN, text, place);
  if (inch) return { to: place + inch[0].length, quantity: 'length', unit: 'in', times: 1, said: 'in' };
  const letter = /^( ?)([acfk])(?![\p{L}\d'])/u.exec(text.slice(place, place + 3));
  if (letter) {
    const [whole = '', , small = ''] = letter;
    const close = whole.length === 1;
    const large = original.charAt(place + whole.length - 1) === small.toUpperCase();
    const end = place + whole.length;
    if (small === 'a' && (large || (close && !/^ (?:day|week|month|year|kwh|unit|kilo)/u.test(text.slice(end, end + 7)))))
      return { to: end, quantity: 'current', unit: 'A', times: 1, said: 'a' };
    if ((small === 'c' || small === 'f') && large) return { to: end, quantity: 'temperature', unit: small === 'c' ? '°C' : '°F', times: 1, said: small };
    if (small === 'k' && large) return { to: end, quantity: 'kelvin', unit: 'K', times: 1, said: small };
  }
  return undefined;
}

const METRE = (to: number): Unitary => ({ to, quantity: 'length', unit: 'm', times: 1, said: 'm' });
const AND_HALF = /,? and an? (half|quarter)(?!\p{L})/uy;

/** `a foot and a half`: the share comes after the unit. */
function halfMore(text: string, found: Unitary | undefined): Unitary | undefined {
  const more = found && stick(AND_HALF, text, found.to);
  return found && more ? { ...found, to: found.to + more[0].length, more: more[1] === 'half' ? 0.5 : 0.25 } : found;
}

interface Piece extends Omit<Numeral, 'unit'> {
  readonly unit?: Unitary | undefined;
  readonly money?: Amount;
}

/** Money before or behind the number, and whether it is a price of energy. */
function moneyAt(text: string, numeral: Numeral, quoted: boolean): Amount | undefined {
  const before = BEFORE.exec(text.slice(Math.max(0, numeral.from - 6), numeral.from))?.[0];
  const after = before === undefined ? stick(AFTER, text, numeral.to) : stick(/ ?(cents?|ct|pence|p|c)(?![\p{L}\d])/uy, text, numeral.to);
  const small = before === undefined ? after?.[2] : after?.[1];
  let to = numeral.to + (after?.[0].length ?? 0);
  const thousand = before !== undefined && /^ ?k(?!\p{L})/u.exec(text.slice(to, to + 3));
  if (thousand) to += thousand[0].length;
  const sign = before ?? after?.[1] ?? small ?? '';
  const per = stick(PER_KWH, text, to) ?? stick(PER_KW, text, to);
  if (sign === '' && !per) return undefined;
  const from = numeral.from - (before?.length ?? 0);
  // `c` and `p` are other things too: they are money where a price of energy is spoken of.
  if (small !== undefined && small.length === 1 && !per && !quoted) return undefined;
  const factor = (small === undefined ? 1 : 0.01) * (thousand ? 1000 : 1);
  const values = numeral.values.map((value) => Number((value * factor).toPrecision(12)));
  const later =
    before === undefined && small === undefined && after === null && per
      ? (/^ ?(?:€|eur|chf|usd|gbp)/u.exec(text.slice(to + per[0].length, to + per[0].length + 5))?.[0] ?? '')
      : '';
  return {
    from,
    to: to + (per?.[0].length ?? 0) + later.length,
    quantity: per ? 'price' : 'money',
    values,
    unit: codeOf(sign === '' ? later : sign),
    said: `${sign.trim()}${per ? (/(?:kw|kilowatts?)$/u.test(per[0]) ? '/kw' : '/kwh') : ''}`,
    inWords: numeral.inWords,
  };
}

/** Words of prices near a number make pence of a `p`. */
const PRICED = /power|electric|leccy|energy|tariff|kwh|unit|price|pay|bill|rate|cost|current|juice/u;

const SEPARATES = /\s*(?:\(?(?:l|w|d|h|long|wide|deep|high|tall|length|width|depth|height|in length|in width)\)?)?\s*(?:x|\*|by|on)\s*(?=\.?[\d½¼¾a-z])/uy;
const SPANS = /\s*(?:-|to|or|and|through|\/)\s*(?=[\d½¼¾a-z])/uy;

const scaled = (values: readonly number[], found: { readonly unit: string; readonly quantity: Quantity; readonly times: number }): readonly number[] => {
  const on = GOES_ON[found.quantity] ?? found.unit;
  return values.map((value) => Number(fromBase(toBase(value * found.times, need(found.unit)), need(on)).toPrecision(12)));
};

function amountOf(piece: Piece, unitary: Unitary, more: Partial<Amount> = {}): Amount {
  const { quantity } = unitary;
  return {
    from: piece.from,
    to: Math.max(piece.to, piece.unit?.to ?? 0),
    quantity,
    values: scaled(piece.values, unitary),
    unit: GOES_ON[quantity] ?? unitary.unit,
    said: unitary.unit,
    inWords: piece.inWords,
    ...more,
  };
}

function pieceOf(text: string, original: string, numeral: Numeral): Piece {
  const quoted = PRICED.test(text.slice(Math.max(0, numeral.from - 50), numeral.to + 25));
  const unitary = numeral.unit ? METRE(numeral.to) : halfMore(text, unitAt(text, original, numeral.to));
  const { unit: _, ...plainly } = numeral;
  const isMoney =
    unitary === undefined || unitary.said === 'c' || unitary.quantity === 'energy' || BEFORE.test(text.slice(Math.max(0, numeral.from - 6), numeral.from));
  const money = isMoney ? moneyAt(text, numeral, quoted) : undefined;
  return money ? { ...plainly, money } : { ...plainly, unit: unitary, values: numeral.values.map((value) => value + (unitary?.more ?? 0)) };
}

/** All amounts and plain numbers of a text, in their order. */
export function amounts(text: string, original: string, marks: Marks): readonly Amount[] {
  const pieces: Piece[] = [];
  let done = 0;
  for (const numeral of numerals(text, marks)) {
    // Of `a foot and a half` the half is no number of its own.
    if (numeral.from < done) continue;
    const piece = pieceOf(text, original, numeral);
    pieces.push(piece);
    done = piece.unit?.to ?? piece.to;
  }
  const made: Amount[] = [];
  let sizes = 0;
  for (let i = 0; i < pieces.length; i++) {
    const piece = pieces[i] as Piece;
    if (piece.money) {
      made.push(piece.money);
      continue;
    }
    const tape = feetAndInches(text, pieces, i);
    if (tape) {
      const group = sizeFrom(text, pieces, i);
      if (!group || group.length < 2) {
        made.push(tape.amount);
        i += tape.used - 1;
        continue;
      }
    }
    const group = sizeFrom(text, pieces, i);
    if (group && group.length > 1) {
      sizes++;
      for (const { amount } of group) made.push({ ...amount, size: sizes });
      i += group.reduce((sum, { used }) => sum + used, 0) - 1;
      continue;
    }
    const next = pieces[i + 1];
    const span = next && !piece.unit && next.unit && !next.money && stick(SPANS, text, piece.to);
    if (
      span &&
      next?.unit &&
      piece.to + span[0].length === next.from &&
      !/and|or/u.test(span[0]) &&
      (!span[0].includes('/') || next.unit.quantity === 'voltage') &&
      next.unit.quantity !== 'current'
    ) {
      const both = [...piece.values.slice(0, 1), ...next.values.slice(0, 1)];
      made.push(amountOf({ ...next, from: piece.from, values: both }, next.unit));
      i++;
      continue;
    }
    const lent = piece.unit ? undefined : lentUnit(text, pieces, i);
    if (lent) {
      made.push(amountOf(piece, lent, { lent: true, to: piece.to }));
      continue;
    }
    made.push(
      piece.unit
        ? amountOf(piece, piece.unit)
        : { from: piece.from, to: piece.to, quantity: 'plain', values: piece.values, unit: '', said: '', inWords: piece.inWords },
    );
  }
  return made;
}

const SIDE = / ?(?:wide|long|deep|high|in (?:length|width|height|depth))(?!\p{L})/uy;
/** How far away a length may stand that lends its unit. */
const LENDS = 80;

/** `90 cm long & 45 wide`: the unit is that of the length before, else of the one after. */
function lentUnit(text: string, pieces: readonly Piece[], i: number): Unitary | undefined {
  const piece = pieces[i] as Piece;
  if (!stick(SIDE, text, piece.to)) return undefined;
  const isNear = (other: Piece | undefined): boolean => other?.unit?.quantity === 'length' && Math.abs(other.from - piece.from) <= LENDS;
  for (let n = 1; n <= 3; n++) if (isNear(pieces[i - n])) return pieces[i - n]?.unit;
  if (isNear(pieces[i + 1])) return pieces[i + 1]?.unit;
  // Where a house is so high, nobody means it in centimetres.
  const value = piece.values[0] ?? 0;
  return value >= 1.5 && value < 10 && /\d[.,]\d/u.test(text.slice(piece.from, piece.to)) ? METRE(piece.to) : undefined;
}

/** `4 ft 6 in`, `5'6"`, `ten foot six`. */
function feetAndInches(text: string, pieces: readonly Piece[], i: number): { readonly amount: Amount; readonly used: number } | undefined {
  const [feet, inches] = [pieces[i], pieces[i + 1]];
  if (feet?.unit?.unit !== 'ft' || feet.unit.times !== 1 || !inches || inches.money) return undefined;
  const gap = text.slice(feet.unit.to, inches.from);
  if (!/^[ -]{0,2}(?:and )?$/u.test(gap) || (feet.values[0] ?? 0) % 1 !== 0) return undefined;
  const [ft = 0, inch = 0] = [feet.values[0], inches.values[0]];
  const bare =
    inches.unit === undefined &&
    (/'$/u.test(feet.unit.said) || (/foot/u.test(feet.unit.said) && gap === ' ')) &&
    !/^ ?(?:x|by|\p{L}{3,})/u.test(text.slice(inches.to, inches.to + 5).replace(/^ (?:so|and|to|but|at|with|high|wide|long|deep|tall)/u, ''));
  if (inch >= 12 || !(inches.unit?.unit === 'in' || bare)) return undefined;
  const to = inches.unit?.to ?? inches.to;
  const value = Number(fromBase(toBase(ft * 12 + inch, need('in')), need('m')).toPrecision(12));
  return { amount: { from: feet.from, to, quantity: 'length', values: [value], unit: 'm', said: 'ft', inWords: feet.inWords }, used: 2 };
}

interface Side {
  readonly amount: Amount;
  readonly used: number;
}

/** `90 x 35 cm`, `3 ft by 14 in`, `4' x 2'`: what lacks a unit takes that of the next side, or of the one before. */
function sizeFrom(text: string, pieces: readonly Piece[], start: number): readonly Side[] | undefined {
  const sides: { readonly piece: Piece; readonly tape?: Side; readonly used: number }[] = [];
  let i = start;
  while (sides.length < 3) {
    const piece = pieces[i];
    if (!piece || piece.money || (piece.unit && piece.unit.quantity !== 'length')) break;
    const tape = feetAndInches(text, pieces, i);
    sides.push({ piece, used: tape?.used ?? 1, ...(tape && { tape }) });
    const end = tape?.amount.to ?? piece.unit?.to ?? piece.to;
    i += tape?.used ?? 1;
    const next = pieces[i];
    const gap = next && stick(SEPARATES, text, end);
    if (!gap || !next || end + gap[0].length !== next.from || (/\bon\b/u.test(gap[0]) && !next.unit)) break;
  }
  if (sides.length < 2) return undefined;
  const units = sides.map(({ piece }) => piece.unit);
  // `4x4` is a size too, in a unit that nobody says; numbers joined by a word are not.
  if (
    units.every((one) => one === undefined) &&
    !/^(?:\d{1,5} ?x ?\d{1,5}|\d{1,2}[.,]\d{1,2} ?x ?\d{1,2}[.,]\d{1,2})(?! ?x)$/u.test(text.slice(sides[0]?.piece.from, sides[1]?.piece.to))
  )
    return undefined;
  return sides.map(({ piece, tape, used }, n): Side => {
    if (tape) return tape;
    const own = piece.unit;
    const lent = own ?? units.slice(n + 1).find(Boolean) ?? units.slice(0, n).findLast(Boolean);
    if (!lent) return { amount: { from: piece.from, to: piece.to, quantity: 'plain', values: piece.values, unit: '', said: '', inWords: piece.inWords }, used };
    return { amount: amountOf(piece, lent, own ? {} : { lent: true, to: piece.to }), used };
  });
}
