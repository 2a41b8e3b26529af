/**
 * Units of the second evaluator: a factor to base units for each symbol, from BIPM, The International System of Units (SI Brochure), 9th ed. 2019, tables
 * 2, 4, 7 and 8. Day and year are kinds of their own, and a month is a twelfth of a year (common practice, no published source).
 */
import { type NumberValue, num } from './values.ts';

const FACTORS: Readonly<Record<string, number>> = {
  '': 1,
  '1': 1,
  '%': 0.01,
  m: 1,
  cm: 0.01,
  mm: 0.001,
  km: 1000,
  'm²': 1,
  'mm²': 1e-6,
  'm³': 1,
  s: 1,
  h: 3600,
  d: 1,
  year: 1,
  month: 1 / 12,
  kg: 1,
  g: 1e-3,
  W: 1,
  kW: 1000,
  kWh: 3.6e6,
  MJ: 1e6,
  A: 1,
  V: 1,
  Ω: 1,
  N: 1,
  K: 1,
  mol: 1,
  µmol: 1e-6,
  lx: 1,
  '°': Math.PI / 180,
  EUR: 1,
  money: 1,
};

const known = new Map<string, number>();

/** Base units in one of this unit. Throws where the table above has no such symbol. */
export function factorOf(unit: string): number {
  const before = known.get(unit);
  if (before !== undefined) return before;
  const [left = '', right] = unit.split(' per ');
  let factor = right === undefined ? 1 : 1 / factorOf(right);
  for (const [i, symbol] of left.split('/').entries()) {
    const one = FACTORS[symbol];
    if (one === undefined) throw new Error(`The second evaluator knows no unit “${symbol}” (in “${unit}”).`);
    factor *= i === 0 ? one : 1 / one;
  }
  known.set(unit, factor);
  return factor;
}

const ICE = 273.15;

export const toBase = (x: number, unit: string): NumberValue => (unit === '°C' ? num(x + ICE, true) : num(x * factorOf(unit)));
export const fromBase = (value: NumberValue, unit: string): number => (unit === '°C' ? value.n - ICE : value.n / factorOf(unit));
