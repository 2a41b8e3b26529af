/**
 * VALUE, DATEVALUE and TIMEVALUE: the number that a text says, whatever the reader's country; TIME, HOUR, MINUTE and SECOND.
 * A day counts 1, from 30 December 1899. Texts whose reading hangs on a country (1,000 or 3/4/2026) say no number.
 *
 * Source: OASIS, OpenDocument 1.4, Part 4 (OpenFormula), 2025, sections 6.10.4, 6.10.11, 6.10.13, 6.10.17 to 6.10.19 and 6.13.34.
 */
import { int, round } from './rounding.ts';

const NUMBER = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?) ?(%*)$/;
const FRACTION = /^([+-]?)(\d+) (\d+)\/([1-9]\d?)$/;
const DATE = /^(\d{4})-(\d{2})-(\d{2})(?:[ T](.+))?$/;
const TIME = /^(\d{1,2}):(\d{1,2})(?::(\d{1,2}(?:\.\d+)?))?$/;

const DAY_SECONDS = 86_400;
const FIRST_DAY = daysTo(1899, 12, 30);

/** Days from 1 March of the year 0 in the calendar of Gregory: years are counted from March, so that a leap day comes last. */
function daysTo(year: number, month: number, day: number): number {
  const [y, m] = month > 2 ? [year, month - 3] : [year - 1, month + 9];
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + Math.floor((153 * m + 2) / 5) + day - 1;
}

function dayOf(year: number, month: number, day: number): number | undefined {
  if (month < 1 || month > 12 || day < 1) return undefined;
  const [at, next] = [daysTo(year, month, day), month === 12 ? daysTo(year + 1, 1, 1) : daysTo(year, month + 1, 1)];
  return at < next ? at - FIRST_DAY : undefined;
}

export const time = (hours: number, minutes: number, seconds: number): number => (hours * 3600 + minutes * 60 + seconds) / DAY_SECONDS;

function timeOf(text: string): number | undefined {
  const found = TIME.exec(text);
  if (!found) return undefined;
  const [hours, minutes, seconds] = [Number(found[1]), Number(found[2]), Number(found[3] ?? 0)];
  return hours < 24 && minutes < 60 && seconds < 60 ? time(hours, minutes, seconds) : undefined;
}

/** The day and the share of a day that a text names; undefined where it names neither. */
export function moment(text: string): { readonly day: number | undefined; readonly time: number | undefined } | undefined {
  const date = DATE.exec(text.trim());
  if (!date) {
    const alone = timeOf(text.trim());
    return alone === undefined ? undefined : { day: undefined, time: alone };
  }
  const day = dayOf(Number(date[1]), Number(date[2]), Number(date[3]));
  const at = date[4] === undefined ? undefined : timeOf(date[4]);
  return day === undefined || (date[4] !== undefined && at === undefined) ? undefined : { day, time: at };
}

/** The number that a text says, or undefined. */
export function numberIn(written: string): number | undefined {
  const text = written.trim();
  const number = NUMBER.exec(text);
  if (number) return Number(number[1]) / 100 ** (number[2] ?? '').length;
  const fraction = FRACTION.exec(text);
  if (fraction) return (fraction[1] === '-' ? -1 : 1) * (Number(fraction[2]) + Number(fraction[3]) / Number(fraction[4]));
  const found = moment(text);
  return found && (found.day ?? 0) + (found.time ?? 0);
}

/** What is left of x after its whole part; noise below 0 is none. */
const fraction = (x: number): number => Math.max(0, x - int(x));

export const hour = (at: number): number => int(fraction(at) * 24) % 24;
export const minute = (at: number): number => int(fraction(fraction(at) * 24) * 60) % 60;
/** To the nearest second, of which there are 0 to 59. */
export const second = (at: number): number => round(fraction(fraction(fraction(at) * 24) * 60) * 60) % 60;
