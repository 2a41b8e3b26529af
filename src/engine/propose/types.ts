/** What is asked of a search for arrangements, and what it answers: plain data, so that it goes between threads. */
import type { Value } from '../types.ts';

/** What may be tried. What is left out is as it is said beside it. */
export interface Choices {
  /** Names as the list of fixtures has them; all of them. */
  readonly fixtures?: readonly string[];
  /** How many rows along and across; 1 to 12 each. */
  readonly along?: Span;
  readonly across?: Span;
  /** Long side across; both ways. */
  readonly turned?: 'either' | 'yes' | 'no';
  /** In m, from the lowest to the highest that the brief allows; every 5 cm, or 2 in where the book is in feet and inches. */
  readonly heights?: Partial<Span> & { readonly step?: number };
  /** Contents of the spreads; as the first scenario has them. */
  readonly spreadAlong?: readonly string[];
  readonly spreadAcross?: readonly string[];
  /** The least whole per cent that still reaches the light aimed at, or the least that is wanted; or not dimmed. */
  readonly dimming?: 'aim' | 'low end' | 'none';
  /** Names as the list of supplies has them; all of them. */
  readonly supplies?: readonly string[];
  /** Contents of the fuse; all that are offered. */
  readonly fuses?: readonly string[];
  /** Most mains circuits. */
  readonly circuits?: number;
  /** Every arrangement in which all holds is wanted, and not the best alone: then nothing is passed over because something else is better. */
  readonly all?: boolean;
}

export interface Span {
  readonly low: number;
  readonly high: number;
}

/** The three questions of which each has an answer of its own. */
export type Aim = 'cheapest' | 'most even' | 'fewest lights';
export const AIMS: readonly Aim[] = ['cheapest', 'most even', 'fewest lights'];
/** The rows by which they are told. */
export const ROWS = { cheapest: 'annual', 'most even': 'evenness', 'fewest lights': 'count' } as const;

/** One arrangement of lights in which no check fails and none is unknown. */
export interface Layout {
  readonly fixture: string;
  readonly along: number;
  readonly across: number;
  readonly turned: boolean;
  /** Contents; empty where the book has no such row. */
  readonly spreadAlong: string;
  readonly spreadAcross: string;
  /** The content of the row that says how high the lights hang, and the same in m. */
  readonly height: string;
  readonly metres: number;
  /** Whole per cent. */
  readonly dim: number;
  /** Empty where the light has its own driver. */
  readonly supply: string;
  readonly fuse: string;
  /** Base values of the rows of that name; not a number where the book has none. */
  readonly count: number;
  readonly annual: number;
  readonly evenness: number;
  /** The maintained mean, or what stands for it. */
  readonly light: number;
  /** Where it stands in the space, of which ties take the first. */
  readonly place: number;
  /** Where all holds with givens of another scenario alone. */
  readonly elsewhere?: Elsewhere;
}

/** Givens, by their row ids, that are no part of an arrangement, as another scenario has them. */
export interface Elsewhere {
  readonly givens: Readonly<Record<string, string>>;
  /** "Reflecting sides 0.7, as in B" */
  readonly said: string;
}

export interface Counts {
  /** In the space. */
  readonly layouts: number;
  /** Of these, those that can be built. */
  readonly built: number;
  /** Of these, those of which the light was worked out. */
  readonly worked: number;
  /** Those that were passed over before, because a check that knows nothing of the light fails, or because they could win nothing. */
  readonly cut: number;
  /** Those in which all checks hold; where not all are wanted, only those of them that were the best so far by something. */
  readonly hold: number;
}

/** What a piece of the space came to. */
export interface PieceDone {
  readonly piece: number;
  readonly counts: Counts;
  /** The best for each aim; left out where nothing holds. */
  readonly best: Partial<Readonly<Record<Aim, Layout>>>;
  /** All in which all holds, in the order of the space; only where all are wanted. */
  readonly all: readonly Layout[];
}

/** An arrangement in full. */
export interface Looked {
  /** Row ids of the scenarios table, with what goes into a column. */
  readonly cells: Readonly<Record<string, string>>;
  /** Every worked row of the column by its id. */
  readonly values: Readonly<Record<string, Value>>;
  /** Labels of checks that rest on an assumption, and of those that are close to their limit. */
  readonly assumed: readonly string[];
  readonly close: readonly string[];
}

export interface Proposal extends Looked {
  readonly aim: Aim;
  readonly layout: Layout;
  /** One sentence. */
  readonly why: string;
}

/** What stands in the way where nothing holds. */
export interface Binding {
  /** Labels of the checks. */
  readonly checks: readonly string[];
  /** One sentence: which check, and how many arrangements fail by it alone. */
  readonly said: string;
  /** What would let something through, tried; the smallest change of each given that could. */
  readonly changes: readonly Way[];
}

export interface Way {
  /** The cell to change, and what it would have to say. */
  readonly address: string;
  readonly content: string;
  /** "Highest a light may hang 0.8 m: at 0.95 m one holds." */
  readonly said: string;
  /** What then holds. */
  readonly layout: Layout;
  /** A fact of the client's building, which is asked for and not chosen. */
  readonly ofClient: boolean;
}

export interface Proposed {
  /** Of the scenarios table. */
  readonly table: string;
  readonly proposals: readonly Proposal[];
  readonly counts: Counts;
  /** What could not be answered or was understood otherwise, in sentences. */
  readonly said: readonly string[];
  readonly all: readonly Layout[];
  readonly binds?: Binding;
}

export interface Plan {
  /** Of the scenarios table. */
  readonly table: string;
  readonly pieces: number;
  /** In the space. */
  readonly layouts: number;
  readonly said: readonly string[];
}
