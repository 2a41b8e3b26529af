/** Puts arrangements into scenarios of a table, as ordinary givens: what is the base's is said to be "as" it. */
import { type At, cellAt, columnText, placeIn } from '../address.ts';
import { apply } from '../apply.ts';
import type { Book, Cell, Table } from '../book.ts';
import type { Change } from '../change.ts';
import { isFormula } from '../content.ts';
import { fill, type Piece } from '../fill.ts';
import { findTable } from '../lines.ts';
import { addressOf, baseColumn, pointsAt, standingOf } from '../look-up.ts';
import { type Answer, isRefused, refused } from '../refused.ts';
import { squash } from '../squash.ts';
import { addScenario } from './add-scenario.ts';

export interface Arrangement {
  /** Contents as cells store them, by the ids of their rows. In every other row it is as the base, for which it was found. */
  readonly givens: Readonly<Record<string, string>>;
  /** Why it stands there: a note at the first of them. */
  readonly why: string;
}

export interface PutScenarios {
  /** A comparing table's id or name. */
  readonly table: string;
  /** By the place of the scenario, from 0; one that is left out stays what it is. */
  readonly scenarios: readonly (Arrangement | undefined)[];
  readonly label: string;
}

/** How a note begins that was put there so; the next one takes its place. */
const PROPOSED = 'Proposed: ';
const SOURCE = 'ours, proposed';

/** Scenarios that the table lacks are added. One change, whatever it takes. */
export function putScenarios(book: Book, { table: wanted, scenarios, label }: PutScenarios): Answer {
  const found = findTable(book, wanted);
  if (found?.form !== 'scenarios') return refused(`There is no table ${wanted} that compares scenarios.`);
  let made: Change = { label, edits: [] };
  let now = book;
  for (let lacking = scenarios.length - found.columns.length; lacking > 0; lacking--) {
    const added = addScenario(now, { table: found.id });
    if (isRefused(added)) return added;
    made = squash(made, added, label);
    now = apply(now, added);
  }
  const table = findTable(now, found.id) as Table;
  const filled = fill(now, label, [
    ...scenarios.flatMap((one, column) => (one ? [...put(table, scenarios, column, one), ...rest(now, table, column, one)] : [])),
    ...table.columns.flatMap((_, column) => (scenarios[column] ? [] : left(now, table, scenarios, column))),
  ]);
  return isRefused(filled) ? filled : squash(made, filled, label);
}

function put(table: Table, scenarios: PutScenarios['scenarios'], column: number, { givens, why }: Arrangement): readonly Piece[] {
  const [first] = Object.keys(givens);
  return placesOf(table, column, givens).map(([at, content]) => {
    const note = at.row.id === first ? { note: noted(at.cell, why) } : {};
    const { typed: _, ...kept } = at.cell ?? { content: '' };
    return { at, cell: { ...standing(table, scenarios, at, content, { ...kept, source: SOURCE }), ...note } };
  });
}

/** All other givens are as the base's: an arrangement that holds there need not hold with other hours. */
function rest(book: Book, table: Table, column: number, { givens }: Arrangement): readonly Piece[] {
  const base = baseColumn(table);
  if (column === base) return [];
  return table.rows.flatMap((row, r): readonly Piece[] => {
    const [at, ofBase] = [placeIn(table, column, r), placeIn(table, base, r)];
    if (!at?.cell || !ofBase || givens[row.id] !== undefined || !['given', 'as'].includes(standingOf(at)) || leadsTo(book, ofBase, at)) return [];
    return [{ at, cell: asBase(at, at.cell, base) }];
  });
}

/** A scenario that was as one that becomes another stays what it was. */
function left(book: Book, table: Table, scenarios: PutScenarios['scenarios'], column: number): readonly Piece[] {
  const givens = Object.assign({}, ...scenarios.map((one) => one?.givens ?? {})) as Readonly<Record<string, string>>;
  return placesOf(table, column, givens).flatMap(([at]): readonly Piece[] => {
    const was = saidAt(book, at);
    if (at.cell === undefined || was === undefined) return [];
    return [{ at, cell: standing(table, scenarios, at, was, at.cell) }];
  });
}

const placesOf = (table: Table, column: number, givens: Readonly<Record<string, string>>): readonly (readonly [At, string])[] =>
  Object.entries(givens).flatMap(([row, content]) => {
    const at = placeIn(
      table,
      column,
      table.rows.findIndex(({ id }) => id === row),
    );
    return at ? [[at, content] as const] : [];
  });

/** The content as it stands in its scenario: what the base has too is "as" the base, and of nobody's own saying. */
function standing(table: Table, scenarios: PutScenarios['scenarios'], at: At, content: string, cell: Cell): Cell {
  const base = baseColumn(table);
  const ofBase = scenarios[base]?.givens[at.row.id] ?? placeIn(table, base, at.rowIndex)?.cell?.content;
  if (at.columnIndex === base || ofBase !== content) return { ...cell, content };
  return asBase(at, cell, base);
}

function asBase(at: At, cell: Cell, base: number): Cell {
  const { typed: _, source: __, unit: ___, ...kept } = cell;
  return { ...kept, content: `=${columnText(base)}${at.rowIndex + 1}` };
}

/** The cells that a cell points at, from one to the next. */
function* pointedAt(book: Book, from: At): Generator<At> {
  const seen = new Set<string>();
  let at: At | undefined = from;
  for (let next = pointsAt(from); at && next !== undefined && !seen.has(next); next = at && pointsAt(at)) {
    seen.add(next);
    at = cellAt(book, next);
    if (at) yield at;
  }
}

const leadsTo = (book: Book, from: At, goal: At): boolean => [...pointedAt(book, from)].some((at) => addressOf(at) === addressOf(goal));

/** What stands where a cell points; undefined where that is worked out. */
function saidAt(book: Book, from: At): string | undefined {
  const content = [...pointedAt(book, from)].at(-1)?.cell?.content ?? '';
  return content === '' || isFormula(content) ? undefined : content;
}

/** What somebody wrote there stays, after ours. */
function noted(cell: Cell | undefined, why: string): string {
  const own = (cell?.note ?? '').split('\n').filter((line) => line !== '' && !line.startsWith(PROPOSED));
  return [`${PROPOSED}${why}`, ...own].join('\n');
}
