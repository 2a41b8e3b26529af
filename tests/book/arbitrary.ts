/** Random books and random commands for the laws of changes. */
import fc from 'fast-check';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import type { Change } from '../../src/book/change.ts';
import { addScenario } from '../../src/book/commands/add-scenario.ts';
import { clearCells } from '../../src/book/commands/clear-cells.ts';
import { deleteLines } from '../../src/book/commands/delete-lines.ts';
import { dropScenario } from '../../src/book/commands/drop-scenario.ts';
import { insertLines } from '../../src/book/commands/insert-lines.ts';
import { moveLines } from '../../src/book/commands/move-lines.ts';
import { renameBook, renamePage, renameTable, setHeading, setName } from '../../src/book/commands/rename.ts';
import { sameAsBase } from '../../src/book/commands/same-as-base.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { setCurrency } from '../../src/book/commands/set-currency.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { setNote } from '../../src/book/commands/set-note.ts';
import { setRowUnit, setUnit } from '../../src/book/commands/set-unit.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';
import { sample } from './sample.ts';

export type Command = (book: Book) => Answer;

const tableName = fc.constantFrom('Brief', 'Scenarios', 'Fixture list', 'brief', 'fixtures', 'scenarios');
const axis = fc.constantFrom('row', 'column' as const) as fc.Arbitrary<'row' | 'column'>;
const place = fc.nat({ max: 5 });
const count = fc.integer({ min: 1, max: 3 });
const address = fc
  .tuple(fc.constantFrom('Brief', 'Scenarios', "'Fixture list'"), fc.constantFrom('A', 'B', 'C', 'D'), fc.integer({ min: 1, max: 6 }))
  .map(([table, column, row]) => `${table}!${column}${row}`);
const reference = fc.oneof(
  address,
  fc.constantFrom(
    'A1',
    '$B$2',
    'C$3',
    'A1:C1',
    'A1:A4',
    "'Fixture list'!A2:B4",
    'Scenarios!$A$1:C3',
    'bench_length',
    '"A1"',
    'UNIT(6,"in")',
    'LOG10(A1)',
    '1e5',
  ),
);
const content = fc.oneof(
  fc.constantFrom('', '12', '45 cm', 'Rail 45', "'12", 'TRUE', '0.22 EUR/kWh', '85 %'),
  fc.array(reference, { minLength: 1, maxLength: 3 }).map((parts) => `=${parts.join('+')}`),
);

export const command: fc.Arbitrary<Command> = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.tuple(address, content, fc.option(fc.constantFrom('cm', 'm', 'EUR'))).map(
      ([a, c, u]): Command =>
        (book) =>
          setCell(book, { address: a, content: c, ...(u ? { unit: u } : {}) }),
    ),
  },
  fc.array(address, { maxLength: 3 }).map(
    (addresses): Command =>
      (book) =>
        clearCells(book, { addresses }),
  ),
  fc.tuple(address, fc.constantFrom('in', 'ft', 'W', null)).map(
    ([a, unit]): Command =>
      (book) =>
        setUnit(book, { addresses: [a], unit }),
  ),
  fc.tuple(address, fc.constantFrom('in', 'ft', 'EUR', null)).map(
    ([a, unit]): Command =>
      (book) =>
        setRowUnit(book, { address: a, unit }),
  ),
  fc.tuple(address, fc.constantFrom('', 'by telephone')).map(
    ([a, note]): Command =>
      (book) =>
        setNote(book, { address: a, note, source: note }),
  ),
  address.map(
    (a): Command =>
      (book) =>
        sameAsBase(book, { address: a }),
  ),
  fc.constant<Command>((book) => addScenario(book, { table: 'scenarios' })),
  place.map(
    (column): Command =>
      (book) =>
        dropScenario(book, { table: 'scenarios', column }),
  ),
  {
    weight: 2,
    arbitrary: fc.tuple(tableName, axis, place, count).map(
      ([table, x, at, n]): Command =>
        (book) =>
          insertLines(book, { table, axis: x, at, count: n }),
    ),
  },
  {
    weight: 2,
    arbitrary: fc.tuple(tableName, axis, place, count).map(
      ([table, x, at, n]): Command =>
        (book) =>
          deleteLines(book, { table, axis: x, at, count: n }),
    ),
  },
  {
    weight: 2,
    arbitrary: fc.tuple(tableName, axis, place, count, place).map(
      ([table, x, at, n, to]): Command =>
        (book) =>
          moveLines(book, { table, axis: x, at, count: n, to }),
    ),
  },
  fc.tuple(tableName, fc.constantFrom('Brief', 'Plan B', "Grower's list", 'Scenarios', 'A1')).map(
    ([table, name]): Command =>
      (book) =>
        renameTable(book, { table, name }),
  ),
  fc.constantFrom('Basil', '').map(
    (title): Command =>
      (book) =>
        renameBook(book, { title, client: title }),
  ),
  fc.constantFrom('First', '').map(
    (title): Command =>
      (book) =>
        renamePage(book, { page: 'p1', title }),
  ),
  fc.tuple(tableName, axis, place, fc.constantFrom('Width', '')).map(
    ([table, x, at, label]): Command =>
      (book) =>
        setHeading(book, { table, axis: x, at, label }),
  ),
  fc.tuple(fc.constantFrom('bench_length', 'width', 'A1', 'constructor'), fc.option(address)).map(
    ([name, a]): Command =>
      (book) =>
        setName(book, { name, address: a }),
  ),
  fc.constantFrom('EUR', 'USD', 'none').map(
    (currency): Command =>
      (book) =>
        setCurrency(book, { currency }),
  ),
  fc.constantFrom('metric', 'US customary' as const).map(
    (measures): Command =>
      (book) =>
        setMeasures(book, { measures: measures as Book['measures'] }),
  ),
);

/** A book reached from the sample by some commands, so that books of every shape come up. */
export const book: fc.Arbitrary<Book> = fc
  .array(command, { maxLength: 6 })
  .map((commands) => commands.reduce((made, run) => played(made, run)?.book ?? made, sample));

/** The change that a command makes of a book, and the book after it; undefined where it refuses. */
export function played(from: Book, run: Command): { readonly change: Change; readonly book: Book } | undefined {
  const answer = run(from);
  return isRefused(answer) ? undefined : { change: answer, book: apply(from, answer) };
}
