import { type Command, onCells, type PageState } from './command.ts';
import { chooseWhole, fetchReshaping, insert, inTable, many, move, question, roomFor, rowsIn, takeAway } from './lines.ts';
import { shapeIn } from './shape.ts';

const rows = (state: PageState): boolean => shapeIn(state)?.head === false;

/** What is done with the chosen rows. */
export const rowCommands = [
  {
    id: 'row-above',
    label: (state) => many(rowsIn(state), 'Put a row above', 'Put # rows above'),
    words: 'insert new line',
    when: rows,
    run: insert('row', false),
  },
  {
    id: 'row-below',
    label: (state) => many(rowsIn(state), 'Put a row below', 'Put # rows below'),
    words: 'insert new line',
    when: inTable,
    run: insert('row', true),
  },
  {
    id: 'rows-up',
    label: (state) => many(rowsIn(state), 'Move the row up', 'Move the # rows up'),
    words: 'reorder line',
    when: (state) => rows(state) && roomFor(state, 'row', -1),
    run: move('row', -1),
  },
  {
    id: 'rows-down',
    label: (state) => many(rowsIn(state), 'Move the row down', 'Move the # rows down'),
    words: 'reorder line',
    when: (state) => rows(state) && roomFor(state, 'row', 1),
    run: move('row', 1),
  },
  {
    id: 'row-name',
    label: 'Name the row …',
    words: 'label heading rename',
    when: (state) => rows(state) && shapeIn(state)?.form !== 'list',
    run: onCells(async ({ at, area }) => {
      const { setHeading } = await fetchReshaping();
      return question('Name the row', at.row.label ?? '', (book, label) => setHeading(book, { table: area.table, axis: 'row', at: at.rowIndex, label }));
    }),
  },
  {
    id: 'rows-away',
    label: (state) => many(rowsIn(state), 'Take the row away', 'Take the # rows away'),
    words: 'delete remove line',
    when: (state) => rows(state) && rowsIn(state) < (shapeIn(state)?.allRows ?? 0),
    run: takeAway('row'),
  },
  { id: 'choose-row', label: 'Choose the whole row', words: 'select line', keys: 'Shift Space', when: inTable, run: chooseWhole('row') },
] as const satisfies readonly Command[];
