/** What the commands of reshape-commands.ts do, on what is chosen now. */
import { type At, columnText } from '../../book/address.ts';
import { type Area, placesOf } from '../../book/area.ts';
import type { Book } from '../../book/book.ts';
import { copyScenario } from '../../book/commands/add-scenario.ts';
import { deleteLines } from '../../book/commands/delete-lines.ts';
import { insertLines } from '../../book/commands/insert-lines.ts';
import { moveLines } from '../../book/commands/move-lines.ts';
import { repeatCells } from '../../book/commands/put-cells.ts';
import { setHeading, setName } from '../../book/commands/rename.ts';
import { setDecimals, setWidth, WIDTHS } from '../../book/commands/set-format.ts';
import { setLock } from '../../book/commands/set-lock.ts';
import { sortRows } from '../../book/commands/sort-rows.ts';
import type { Axis } from '../../book/lines.ts';
import { addressOf, columnHeading, decimalsOf, namesOf, rowHeading, titleOf } from '../../book/look-up.ts';
import { type Answer, isRefused } from '../../book/refused.ts';
import type { Session } from '../../session.ts';
import { valueAt, viewOf } from '../parts/cell-view.ts';
import type { Room } from '../shell/room.ts';
import type { ObAskSlip } from '../slips/ask-slip.ts';
import type { ObFindSlip } from '../slips/find-slip.ts';
import type { ObRangeSlip } from '../slips/range-slip.ts';
import { type Clip, clip } from '../table/clip.ts';
import type { Spot } from '../table/grid-moves.ts';
import { placeAt, whole } from '../table/selection.ts';

/** Widths grow and shrink by so many px. */
const WIDTH_STEP = 24;

interface Here {
  readonly session: Session;
  readonly at: At;
  readonly area: Area;
}
type Change = (book: Book, here: Here) => Answer;

const addresses = (book: Book, area: Area): readonly string[] => (placesOf(book, area)?.lines ?? []).flat().map(addressOf);

const insert =
  (axis: Axis, after: boolean): Change =>
  (book, { area }) => {
    const [at, count] = axis === 'row' ? [area.row, area.rows] : [area.column, area.columns];
    return insertLines(book, { table: area.table, axis, at: after ? at + count : at, count });
  };

const move =
  (axis: Axis, by: 1 | -1): Change =>
  (book, { area }) => {
    const [at, count] = axis === 'row' ? [area.row, area.rows] : [area.column, area.columns];
    return moveLines(book, { table: area.table, axis, at, count, to: at + by });
  };

const sort =
  (downward: boolean): Change =>
  (book, { area, session }) =>
    sortRows(book, {
      table: area.table,
      column: area.column,
      downward,
      worked: (address) => {
        const value = valueAt(session.values, address);
        return value.kind === 'number' ? value.base : value.kind === 'text' ? value.text : undefined;
      },
    });

const widen =
  (by: number): Change =>
  (book, { area, at }) => {
    const shown = document.getElementById(`cell-${book.tables.indexOf(at.table)}-${at.rowIndex}-${at.columnIndex}`)?.offsetWidth ?? 120;
    const width = Math.round((at.column.width ?? shown) + by);
    return setWidth(book, { table: area.table, column: at.columnIndex, width: Math.min(WIDTHS.most, Math.max(WIDTHS.least, width)) });
  };

const decimals =
  (by: 1 | -1): Change =>
  (book, { area, at, session }) => {
    const shown = viewOf(at, session.values).number;
    const now = decimalsOf(at) ?? Math.max(0, (shown?.fraction.length ?? 1) - 1);
    return setDecimals(book, { addresses: addresses(book, area), decimals: Math.min(15, Math.max(0, now + by)) });
  };

const CHANGES: Readonly<Record<string, Change>> = {
  'row-above': insert('row', false),
  'row-below': insert('row', true),
  'rows-up': move('row', -1),
  'rows-down': move('row', 1),
  'rows-away': (book, { area }) => deleteLines(book, { table: area.table, axis: 'row', at: area.row, count: area.rows }),
  'column-before': insert('column', false),
  'column-after': insert('column', true),
  'columns-earlier': move('column', -1),
  'columns-later': move('column', 1),
  'columns-away': (book, { area }) => deleteLines(book, { table: area.table, axis: 'column', at: area.column, count: area.columns }),
  'sort-up': sort(false),
  'sort-down': sort(true),
  'column-wider': widen(WIDTH_STEP),
  'column-narrower': widen(-WIDTH_STEP),
  'column-share': (book, { area }) => setWidth(book, { table: area.table, column: area.column, width: null }),
  'scenario-copy': (book, { area }) => copyScenario(book, { table: area.table, column: area.column }),
  'scenario-earlier': move('column', -1),
  'scenario-later': move('column', 1),
  'repeat-down': (book, { area }) => repeatCells(book, { area, axis: 'row' }),
  'repeat-across': (book, { area }) => repeatCells(book, { area, axis: 'column' }),
  unlock: (book, { area }) => setLock(book, { addresses: addresses(book, area), locked: false }),
  lock: (book, { area }) => setLock(book, { addresses: addresses(book, area), locked: true }),
  'more-decimals': decimals(1),
  'fewer-decimals': decimals(-1),
  'own-decimals': (book, { area }) => setDecimals(book, { addresses: addresses(book, area), decimals: null }),
  'name-away': (book, { at }) => setName(book, { name: namesOf(book, at)[0] ?? '', address: null }),
};

