/** The months of a common year: their days, and the day of the year in the middle of each. */
export const MONTHS = [
  { name: 'January', days: 31, middle: 15 },
  { name: 'February', days: 28, middle: 46 },
  { name: 'March', days: 31, middle: 74 },
  { name: 'April', days: 30, middle: 105 },
  { name: 'May', days: 31, middle: 135 },
  { name: 'June', days: 30, middle: 166 },
  { name: 'July', days: 31, middle: 196 },
  { name: 'August', days: 31, middle: 227 },
  { name: 'September', days: 30, middle: 258 },
  { name: 'October', days: 31, middle: 288 },
  { name: 'November', days: 30, middle: 319 },
  { name: 'December', days: 31, middle: 349 },
] as const;
