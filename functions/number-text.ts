/** How values are shown, spoken and written out. */
import { tapeText } from './feet-text.ts';
import { currencyOf, fromBase, need, type Unit, unit } from './units.ts';

/** A number as it stands in a cell: the parts, for columns whose points stand under one another, and the whole text. */
export interface ShownNumber {
  /** True minus, or nothing. */
  readonly sign: string;
  /** Whole part, with a thin gap between thousands. */
  readonly whole: string;
  /** Point and decimals, or nothing; where an exponent cannot be avoided it stands here too. */
  readonly fraction: string;
  readonly unit: string;
  readonly text: string;
}

export const MINUS = '−';
/** Narrow no-break space: the gap between thousands, and between a number and its unit. */
export const GAP = '\u202f';

/** The text with plain spaces for its gaps, as one types it. */
export const withSpaces = (text: string): string => text.replaceAll(/[\u202f\u00a0]/g, ' ');

/** Numbers of this size and smaller need an exponent, as do those from 10¹⁵ up. */
const SMALLEST = 1e-6;
const LARGEST = 1e15;

const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const raised = (n: number): string => (n < 0 ? '⁻' : '') + [...String(Math.abs(n))].map((c) => RAISED[Number(c)]).join('');

/** Thousands of a whole number with a thin gap between them, from five digits on. */
export const group = (digits: string): string => (digits.length < 5 ? digits : digits.replace(/\B(?=(\d{3})+$)/g, GAP));

