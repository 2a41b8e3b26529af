/**
 * Metric and US customary: which unit stands for which, and which of them a book shows.
 * Factors: NIST Special Publication 811, Guide for the Use of the International System of Units, 2008, appendix B (see units.ts).
 */
import { currencyOf, type Dimension, defaultUnit, unit } from './units.ts';

export type Measures = 'metric' | 'US customary';

/** The first pair with a unit is the way back too. */
const PAIRS: readonly (readonly [metric: string, customary: string])[] = [
  ['m', 'ft'],
  ['cm', 'in'],
  ['mm', 'in'],
  ['km', 'kft'],
  ['1/m', '1/ft'],
  ['m/d', 'in/d'],
  ['m/s', 'ft/s'],
  ['m²', 'ft²'],
  ['cm²', 'in²'],
  ['m³', 'ft³'],
  ['m³/h', 'cfm'],
  ['kg', 'lb'],
  ['g', 'lb'],
  ['g/kWh', 'lb/kWh'],
  ['kg/h', 'lb/h'],
  ['kg/d', 'lb/d'],
  ['kg/year', 'lb/year'],
  ['kg/m', 'lb/ft'],
  ['kg/m²', 'lb/ft²'],
  ['N', 'lbf'],
  ['N/m', 'lbf/ft'],
  ['N/m²', 'lbf/ft²'],
  ['°C', '°F'],
  ['K', 'F°'],
  ['/K', '/F°'],
  ['K/W', 'F°/W'],
  ['W/K', 'W/F°'],
  ['lx', 'fc'],
  ['W/m²', 'W/ft²'],
  ['Ω/km', 'Ω/kft'],
];
/** Of prices, what they are for. */
const PRICED: readonly (readonly [metric: string, customary: string])[] = [
  ['/m', '/ft'],
  ['/m²', '/ft²'],
  ['/kg', '/lb'],
];

const turned = (pairs: typeof PAIRS, symbol: string, measures: Measures): string | undefined =>
  measures === 'metric' ? pairs.find(([, customary]) => customary === symbol)?.[0] : pairs.find(([metric]) => metric === symbol)?.[1];

/** The unit that a quantity of this kind is shown in where nothing says otherwise. */
export const usualUnit = (of: Dimension, reading: boolean, { currency, measures }: { readonly currency: string; readonly measures?: Measures }): string =>
  declaredIn(defaultUnit(of, reading, currency), measures);

/** What a function declares, or is usual, is metric. */
export const declaredIn = (unitText: string, measures: Measures = 'metric'): string => (measures === 'metric' ? unitText : inMeasures(unitText, measures));

/** The unit in which a quantity is shown in these measures, where `unitText` names one of the others. Light, energy and time have the same units in both. */
export function inMeasures(unitText: string, measures: Measures): string {
  const symbol = unit(unitText)?.symbol;
  if (symbol === undefined) return unitText;
  const other = turned(PAIRS, symbol, measures);
  if (other !== undefined) return other;
  const [, money, per, rest = ''] = /^([^/]+)(\/[^/]+)(.*)$/.exec(symbol) ?? [];
  if (money === undefined || per === undefined || (money !== 'money' && currencyOf(money) === undefined)) return unitText;
  const priced = turned(PRICED, per, measures);
  return priced === undefined ? unitText : `${money}${priced}${rest}`;
}
