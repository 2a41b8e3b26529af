/** Givens of the scenarios that are no part of an arrangement, such as the reflecting sides: what the other scenarios have in place of the first one's. */
import { type At, cellAt, placeIn } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, pointsAt, standingOf } from '../../book/look-up.ts';
import type { Anatomy } from './anatomy.ts';
import type { Elsewhere } from './types.ts';

/** What is tried at most: each takes as long as a whole search. */
const MOST = 8;
/** A chain of cells that point at one another is no longer than that. */
const CHAIN = 20;

/** What stands in another scenario as a whole, and each of it alone; those first that change least. */
export function elsewhereIn(book: Book, { table, column, parts }: Anatomy): readonly Elsewhere[] {
  const varied = new Set(Object.values(parts).map(({ row }) => row.id));
  const found = new Map<string, Elsewhere>();
  const take = (differing: readonly Differs[]): void => {
    const givens = Object.fromEntries(differing.map(({ base, content }) => [base.row.id, content]));
    const said = differing.map(({ base, content, letter }) => `${labelOf(base)} ${content}, as in ${letter}`).join(', and ');
    const key = JSON.stringify(givens);
    if (differing.length > 0 && !found.has(key)) found.set(key, { givens, said });
  };
  for (const [c, { label }] of table.columns.entries()) {
    const differing = table.rows.flatMap((row, r): readonly Differs[] => {
      const [base, at] = [placeIn(table, column, r), placeIn(table, c, r)];
      if (c === column || !base || !at || varied.has(row.id) || !isGiven(base) || !isGiven(at)) return [];
      const content = contentOf(book, at);
      if (content === undefined || content === contentOf(book, base)) return [];
      return [{ base, content, letter: label ?? `scenario ${c + 1}` }];
    });
    take(differing);
    for (const one of differing) take([one]);
  }
  return [...found.values()].sort((a, b) => Object.keys(a.givens).length - Object.keys(b.givens).length).slice(0, MOST);
}

interface Differs {
  readonly base: At;
  readonly content: string;
  readonly letter: string;
}

const isGiven = (at: At): boolean => ['given', 'as'].includes(standingOf(at));

const labelOf = ({ row }: At): string => row.label ?? row.id;

/** What is written where a cell leads; undefined where that is worked out, or blank. */
function contentOf(book: Book, from: At): string | undefined {
  let at: At | undefined = from;
  for (let n = 0; n < CHAIN && at; n++) {
    const next = pointsAt(at);
    if (next === undefined) break;
    at = cellAt(book, next);
  }
  const content = at?.cell?.content ?? '';
  return content === '' || content.startsWith('=') ? undefined : content;
}

/** The cells of the first scenario in which these go. */
export const placesOf = ({ table, column }: Anatomy, { givens }: Elsewhere): readonly (readonly [address: string, content: string])[] =>
  table.rows.flatMap((row, r) => {
    const at = placeIn(table, column, r);
    const content = givens[row.id];
    return at && content !== undefined ? [[addressOf(at), content] as const] : [];
  });
