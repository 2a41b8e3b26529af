/**
 * Units and dimensions.
 *
 * Inside the engine every number is coherent: m, kg, s, A, K, mol of photons, cd, rad, the book's money,
 * and the calendar day and year as dimensions of their own, so that mol/m²/s and mol/m²/d never mix.
 * A unit is a dimension and an exact factor, kept as numerator over denominator: `x * 254 / 10000` comes back
 * from inches to the decimal that was typed, `x * 0.0254` often does not.
 *
 * Sources: BIPM, The International System of Units (SI Brochure), 9th ed. 2019; NIST SP 811, 2008, appendix B
 * (inch, foot, pound, footcandle, Btu IT, ton of refrigeration). The month is year/12 by our own convention.
 */

const BASES = ['m', 'kg', 's', 'A', 'K', 'mol', 'cd', 'rad', 'money', 'd', 'year'] as const;
type Base = (typeof BASES)[number];

/** A product of powers of the base quantities. Interned: two equal dimensions are the same object. */
export interface Dimension {
  readonly key: string;
  readonly powers: readonly number[];
}

const interned = new Map<string, Dimension>();

function intern(powers: readonly number[]): Dimension {
  // Roots of roots leave float dust; a twelfth is finer than any power that can be written.
  const clean = powers.map((p) => Math.round(p * 12) / 12 || 0);
  const key = clean
    .map((p, i) => (p === 0 ? '' : `${BASES[i]}${p === 1 ? '' : `^${+p.toFixed(3)}`}`))
    .filter(Boolean)
    .join(' ');
  const known = interned.get(key);
  if (known) return known;
  const made: Dimension = { key, powers: clean };
  interned.set(key, made);
  return made;
}

export function dimension(powers: Partial<Record<Base, number>>): Dimension {
  return intern(BASES.map((base) => powers[base] ?? 0));
}

/** Dimensions are few and their products are asked for by every formula: each is made once. */
function remembered(make: (a: Dimension, b: Dimension) => Dimension): (a: Dimension, b: Dimension) => Dimension {
  const known = new Map<Dimension, Map<Dimension, Dimension>>();
  return (a, b) => {
    const row = known.get(a) ?? new Map<Dimension, Dimension>();
    const before = row.get(b);
    if (before) return before;
    const made = make(a, b);
    known.set(a, row.set(b, made));
    return made;
  };
}

export const PLAIN = dimension({});

export const times = remembered((a, b) => intern(a.powers.map((p, i) => p + (b.powers[i] ?? 0))));
export const over = remembered((a, b) => intern(a.powers.map((p, i) => p - (b.powers[i] ?? 0))));
export const power = (a: Dimension, n: number): Dimension => intern(a.powers.map((p) => p * n));

export interface Unit {
  /** How it is shown: `µmol/m²/s`. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** base = (x + offset) · numerator / denominator */
  readonly numerator: number;
  readonly denominator: number;
  /** Only on thermometer readings (°C, °F): their origin is 0 °C, and they are a kind apart from differences in K. */
  readonly offset: number;
  readonly reading: boolean;
}

interface Atom {
  readonly symbol: string;
  readonly spellings: readonly string[];
  readonly dimension: Dimension;
  readonly numerator: number;
  readonly denominator: number;
  readonly offset: number;
  readonly reading: boolean;
  /** `m2`, `ft^2`: a power in plain digits is read only where it can't be a cell's address. */
  readonly digits: boolean;
}

const atoms = new Map<string, Atom>();

function atom(
  symbol: string,
  of: Partial<Record<Base, number>>,
  factor: number | readonly [number, number] = 1,
  options: { spellings?: string; offset?: number; digits?: boolean } = {},
): void {
  const [numerator, denominator] = typeof factor === 'number' ? [factor, 1] : factor;
  const made: Atom = {
    symbol,
    spellings: options.spellings?.split(' ') ?? [],
    dimension: dimension(of),
    numerator,
    denominator,
    offset: options.offset ?? 0,
    reading: options.offset !== undefined,
    digits: options.digits ?? false,
  };
  for (const name of [symbol, ...made.spellings]) atoms.set(name, made);
}

