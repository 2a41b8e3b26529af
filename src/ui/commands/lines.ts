/** What is done alike with rows and with columns. */
import type { Book } from '../../book/book.ts';
import type { Axis } from '../../book/lines.ts';
import { type Answer, isRefused } from '../../book/refused.ts';
import { whole } from '../table/index.ts';
import { type Effect, type OnCells, onCells, type PageState, type Run } from './command.ts';
import { shapeIn } from './shape.ts';

export const fetchReshaping = () => import('./reshaping.ts');

/** For one or several: `#` stands for how many. */
export const many = (n: number, one: string, more: string): string => (n === 1 ? one : more.replace('#', String(n)));

export const rowsIn = (state: PageState): number => shapeIn(state)?.rows ?? 1;
export const columnsIn = (state: PageState): number => shapeIn(state)?.columns ?? 1;
export const inTable = (state: PageState): boolean => shapeIn(state) !== undefined;

/** Whether the chosen lines can still go that way. The headings of a list stay its first row. */
export function roomFor(state: PageState, axis: Axis, by: -1 | 1): boolean {
  const shape = shapeIn(state);
  if (!shape) return false;
  const [at, n, all] = axis === 'row' ? [shape.row, shape.rows, shape.allRows] : [shape.column, shape.columns, shape.allColumns];
  const first = axis === 'row' && shape.form === 'list' ? 1 : 0;
  return by < 0 ? at > first : at + n < all;
}

const chosen = ({ area }: OnCells, axis: Axis): readonly [at: number, count: number] => (axis === 'row' ? [area.row, area.rows] : [area.column, area.columns]);

/** Puts as many lines in as are chosen. The choice goes to the first of them, so that what is typed next lands there. */
export const insert = (axis: Axis, after: boolean): Run =>
  onCells(async (state) => {
    const { book, at, area } = state;
    const [first, count] = chosen(state, axis);
    const to = after ? first + count : first;
    const { insertLines } = await fetchReshaping();
    const answer = insertLines(book, { table: area.table, axis, at: to, count });
    if (isRefused(answer)) return answer;
    const near = axis === 'row' ? { row: to, column: at.columnIndex } : { row: at.rowIndex, column: to };
    return [answer, { do: 'choose', table: area.table, near }];
  });

export const move = (axis: Axis, by: 1 | -1): Run =>
  onCells(async (state) => {
    const [at, count] = chosen(state, axis);
    const { moveLines } = await fetchReshaping();
    return moveLines(state.book, { table: state.area.table, axis, at, count, to: at + by });
  });

export const takeAway = (axis: Axis): Run =>
  onCells(async (state) => {
    const [at, count] = chosen(state, axis);
    const { deleteLines } = await fetchReshaping();
    return deleteLines(state.book, { table: state.area.table, axis, at, count });
  });

export const chooseWhole = (what: Axis | 'table'): Run => onCells(({ at, area }) => ({ do: 'choose', table: at.table.id, ...whole(what, at.table, area) }));

/** A question with one answer, and the change that the answer makes. */
export const question = (title: string, value: string, change: (book: Book, text: string) => Answer): Effect => ({
  do: 'open slip',
  slip: 'ask',
  asked: { question: title, value, change },
});
