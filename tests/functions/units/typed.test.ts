import { describe, expect, test } from 'vitest';
import { readContent, readQuantity, textContent } from '../../../functions/quantity-text.ts';

const read = (typed: string, options: { unit?: string; decimalMark?: '.' | ','; currency?: string } = {}) =>
  readQuantity(typed, { currency: 'EUR', ...options });

/** Content, base value to 12 digits. */
const taken = (typed: string, options?: Parameters<typeof read>[1]): string => {
  const result = read(typed, options);
  if (result.kind !== 'number') throw new Error(`${typed}: ${JSON.stringify(result)}`);
  return `${result.content} = ${Number(result.base.toPrecision(12))}`;
};

describe('What people type', () => {
  test.each([
    ['36"', '36 in = 0.9144'],
    ['36″', '36 in = 0.9144'],
    ['3 ft 6 in', '42 in = 1.0668'],
    [`3'6"`, '42 in = 1.0668'],
    [`3' 6 1/2"`, '42.5 in = 1.0795'],
    ['1/2 in', '0.5 in = 0.0127'],
    ["12'6", '150 in = 3.81'],
    ['12’6”', '150 in = 3.81'],
    ['150 centimetres', '150 cm = 1.5'],
    ['150 centimeters', '150 cm = 1.5'],
    ['2.5 Kilowatt-hours', '2.5 kWh = 9000000'],
    ['½ m', '0.5 m = 0.5'],
    ['2½ m', '2.5 m = 2.5'],
    ['3/4 m', '0.75 m = 0.75'],
    ['1 1/2 m', '1.5 m = 1.5'],
    ['-3 ft 6 in', '-42 in = -1.0668'],
    ['1.2m', '1.2 m = 1.2'],
    ['16h', '16 h = 57600'],
    ['5 h 30 min', '330 min = 19800'],
    ['0.25 €/kWh', '0.25 EUR/kWh = 6.94444444444e-8'],
    ['€ 0.25/kWh', '0.25 EUR/kWh = 6.94444444444e-8'],
    ['EUR 1299.99', '1299.99 EUR = 1299.99'],
    ['-€5', '-5 EUR = -5'],
    ['85 %', '85 % = 0.85'],
    ['85%', '85 % = 0.85'],
    ['−5 °C', '-5 °C = -5'],
    ['77 °F', '77 °F = 25'],
    ['200 umol/m2/s', '200 µmol/m²/s = 0.0002'],
    ['12 000', '12000 = 12000'],
    ['12\u2009000\u00a0W', '12000 W = 12000'],
    ["12'345", '12345 = 12345'],
    ['1,234,567', '1234567 = 1234567'],
    ['1.234.567,5', '1234567.5 = 1234567.5'],
    ['1 234,5 m', '1234.5 m = 1234.5'],
    ['.5 m', '0.5 m = 0.5'],
    ['1.50 m', '1.50 m = 1.5'],
    ['1E3 W', '1e3 W = 1000'],
    ['1.2×10⁻⁸ m', '1.2e-8 m = 1.2e-8'],
    ['120°', '120 ° = 2.09439510239'],
    ['54 lx per µmol/m²/s', '54 lx per µmol/m²/s = 54000000'],
    ['+7', '7 = 7'],
  ])('%s is stored as %s base units', (typed, expected) => {
    expect(taken(typed)).toBe(expected);
  });

  test('feet and bare inches are said as they were read, and never taken for a power', () => {
    expect(read("12'6", { unit: 'ft' })).toMatchObject({ said: "12'6 read as 12′ 6″" });
    expect(read("12'14", { unit: 'ft' })).toMatchObject({ kind: 'refused' });
    expect(read('3/4', { unit: 'm' }), 'may be a date').toMatchObject({ kind: 'refused' });
    expect(read('3/4 cup')).toMatchObject({ kind: 'text' });
  });

  test('what was typed is kept where it differs from what is stored', () => {
    expect(read('3 ft 6 in')).toMatchObject({ typed: '3 ft 6 in' });
    expect(read('42 in')).not.toHaveProperty('typed');
  });

  test('a bare number takes the shown unit of its cell', () => {
    expect(taken('36', { unit: 'in' })).toBe('36 in = 0.9144');
    expect(taken('0.25', { unit: 'money/kWh' })).toBe('0.25 EUR/kWh = 6.94444444444e-8');
  });

  test('another unit of the same quantity is converted and said', () => {
    expect(read('36 in', { unit: 'cm' })).toMatchObject({ content: '36 in', said: '36 in is 91.44 cm' });
    expect(read('77 °F', { unit: '°C' })).toMatchObject({ content: '77 °F', said: '77 °F is 25 °C' });
  });

  test.each([
    ['5 W', 'm', 'This cell takes a length in m; 5 W is a power.'],
    ['16 h', 'h/d', 'This cell takes hours a day in h/d; 16 h is a time. Did you mean 16 h/d?'],
    ['25 K', '°C', 'This cell takes a temperature reading in °C; 25 K is a temperature difference. Did you mean 25 °C?'],
    ['5 m', '1', 'This cell takes a plain number; 5 m is a length.'],
    ['3 tiers', 'm', '“3 tiers” can not be read as a length such as 1 m. There is no unit called “tiers” here.'],
  ])('%s is refused in a cell shown in %s, with the reason', (typed, unit, message) => {
    expect(read(typed, { unit })).toEqual({ kind: 'refused', message });
  });

  test.each([
    ['17 cents/kWh', 'USD', '0.17 USD/kWh', 0.17],
    ['17 cents per kWh', 'USD', '0.17 USD/kWh', 0.17],
    ['17c/kWh', 'AUD', '0.17 AUD/kWh', 0.17],
    ['17 ¢/kWh', 'CAD', '0.17 CAD/kWh', 0.17],
    ['17.5 ct/kWh', 'EUR', '0.175 EUR/kWh', 0.175],
    ['8 ct/kWh', 'EUR', '0.08 EUR/kWh', 0.08],
    ['28.6p per kilowatt-hour', 'GBP', '0.286 GBP/kWh', 0.286],
    ['123 cents', 'USD', '1.23 USD', 1.23],
  ])('%s in a book in %s is %s, and it is said', (typed, currency, content, money) => {
    const unit = content.endsWith('/kWh') ? 'money/kWh' : 'money';
    const result = read(typed, { currency, unit });
    expect(result).toMatchObject({ kind: 'number', content, typed, said: `${typed} read as ${content}` });
    expect(result.kind === 'number' && result.base * (unit === 'money' ? 1 : 3.6e6)).toBeCloseTo(money, 12);
  });

  test.each([
    ['17 cents/kWh', 'CHF', 'This book is in CHF, not in cents: write 0.17 CHF/kWh, if that is meant.'],
    ['17p/kWh', 'EUR', 'This book is in EUR, not in pence: write 0.17 EUR/kWh, if that is meant.'],
    ['17 ct/kWh', 'GBP', 'This book is in GBP, not in cents: write 0.17 GBP/kWh, if that is meant.'],
  ])('%s in a book in %s is refused, with what to write', (typed, currency, message) => {
    expect(read(typed, { currency, unit: 'money/kWh' })).toEqual({ kind: 'refused', message });
  });

  test('hundredths of money are read where money is asked for, and nowhere else', () => {
    expect(read('12 c', { unit: 'm' })).toMatchObject({ kind: 'refused' });
    expect(read('17 cents', { currency: 'USD' })).toMatchObject({ kind: 'text' });
    // The price of what?
    expect(read('17 cents', { currency: 'USD', unit: 'money/kWh' })).toMatchObject({ kind: 'refused' });
  });

  test('another currency than the book’s is refused, in whatever way it is written', () => {
    for (const typed of ['$5', '5 USD', '0.2 $/kWh', 'GBP 3', '£3'])
      expect(read(typed)).toMatchObject({ kind: 'refused', message: expect.stringContaining('This book is in EUR') });
    expect(taken('$5', { currency: 'CAD' })).toBe('5 CAD = 5');
    expect(taken('12 500,75 kr', { currency: 'SEK' })).toBe('12500.75 SEK = 12500.75');
  });
});

