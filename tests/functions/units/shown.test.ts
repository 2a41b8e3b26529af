import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { counted, plainText, readContent, readQuantity, showNumber, spokenUnit } from '../../../functions/quantity-text.ts';
import { defaultUnit, need, over, power, toBase } from '../../../functions/units.ts';
import { runs } from '../../cases.ts';

const UNITS =
  'm|cm|mm|km|in|ft|m²|cm²|mm²|in²|ft²|m³|l|µmol/s|µmol/m²/s|mol/m²/d|mol/d|mol/year|µmol/J|mol/kWh|J/µmol|µmol/s/sr|lx|klx|lm|cd|fc|lx per µmol/m²/s|MJ/m²/d|kWh/m²/d|nm|W/m²|s|min|h|/h|d|week|month|year|h/d|min/d|h/year|d/year|W|kW|J|kJ|MJ|Wh|kWh|kWh/d|kWh/year|BTU|BTU/h|ton|V|mV|A|mA|mΩ|Ω|Ω/km|Ω/kft|VA|K|F°|°C|°F|g|kg|lb|N|lbf|m³/h|cfm|m/d|°|rad|EUR|EUR/kWh|EUR/mol|EUR/year|EUR/m²|EUR/kW/month|%|'.split(
    '|',
  );

/** Numbers of the sizes that plans have. */
const number = fc.oneof(
  fc.double({ min: -1e9, max: 1e9, noNaN: true }),
  fc.integer({ min: -100_000, max: 100_000 }),
  fc.tuple(fc.integer({ min: -99_999, max: 99_999 }), fc.integer({ min: 0, max: 6 })).map(([n, p]) => Number(`${n}e-${p}`)),
);

test('what is counted takes its plural, save one', () => {
  expect([0, 1, 2, 2000].map((n) => counted(n, 'point'))).toEqual(['0 points', '1 point', '2 points', '2,000 points']);
});

describe('Shown numbers', () => {
  test.each([
    [0.9144, 'in', undefined, '36\u202fin'],
    [2816.3256, '1', undefined, '2816'],
    [27648.13, '1', undefined, '27\u202f648'],
    [1 / 3, '1', undefined, '0.3333'],
    [-40, '°C', undefined, '−40\u202f°C'],
    [1299.99, 'EUR', undefined, '1299.99\u202fEUR'],
    [149.7568, 'EUR/year', undefined, '149.8\u202fEUR/year'],
    [0.0002, 'µmol/m²/s', undefined, '200\u202fµmol/m²/s'],
    [Math.PI / 1.5, '°', undefined, '120°'],
    [1e-8, 'm', undefined, '1×10⁻⁸\u202fm'],
    [3e-6, 'm', undefined, '0.000003\u202fm'],
    [0.85, '%', undefined, '85\u202f%'],
    [1.005, 'm', 2, '1.00\u202fm'],
    [2.5, 'm', 3, '2.500\u202fm'],
    [-0.001, '1', 2, '0.00'],
    [123456789.5, '1', 1, '123\u202f456\u202f789.5'],
    [3.6e6 * 528, 'kWh', undefined, '528\u202fkWh'],
    [0.5, 'month', undefined, '6\u202fmonths'],
    [1 / 12, 'month', undefined, '1\u202fmonth'],
    [1, 'year', undefined, '1\u202fyear'],
    [1, 'year', 1, '1.0\u202fyears'],
    [0, 'year', undefined, '0\u202fyears'],
    [72, 'EUR/month', undefined, '6\u202fEUR/month'],
    [14, 'd', undefined, '14\u202fd'],
  ])('%d in %s with %s decimals is %s', (base, unit, decimals, expected) => {
    expect(showNumber(base, unit, decimals).text).toBe(expected);
  });

  test('the parts make up the whole', () => {
    expect(showNumber(-12345.678, 'm', 1)).toEqual({ sign: '−', whole: '12\u202f345', fraction: '.7', unit: 'm', text: '−12\u202f345.7\u202fm' });
  });

  test.each(UNITS)('shown, read and shown again is the same, in %s', (symbol) => {
    fc.assert(
      fc.property(number, (x) => {
        const shown = showNumber(toBase(x, need(symbol)), symbol).text;
        const back = readQuantity(shown, { currency: 'EUR' });
        if (back.kind !== 'number') throw new Error(`${shown}: ${JSON.stringify(back)}`);
        // A length of less than a foot is read in inches.
        expect(symbol === 'ft' ? ['ft', 'in'] : [symbol]).toContain(back.shown ?? back.unit);
        expect(showNumber(back.base, symbol).text).toBe(shown);
      }),
      runs(200, 20_240),
    );
  });

  test.each(UNITS)('a number as typed in %s comes back as the digits that were typed, from base and from its content', (symbol) => {
    fc.assert(
      fc.property(fc.integer({ min: -99_999_999, max: 99_999_999 }), fc.integer({ min: 0, max: 5 }), (n, places) => {
        const x = Number(`${n}e-${places}`);
        const typed = readQuantity(`${x} ${symbol}`, { currency: 'EUR' });
        if (typed.kind !== 'number') throw new Error(JSON.stringify(typed));
        expect(readContent(typed.content, 'EUR')).toMatchObject({ kind: 'number', base: typed.base, given: x });
        const decimal = Number(plainText(typed.base, symbol));
        // The origin of °F lies 32 away: digits are lost to the sum, not to the factor.
        if (symbol === '°F') expect(Math.abs(decimal - x)).toBeLessThan(1e-9 * Math.max(1, Math.abs(x)));
        else expect(decimal).toBe(x);
      }),
      runs(200, 20_241),
    );
  });
});

