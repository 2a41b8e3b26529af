/** Proposals for a book that stands on the page: searched in workers, on a copy of it. */
export type { Aim, Binding, Choices, Counts, Layout, Looked, Proposal, Proposed, Span, Way } from '../propose/index.ts';
export type { Offered } from '../worker/index.ts';
export { createProposers, type Heard, type Proposers } from './proposers.ts';
