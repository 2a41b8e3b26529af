/**
 * Every arrangement of a small book tried one by one in the ordinary engine: nothing of the search that is under test is used here, and nothing is passed
 * over. An arrangement is what goes into the cells, one text a row; what is asked is read from the cells.
 */
import type { Book, Cell } from '../../../src/book/book.ts';
import type { Edit } from '../../../src/book/change.ts';
import type { Value } from '../../../src/engine/types.ts';
import { Workbook } from '../../../src/engine/workbook.ts';

/** What may go into each row, in the order in which it is listed; the first row goes slowest. */
export type Lists = readonly (readonly [row: string, contents: readonly string[]])[];

export interface Tried {
  readonly cells: Readonly<Record<string, string>>;
  readonly annual: number;
  readonly evenness: number;
  readonly count: number;
  /** Its place in the list, without dimming, supply and fuse. */
  readonly place: number;
}

class Column {
  book: Book;
  readonly workbook = new Workbook({});
  readonly table: string;
  readonly name: string;

  constructor(book: Book) {
    this.book = book;
    const table = book.tables.find(({ form }) => form === 'scenarios');
    this.table = table?.id ?? '';
    this.name = table?.name ?? '';
    this.workbook.load(book);
  }

  private get rows(): Book['tables'][number] {
    return this.book.tables.find(({ id }) => id === this.table) as Book['tables'][number];
  }

  /** By the first column, as if each were typed. */
  set(cells: Readonly<Record<string, string>>): void {
    const { columns, cells: stored } = this.rows;
    const column = columns[0]?.id ?? '';
    const edits: Edit[] = [];
    const next: Record<string, Record<string, Cell>> = { ...stored };
    for (const [row, content] of Object.entries(cells)) {
      const before = stored[row]?.[column];
      if (!before || before.content === content) continue;
      const after = { ...before, content };
      edits.push({ at: 'cell', table: this.table, row, column, before, after });
      next[row] = { ...next[row], [column]: after };
    }
    if (edits.length === 0) return;
    this.book = { ...this.book, tables: this.book.tables.map((one) => (one.id === this.table ? { ...one, cells: next } : one)) };
    this.workbook.apply([{ label: '', edits }], this.book);
  }

  has(row: string): boolean {
    return this.rows.rows.some(({ id }) => id === row);
  }

  value(row: string): Value {
    const place = this.rows.rows.findIndex(({ id }) => id === row);
    return place < 0 ? { kind: 'blank' } : this.workbook.valueAt(this.workbook.at(`${this.name}.A${place + 1}`));
  }

  number(row: string): number {
    const value = this.value(row);
    return value.kind === 'number' ? value.base : Number.NaN;
  }

  /** No check fails and none is unknown. */
  holds(): boolean {
    return this.rows.rows
      .filter(({ kind }) => kind === 'check')
      .every(({ id }) => {
        const value = this.value(id);
        if (value.kind === 'yes or no') return value.yes;
        return value.kind === 'text' && /^(holds|assumed|close to limit)\b/.test(value.text);
      });
  }

  close(): void {
    this.workbook.hyper.dispose();
  }
}

/** All in which everything holds, each with its cheapest supply and fuse. @param lists without dimming, supply and fuse */
export function everyOne(
  book: Book,
  lists: Lists,
  supplies: readonly string[],
  fuses: readonly string[],
  dims: { readonly low: number; readonly high: number },
): readonly Tried[] {
  const column = new Column(book);
  const own = { supply: supplies[0] ?? '', fuse: fuses[0] ?? '' };
  const found: Tried[] = [];
  let place = -1;
  for (const cells of combined(lists)) {
    place++;
    column.set({ ...cells, dim: `${dims.high} %`, ...own });
    if (column.value('layout').kind === 'error') continue;
    const feed = column.value('feed');
    const mains = feed.kind === 'text' && feed.text === 'mains';
    const dim = leastDim(column, dims);
    let best: Tried | undefined;
    for (const supply of mains ? [own.supply] : supplies) {
      for (const fuse of mains ? [own.fuse] : fuses) {
        const all = { ...cells, dim: `${dim} %`, supply, fuse };
        column.set(all);
        if (!column.holds()) continue;
        const annual = column.number('annual');
        if (best && !(annual < best.annual)) continue;
        best = { cells: all, annual, evenness: column.number('evenness'), count: column.number('count'), place };
      }
    }
    if (best) found.push(best);
  }
  column.close();
  return found;
}

function* combined(lists: Lists): Generator<Readonly<Record<string, string>>> {
  const [first, ...rest] = lists;
  if (!first) {
    yield {};
    return;
  }
  const [row, contents] = first;
  for (const content of contents) for (const more of combined(rest)) yield { [row]: content, ...more };
}

/** The least whole per cent with which the light is what is aimed at, found by halving; all of it where the light does not reach that far. */
function leastDim(column: Column, { low, high }: { readonly low: number; readonly high: number }): number {
  const asked = column.has('ppfd_aim') ? 'ppfd_aim' : 'ppfd_low';
  const reaches = (dim: number): boolean => {
    column.set({ dim: `${dim} %` });
    return column.number('kept') >= column.number(asked);
  };
  if (!reaches(high)) return high;
  if (reaches(low)) return low;
  let [dark, bright] = [low, high];
  while (bright - dark > 1) {
    const middle = Math.floor((dark + bright) / 2);
    if (reaches(middle)) bright = middle;
    else dark = middle;
  }
  return bright;
}

/** Sorted as the answers are promised: by the question, then the cheaper, the fewer, the first in the list. */
export function bestOf(all: readonly Tried[], question: 'cheapest' | 'most even' | 'fewest lights'): Tried | undefined {
  const by = { cheapest: (one: Tried) => one.annual, 'most even': (one: Tried) => -one.evenness, 'fewest lights': (one: Tried) => one.count }[question];
  const keys = (one: Tried): readonly number[] => [by(one), one.annual, one.count, one.place];
  return [...all].sort((a, b) => {
    const [x, y] = [keys(a), keys(b)];
    const i = x.findIndex((key, n) => key !== y[n]);
    return i < 0 ? 0 : (x[i] as number) - (y[i] as number);
  })[0];
}