describe('Marks between digits', () => {
  test.each([
    ['1,2 m', '.', '1.2 m', true],
    ['0,123', '.', '0.123', true],
    ['1,2345', '.', '1.2345', true],
    ['1,234 W', '.', '1234 W', true],
    ['1,234.5', '.', '1234.5', false],
    ['1.234,5', '.', '1234.5', false],
    ['1,2 m', ',', '1.2 m', false],
    ['1,234', ',', '1.234', false],
    ['1.2', ',', '1.2', false],
    ['1.234.567', ',', '1234567', true],
  ] as const)('%s with the decimal mark %s is %s; said: %s', (typed, decimalMark, content, said) => {
    const result = read(typed, { decimalMark });
    expect(result).toMatchObject({ kind: 'number', content });
    expect('said' in result).toBe(said);
  });

  test('a point before three digits where commas are decimal could be either, and is refused', () => {
    expect(read('1.234', { decimalMark: ',' })).toMatchObject({ kind: 'refused', message: expect.stringContaining('1234 or as 1,234') });
  });

  test.each(['1,23,456', '12,34', '1.2.3', '1,2,3', '12 34'])('groups that are not of three are no thousands: %s', (typed) => {
    const result = read(typed);
    expect(result.kind === 'text' || (result.kind === 'number' && typed === '12,34' && result.value === 12.34)).toBe(true);
  });
});

describe('What is no quantity', () => {
  test.each(['basil', '3 – 4', '2024-01-05', '030 123 456', '30-60 cm', '+49 30 1234', '1/2', '5 m 3 W', '(5)', 'E5', 'N/A'])(
    '%s is kept as text, as typed',
    (typed) => {
      expect(read(typed)).toMatchObject({ kind: 'text', content: typed });
    },
  );

  test('a text that looks like a number gets an apostrophe and reads back as it was', () => {
    for (const text of ['36', '007', '5 m', 'TRUE', '=A1', "'quoted", '1e5', '-3']) {
      const content = textContent(text, 'EUR');
      expect(readContent(content, 'EUR')).toEqual({ kind: 'text', text });
    }
    expect(read("'36")).toEqual({ kind: 'text', content: "'36" });
  });

  test('an unknown unit is said', () => {
    expect(read('36 inn')).toEqual({ kind: 'text', content: '36 inn', said: 'Kept as text. There is no unit called “inn” here.' });
  });

  test('yes or no, blank and formula are what they are', () => {
    expect(read('true')).toEqual({ kind: 'yes or no', yes: true, content: 'TRUE' });
    expect(read('   ')).toEqual({ kind: 'blank', content: '' });
    expect(read(' =A1')).toEqual({ kind: 'formula' });
    expect(read('1e400')).toMatchObject({ kind: 'refused' });
  });
});
