import { readFileSync } from 'node:fs';
import { counted, readQuantity } from '../../functions/quantity-text.ts';
import { tableNamed } from '../book/address.ts';
import { apply } from '../book/apply.ts';
import type { Book } from '../book/book.ts';
import { isRefused } from '../book/refused.ts';
import { formatBook } from '../files/book/index.ts';
import {
  Draft,
  formatNotPlaced,
  holdsNotPlaced,
  keepAside,
  type Mapping,
  type NotPlaced,
  planCsv,
  reason,
  roleOf,
  rowLines,
  rowsSaid,
  type Staged,
  stageCsv,
  suggestMapping,
} from '../files/csv/index.ts';
import { openBook } from './open-book.ts';
import { deliver } from './output.ts';
import { isSameFile, spare } from './same-file.ts';
import type { Verb } from './verb.ts';
import { amongThese, Failure, WrongUse } from './wrong-use.ts';

export const verb: Verb = {
  usage: 'BOOK FILE.csv [--into TABLE | --new] [--decimal-comma] [--rejected FILE] [-o BOOK]',
  about:
    'Brings a file of comma-separated text into a book. Of a list it changes the rows that it knows and adds the rest. What finds no place is said, and kept on the page “Not placed” of the book.',
  options: {
    into: { type: 'string', about: 'the table whose rows or columns take it; a tidy file finds its own cells' },
    new: { type: 'boolean', about: 'makes a new table of it' },
    'decimal-comma': { type: 'boolean', about: 'numbers have a comma for their decimal mark' },
    rejected: { type: 'string', about: 'a file for the records that found no place, or have columns that found none' },
    output: { type: 'string', short: 'o', about: 'the file for the new book, which may be the book itself; standard output without it' },
  },
  async run(operands, { into: named, new: anew, 'decimal-comma': comma, rejected, output }) {
    const [bookFile, file, more] = operands;
    if (bookFile === undefined || file === undefined) throw new WrongUse('a book and a CSV file are needed');
    if (more !== undefined) throw new WrongUse(`one file at a time, not also ${more}`);
    const into = named as string | undefined;
    if (into !== undefined && anew) throw new WrongUse('rows of a table or a new table, not both');
    spare([bookFile, file], [rejected as string | undefined]);
    spare([file], [output as string | undefined]);
    if (output !== undefined && rejected !== undefined && isSameFile(output as string, rejected as string))
      throw new WrongUse('the book and what found no place need a file each');
    const bytes = read(file);
    const session = await openBook(bookFile);
    try {
      const { book, values } = session;
      const staged = await stageCsv(bytes, { name: file.replace(/^.*[\\/]/u, ''), ...(comma ? { decimalMark: ',' as const } : {}) });
      const mapping = wanted(book, staged, into, anew === true);
      const plan = await planCsv(book, staged, { ...(mapping && { mapping }), read: readQuantity, values });
      if (isRefused(plan)) throw new Failure(`${file}: ${plan.message}`);
      if (plan.change.edits.length > 0) session.dispatch(plan.change);
      await session.settled();
      if (plan.placed === 0 && plan.problems.length === 0) throw new Failure(`${file}: nothing in it finds a place${into === undefined ? '' : ` in ${into}`}`);
      if (plan.columnsOut.length > 0) console.error(`Left out: ${plan.columnsOut.join(', ')}.`);
      if (plan.rows) {
        const { changed, added } = plan.rows;
        for (const line of rowLines(book, plan.rows, SHOWN)) console.error(line);
        if (changed.length + added.length > SHOWN) console.error(`… and ${changed.length + added.length - SHOWN} more rows`);
        console.error(rowsSaid(plan.rows));
      }
      for (const word of plan.said) console.error(word);
      if (plan.saidInAll > plan.said.length) console.error(`… and ${plan.saidInAll - plan.said.length} more such words`);
      for (const problem of plan.problems.slice(0, SHOWN)) console.error(reason(problem));
      if (plan.problems.length > SHOWN) console.error(`… and ${plan.problems.length - SHOWN} more, on the page “Not placed” of the book`);
      console.error(
        `${counted(plan.read, plan.of)} read: ${plan.placed} placed, ${plan.notPlaced - plan.leftOut} not placed, ${plan.leftOut} left out or worked out`,
      );
      const out = mapping ? fieldsOut(staged, mapping) : [];
      if (rejected !== undefined) await deliver(asFile(book, staged, [...plan.problems, ...out]), rejected as string);
      await deliver(formatBook(session.book), output as string | undefined);
      return plan.problems.length + out.length > 0 ? 1 : 0;
    } finally {
      session.close();
    }
  },
};

const SHOWN = 20;

function read(file: string): Uint8Array {
  try {
    return readFileSync(file === '-' ? 0 : file);
  } catch (error) {
    throw new Failure((error as NodeJS.ErrnoException).code === 'ENOENT' ? `there is no file ${file}` : `can't read ${file}: ${(error as Error).message}`);
  }
}

/** A tidy file finds its own cells. */
function wanted(book: Book, staged: Staged, into: string | undefined, anew: boolean): Mapping | undefined {
  if (anew) return suggestMapping(book, staged, 'new table');
  if (into === undefined && staged.tidy) return undefined;
  if (into === undefined) {
    const found = suggestMapping(book, staged);
    if (found.to === 'rows') return found;
    throw new Failure(`the headings of ${staged.name} are those of no table of the book: say which with --into, or --new for a new one`);
  }
  const table = tableNamed(book, into);
  if (table) return staged.tidy ? undefined : suggestMapping(book, staged, { table: table.id });
  const names = book.tables.map(({ name }) => name);
  throw new WrongUse(`there is no table ${into}; ${amongThese(into, names)}`);
}

/** What the file says in columns that go nowhere: not kept in the book, whose owner may well want none of it, but not passed over in silence. */
function fieldsOut({ headings, records }: Staged, mapping: Mapping): NotPlaced[] {
  const columns = headings.flatMap((heading, i) => (roleOf(mapping, i).is === 'left out' ? [{ number: i + 1, heading }] : []));
  return records.flatMap((record) =>
    record.broken === undefined
      ? columns.filter(({ number }) => (record.fields[number - 1] ?? '').trim() !== '').map((column) => ({ record, column, message: 'No column takes it.' }))
      : [],
  );
}

/** The records that found no place, in whole or in part, as the page "Not placed" would hold them. */
function asFile(book: Book, staged: Staged, problems: readonly NotPlaced[]): string {
  const draft = new Draft(book);
  const problem = keepAside(draft, staged, problems);
  if (problem !== undefined) throw new Failure(problem);
  const known = new Set(book.tables.map(({ id }) => id));
  return apply(book, draft.change(staged.name))
    .tables.filter((table) => !known.has(table.id) && holdsNotPlaced(table))
    .map(formatNotPlaced)
    .join('');
}
