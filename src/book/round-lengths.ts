/** Lengths that are ours to choose, round on the tape of who reads them: a bench of 3.6 m is no bench of 11′ 9 3/4″ but of 12′. */
import { readContent } from '../../functions/quantity-text.ts';
import { need, unit } from '../../functions/units.ts';
import { type At, placeIn } from './address.ts';
import { notAllowed } from './allowed.ts';
import type { Book, Cell } from './book.ts';
import { namesOf, sourceOf, standingOf } from './look-up.ts';
import { saidBy } from './said-by.ts';

/** Inches to the nearest of these, up to so many inches. */
const STEPS = [
  [3, 0.25],
  [12, 1],
  [48, 3],
  [120, 6],
  [Number.POSITIVE_INFINITY, 12],
] as const;

/** A light that just goes into such a place must still go in: it is rounded up. */
const PLACES = ['bench_length', 'bench_width'];

/** A length this little over a round one is that one, in. */
const DUST = 1e-6;

/** In feet where it is whole feet, else in inches: `12 ft`, `10 in`. */
function roundOnTape(metres: number, up: boolean): string {
  const inches = metres / 0.0254;
  const step = STEPS.find(([upTo]) => inches <= upTo)?.[1] ?? 12;
  const round = (up ? Math.ceil((inches - DUST) / step) : Math.round(inches / step)) * step;
  return round >= 12 && round % 12 === 0 ? `${round / 12} ft` : `${round} in`;
}

/** The book with its defaults, and what we put forward, in round feet and inches. What a source names or somebody measured stays as it is. */
export function withRoundLengths(book: Book): Book {
  const tables = book.tables.map((table) => {
    if (table.form === 'list') return table;
    const cells: Record<string, Record<string, Cell>> = { ...table.cells };
    for (const at of table.rows.flatMap((_, r) => table.columns.flatMap((__, c) => placeIn(table, c, r) ?? []))) {
      const content = rounded(book, at);
      if (content !== undefined && at.cell) cells[at.row.id] = { ...cells[at.row.id], [at.column.id]: { ...at.cell, content } };
    }
    return { ...table, cells };
  });
  return { ...book, tables };
}

const METRE = need('m').dimension;

function rounded(book: Book, at: At): string | undefined {
  const said = saidBy(sourceOf(at));
  const read = readContent(at.cell?.content ?? '');
  if (standingOf(at) !== 'given' || (said?.teller !== 'default' && said?.teller !== 'ours')) return undefined;
  if (read.kind !== 'number' || read.base <= 0 || unit(read.unit)?.dimension !== METRE) return undefined;
  const content = roundOnTape(
    read.base,
    namesOf(book, at).some((name) => PLACES.includes(name)),
  );
  return readContent(content).kind === 'number' && !content.startsWith('0 ') && notAllowed(book, at, content) === undefined ? content : undefined;
}
