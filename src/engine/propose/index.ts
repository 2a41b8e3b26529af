/**
 * Which lights, how many, how high: the arrangements of a book in which all holds, and the best of them.
 *
 * In one thread: `propose(book, choices)`. In several: each makes its own `Searcher.of(book, choices)` and works pieces, by their numbers below `plan.pieces`
 * and in any order; what `piece()` gives goes between threads, `gathered()` says what is known so far, and `finished()`, in any thread that has a searcher, makes
 * the answer of all pieces. `putScenarios` (src/book/commands) puts it into the book.
 */
export { addCounts, NO_COUNTS, type Tally } from './counts.ts';
export { finished, gathered, look } from './finish.ts';
export { propose } from './propose.ts';
export { Searcher } from './searcher.ts';
export type { Aim, Binding, Choices, Counts, Layout, Looked, PieceDone, Plan, Proposal, Proposed, Span, Way } from './types.ts';
export { AIMS } from './types.ts';