const length = { m: 1 };
const energy = { kg: 1, m: 2, s: -2 };
const watt = { kg: 1, m: 2, s: -3 };
const volt = { ...watt, A: -1 };
const ohm = { ...watt, A: -2 };
const lumen = { cd: 1, rad: 2 };
const force = { kg: 1, m: 1, s: -2 };

atom('m', length, 1, { digits: true });
atom('cm', length, [1, 100], { digits: true });
atom('mm', length, [1, 1000], { digits: true });
atom('km', length, 1000);
atom('in', length, [254, 10000], { spellings: 'inch inches " ″', digits: true });
atom('ft', length, [3048, 10000], { spellings: "foot feet ' ′", digits: true });
atom('kft', length, [3048, 10]);
atom('nm', length, [1, 1e9]);
atom('l', { m: 3 }, [1, 1000], { spellings: 'L litre liter' });

atom('s', { s: 1 }, 1, { spellings: 'sec' });
atom('min', { s: 1 }, 60);
atom('h', { s: 1 }, 3600, { spellings: 'hr hour hours' });
atom('d', { d: 1 }, 1, { spellings: 'day days' });
atom('week', { d: 1 }, 7, { spellings: 'weeks wk' });
atom('month', { year: 1 }, [1, 12], { spellings: 'months' });
atom('year', { year: 1 }, 1, { spellings: 'years yr' });

atom('mol', { mol: 1 });
atom('mmol', { mol: 1 }, [1, 1e3]);
atom('µmol', { mol: 1 }, [1, 1e6], { spellings: 'umol μmol' });
atom('cd', { cd: 1 });
atom('lm', lumen);
atom('klm', lumen, 1000);
atom('lx', { cd: 1, rad: 2, m: -2 }, 1, { spellings: 'lux' });
atom('klx', { cd: 1, rad: 2, m: -2 }, 1000, { spellings: 'klux' });
atom('fc', { cd: 1, rad: 2, m: -2 }, [1e8, 9290304], { spellings: 'footcandle' });
atom('sr', { rad: 2 });
atom('rad', { rad: 1 });
atom('°', { rad: 1 }, [Math.PI, 180], { spellings: 'deg degree degrees º' });

atom('W', watt);
atom('mW', watt, [1, 1000]);
atom('kW', watt, 1000);
atom('VA', watt);
atom('kVA', watt, 1000);
atom('J', energy);
atom('kJ', energy, 1e3);
atom('MJ', energy, 1e6);
atom('Wh', energy, 3600);
atom('kWh', energy, 3.6e6);
atom('MWh', energy, 3.6e9);
atom('BTU', energy, [105505585262, 1e8], { spellings: 'Btu' });
atom('ton', watt, [12000 * 105505585262, 3600 * 1e8]);

atom('A', { A: 1 }, 1, { spellings: 'amp amps' });
atom('mA', { A: 1 }, [1, 1000]);
atom('V', volt);
atom('mV', volt, [1, 1000]);
atom('kV', volt, 1000);
atom('Ω', ohm, 1, { spellings: 'ohm ohms Ohm Ω' });
atom('mΩ', ohm, [1, 1000], { spellings: 'mohm' });

atom('K', { K: 1 });
// A difference of as many degrees Fahrenheit: °F alone is a reading of a thermometer.
atom('F°', { K: 1 }, [5, 9]);
atom('°C', { K: 1 }, 1, { offset: 0, spellings: 'degC ºC' });
atom('°F', { K: 1 }, [5, 9], { offset: -32, spellings: 'degF ºF' });

atom('kg', { kg: 1 });
atom('g', { kg: 1 }, [1, 1000]);
atom('lb', { kg: 1 }, [45359237, 1e8]);
atom('N', force);
atom('kN', force, 1000);
atom('lbf', force, [45359237 * 980665, 1e13]);
atom('cfm', { m: 3, s: -1 }, [28316846592, 60e12]);

