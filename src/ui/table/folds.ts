/**
 * Which rows of a long comparing table are put away at first, so that what matters stands in one view: checks that hold in every scenario,
 * and long runs of worked rows behind their first two. Groups begin at rows that are parted from the one above. What stood open when a book was
 * left stands open again, also where it has grown long meanwhile.
 */
import { placeIn } from '../../book/address.ts';
import type { Table } from '../../book/book.ts';
import { inSentence } from '../../book/label.ts';
import { standingOf } from '../../book/look-up.ts';
import { checkOf } from '../../shown.ts';
import type { TableValues } from '../../values.ts';
import { keep, openGroupsKey } from '../parts/index.ts';

export interface Fold {
  /** The row before which its line stands, or the number of rows where that is the end. */
  readonly before: number;
  /** Rows put away. */
  readonly rows: readonly number[];
  readonly id: string;
  readonly words: string;
}

const LONG = 8;
const SHOWN = 2;

export interface Folds {
  readonly folds: readonly Fold[];
  /** Groups of worked rows that are too short to be put away, by id. */
  readonly short: readonly string[];
}

export function foldsOf(table: Table, values: TableValues): Folds {
  const folds: Fold[] = [];
  const short: string[] = [];
  if (table.form !== 'scenarios') return { folds, short };
  const starts = table.rows.flatMap((row, i) => (i === 0 || row.parted ? [i] : []));
  let workedGroups = 0;
  for (const [g, start] of starts.entries()) {
    const end = starts[g + 1] ?? table.rows.length;
    const rows = Array.from({ length: end - start }, (_, i) => start + i);
    const standings = rows.map((row) => standingIn(table, row));
    if (standings.includes('given') || standings.includes('as')) continue;
    const id = `${table.id} ${table.rows[start]?.id}`;
    if (standings.includes('check')) {
      const holding = rows.filter((row) => !table.rows[row]?.strong && holdsEverywhere(table, row, values));
      if (holding.length > 2)
        folds.push({ before: rows.find((row) => table.rows[row]?.strong) ?? end, rows: holding, id, words: `${holding.length} checks hold in every scenario` });
    } else {
      workedGroups++;
      if (rows.length <= LONG) short.push(id);
      else if (workedGroups > 1) {
        const away = rows.slice(SHOWN);
        folds.push({
          before: end,
          rows: away,
          id,
          words: `${away.length} more: ${away
            .slice(0, 3)
            .map((row) => inSentence(table.rows[row]?.label ?? ''))
            .join('; ')} …`,
        });
      }
    }
  }
  return { folds, short };
}

const opened = new Map<string, Set<string>>();

/** The groups of a book that stand open, by id, as they were left. */
export function openGroups(book: string): Set<string> {
  const known = opened.get(book) ?? new Set(keep.read(openGroupsKey(book))?.split('\n'));
  opened.set(book, known);
  return known;
}

/** Kept in this browser, so that a book opens as it was left. */
export function setOpen(book: string, ids: readonly string[], open: boolean): void {
  const groups = openGroups(book);
  const turned = ids.filter((id) => groups.has(id) !== open);
  if (turned.length === 0) return;
  for (const id of turned) open ? groups.add(id) : groups.delete(id);
  keep.write(openGroupsKey(book), [...groups].join('\n'));
}

function standingIn(table: Table, row: number) {
  const at = placeIn(table, 0, row);
  return at ? standingOf(at) : 'blank';
}

function holdsEverywhere(table: Table, row: number, values: TableValues): boolean {
  return table.columns.every((_, column) => {
    const at = placeIn(table, column, row);
    const value = values[row]?.[column];
    return at !== undefined && standingOf(at) === 'check' && value !== undefined && checkOf(value)?.state === 'holds';
  });
}
