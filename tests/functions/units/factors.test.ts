import { unit as library } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { isRefusal } from '../../../functions/define.ts';
import { fromBase, need, toBase, unit } from '../../../functions/units.ts';
import published from '../../references/units.json';
import { evaluate } from '../evaluate.ts';

/** Our symbol, the library's, and the coherent unit both are held against. */
const PAIRS: readonly (readonly [ours: string, theirs: string, base: string])[] = [
  ['m', 'm', 'm'],
  ['cm', 'cm', 'm'],
  ['mm', 'mm', 'm'],
  ['km', 'km', 'm'],
  ['in', 'in', 'm'],
  ['ft', 'ft', 'm'],
  ['nm', 'nm', 'm'],
  ['l', 'L', 'm^3'],
  ['mm²', 'mm^2', 'm^2'],
  ['cm²', 'cm^2', 'm^2'],
  ['m²', 'm^2', 'm^2'],
  ['in²', 'in^2', 'm^2'],
  ['ft²', 'ft^2', 'm^2'],
  ['ft³', 'ft^3', 'm^3'],
  ['m³/h', 'm^3/h', 'm^3/s'],
  ['cfm', 'ft^3/min', 'm^3/s'],
  ['s', 's', 's'],
  ['min', 'min', 's'],
  ['h', 'h', 's'],
  ['m/h', 'm/h', 'm/s'],
  ['mol', 'mol', 'mol'],
  ['mmol', 'mmol', 'mol'],
  ['µmol', 'umol', 'mol'],
  ['µmol/s', 'umol/s', 'mol/s'],
  ['µmol/m²/s', 'umol/m^2/s', 'mol/m^2/s'],
  ['µmol/J', 'umol/J', 'mol/J'],
  ['mol/kWh', 'mol/kWh', 'mol/J'],
  ['mol/MJ', 'mol/MJ', 'mol/J'],
  ['J/µmol', 'J/umol', 'J/mol'],
  ['cd', 'cd', 'cd'],
  ['rad', 'rad', 'rad'],
  ['°', 'deg', 'rad'],
  ['W', 'W', 'W'],
  ['mW', 'mW', 'W'],
  ['kW', 'kW', 'W'],
  ['VA', 'VA', 'W'],
  ['W/m²', 'W/m^2', 'W/m^2'],
  ['J', 'J', 'J'],
  ['kJ', 'kJ', 'J'],
  ['MJ', 'MJ', 'J'],
  ['Wh', 'Wh', 'J'],
  ['kWh', 'kWh', 'J'],
  ['MWh', 'MWh', 'J'],
  ['kWh/m²', 'kWh/m^2', 'J/m^2'],
  ['MJ/m²', 'MJ/m^2', 'J/m^2'],
  ['BTU', 'BTU', 'J'],
  ['BTU/h', 'BTU/h', 'W'],
  ['A', 'A', 'A'],
  ['mA', 'mA', 'A'],
  ['V', 'V', 'V'],
  ['mV', 'mV', 'V'],
  ['kV', 'kV', 'V'],
  ['Ω', 'ohm', 'ohm'],
  ['mΩ', 'mohm', 'ohm'],
  ['Ω/km', 'ohm/km', 'ohm/m'],
  ['Ω/kft', '0.001 ohm/ft', 'ohm/m'],
  ['kg', 'kg', 'kg'],
  ['g', 'g', 'kg'],
  ['lb', 'lbm', 'kg'],
  ['N', 'N', 'N'],
  ['kN', 'kN', 'N'],
  ['lbf', 'lbf', 'N'],
  ['K', 'K', 'K'],
];

const theirFactor = (text: string, base: string): number => library(/^\d/.test(text) ? text : `1 ${text}`).toNumber(base);