atom('money', { money: 1 });
atom('%', {}, [1, 100]);
atom('1', {});

/** Signs that stand for a currency when typed; the book says which one it reckons in. */
const MONEY_SIGNS: Readonly<Record<string, string>> = { '€': 'EUR', '£': 'GBP', $: 'USD', '¥': 'JPY' };

let codes: ReadonlySet<string> | undefined;
/** Three-letter codes of ISO 4217, as the language runtime lists them. */
export function isCurrency(code: string): boolean {
  codes ??= new Set(Intl.supportedValuesOf('currency'));
  return codes.has(code);
}

const SUPERSCRIPTS: Readonly<Record<string, string>> = {
  '⁰': '0',
  '¹': '1',
  '²': '2',
  '³': '3',
  '⁴': '4',
  '⁵': '5',
  '⁶': '6',
  '⁷': '7',
  '⁸': '8',
  '⁹': '9',
  '⁻': '-',
};
const toSuperscript = (n: number): string => [...String(n)].map((c) => Object.entries(SUPERSCRIPTS).find(([, d]) => d === c)?.[0] ?? c).join('');

const powerText = (n: number): string => (n === 1 ? '' : Number.isInteger(n) ? toSuperscript(n) : `^${+n.toFixed(3)}`);

const FACTOR = /^(1|%|["'′″]|[^\s\d⁰¹²³⁴⁵⁶⁷⁸⁹⁻^/·*()-]+)(?:\^?(-?\d+(?:\.\d+)?)|([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?$/u;

const cache = new Map<string, Unit | undefined>();

/**
 * The unit that a text names, or undefined. Factors are joined by `/`, `·` or `*`; each `/` divides by the next factor only,
 * and `A per B` divides by the whole of B: `µmol/m²/s`, `EUR/kWh`, `lx per µmol/m²/s`, `/h`. A gap joins those with a minus
 * in their power, as meters and papers write it: `µmol m⁻² s⁻¹`, `W m-2`.
 * Money may be written `money`, a code (`EUR`) or a sign (`€`); which currency a book takes is not checked here (see `currencyOf`).
 */
export function unit(text: string): Unit | undefined {
  if (cache.has(text)) return cache.get(text);
  const found = parseUnit(text);
  if (cache.size < 5000) cache.set(text, found);
  return found;
}

function parseUnit(text: string): Unit | undefined {
  const trimmed = text.trim().normalize('NFC');
  if (trimmed === '') return { symbol: '', dimension: PLAIN, numerator: 1, denominator: 1, offset: 0, reading: false };
  const per = trimmed.split(/\s+per\s+/);
  if (per.length === 2) {
    const [top, below] = [unit(per[0] ?? ''), unit(per[1] ?? '')];
    if (!top || !below || top.reading || below.reading) return undefined;
    return {
      symbol: `${top.symbol} per ${below.symbol}`,
      dimension: over(top.dimension, below.dimension),
      numerator: top.numerator * below.denominator,
      denominator: top.denominator * below.numerator,
      offset: 0,
      reading: false,
    };
  }
  const parts = trimmed.startsWith('/') ? ['', ...trimmed.slice(1).split('/')] : trimmed.split('/');
  let symbol = '';
  let dim = PLAIN;
  let numerator = 1;
  let denominator = 1;
  let reading: Atom | undefined;
  let count = 0;
  for (const [i, part] of parts.entries()) {
    if (i === 0 && part === '') continue;
    for (const [j, piece] of part.split(/[·*]| +(?=[^ ]+[-⁻])/).entries()) {
      const factor = readFactor(piece.trim(), count > 0);
      if (!factor) return undefined;
      const { atom: a, exponent } = factor;
      count++;
      if (a.reading) reading = a;
      const divides = i > 0 && j === 0;
      const e = divides ? -exponent : exponent;
      dim = times(dim, power(a.dimension, e));
      for (let k = 0; k < Math.abs(e); k++) {
        numerator *= e > 0 ? a.numerator : a.denominator;
        denominator *= e > 0 ? a.denominator : a.numerator;
      }
      const below = divides || (count > 1 && exponent < 0);
      symbol += `${below ? '/' : j > 0 ? '·' : ''}${factor.shown}${powerText(below && !divides ? -exponent : exponent)}`;
    }
  }
  if (reading && count > 1) return undefined;
  return { symbol: symbol === '1' ? '' : symbol, dimension: dim, numerator, denominator, offset: reading?.offset ?? 0, reading: reading !== undefined };
}

function readFactor(text: string, later: boolean): { atom: Atom; exponent: number; shown: string } | undefined {
  const match = FACTOR.exec(text);
  if (!match) return undefined;
  const [, name = '', digits, raised] = match;
  const money = MONEY_SIGNS[name] ?? (isCurrency(name) ? name : undefined);
  const found = money ? atoms.get('money') : atoms.get(name);
  if (!found) return undefined;
  if (digits && !text.includes('^') && !(digits.startsWith('-') ? later : found.digits)) return undefined;
  const exponent = Number(digits ?? [...(raised ?? '1')].map((c) => SUPERSCRIPTS[c] ?? c).join(''));
  // A root of a quantity has a power such as m^0.5: only base units, whose factor is 1, are written so.
  if (!Number.isInteger(exponent) && (found.numerator !== 1 || found.denominator !== 1)) return undefined;
  if (!exponent || Math.abs(exponent) > 99 || (found.reading && exponent !== 1)) return undefined;
  return { atom: found, exponent, shown: money ?? found.symbol };
}

/** The currency code a unit's text names (`EUR` in `€/kWh`), or undefined where it names none. */
export function currencyOf(text: string): string | undefined {
  for (const piece of text.split(/[/·*\s]+/)) {
    const code = MONEY_SIGNS[piece] ?? (isCurrency(piece) ? piece : undefined);
    if (code) return code;
  }
  return undefined;
}

/** A unit known at build time. */
export function need(text: string): Unit {
  const found = unit(text);
  if (!found) throw new Error(`no such unit: ${text}`);
  return found;
}

export const toBase = (x: number, u: Unit): number => ((x + u.offset) * u.numerator) / u.denominator;

/** From base to a unit, rounded to 15 significant digits where a factor is applied, so that 200 µmol/s comes back as 200. */
export function fromBase(x: number, u: Unit): number {
  if (u.numerator === 1 && u.denominator === 1 && u.offset === 0) return x;
  const y = (x * u.denominator) / u.numerator;
  return (Number.isFinite(y) ? Number(y.toPrecision(15)) : y) - u.offset;
}

/** Quantities that have a name, with the unit each is shown in when nothing says otherwise. */
export const QUANTITIES: readonly (readonly [unit: string, name: string])[] = [
  ['1', 'plain number'],
  ['m', 'length'],
  ['m²', 'area'],
  ['m³', 'volume'],
  ['h', 'time'],
  ['d', 'number of days'],
  ['year', 'number of years'],
  ['h/d', 'hours a day'],
  ['h/year', 'hours a year'],
  ['d/year', 'days a year'],
  ['/h', 'rate per hour'],
  ['/d', 'rate per day'],
  ['/year', 'rate per year'],
  ['m/s', 'speed'],
  ['m/d', 'growth per day'],
  ['m³/h', 'air flow'],
  ['°', 'angle'],
  ['sr', 'solid angle'],
  ['K', 'temperature difference'],
  ['/K', 'share per kelvin'],
  ['mol', 'amount of light'],
  ['µmol/s', 'light output (PPF)'],
  ['µmol/m²/s', 'light on the leaves (PPFD)'],
  ['µmol/s/sr', 'light intensity'],
  ['µmol/s/m', 'light output per length'],
  ['mol/m²/d', 'light per day (DLI)'],
  ['mol/d', 'light per day in all'],
  ['mol/year', 'light per year'],
  ['mol/m²', 'light per area'],
  ['mol/m²/year', 'light per area and year'],
  ['µmol/J', 'efficacy'],
  ['J/µmol', 'energy per light'],
  ['cd', 'candela'],
  ['lm', 'luminous flux'],
  ['lx', 'illuminance'],
  ['lm/W', 'luminous efficacy'],
  ['lx per µmol/m²/s', 'lux per PPFD'],
  ['W', 'power'],
  ['W/m', 'power per length'],
  ['W/m²', 'power per area'],
  ['W/K', 'heat loss'],
  ['kWh', 'energy'],
  ['kWh/d', 'energy per day'],
  ['kWh/year', 'energy per year'],
  ['MJ/m²', 'energy per area'],
  ['MJ/m²/d', 'daily radiation'],
  ['kWh/m²/year', 'energy per area and year'],
  ['V', 'voltage'],
  ['A', 'current'],
  ['Ω', 'resistance'],
  ['Ω/km', 'resistance per length'],
  ['Ω·m', 'resistivity'],
  ['kg', 'mass'],
  ['kg/m', 'mass per length'],
  ['kg/m²', 'mass per area'],
  ['N', 'force'],
  ['N/m', 'force per length'],
  ['N/m²', 'pressure'],
  ['money', 'money'],
  ['money/year', 'money per year'],
  ['money/d', 'money per day'],
  ['money/h', 'money per hour'],
  ['money/kWh', 'price of energy'],
  ['money/mol', 'price of light'],
  ['money/m', 'price per length'],
  ['money/m²', 'price per area'],
  ['money/m²/year', 'yearly price per area'],
  ['money/W', 'price of power'],
  ['money/kW/month', 'demand price'],
  ['money/kg', 'price per mass'],
  ['kWh/mol', 'energy per light'],
];

const byDimension = new Map<Dimension, readonly [unit: string, name: string]>();
for (const entry of QUANTITIES) {
  const { dimension: of } = need(entry[0]);
  if (!byDimension.has(of)) byDimension.set(of, entry);
}

const composed = new Map<Dimension, string>();

/** Base units only: `kg·m²/s³`. Any dimension can be written so, and read again. */
export function baseUnits(of: Dimension): string {
  const known = composed.get(of);
  if (known !== undefined) return known;
  const above: string[] = [];
  let below = '';
  for (const [i, base] of BASES.entries()) {
    const p = of.powers[i] ?? 0;
    if (p > 0) above.push(`${base}${powerText(p)}`);
    else if (p < 0) below += `/${base}${powerText(-p)}`;
  }
  const text = above.join('·') + below;
  composed.set(of, text);
  return text;
}

/** Puts the book's currency where a unit says `money`. */
export const withCurrency = (unitText: string, currency: string): string => (unitText.includes('money') ? unitText.replace(/\bmoney\b/g, currency) : unitText);

/** The unit that a quantity is shown in when nothing says otherwise; an empty text for a plain number. */
export function defaultUnit(of: Dimension, reading: boolean, currency: string): string {
  if (reading) return '°C';
  if (of === PLAIN) return '';
  return withCurrency(byDimension.get(of)?.[0] ?? baseUnits(of), currency);
}

/** A quantity in words, as a message names it: "length", "price of energy". Without a name, its base units. */
export function quantityName(of: Dimension, reading = false): string {
  if (reading) return 'temperature reading';
  return byDimension.get(of)?.[1] ?? `quantity in ${baseUnits(of)}`;
}

/** The same with its article: "a length", "an area", "money". */
export function aQuantity(of: Dimension, reading = false): string {
  const name = quantityName(of, reading);
  if (/^(light|money|energy|hours|days|lux)\b/.test(name)) return name;
  return `${/^[aeiou]/.test(name) ? 'an' : 'a'} ${name}`;
}
