import { functions } from '../../functions/index.ts';
import { type Dimension, fromBase, need, unit } from '../../functions/units.ts';
import { wholeCall } from '../book/content.ts';

/** One unit a dimension, in which `eval` says results. The first of a dimension counts. */
const DEFAULTS = [
  '', // a share or a count; 85 % too, unless a function declares that it speaks in hundredths
  ...['m', 'm²', 'm³', 'm³/h', 'm/d', 'nm', '°', '1/m'],
  ...['µmol/s', 'µmol/m²/s', 'µmol/s/sr', 'mol/m²/d', 'mol', 'mol/year', 'mol/d', 'µmol/J', 'J/µmol', 'MJ/m²/d', 'W/m²', 'lx', 'lm', 'cd', 'lx per µmol/m²/s'],
  ...['h', 'd', 'year', 'h/d', 'h/year', 'd/year', '/h', '/d', '/year'],
  ...['W', 'kWh', 'kWh/year', 'kWh/d', 'V', 'A', 'Ω', 'Ω/km', 'K', 'kg', 'N'],
  ...['money', 'money/year', 'money/kWh', 'money/mol', 'money/h', 'money/m', 'money/m²'],
];

const byDimension = new Map<Dimension, string>();
for (const text of DEFAULTS) {
  const { dimension } = need(text);
  if (!byDimension.has(dimension)) byDimension.set(dimension, text);
}

const returned = new Map(functions.map((f) => [f.name, f.returns.unit]));

/**
 * A number of base value, in the unit that its function declares if the formula is one call, else in its dimension's default unit.
 * @param shown the unit the engine would show it in, which tells its dimension
 */
export function inDefaultUnit(formula: string, base: number, shown: string, currency: string): { value: number; unit: string } {
  const own = unit(shown);
  if (!own) return { value: base, unit: shown };
  const name = wholeCall(formula);
  const declared = name === undefined ? undefined : unit(returned.get(name) ?? 'any');
  const declares = declared !== undefined && declared.dimension === own.dimension;
  const chosen = declares ? declared : own.reading ? need('°C') : need(byDimension.get(own.dimension) ?? own.symbol);
  return { value: fromBase(base, chosen), unit: chosen.symbol.replace(/\bmoney\b/, currency) };
}
