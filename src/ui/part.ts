import { LitElement } from 'lit';
import type { Change } from '../book/change.ts';

/**
 * Base of all elements of the page. They render into the page itself, not into shadow roots: one style sheet dresses screen and paper,
 * and labels, grids and their active cells can name one another across elements.
 */
export abstract class Part extends LitElement {
  protected override createRenderRoot(): HTMLElement {
    return this;
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

export const samePlace = (a: Place | undefined, b: Place | undefined): boolean => a?.table === b?.table && a?.row === b?.row && a?.column === b?.column;

export type Step = 'down' | 'up' | 'right' | 'left' | 'stay';

/** What elements ask for, by name. */
export interface Wishes {
  /** Look at another cell. `follow`: from a list in the margin, so that one can come back. */
  choose: { readonly place: Place; readonly follow?: boolean; readonly focus?: boolean };
  /** Put what was typed into a cell. */
  type: { readonly place: Place; readonly typed: string };
  /** Put a block of text into cells, from the chosen one on. */
  paste: { readonly text: string };
  clear: { readonly place: Place };
  /** Make what a file brings: one change, looked at before. */
  bring: { readonly change: Change };
  /** Something to be said aloud, and shown for a moment. */
  tell: { readonly text: string };
  do: { readonly command: string };
  page: { readonly page: string };
  open:
    | { readonly what: 'demo' | 'file' }
    | { readonly what: 'template'; readonly slug: string; readonly title: string; readonly client: string }
    | { readonly what: 'book'; readonly id: string };
  remove: { readonly id: string; readonly title: string };
  name: { readonly title: string; readonly client: string };
  /** Open a cell for writing; `text`: with this in it instead of what it holds, kept only on Enter. */
  write: { readonly place: Place; readonly text?: string };
  /** Show the chosen cell or its row in another unit; null: in its own. */
  unit: { readonly what: 'cell' | 'row'; readonly unit: string | null };
  scenario: { readonly verb: 'drop' | 'same' | 'base' | 'add'; readonly table: string; readonly column?: string; readonly place?: Place };
}