describe('Spoken units', () => {
  test.each([
    ['µmol/m²/s', 'micromoles per square metre per second'],
    ['lx per µmol/m²/s', 'lux per micromole per square metre per second'],
    ['EUR/kWh', 'euros per kilowatt-hour'],
    ['/h', 'per hour'],
    ['h/d', 'hours per day'],
    ['m³/h', 'cubic metres per hour'],
    ['in', 'inches'],
    ['ft²', 'square feet'],
    ['%', 'percent'],
    ['°C', 'degrees Celsius'],
    ['cfm', 'cubic feet per minute'],
    ['', ''],
  ])('%s is said as %s', (symbol, words) => {
    expect(spokenUnit(symbol)).toBe(words);
  });

  test('no unit is spoken by its symbol', () => {
    for (const symbol of UNITS) expect(spokenUnit(symbol), symbol).not.toMatch(/[²³µ°Ω%/]|\b[a-zA-Z]{1,2}\b(?<!\b(?:of|to))/u);
  });
});

describe('The unit when nothing says otherwise', () => {
  test.each([
    ['J', 'kWh'],
    ['J/d', 'kWh/d'],
    ['J/year', 'kWh/year'],
    ['s', 'h'],
    ['s/d', 'h/d'],
    ['mol/J', 'µmol/J'],
    ['J/mol', 'J/µmol'],
    ['m', 'm'],
    ['rad', '°'],
    ['mol/m²/s', 'µmol/m²/s'],
    ['mol/s', 'µmol/s'],
    ['mol/m²/d', 'mol/m²/d'],
    ['J/m²/d', 'MJ/m²/d'],
    ['cd·sr·s/mol', 'lx per µmol/m²/s'],
    ['m³/s', 'm³/h'],
    ['Ω/m', 'Ω/km'],
    ['money/J', 'EUR/kWh'],
    ['/s', '/h'],
    ['kg·m/s', 'm·kg/s'],
  ])('a quantity in %s is shown in %s', (dimension, shown) => {
    expect(defaultUnit(need(dimension).dimension, false, 'EUR')).toBe(shown);
  });

  test('it is always a unit of that very quantity', () => {
    fc.assert(
      fc.property(fc.constantFrom(...UNITS), fc.constantFrom(...UNITS), fc.constantFrom(-2, -1, -0.5, 0.5, 1, 2), (a, b, n) => {
        const quotient = power(over(need(a).dimension, need(b).dimension), n);
        expect(need(defaultUnit(quotient, false, 'EUR')).dimension).toBe(quotient);
      }),
      runs(100, 20_242),
    );
  });
});