/** Where the new line is that a verb puts beside the chosen ones: the choice goes to it, so that what is typed next lands there. */
const PUT_IN: Readonly<Record<string, (at: At, area: Area) => Spot>> = {
  'row-above': (at, area) => ({ row: area.row, column: at.columnIndex }),
  'row-below': (at, area) => ({ row: area.row + area.rows, column: at.columnIndex }),
  'column-before': (at, area) => ({ row: at.rowIndex, column: area.column }),
  'column-after': (at, area) => ({ row: at.rowIndex, column: area.column + area.columns }),
};

/** A question with one answer, and the change that the answer makes. */
interface Question {
  readonly title: string;
  readonly value: string;
  readonly change: (book: Book, text: string) => Answer;
}

const QUESTIONS: Readonly<Record<string, (book: Book, here: Here) => Question>> = {
  'row-name': (_, { at, area }) => ({
    title: 'Name the row',
    value: at.row.label ?? '',
    change: (book, label) => setHeading(book, { table: area.table, axis: 'row', at: at.rowIndex, label }),
  }),
  'column-name': (_, { at, area }) => ({
    title: 'Name the column',
    value: at.column.label ?? '',
    change: (book, label) => setHeading(book, { table: area.table, axis: 'column', at: at.columnIndex, label }),
  }),
  'scenario-name': (_, { at, area }) => ({
    title: `Name scenario ${columnHeading(at) || columnText(at.columnIndex)}`,
    value: columnHeading(at),
    change: (book, label) => setHeading(book, { table: area.table, axis: 'column', at: at.columnIndex, label }),
  }),
  'name-cell': (book, { at }) => ({
    title: `A name for ${titleOf(at)}, by which formulas and texts can say it`,
    value:
      namesOf(book, at)[0] ??
      rowHeading(at)
        .toLowerCase()
        .replace(/[^a-z0-9]+/g, '_')
        .replace(/^_|_$/g, ''),
    change: (now, name) => setName(now, { name, address: addressOf(at) }),
  }),
};

/** Does it, or opens the slip on which it is asked. `run` makes the change and says what came of it. */
export async function reshape(verb: string, room: Room, run: (command: (book: Book) => Answer) => Answer): Promise<void> {
  const { session, at, area } = room;
  if (!session) return;
  if (verb === 'find-text') {
    await import('../slips/find-slip.ts');
    await room.slip<ObFindSlip>('ob-find-slip')?.open(session, room);
    return;
  }
  if (!at || !area) return;
  const here: Here = { session, at, area };
  const change = CHANGES[verb];
  const question = QUESTIONS[verb]?.(session.book, here);
  if (change) {
    const answer = run((book) => change(book, here));
    const spot = PUT_IN[verb]?.(at, area);
    const table = session.book.tables.find((each) => each.id === area.table);
    if (spot && table && !isRefused(answer)) room.choose({ place: placeAt(table, spot) });
  } else if (question) await ask(room, question, run);
  else if (verb === 'allowed') {
    await import('../slips/range-slip.ts');
    await room.slip<ObRangeSlip>('ob-range-slip')?.open(session, addresses(session.book, area), at);
  } else if (verb.startsWith('clip-')) {
    const said = await clip(verb.slice('clip-'.length) as Clip);
    if (said) room.tell(said, true);
  } else if (verb === 'choose-on') room.chooseOn();
  else if (verb.startsWith('choose-')) {
    const { near, far } = whole(verb.slice('choose-'.length) as 'row', at.table, area);
    room.choose({ place: placeAt(at.table, near), anchor: placeAt(at.table, far) });
  }
}

async function ask(room: Room, { title, value, change }: Question, run: (command: (book: Book) => Answer) => Answer): Promise<void> {
  await import('../slips/ask-slip.ts');
  await room.slip<ObAskSlip>('ob-ask-slip')?.open(title, value, (text) => {
    const answer = run((book) => change(book, text));
    return isRefused(answer) ? answer.message : undefined;
  });
}
