/** The commands that reshape a book: rows, columns, scenarios and cells at large. What they do is in reshaping.ts, fetched when it is needed. */
import type { Command, Desk } from '../parts/command.ts';

const many = (n: number, one: string, more: string): string => (n === 1 ? one : more.replace('#', String(n)));
const inTable = (desk: Desk): boolean => desk.shape !== undefined;
const rows = (desk: Desk): boolean => desk.shape !== undefined && !desk.shape.head;
const columns = (desk: Desk): boolean => desk.shape?.form === 'list' || desk.shape?.form === 'plain';
const scenarios = (desk: Desk): boolean => desk.shape?.form === 'scenarios';
const shape = (desk: Desk, key: 'rows' | 'columns' | 'locked' | 'unlocked'): number => desk.shape?.[key] ?? 1;

/** Which way lines can still go. */
const room = (desk: Desk, axis: 'row' | 'column', by: -1 | 1): boolean => {
  const s = desk.shape;
  if (!s) return false;
  const [at, n, all] = axis === 'row' ? [s.row, s.rows, s.allRows] : [s.column, s.columns, s.allColumns];
  const first = axis === 'row' && s.form === 'list' ? 1 : 0;
  return by < 0 ? at > first : at + n < all;
};

const make = (id: string, label: Command['label'], words: string, when: (desk: Desk) => boolean, more: Partial<Command> = {}): Command => ({
  id,
  label,
  words,
  when,
  run: (desk) => desk.reshape(id),
  ...more,
});

const held = (event: KeyboardEvent): boolean => (event.ctrlKey || event.metaKey) && !event.altKey && !event.shiftKey;

export const rowCommands: readonly Command[] = [
  make('row-above', (d) => many(shape(d, 'rows'), 'Put a row above', 'Put # rows above'), 'insert new line', rows),
  make('row-below', (d) => many(shape(d, 'rows'), 'Put a row below', 'Put # rows below'), 'insert new line', inTable),
  make(
    'rows-up',
    (d) => many(shape(d, 'rows'), 'Move the row up', 'Move the # rows up'),
    'reorder line',
    (d) => rows(d) && room(d, 'row', -1),
  ),
  make(
    'rows-down',
    (d) => many(shape(d, 'rows'), 'Move the row down', 'Move the # rows down'),
    'reorder line',
    (d) => rows(d) && room(d, 'row', 1),
  ),
  make('row-name', 'Name the row …', 'label heading rename', (d) => rows(d) && d.shape?.form !== 'list'),
  make(
    'rows-away',
    (d) => many(shape(d, 'rows'), 'Take the row away', 'Take the # rows away'),
    'delete remove line',
    (d) => rows(d) && shape(d, 'rows') < (d.shape?.allRows ?? 0),
  ),
  make('choose-row', 'Choose the whole row', 'select line', inTable, { keys: 'Shift Space' }),
];

export const columnCommands: readonly Command[] = [
  make('column-before', (d) => many(shape(d, 'columns'), 'Put a column before', 'Put # columns before'), 'insert new left', columns),
  make('column-after', (d) => many(shape(d, 'columns'), 'Put a column after', 'Put # columns after'), 'insert new right', columns),
  make(
    'columns-earlier',
    (d) => many(shape(d, 'columns'), 'Move the column left', 'Move the # columns left'),
    'reorder',
    (d) => columns(d) && room(d, 'column', -1),
  ),
  make(
    'columns-later',
    (d) => many(shape(d, 'columns'), 'Move the column right', 'Move the # columns right'),
    'reorder',
    (d) => columns(d) && room(d, 'column', 1),
  ),
  make('column-name', 'Name the column …', 'label heading rename', (d) => d.shape?.form === 'plain'),
  make('sort-up', 'Put the rows in order of this column, least first', 'sort ascending arrange', (d) => columns(d) && (d.shape?.allRows ?? 0) > 1),
  make('sort-down', 'Put the rows in order of this column, greatest first', 'sort descending arrange', (d) => columns(d) && (d.shape?.allRows ?? 0) > 1),
  make('column-wider', 'Make the column wider', 'width broader', columns),
  make('column-narrower', 'Make the column narrower', 'width smaller', columns),
  make('column-share', 'Give the column its usual width', 'width reset', columns),
  make(
    'columns-away',
    (d) => many(shape(d, 'columns'), 'Take the column away', 'Take the # columns away'),
    'delete remove',
    (d) => columns(d) && shape(d, 'columns') < (d.shape?.allColumns ?? 0),
  ),
  make('scenario-name', (d) => `Name scenario ${d.scenario ?? ''} …`, 'rename label column', scenarios),
  make('scenario-copy', (d) => `Copy scenario ${d.scenario ?? ''}`, 'duplicate new column variant', scenarios),
  make(
    'scenario-earlier',
    (d) => `Move scenario ${d.scenario ?? ''} left`,
    'reorder column',
    (d) => scenarios(d) && room(d, 'column', -1),
  ),
  make(
    'scenario-later',
    (d) => `Move scenario ${d.scenario ?? ''} right`,
    'reorder column',
    (d) => scenarios(d) && room(d, 'column', 1),
  ),
  make('choose-column', 'Choose the whole column', 'select', inTable, { keys: 'Ctrl Space' }),
];

export const cellCommands: readonly Command[] = [
  make('clip-copy', 'Copy what is chosen', 'clipboard', inTable, { keys: 'Ctrl C' }),
  make('clip-cut', 'Cut what is chosen, to move it', 'clipboard', inTable, { keys: 'Ctrl X' }),
  make('clip-paste', 'Paste what was copied or cut', 'clipboard put insert', inTable, { keys: 'Ctrl V' }),
  make('repeat-down', 'Repeat the first row down', 'fill copy below formula', (d) => shape(d, 'rows') > 1),
  make('repeat-across', 'Repeat the first column across', 'fill copy right formula', (d) => shape(d, 'columns') > 1),
  make(
    'unlock',
    (d) => many(shape(d, 'locked'), 'Unlock the worked cell', 'Unlock # worked cells'),
    'protect write over formula',
    (d) => (d.shape?.locked ?? 0) > 0,
  ),
  make(
    'lock',
    (d) => many(shape(d, 'unlocked'), 'Lock the worked cell', 'Lock # worked cells'),
    'protect guard formula',
    (d) => (d.shape?.unlocked ?? 0) > 0,
  ),
  make('more-decimals', 'Show one decimal more', 'digits format precision', (d) => d.quantity),
  make('fewer-decimals', 'Show one decimal fewer', 'digits format round', (d) => d.quantity),
  make('own-decimals', 'Show as many decimals as the number needs', 'digits format reset', (d) => d.quantity),
  make('allowed', 'What may be given here …', 'range list limits choices validation least greatest', (d) => rows(d)),
  make('name-cell', 'Name this cell …', 'define label formula', (d) => inTable(d) && shape(d, 'rows') * shape(d, 'columns') === 1),
  make(
    'name-away',
    (d) => `Take the name ${d.shape?.names[0] ?? ''} away`,
    'remove label',
    (d) => (d.shape?.names.length ?? 0) > 0,
  ),
  make('choose-table', 'Choose the whole table', 'select all', inTable, { keys: 'Ctrl A' }),
  make('choose-on', 'Choose a block: from here to the next cell I point at', 'select range area', inTable),
];

export const reshapeCommands: readonly Command[] = [
  make('find-text', 'Find and replace …', 'search text change', (d) => d.bookOpen, { keys: 'Ctrl F', presses: (e) => held(e) && e.key.toLowerCase() === 'f' }),
  ...rowCommands,
  ...columnCommands,
  ...cellCommands,
];
