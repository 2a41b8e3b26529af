/** A table as its own parts know it: controllers, drawing and the editor for formulas are handed the element, and need no more of it than this. */
import type { At } from '../../book/address.ts';
import type { Area } from '../../book/area.ts';
import type { Book, Table } from '../../book/book.ts';
import type { Address, Values } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import type { Part, Place, Step } from '../parts/part.ts';
import type { Fold } from './folds.ts';
import type { Spot } from './grid-moves.ts';
import type { Pooling } from './pooling.ts';

/** What was typed and could not be taken: it is kept until it is mended or given up. */
export interface Refusal {
  readonly place: Place;
  readonly typed: string;
  readonly message: string;
}

export interface TableHost extends Part {
  readonly book: Book;
  readonly table: Table;
  readonly values: Values;
  readonly tick: number;
  readonly chosen: Place | undefined;
  readonly anchor: Place | undefined;
  readonly letters: ReadonlyMap<Address, string>;
  readonly pending: ReadonlyMap<Address, string>;
  readonly ask: Session['ask'];

  readonly writing: { readonly isOpen: boolean; open(text?: string): Promise<void> };
  readonly choosing: {
    readonly area: Area | undefined;
    readonly taken: Area | undefined;
    layHandles(cell: DOMRect, frame: DOMRect, head: DOMRect | undefined, chosen: boolean): void;
  };
  readonly pooling: Pooling;
  readonly lines: {
    readonly head: number;
    readonly labelled: boolean;
    readonly body: readonly (number | Fold)[];
    readonly turned: number;
    placeOf(row: number, lines: readonly (number | Fold)[]): number;
    isOpen(fold: Fold): boolean;
    turn(fold: Fold): void;
  };
  readonly sight: {
    readonly turn: number;
    left(lines: string): (line: number) => boolean;
  };

  /** The cell that has, or would have, the focus. */
  readonly at: At | undefined;
  readonly spot: Spot;
  /** The chosen cell, where it is one of this table. */
  readonly chosenSpot: Spot | undefined;
  readonly input: HTMLInputElement | null;
  /** The column's heading, for whoever names an action on it. */
  readonly columnName: string;
  cellId(spot: Spot): string;
  placeAt(spot: Spot): Place;
  /** Takes the focus, where the cell just chosen is to be worked on. */
  take(): void;
  /** Brings the chosen cell, and what is written in it, into sight again. */
  showCell(): void;
  choose(spot: Spot, anchor?: Place): void;
  /** `on`: it is the chosen cell. `among`: it is one of those chosen. `cut`: it goes to where it is pasted. */
  marks(spot: Spot): { readonly on: boolean; readonly among: boolean; readonly cut: boolean };
  /** Goes to another row where the one that was last worked on is put away. */
  leaveRows(rows: readonly number[], to: number): void;
  /** Asks who gave an answer of the brief. */
  askAbout(spot: Spot): void;
  /** Where a key leads among the rows in sight. */
  stepFrom(from: Spot, key: string, control: boolean): Spot | undefined;
  /** One step on after a commit. False where there is nowhere to go. */
  go(step: Step): boolean;
  /** What may be written here, for the slip. */
  choicesHere(): readonly string[];
}
