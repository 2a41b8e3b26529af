import { LitElement } from 'lit';
import type { At } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import type { Habits } from '../../book/habits.ts';
import type { Answer } from '../../book/refused.ts';
import type { Teller } from '../../book/said-by.ts';
import type { Address } from '../../engine/types.ts';
import type { Kept } from '../../enquiry/index.ts';

/** While it stands, nothing is drawn. */
let held: Promise<unknown> | undefined;

/** Draws nothing until then, so that what belongs together and is about to come is drawn in one turn, and laid out and painted once. */
export function holdDrawing(until: Promise<unknown>): void {
  const mine = until.finally(() => {
    if (held === mine) held = undefined;
  });
  held = mine;
}

/** After what a page does at once; Safari knows no idle time. */
export const whenIdle = (work: () => void, within = 2000): unknown =>
  'requestIdleCallback' in window ? requestIdleCallback(work, { timeout: within }) : setTimeout(work, Math.min(within, 500));

/**
 * Base of all elements of the page. They render into the page itself, not into shadow roots: one style sheet dresses screen and paper,
 * and labels, grids and their active cells can name one another across elements.
 */
export abstract class Part extends LitElement {
  protected override createRenderRoot(): HTMLElement {
    return this;
  }

  protected override async scheduleUpdate(): Promise<void> {
    while (held) await held;
    await super.scheduleUpdate();
  }

  /** Tells whoever composes this element what its user wants. No element changes a book itself. */
  protected say<K extends keyof Wishes>(name: K, detail: Wishes[K]): void {
    this.dispatchEvent(new CustomEvent(`ob-${name}`, { detail, bubbles: true, composed: true }));
  }
}

/** A cell by what it is, not where it stands: it stays the same cell when rows move. */
export interface Place {
  readonly table: string;
  readonly row: string;
  readonly column: string;
}

export const placeOfAt = (at: At): Place => ({ table: at.table.id, row: at.row.id, column: at.column.id });

export const samePlace = (a: Place | undefined, b: Place | undefined): boolean => a?.table === b?.table && a?.row === b?.row && a?.column === b?.column;

export type Step = 'down' | 'up' | 'right' | 'left' | 'stay';

/** What elements ask for, by name. */
export interface Wishes {
  /** Look at another cell. `follow`: from a list in the margin, so that one can come back. */
  /** `anchor`: the other corner of the block that is chosen with it. */
  choose: { readonly place: Place; readonly anchor?: Place | undefined; readonly follow?: boolean | undefined; readonly focus?: boolean };
  /** Put what was typed into a cell. */
  type: { readonly place: Place; readonly typed: string };
  /** Put down what was copied, from the chosen cell on. `html`: the same as another program, or this one, says it with more. */
  paste: { readonly text: string; readonly html: string };
  /** Empty the chosen cells. */
  clear: { readonly place: Place };
  /** What can be done with the chosen row or column. */
  menu: { readonly what: 'row' | 'column' };
  /** Something to be said aloud, and shown for a moment. */
  tell: { readonly text: string };
  /** The letters of the cells that a formula reads while it is written; undefined when it no longer is. */
  letters: { readonly letters: ReadonlyMap<Address, string> | undefined };
  /** Ask a question of the brief: this one, else the first that is left. */
  question: { readonly place?: Place };
  /**
   * Put an answer of the brief, who said so, or both, into a cell as one change. `taken`: hears why not, where it is refused. What is left out
   * stays.
   */
  answer: {
    readonly place: Place;
    readonly typed: string | undefined;
    readonly said: { readonly teller: Teller; readonly how: string } | undefined;
    readonly taken: (why: string | undefined) => void;
  };
  /** Change the book by a command. `answered`: hears what came of it, and shows a refusal itself. `plain`: where it was made it is seen that it is. */
  change: { readonly command: (book: Book) => Answer; readonly answered?: (answer: Answer) => void; readonly plain?: true };
  /** Write a text of the page that is shown, or begin one before its block at this place, which joins the book when it is kept. */
  text: { readonly block: string } | { readonly at: number };
  /** A text that was begun is written no longer. `block`: what it is in the book now, where it was kept. `back`: go back to it. */
  'text-ended': { readonly block: string | undefined; readonly back: boolean };
  /** What is written of a text now. */
  draft: { readonly text: string };
  /** Keep what is written. `back`: and go back to its piece. */
  keep: { readonly back: boolean };
  leave: undefined;
  /** Take back the last change. */
  'take-back': object;
  /** A cell was picked from a list, or its address written. */
  found: { readonly reference: string };
  /** This piece of the page is the one in hand. */
  'in-hand': { readonly block: string | undefined };
  /** Put the focus on the piece; undefined: on the page's title. */
  'piece-focus': { readonly block: string | undefined };
  /** `word`: of the glossary, where it is opened. */
  page: { readonly page: string; readonly word?: string };
  open:
    | { readonly what: 'demo' | 'file' }
    | {
        readonly what: 'template';
        readonly slug: string;
        readonly title: string;
        readonly client: string;
        readonly date: string;
        readonly habits: Partial<Habits>;
      }
    | {
        readonly what: 'enquiry';
        readonly slug: string;
        readonly title: string;
        readonly client: string;
        readonly date: string;
        readonly habits: Partial<Habits>;
        /** What the client wrote, and what of it is kept. */
        readonly text: string;
        readonly kept: readonly Kept[];
      }
    | { readonly what: 'book'; readonly id: string };
  remove: { readonly id: string; readonly title: string };
  /** Open a cell for writing; `text`: with this in it instead of what it holds, kept only on Enter. */
  write: { readonly place: Place; readonly text?: string };
}
