/** What a command is: one record with all that is known of it. What it knows of the page is a PageState, and what it does is an Outcome. */
import type { At } from '../../book/address.ts';
import type { Area } from '../../book/area.ts';
import type { Book } from '../../book/book.ts';
import type { Change } from '../../book/change.ts';
import { type Refused, refused } from '../../book/refused.ts';
import type { Values } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import type { Place, Wishes } from '../parts/index.ts';
import type { SlipCall } from '../slips/index.ts';
import type { Clip, Spot } from '../table/index.ts';

/** What stands open when a command is asked for. It is read and never written on; the shell makes it, in one place. */
export interface PageState {
  readonly book: Book | undefined;
  readonly values: Values;
  /** The chosen cell. */
  readonly at: At | undefined;
  /** The cell that was typed into last. */
  readonly typedAt: At | undefined;
  /** The chosen cell, or the block of cells that is chosen. */
  readonly area: Area | undefined;
  /** px at which the column of the chosen cell is drawn. */
  readonly drawnWidth: number | undefined;
  /** The page that is shown, by its id. */
  readonly pageId: string;
  /** The piece of the page that was last in hand, by its block's id. */
  readonly piece: string | undefined;
  /** All pages that can be gone to. */
  readonly pages: readonly { readonly id: string; readonly title: string }[];
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** Another value was left by following where one comes from. */
  readonly canReturn: boolean;
  /** Asks the engine, once it has worked out all changes made so far. */
  readonly ask: Session['ask'];
}

/** What goes out as a file. */
export type SentOut = 'book' | 'wide' | 'tidy' | 'not placed';

/** What is done on the page, other than a change of the book. The shell performs each, in one place. */
export type Effect =
  | { readonly do: 'undo' | 'redo' }
  /** Says something aloud; `shown`: on the page too, for a moment. */
  | { readonly do: 'say'; readonly text: string; readonly shown?: boolean }
  | { readonly do: 'show page'; readonly page: string }
  /** The piece of the page is in hand; undefined: the page itself. */
  | { readonly do: 'take up piece'; readonly block: string | undefined }
  | { readonly do: 'write text'; readonly text: Wishes['text'] }
  /** Cells are chosen by where they stand then: what was put in just before can be among them. */
  | { readonly do: 'choose'; readonly table: string; readonly near: Spot; readonly far?: Spot; readonly follow?: boolean }
  | { readonly do: 'choose on' }
  | { readonly do: 'type'; readonly place: Place; readonly typed: string }
  | ({ readonly do: 'open slip' } & SlipCall)
  | { readonly do: 'send out'; readonly what: SentOut }
  | { readonly do: 'clip'; readonly clip: Clip }
  | { readonly do: 'find command' | 'bring in' | 'print' | 'copy working' | 'print working' | 'go to shelf' | 'go back' | 'go to working' | 'switch light' };

/** What comes of a command: a change of the book, something done on the page, a refusal, or some of these in their order. */
export type Outcome = Change | Effect | Refused | readonly (Change | Effect)[];

/** It may be promised, where a part of the program has to be fetched first. */
export type Run = (state: PageState) => Outcome | Promise<Outcome>;

export interface Command {
  readonly id: string;
  readonly label: string | ((state: PageState) => string);
  /** Other words by which it may be looked for. */
  readonly words: string;
  /** As they are shown: `Ctrl Z`. */
  readonly keys?: string;
  readonly presses?: (event: KeyboardEvent) => boolean;
  /** Changes no book and hangs on nothing that is still being done: it waits for nothing that was asked before. */
  readonly atOnce?: true;
  /** Reads values: it waits until all that was typed and changed before is worked out. */
  readonly settled?: true;
  /** Goes to a value that was sought by a word of its label, or by how one begins. */
  readonly value?: 'called so' | 'begun so';
  readonly when: (state: PageState) => boolean;
  readonly run: Run;
}

export const isChange = (outcome: Outcome): outcome is Change => 'edits' in outcome;

export const labelOf = (command: Command, state: PageState): string => (typeof command.label === 'string' ? command.label : command.label(state));

/** A state in which a book is open, and one in which cells of it are chosen. */
export type InBook = PageState & { readonly book: Book };
export type OnCells = InBook & { readonly at: At; readonly area: Area };

export const bookOpen = (state: PageState): state is InBook => state.book !== undefined;
export const cellsChosen = (state: PageState): state is OnCells => bookOpen(state) && state.at !== undefined && state.area !== undefined;

/** For what is done with an open book. */
export const inBook =
  (run: (state: InBook) => Outcome | Promise<Outcome>): Run =>
  (state) =>
    bookOpen(state) ? run(state) : refused('No book is open.');

/** For what is done with the chosen cells. */
export const onCells =
  (run: (state: OnCells) => Outcome | Promise<Outcome>): Run =>
  (state) =>
    cellsChosen(state) ? run(state) : refused('Choose a cell first.');
