import { type Command, onCells, type PageState, type Run } from './command.ts';
import { chooseWhole, columnsIn, fetchReshaping, insert, inTable, many, move, question, roomFor, takeAway } from './lines.ts';
import { scenarioColumnCommands } from './scenarios.ts';
import { shapeIn } from './shape.ts';

/** Widths grow and shrink by so many px. */
const WIDTH_STEP = 24;
/** px of a column that is not drawn. */
const USUAL_WIDTH = 120;

const columns = (state: PageState): boolean => ['list', 'plain'].includes(shapeIn(state)?.form ?? '');
const sortable = (state: PageState): boolean => columns(state) && (shapeIn(state)?.allRows ?? 0) > 1;

const sort = (downward: boolean): Run =>
  onCells(async ({ book, area, values }) => {
    const { sortRows } = await fetchReshaping();
    return sortRows(book, {
      table: area.table,
      column: area.column,
      downward,
      worked: (address) => {
        const value = values[address];
        return value?.kind === 'number' ? value.base : value?.kind === 'text' ? value.text : undefined;
      },
    });
  });

const widen = (by: number): Run =>
  onCells(async ({ book, area, at, drawnWidth }) => {
    const { setWidth, WIDTHS } = await fetchReshaping();
    const width = Math.round((at.column.width ?? drawnWidth ?? USUAL_WIDTH) + by);
    return setWidth(book, { table: area.table, column: at.columnIndex, width: Math.min(WIDTHS.most, Math.max(WIDTHS.least, width)) });
  });

/** What is done with the chosen columns. */
export const columnCommands = [
  {
    id: 'column-before',
    label: (state) => many(columnsIn(state), 'Put a column before', 'Put # columns before'),
    words: 'insert new left',
    when: columns,
    run: insert('column', false),
  },
  {
    id: 'column-after',
    label: (state) => many(columnsIn(state), 'Put a column after', 'Put # columns after'),
    words: 'insert new right',
    when: columns,
    run: insert('column', true),
  },
  {
    id: 'columns-earlier',
    label: (state) => many(columnsIn(state), 'Move the column left', 'Move the # columns left'),
    words: 'reorder',
    when: (state) => columns(state) && roomFor(state, 'column', -1),
    run: move('column', -1),
  },
  {
    id: 'columns-later',
    label: (state) => many(columnsIn(state), 'Move the column right', 'Move the # columns right'),
    words: 'reorder',
    when: (state) => columns(state) && roomFor(state, 'column', 1),
    run: move('column', 1),
  },
  {
    id: 'column-name',
    label: 'Name the column …',
    words: 'label heading rename',
    when: (state) => shapeIn(state)?.form === 'plain',
    run: onCells(async ({ at, area }) => {
      const { setHeading } = await fetchReshaping();
      return question('Name the column', at.column.label ?? '', (book, label) =>
        setHeading(book, { table: area.table, axis: 'column', at: at.columnIndex, label }),
      );
    }),
  },
  {
    id: 'sort-up',
    label: 'Put the rows in order of this column, least first',
    words: 'sort ascending arrange rank',
    when: sortable,
    run: sort(false),
  },
  {
    id: 'sort-down',
    label: 'Put the rows in order of this column, greatest first',
    words: 'sort descending arrange rank',
    when: sortable,
    run: sort(true),
  },
  { id: 'column-wider', label: 'Make the column wider', words: 'width broader', when: columns, run: widen(WIDTH_STEP) },
  { id: 'column-narrower', label: 'Make the column narrower', words: 'width smaller hide', when: columns, run: widen(-WIDTH_STEP) },
  {
    id: 'column-share',
    label: 'Give the column its usual width',
    words: 'width reset',
    when: columns,
    run: onCells(async ({ book, area }) => (await fetchReshaping()).setWidth(book, { table: area.table, column: area.column, width: null })),
  },
  {
    id: 'columns-away',
    label: (state) => many(columnsIn(state), 'Take the column away', 'Take the # columns away'),
    words: 'delete remove',
    when: (state) => columns(state) && columnsIn(state) < (shapeIn(state)?.allColumns ?? 0),
    run: takeAway('column'),
  },
  ...scenarioColumnCommands,
  { id: 'choose-column', label: 'Choose the whole column', words: 'select', keys: 'Ctrl Space', when: inTable, run: chooseWhole('column') },
] as const satisfies readonly Command[];