describe('Factors agree with a general-purpose unit library', () => {
  test.each(PAIRS)('%s is as much as its %s, within 1e-12', (ours, theirs, base) => {
    const expected = theirFactor(theirs, base);
    expect(Math.abs(toBase(1, need(ours)) / expected - 1)).toBeLessThan(1e-12);
  });

  test.each([
    ['°C', 'degC'],
    ['°F', 'degF'],
  ])('a reading in %s is the same temperature as its %s, with the origin at 0 °C', (ours, theirs) => {
    for (const reading of [-40, -5, 0, 32, 77, 212]) {
      expect(toBase(reading, need(ours))).toBeCloseTo(library(reading, theirs).toNumber('K') - 273.15, 10);
    }
  });
});

describe('Units that the library lacks agree with their published definitions', () => {
  test.each(published.units)('1 $unit is $is $of', ({ unit: symbol, of, is }) => {
    expect(need(symbol).dimension).toBe(need(of).dimension);
    expect(Math.abs(fromBase(toBase(1, need(symbol)), need(of)) / is - 1)).toBeLessThan(1e-12);
  });
});

describe('What a unit is written as', () => {
  test.each([
    ['umol/m2/s', 'µmol/m²/s'],
    ['μmol/m²/s', 'µmol/m²/s'],
    ['ohm/km', 'Ω/km'],
    ['deg', '°'],
    ['degC', '°C'],
    ['"', 'in'],
    ["'", 'ft'],
    ['€/kWh', 'EUR/kWh'],
    ['ft^2', 'ft²'],
    ['lx per umol/m2/s', 'lx per µmol/m²/s'],
    ['kWh/m2/d', 'kWh/m²/d'],
    ['hours', 'h'],
    ['m³/h', 'm³/h'],
    // As meters' files and papers write them: SI Brochure, 9th ed. 2019, 5.4.1, a half-high dot or a space, negative powers.
    ['µmol m⁻² s⁻¹', 'µmol/m²/s'],
    ['umol m-2 s-1', 'µmol/m²/s'],
    ['µmol m^-2 s^-1', 'µmol/m²/s'],
    ['µmol·m⁻²·s⁻¹', 'µmol/m²/s'],
    ['mol·m-2·d-1', 'mol/m²/d'],
    ['MJ m-2 d-1', 'MJ/m²/d'],
    ['W m⁻²', 'W/m²'],
    ['m⁻¹', 'm⁻¹'],
  ])('%s is shown as %s', (typed, shown) => {
    expect(unit(typed)?.symbol).toBe(shown);
  });

  test.each(['M', 'h/d2', 'KWH', 'mol/M2', 'foo', 'm/', '°C/m', '°C²', 'm0', 'W/', 'd2', 'EURO', 's-1', 'm-2', 'µmol s-1 m2', 'kW h', 'µmol m-2 x'])(
    '%s is no unit',
    (text) => {
      expect(unit(text)).toBeUndefined();
    },
  );

  test('a day, a year and a second never mix', () => {
    const dimensions = ['mol/m²/s', 'mol/m²/d', 'mol/m²/year', 'mol/m²/h'].map((text) => need(text).dimension);
    expect(new Set(dimensions).size).toBe(3);
    expect(need('h/d').dimension).not.toBe(need('1').dimension);
    expect(need('d/year').dimension).not.toBe(need('1').dimension);
    expect(need('week').dimension).toBe(need('d').dimension);
    expect(need('EUR/month').dimension).toBe(need('EUR/year').dimension);
  });
});

test('a conversion between kinds says which kinds they are', () => {
  const said = (formula: string): unknown => {
    const value = evaluate(formula);
    return isRefusal(value) ? value.message : value;
  };
  expect(said('CONVERT(25,"°C","K")')).toBe('CONVERT: “°C” is a unit of temperature reading and “K” one of temperature difference; both must be of one kind.');
  expect(said('CONVERT(1,"m","kg")')).toBe('CONVERT: “m” is a unit of length and “kg” one of mass; both must be of one kind.');
});
