/** What can be varied in a template, and what is asked of it: the givens of one scenario and of the brief, and all that the scenario works out. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { readContent } from '../../../functions/quantity-text.ts';
import { type At, placeIn } from '../../../src/book/address.ts';
import { choicesOf } from '../../../src/book/allowed.ts';
import type { Book, Table } from '../../../src/book/book.ts';
import { addressOf, rangeOf, standingOf } from '../../../src/book/look-up.ts';
import { Sweeper } from '../../../src/engine/cone/index.ts';
import type { Address, Value } from '../../../src/engine/types.ts';

export const templateOf = (slug: string): Book => JSON.parse(readFileSync(`templates/${slug}.json`, 'utf8')) as Book;

const places = (table: Table): readonly At[] =>
  table.rows.flatMap((_, r) => table.columns.map((_, c) => placeIn(table, c, r))).filter((at) => at !== undefined);

const tablesOf = (book: Book, form: Table['form']): readonly Table[] => book.tables.filter((table) => table.form === form);

/** The givens of the brief, and those of one scenario. */
export function givensOf(book: Book, scenario: number): readonly At[] {
  const brief = tablesOf(book, 'brief').flatMap(places);
  const own = tablesOf(book, 'scenarios').flatMap((table) => places(table).filter((at) => at.columnIndex === scenario));
  return [...brief, ...own].filter((at) => ['given', 'as', 'blank'].includes(standingOf(at)) && !at.row.head);
}

/** All that one scenario works out, its checks and its verdict among it. */
export const resultsOf = (book: Book, scenario: number): readonly Address[] =>
  tablesOf(book, 'scenarios').flatMap((table) =>
    places(table)
      .filter((at) => at.columnIndex === scenario && ['worked', 'check'].includes(standingOf(at)))
      .map(addressOf),
  );

/** The content that a given follows where it is the same as another. */
function contentOf(book: Book, at: At, depth = 0): string {
  const content = at.cell?.content ?? '';
  const follows = /^=\$?([A-Z]+)\$?(\d+)$/.exec(content);
  if (!follows || depth > 4) return content.startsWith('=') ? '' : content;
  const there = placeIn(at.table, (follows[1]?.charCodeAt(0) ?? 65) - 65, Number(follows[2]) - 1);
  return there ? contentOf(book, there, depth + 1) : '';
}

/** Mostly what a person may say there; now and then nothing, a number that is not allowed, another quantity, or no number at all. */
export function variantsOf(book: Book, at: At): fc.Arbitrary<string> {
  const content = contentOf(book, at);
  const range = rangeOf(at);
  const choices = (range && choicesOf(book, at, range)) ?? [];
  const read = readContent(content, book.currency);
  const odd = fc.constantFrom('', '0', '-1', '7 kg', 'nonsense', 'TRUE', '1e9', "'5", '3 EUR', '0.5');
  const usual: fc.Arbitrary<string>[] = [fc.constant(content), fc.constant(content), fc.constant(content)];
  if (choices.length > 0) usual.push(fc.constantFrom(...choices), fc.constantFrom(...choices));
  if (read.kind === 'number') {
    const scaled = (factor: number): string => `${Number((read.given * factor).toPrecision(5))} ${read.unit}`.trim();
    usual.push(fc.double({ min: 0.6, max: 1.6, noNaN: true }).map(scaled));
    if (Number.isInteger(read.given)) usual.push(fc.integer({ min: 1, max: Math.max(3, 2 * read.given) }).map((n) => `${n} ${read.unit}`.trim()));
  }
  if (read.kind === 'yes or no') usual.push(fc.constantFrom('TRUE', 'FALSE'));
  return fc.oneof({ weight: 150, arbitrary: fc.oneof(...usual) }, { weight: 1, arbitrary: odd });
}

/** The engine itself, for one row of values after another. */
export function byEngine(book: Book): (givens: readonly Address[], row: readonly string[], results: readonly Address[]) => Value[] {
  const own = new Sweeper(book);
  return (givens, row, results) => {
    own.move(new Map(givens.map((address, i) => [address, row[i] as string])));
    return results.map((address) => own.workbook.valueAt(own.workbook.at(address)));
  };
}