/** Digits without an exponent, for 1e-6 ≤ |x| < 1e15. */
function decimalText(x: number, significant: number): string {
  const places = Math.max(0, significant - 1 - Math.floor(Math.log10(x)));
  const text = x.toFixed(Math.min(100, places));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/**
 * The digits of a positive number. A number that is short (six significant digits say all of it, such as a price
 * or a round result) is shown whole; any other to four, and never with less than its whole part.
 */
function sensible(x: number): string {
  const short = Number(x.toPrecision(6));
  if (Math.abs(short - x) <= Math.abs(x) * 1e-12) return decimalText(x, 6);
  return decimalText(x, 4);
}

/**
 * Shows a base value in a unit, with a set number of decimals or as many as are sensible. Feet are shown with inches and inches with their eighths,
 * as a tape has them, whatever decimals are set.
 */
export function showNumber(base: number, unitText: string, decimals?: number): ShownNumber {
  const { symbol } = unit(unitText) ?? need('1');
  if (symbol !== 'ft' && symbol !== 'in') return showDecimal(base, unitText, decimals);
  const inches = fromBase(base, need('in'));
  const tape = tapeText(Math.abs(inches), symbol);
  if (!tape) return showDecimal(base, 'in', Number.isFinite(inches) && Math.abs(inches) < 1 ? undefined : decimals);
  const sign = inches < 0 && /[1-9]/.test(tape.whole + tape.fraction) ? MINUS : '';
  return { sign, ...tape, text: `${sign}${tape.whole}${tape.fraction}${unitGap(tape.unit)}${tape.unit}` };
}

/** The same with decimals in any unit: for lines that are worked again by hand. */
export function showDecimal(base: number, unitText: string, decimals?: number): ShownNumber {
  const u = unit(unitText) ?? need('1');
  const x = fromBase(base, u);
  const size = Math.abs(x);
  let digits: string;
  if (!Number.isFinite(x)) digits = Number.isNaN(x) ? 'no number' : '∞';
  else if (size !== 0 && (size < SMALLEST || size >= LARGEST) && (decimals === undefined || size >= LARGEST)) {
    const [mantissa = '', exponent = '0'] = size.toExponential(decimals ?? 3).split('e');
    digits = `${decimals === undefined ? mantissa.replace(/\.?0+$/, '') : mantissa}×10${raised(Number(exponent))}`;
  } else digits = decimals === undefined ? (size === 0 ? '0' : sensible(size)) : size.toFixed(decimals);
  // −0.00 would claim a sign that the digits do not show.
  const sign = x < 0 && /[1-9∞]/.test(digits) ? MINUS : '';
  const at = digits.search(/[.×]/);
  const whole = group(at < 0 ? digits : digits.slice(0, at));
  const fraction = at < 0 ? '' : digits.slice(at);
  return { sign, whole, fraction, unit: u.symbol, text: `${sign}${whole}${fraction}${unitGap(u.symbol)}${unitAfter({ whole, fraction, unit: u.symbol })}` };
}

const unitGap = (symbol: string): string => (symbol === '' || symbol === '°' ? '' : GAP);

/** The unit of a number in a line of text: a symbol that is a word takes its plural, as in 6 months, but 1 month and 6 EUR/month. */
export function unitAfter({ whole, fraction, unit: symbol }: Pick<ShownNumber, 'whole' | 'fraction' | 'unit'>): string {
  const [one, many] = WORDS[symbol] ?? [];
  return one === symbol && many !== undefined && `${whole}${fraction}` !== '1' ? many : symbol;
}

/** A shown number in words for the ear: `45 centimetres`, `2 feet 7 1/2 inches`. */
export function spokenNumber({ sign, whole, fraction, unit: symbol }: ShownNumber): string {
  const tape = fraction.endsWith('″');
  const words = `${whole}${fraction}`
    .replace(/^([^′]+)′/, (_, feet: string) => `${feet.replaceAll(GAP, '')} ${feet === '1' ? 'foot' : 'feet'}`)
    .replace('″', '')
    .replaceAll('\u00a0', ' ')
    .replaceAll(GAP, tape || symbol === 'in' ? ' ' : '');
  const one = /(?:^| )1$/.test(words) || /^\d\/\d$/.test(words);
  // A gauge is no unit, and its letters are those of a currency.
  const unitWords = symbol === 'AWG' ? symbol : spokenUnit(tape ? 'in' : symbol, !one);
  return `${sign === MINUS ? 'minus ' : ''}${words} ${unitWords}`.trim();
}

/** "1 point", "2,000 points". */
export const counted = (n: number, what: string): string => `${n.toLocaleString('en-GB')} ${what}${n === 1 ? '' : 's'}`;

/** A base value in a unit to its last digit, with a decimal point and nothing else: for files and other programs. */
export function plainText(base: number, unitText: string): string {
  return String(fromBase(base, unit(unitText) ?? need('1')));
}

/** Singular and plural of what a symbol is called. */
const WORDS: Readonly<Record<string, readonly [string, string]>> = {
  m: ['metre', 'metres'],
  cm: ['centimetre', 'centimetres'],
  mm: ['millimetre', 'millimetres'],
  km: ['kilometre', 'kilometres'],
  in: ['inch', 'inches'],
  ft: ['foot', 'feet'],
  kft: ['thousand feet', 'thousand feet'],
  nm: ['nanometre', 'nanometres'],
  l: ['litre', 'litres'],
  s: ['second', 'seconds'],
  min: ['minute', 'minutes'],
  h: ['hour', 'hours'],
  d: ['day', 'days'],
  week: ['week', 'weeks'],
  month: ['month', 'months'],
  year: ['year', 'years'],
  mol: ['mole', 'moles'],
  mmol: ['millimole', 'millimoles'],
  µmol: ['micromole', 'micromoles'],
  cd: ['candela', 'candelas'],
  lm: ['lumen', 'lumens'],
  klm: ['kilolumen', 'kilolumens'],
  lx: ['lux', 'lux'],
  klx: ['kilolux', 'kilolux'],
  fc: ['footcandle', 'footcandles'],
  sr: ['steradian', 'steradians'],
  rad: ['radian', 'radians'],
  '°': ['degree', 'degrees'],
  W: ['watt', 'watts'],
  mW: ['milliwatt', 'milliwatts'],
  kW: ['kilowatt', 'kilowatts'],
  VA: ['volt-ampere', 'volt-amperes'],
  kVA: ['kilovolt-ampere', 'kilovolt-amperes'],
  J: ['joule', 'joules'],
  kJ: ['kilojoule', 'kilojoules'],
  MJ: ['megajoule', 'megajoules'],
  Wh: ['watt-hour', 'watt-hours'],
  kWh: ['kilowatt-hour', 'kilowatt-hours'],
  MWh: ['megawatt-hour', 'megawatt-hours'],
  BTU: ['British thermal unit', 'British thermal units'],
  ton: ['ton of refrigeration', 'tons of refrigeration'],
  A: ['ampere', 'amperes'],
  mA: ['milliampere', 'milliamperes'],
  V: ['volt', 'volts'],
  mV: ['millivolt', 'millivolts'],
  kV: ['kilovolt', 'kilovolts'],
  Ω: ['ohm', 'ohms'],
  mΩ: ['milliohm', 'milliohms'],
  K: ['kelvin', 'kelvins'],
  'F°': ['Fahrenheit degree', 'Fahrenheit degrees'],
  '°C': ['degree Celsius', 'degrees Celsius'],
  '°F': ['degree Fahrenheit', 'degrees Fahrenheit'],
  kg: ['kilogram', 'kilograms'],
  g: ['gram', 'grams'],
  lb: ['pound', 'pounds'],
  N: ['newton', 'newtons'],
  kN: ['kilonewton', 'kilonewtons'],
  lbf: ['pound-force', 'pounds-force'],
  cfm: ['cubic foot per minute', 'cubic feet per minute'],
  '%': ['percent', 'percent'],
};

/** The symbol of a unit that is written in words: `centimetres`, `kilowatt-hours`. */
export function symbolCalled(words: string): string | undefined {
  const plain = words.toLowerCase().replace(/(met|lit)er(s?)$/, '$1re$2');
  return Object.keys(WORDS).find((symbol) => WORDS[symbol]?.some((name) => name.toLowerCase() === plain));
}

const LENGTHS = new Set(['m', 'cm', 'mm', 'km', 'in', 'ft', 'kft', 'nm']);

function currencyWords(code: string): readonly [string, string] {
  const words = (n: number): string =>
    new Intl.NumberFormat('en-GB', { style: 'currency', currency: code, currencyDisplay: 'name' }).formatToParts(n).find((p) => p.type === 'currency')?.value ??
    code;
  return [words(1), words(2)];
}

function factorWords(factor: string, many: boolean): string {
  const [, symbol = factor, power = ''] = /^(.*?)([⁰¹²³⁴⁵⁶⁷⁸⁹]+|\^[\d.]+)?$/u.exec(factor) ?? [];
  const [one, plural] = WORDS[symbol] ?? (symbol === currencyOf(symbol) ? currencyWords(symbol) : [symbol, symbol]);
  const name = many ? plural : one;
  if (power === '²') return LENGTHS.has(symbol) ? `square ${name}` : `${name} squared`;
  if (power === '³') return LENGTHS.has(symbol) ? `cubic ${name}` : `${name} cubed`;
  if (power === '') return name;
  return `${name} to the power of ${power.startsWith('^') ? power.slice(1) : [...power].map((c) => RAISED.indexOf(c)).join('')}`;
}

function wordsOf(u: Unit): string {
  const [above = '', below] = u.symbol.split(' per ');
  if (below !== undefined) return `${spokenUnit(above)} per ${spokenUnit(below, false)}`;
  return spokenUnit(u.symbol);
}

const spoken = new Map<string, string>();

/** A unit in words: "micromoles per square metre per second"; an empty text for a plain number. Asked for every cell that changes, so each is put into words once. */
export function spokenUnit(unitText: string, many = true): string {
  const key = `${many} ${unitText}`;
  const known = spoken.get(key);
  if (known !== undefined) return known;
  const words = inWords(unitText, many);
  spoken.set(key, words);
  return words;
}

function inWords(unitText: string, many: boolean): string {
  const u = unit(unitText);
  if (!u) return unitText;
  if (u.symbol.includes(' per ')) return wordsOf(u);
  const [above = '', ...below] = u.symbol.split('/');
  const top = above
    .split('·')
    .filter((f) => f !== '' && f !== '1')
    .map((f, i, all) => factorWords(f, many && i === all.length - 1))
    .join(' ');
  const rest = below.map((part) =>
    part
      .split('·')
      .map((f, i) => `${i === 0 ? 'per ' : 'times '}${factorWords(f, i > 0 && many)}`)
      .join(' '),
  );
  return [top, ...rest].filter(Boolean).join(' ');
}
