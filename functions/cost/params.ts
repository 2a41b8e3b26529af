/** Parameters that the cost functions share. Money is in the book's currency; years and days are written, never implied. */
export const MONEY_LIMIT = 1e12;
export const DAYS = { name: 'days', quantity: 'days a year', unit: 'd/year', meaning: 'on which the lamps are used', atLeast: 0, atMost: 366 } as const;
export const TARIFF = {
  name: 'tariff',
  quantity: 'price of energy',
  unit: 'money/kWh',
  meaning: 'all that goes by the kilowatt-hour',
  atLeast: 0,
  atMost: 1e6,
} as const;
export const BUY = { name: 'buy', quantity: 'price to buy', unit: 'money', meaning: 'all that is paid at the start', atLeast: 0, atMost: MONEY_LIMIT } as const;
export const RATE = { name: 'rate', quantity: 'interest', unit: '/year', meaning: '0.06 for six in a hundred a year', atLeast: 0, atMost: 2 } as const;
export const YEARS = { name: 'years', quantity: 'time in use', unit: 'year', meaning: 'until it is replaced', atLeast: 0.01, atMost: 100 } as const;
export const YEARLY = { unit: 'money/year', atLeast: -MONEY_LIMIT, atMost: MONEY_LIMIT } as const;

/** A rate that is none: below it the sum of the years differs from their number by less than a millionth, and the formula would only lose digits. */
export const noInterest = (rate: number): boolean => rate < 1e-8;

/** What one unit of money a year over so many years is worth today; at no interest, the years. */
export const annuity = (rate: number, years: number): number => (noInterest(rate) ? years : -Math.expm1(-years * Math.log1p(rate)) / rate);

export const INTEREST_SOURCE =
  'Closed form: level payments at the end of each year; C. S. Park, Contemporary Engineering Economics, 6th ed. 2016, chapter 3, uniform-series factors (cited from memory)';
