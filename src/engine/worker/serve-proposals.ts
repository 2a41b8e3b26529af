/** The far side of a search for layouts: keeps a copy of the book, and answers what is asked of it, piece by piece. */
import type { Book } from '../../book/book.ts';
import { Sweeper } from '../cone/index.ts';
import { type Choices, finished, gathered, type Layout, look, type PieceDone, type Plan, type Proposed, Searcher, type Span } from '../propose/index.ts';

export interface Ask {
  readonly id: number;
  readonly what: /** Begins a search. `book`: left out where it is the one that was sent before. */
    | { readonly ask: 'plan'; readonly book?: Book; readonly choices: Choices }
    | { readonly ask: 'piece'; readonly piece: number }
    /** `stopped`: these are not all pieces, and it is not asked what stands in the way. */
    | { readonly ask: 'conclude'; readonly done: readonly PieceDone[]; readonly stopped: boolean }
    | { readonly ask: 'look'; readonly layout: Layout };
}

export type Said =
  | { readonly kind: 'answer'; readonly id: number; readonly result: unknown }
  | { readonly kind: 'failure'; readonly id: number; readonly message: string }
  /** Still at work. */
  | { readonly kind: 'alive' };

/** What may be chosen among, and how the search that was asked for is cut up. */
export interface Offered {
  readonly plan: Plan;
  readonly fixtures: readonly string[];
  readonly supplies: readonly string[];
  readonly along: Span;
  readonly across: Span;
  /** Contents. */
  readonly spreadAlong: string;
  readonly spreadAcross: string;
  /** m */
  readonly heights: Span & { readonly step: number };
  /** Rows that the book has for it, by their names. */
  readonly rows: readonly string[];
}

/** Signs of life come no closer together than this, ms. */
const BEAT = 200;

export function serveProposals(post: (said: Said) => void): (asked: Ask) => void {
  let last = 0;
  const beat = (): void => {
    const now = performance.now();
    if (now - last < BEAT) return;
    last = now;
    post({ kind: 'alive' });
  };
  let sweeper: Sweeper | undefined;
  let searcher: Searcher | undefined;
  const begun = (): Searcher => {
    if (!searcher) throw new Error('No search was begun.');
    return searcher;
  };
  const begin = (book: Book | undefined, choices: Choices): Offered => {
    searcher = undefined;
    if (book) {
      sweeper?.close();
      sweeper = new Sweeper(book, { beat, running: beat });
    }
    if (!sweeper) throw new Error('There is no book to search for.');
    const made = Searcher.of(sweeper, choices);
    if (typeof made === 'string') throw new Error(made);
    searcher = made;
    return offeredBy(made);
  };
  const answer = (what: Ask['what']): unknown => {
    switch (what.ask) {
      case 'plan':
        return begin(what.book, what.choices);
      case 'piece':
        return begun().piece(what.piece, beat);
      case 'conclude':
        return concluded(begun(), what.done, what.stopped, beat);
      default:
        return look(begun(), what.layout);
    }
  };
  return ({ id, what }) => {
    try {
      post({ kind: 'answer', id, result: answer(what) });
    } catch (error) {
      post({ kind: 'failure', id, message: error instanceof Error ? error.message : String(error) });
    }
  };
}

function concluded(searcher: Searcher, done: readonly PieceDone[], stopped: boolean, beat: () => void): Proposed {
  const { counts, all } = gathered(done);
  if (!stopped || counts.hold > 0) return finished(searcher, done, beat);
  const { table, said } = searcher.plan;
  return { table, proposals: [], counts, said, all };
}

function offeredBy({ plan, space, probe: { anatomy } }: Searcher): Offered {
  const { fixtures, supplies, along, across, heights, step } = space;
  const span = (numbers: readonly number[]): Span => ({ low: numbers[0] ?? 1, high: numbers.at(-1) ?? 1 });
  const { low, high } = span(heights.map(({ metres }) => metres));
  const [spreadAlong = '', spreadAcross = ''] = [space.spreadAlong[0], space.spreadAcross[0]];
  return {
    plan,
    fixtures,
    supplies,
    along: span(along),
    across: span(across),
    spreadAlong,
    spreadAcross,
    heights: { low, high, step },
    rows: Object.keys(anatomy.parts),
  };
}
