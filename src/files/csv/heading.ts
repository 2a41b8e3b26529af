/** Headings that carry a unit: `bench_length [ft]`, `Price (EUR)`. */
import { currencyOf, unit, withCurrency } from '../../../functions/units.ts';

export interface Heading {
  readonly title: string;
  /** The unit in which the bare numbers of the column are. */
  readonly unit?: string;
  /** What stands in square brackets and is no unit of this book. */
  readonly unknown?: string;
}

const BRACKETS = /^(.*?)\s*(?:\[([^[\]]*)\]|\(([^()]*)\))$/u;

/** Round brackets that hold no unit are part of the title: `Height (guessed)`. */
export function readHeading(text: string, currency: string): Heading {
  const whole = text.trim();
  const [, title = '', square, round] = BRACKETS.exec(whole) ?? [];
  const symbol = (square ?? round ?? '').trim();
  if (symbol === '') return { title: square === undefined ? whole : title };
  const found = unit(withCurrency(symbol, currency));
  const named = found && currencyOf(found.symbol);
  if (found && (named === undefined || named === currency)) return { title, unit: found.symbol };
  return square === undefined ? { title: whole } : { title, unknown: symbol };
}
