/** Random books and random commands for the laws of changes. */
import fc from 'fast-check';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import type { Change } from '../../src/book/change.ts';
import { addScenario, copyScenario } from '../../src/book/commands/add-scenario.ts';
import { addBlock, moveBlock, removeBlock, setBlock } from '../../src/book/commands/blocks.ts';
import { clearCells } from '../../src/book/commands/clear-cells.ts';
import { deleteLines } from '../../src/book/commands/delete-lines.ts';
import { dropScenario } from '../../src/book/commands/drop-scenario.ts';
import { insertLines } from '../../src/book/commands/insert-lines.ts';
import { moveLines } from '../../src/book/commands/move-lines.ts';
import { addPage, movePage, removePage } from '../../src/book/commands/pages.ts';
import { putCells, repeatCells } from '../../src/book/commands/put-cells.ts';
import { renameBook, renameName, renamePage, renameTable, setHeading, setName } from '../../src/book/commands/rename.ts';
import { replaceText } from '../../src/book/commands/replace-text.ts';
import { sameAsBase } from '../../src/book/commands/same-as-base.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { setCurrency } from '../../src/book/commands/set-currency.ts';
import { setDecimals, setWidth } from '../../src/book/commands/set-format.ts';
import { setLock } from '../../src/book/commands/set-lock.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { setNote } from '../../src/book/commands/set-note.ts';
import { setRange } from '../../src/book/commands/set-range.ts';
import { setRowUnit, setUnit } from '../../src/book/commands/set-unit.ts';
import { sortRows } from '../../src/book/commands/sort-rows.ts';
import { addTable } from '../../src/book/commands/tables.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';
import { sample } from './sample.ts';

export type Command = (book: Book) => Answer;

const tableName = fc.constantFrom('Brief', 'Scenarios', 'Fixture list', 'brief', 'fixtures', 'scenarios');
const axis = fc.constantFrom('row', 'column' as const) as fc.Arbitrary<'row' | 'column'>;
const place = fc.nat({ max: 5 });
const count = fc.integer({ min: 1, max: 3 });
const address = fc
  .tuple(fc.constantFrom('Brief', 'Scenarios', "'Fixture list'"), fc.constantFrom('A', 'B', 'C', 'D'), fc.integer({ min: 1, max: 6 }))
  .map(([table, column, row]) => `${table}.${column}${row}`);
const reference = fc.oneof(
  address,
  fc.constantFrom(
    'A1',
    '$B$2',
    'C$3',
    'A1:C1',
    'A1:A4',
    "'Fixture list'.A2:B4",
    'Scenarios.$A$1:C3',
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

const page = fc.constantFrom('p1', 'p2', 'p3');
const block = fc.constantFrom('b1', 'b2', 'b3', 'b4', 'b5', 'b6');

/** Pages, their pieces and whole tables. */
const ofPages: fc.Arbitrary<Command> = fc.oneof(
  fc.tuple(fc.constantFrom('Notes', ''), fc.option(place)).map(
    ([title, at]): Command =>
      (book) =>
        addPage(book, { title, ...(at === null ? {} : { at }) }),
  ),
  fc.tuple(page, place).map(
    ([id, to]): Command =>
      (book) =>
        movePage(book, { page: id, to }),
  ),
  page.map(
    (id): Command =>
      (book) =>
        removePage(book, { page: id }),
  ),
  fc.tuple(page, fc.nat({ max: 3 }), fc.constantFrom('{{Scenarios.B1}} and {{bench_length}}', 'brief')).map(
    ([id, at, text]): Command =>
      (book) =>
        addBlock(book, { page: id, at, block: text === 'brief' ? { kind: 'table', table: text } : { kind: 'prose', text } }),
  ),
  fc.tuple(block, fc.constantFrom('Light', '{{Brief.A1}}')).map(
    ([id, text]): Command =>
      (book) =>
        setBlock(book, { block: id, text, caption: text }),
  ),
  fc.tuple(block, fc.option(page), fc.nat({ max: 3 })).map(
    ([id, target, to]): Command =>
      (book) =>
        moveBlock(book, { block: id, to, ...(target === null ? {} : { page: target }) }),
  ),
  block.map(
    (id): Command =>
      (book) =>
        removeBlock(book, { block: id }),
  ),
  fc.tuple(page, fc.constantFrom('Costs', 'Parts', 'brief'), fc.constantFrom('plain', 'list', 'scenarios' as const)).map(
    ([id, name, form]): Command =>
      (book) =>
        addTable(book, { page: id, name, form: form as 'plain', rows: 2, columns: 2 }),
  ),
);

/** Many cells at once, and how they are shown. */
const ofCells: fc.Arbitrary<Command> = fc.oneof(
  fc.tuple(tableName, place, place, count, count, axis).map(
    ([table, row, column, rows, columns, x]): Command =>
      (book) =>
        repeatCells(book, { area: { table, row, column, rows, columns }, axis: x }),
  ),
  fc.tuple(tableName, place, place, fc.array(fc.array(content, { minLength: 1, maxLength: 2 }), { minLength: 1, maxLength: 2 }), fc.option(tableName)).map(
    ([table, row, column, texts, from]): Command =>
      (book) =>
        putCells(book, {
          table,
          row,
          column,
          cells: texts.map((line) => line.map((text) => ({ content: text }))),
          ...(from ? { from: { table: from, row: 1, column: 1 } } : {}),
        }),
  ),
  fc.tuple(tableName, place, fc.boolean()).map(
    ([table, column, downward]): Command =>
      (book) =>
        sortRows(book, { table, column, downward }),
  ),
  fc.tuple(fc.constantFrom('Rail', 'A1', '2', 'm'), fc.constantFrom('', 'Beam', 'B2', '3')).map(
    ([text, other]): Command =>
      (book) =>
        replaceText(book, { text, with: other }),
  ),
  fc.tuple(address, fc.constantFrom(null, 0, 2), fc.boolean()).map(
    ([a, decimals, locked]): Command =>
      (book) =>
        decimals === 0 ? setLock(book, { addresses: [a], locked }) : setDecimals(book, { addresses: [a], decimals }),
  ),
  fc.tuple(address, fc.constantFrom(null, { low: 0 }, { oneOf: ['9', '12'] }, { from: "'Fixture list'.A2:A4" })).map(
    ([a, range]): Command =>
      (book) =>
        setRange(book, { addresses: [a], range }),
  ),
  fc.tuple(tableName, place, fc.constantFrom(null, 120)).map(
    ([table, column, width]): Command =>
      (book) =>
        setWidth(book, { table, column, width }),
  ),
  fc.tuple(fc.constantFrom('bench_length', 'width', 'prices'), fc.constantFrom('width', 'long_side', 'm')).map(
    ([name, to]): Command =>
      (book) =>
        renameName(book, { name, to }),
  ),
  place.map(
    (column): Command =>
      (book) =>
        copyScenario(book, { table: 'scenarios', column }),
  ),
);

export const command: fc.Arbitrary<Command> = fc.oneof(
  { weight: 4, arbitrary: ofCells },
  { weight: 2, arbitrary: ofPages },
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
