/** In which units what a cell holds can be shown. */
import { aQuantity, type Unit, unit } from '../../../functions/units.ts';
import type { At } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { setRowUnit, setUnit } from '../../book/commands/set-unit.ts';
import { addressOf, titleOf, unitOf } from '../../book/look-up.ts';
import type { Answer } from '../../book/refused.ts';
import type { Values } from '../../engine/types.ts';
import { valueAt } from './cell-view.ts';

/** Units that are worth picking, smallest first; any other that can be read may be typed. */
export const PICKS = [
  '1 %',
  'nm mm cm m km in ft',
  'mm² cm² m² in² ft²',
  'cm³ l m³ ft³',
  's min h',
  'd week',
  'month year',
  'm/s ft/s',
  'm³/h l/s cfm',
  '° rad',
  '°C °F',
  'µmol mmol mol',
  'µmol/s mmol/s mol/s',
  'µmol/m²/s mmol/m²/s µmol/ft²/s',
  'mol/m²/d mmol/m²/d',
  'µmol/J mmol/J mol/kWh',
  'J/µmol kWh/mol',
  'lm klm',
  'lx klx fc',
  'mW W kW VA kVA BTU/h ton',
  'W/m W/ft',
  'W/m² W/ft²',
  'J kJ MJ Wh kWh MWh BTU',
  'MJ/m² kWh/m²',
  'mV V kV',
  'mA A',
  'mΩ Ω',
  'Ω/km mΩ/m Ω/kft',
  'g kg lb',
  'g/m kg/m lb/ft',
  'g/m² kg/m² lb/ft²',
  'N kN lbf',
].map((line) => line.split(' '));

const alike = (a: Unit, b: Unit): boolean => a.dimension === b.dimension && a.reading === b.reading;

/** The unit in which a cell is shown now; undefined where it holds no quantity. */
export function shownUnit(at: At, values: Values): Unit | undefined {
  const value = valueAt(values, addressOf(at));
  if (value.kind === 'number') return unit(value.unit);
  const set = unitOf(at);
  return value.kind === 'blank' && set !== undefined ? unit(set) : undefined;
}

/** Symbols of the same kind, the present one among them; an empty text is the plain number. */
export function alikeUnits(now: Unit): readonly string[] {
  const found = PICKS.flat()
    .map((text) => unit(text))
    .filter((u) => u !== undefined && alike(u, now))
    .map((u) => u?.symbol ?? '');
  return found.includes(now.symbol) ? found : [now.symbol, ...found];
}

/** Why a cell can't be shown in the unit that was typed, or undefined. */
export function unitRefusal(at: At, values: Values, typed: string): string | undefined {
  const [now, wanted] = [shownUnit(at, values), unit(typed)];
  if (!wanted) return `“${typed}” is not a unit that is known here.`;
  if (now && !alike(now, wanted))
    return `${titleOf(at)} is ${aQuantity(now.dimension, now.reading)}; ${typed} is for ${aQuantity(wanted.dimension, wanted.reading)}.`;
  return undefined;
}

export function showIn(book: Book, at: At, what: 'cell' | 'row', wanted: string | null): Answer {
  return what === 'row' ? setRowUnit(book, { address: addressOf(at), unit: wanted }) : setUnit(book, { addresses: [addressOf(at)], unit: wanted });
}
