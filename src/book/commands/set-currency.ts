/** The money a book reckons in. Amounts keep their numbers, as the new money's own, or are converted by a rate that is given. */
import { readContent } from '../../../functions/quantity-text.ts';
import { currencyOf, isCurrency, unit } from '../../../functions/units.ts';
import { placeIn } from '../address.ts';
import type { Book, Range } from '../book.ts';
import { isFormula } from '../content.ts';
import { addressOf } from '../look-up.ts';
import { mapCells } from '../map-cells.ts';
import { type Answer, refused } from '../refused.ts';

export interface SetCurrency {
  /** A code of ISO 4217: `EUR`. */
  readonly currency: string;
  /** What one unit of the money until now is in the new one. Left out, amounts keep their numbers. */
  readonly rate?: number;
}

/** Units stand in quotes in a formula: UNIT(5,"EUR/kWh"), SHOW(C5,"EUR"). */
const QUOTED = /"([^"]*)"/gu;
/** A written amount: UNIT(5,"EUR/kWh"). */
const WRITTEN = /\bUNIT\(\s*(-?[\d.]+(?:e[-+]?\d+)?)\s*,\s*"([^"]*)"\s*\)/giu;
/** Money that is made of or turned into a plain number, which no rate can follow. */
const PLAIN_MONEY = /\b(?:UNIT|NUMBER\.IN)\(/iu;

export function setCurrency(book: Book, { currency, rate }: SetCurrency): Answer {
  if (!isCurrency(currency)) return refused(`“${currency}” is not a currency's code; EUR, GBP or USD would be.`);
  if (rate !== undefined && !(rate > 0 && Number.isFinite(rate))) return refused(`A rate is a number above 0: what 1 ${book.currency} is in ${currency}.`);
  if (currency === book.currency) return { label: `Money: ${currency}`, edits: [] };
  const label = `Money: ${book.currency} → ${currency}; ${rate === undefined ? 'amounts keep their numbers' : `1 ${book.currency} is ${rate} ${currency}`}`;
  const isMoney = (text: string): boolean => text !== '' && unit(text) !== undefined && currencyOf(text) === book.currency;
  const inUnit = (text: string): string => (isMoney(text) ? renamed(text, book.currency, currency) : text);
  const inAmount = (number: string, text: string): string => (isMoney(text) ? converted(number, powerOf(text), rate) : number);
  const inContent = (content: string): string => {
    if (isFormula(content)) {
      const amounts = content.replace(WRITTEN, (_, number: string, text: string) => `UNIT(${inAmount(number, text)},"${text}")`);
      return amounts.replace(QUOTED, (_, text: string) => `"${inUnit(text)}"`);
    }
    if (readContent(content).kind !== 'number') return content;
    return content.replace(
      /^(-?[\d.]+(?:e[-+]?\d+)?)( ?)(.+)$/iu,
      (_, number: string, space: string, text: string) => inAmount(number, text) + space + inUnit(text),
    );
  };
  const inRange = (range: Range, limitsIn = ''): Range => {
    const limits = rate === undefined || !isMoney(limitsIn) ? range : scaled(range, powerOf(limitsIn), rate);
    const oneOf = limits.oneOf?.map(inContent);
    return oneOf === undefined || String(oneOf) === String(range.oneOf) ? limits : { ...limits, oneOf };
  };
  const edits = mapCells(book, inUnit, inContent, false, inRange);
  return { label, edits: [...edits, { at: 'book', before: { currency: book.currency }, after: { currency } }] };
}

/** Amounts of money that a change of the currency would make others of: given ones and those written into formulas. Nothing costs as little in any money. */
export function hasPrices(book: Book): boolean {
  return anyContent(book, (content) => {
    if (isFormula(content)) return [...content.matchAll(WRITTEN)].some(([, number, text = '']) => Number(number) !== 0 && currencyOf(text) === book.currency);
    const read = readContent(content, book.currency);
    return read.kind === 'number' && read.given !== 0 && currencyOf(read.unit) === book.currency;
  });
}

/** Addresses of formulas that make money of plain numbers, or plain numbers of money: no rate can say what those numbers are. */
export function plainMoney(book: Book): readonly string[] {
  const found: string[] = [];
  anyContent(book, (content, address) => {
    const rest = isFormula(content) ? content.replace(WRITTEN, '') : '';
    if (PLAIN_MONEY.test(rest) && [...rest.matchAll(QUOTED)].some(([, text = '']) => text !== '' && unit(text) && currencyOf(text) === book.currency))
      found.push(address());
    return false;
  });
  return found;
}

function anyContent(book: Book, is: (content: string, address: () => string) => boolean): boolean {
  return book.tables.some((table) =>
    table.rows.some((row, r) =>
      table.columns.some((column, c) => {
        const content = table.cells[row.id]?.[column.id]?.content ?? '';
        const at = placeIn(table, c, r);
        return content !== '' && at !== undefined && is(content, () => addressOf(at));
      }),
    ),
  );
}

/** What is divided by money goes the other way: kWh/EUR. */
function powerOf(text: string): number {
  const [over = '', ...under] = text.split('/');
  return currencyOf(over) !== undefined ? 1 : under.some((piece) => currencyOf(piece) !== undefined) ? -1 : 0;
}

/** What an amount is worth to twelve digits: further ones are dust of the binary. */
const converted = (number: string, power: number, rate: number | undefined): string =>
  rate === undefined ? number : String(Number((Number(number) * rate ** power).toPrecision(12)));

function scaled(range: Range, power: number, rate: number): Range {
  const turned = (limit: number): number => Number((limit * rate ** power).toPrecision(12));
  return {
    ...range,
    ...(range.low === undefined ? {} : { low: turned(range.low) }),
    ...(range.high === undefined ? {} : { high: turned(range.high) }),
  };
}

/** Money signs stand for their codes, and are replaced with them. */
function renamed(text: string, from: string, to: string): string {
  return text
    .split(/([/·*\s]+)/u)
    .map((piece) => (currencyOf(piece) === from ? to : piece))
    .join('');
}
