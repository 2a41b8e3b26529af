/** A table as it is known to whoever writes a formula in it, or picks cells of it for one. */
import type { Book, Table } from '../../book/book.ts';
import type { Values } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import type { Spot } from '../parts/index.ts';

export interface Home {
  readonly book: Book;
  readonly table: Table;
  readonly values: Values;
  readonly ask: Session['ask'];
  /** The cell that is worked on. */
  readonly spot: Spot;
  /** Where a key leads among the rows in sight. */
  stepFrom(from: Spot, key: string, control: boolean): Spot | undefined;
  /** Brings the cell that is worked on, and what is written in it, into sight again. */
  showCell(): void;
  /** Brings another cell into sight. */
  showSpot(spot: Spot): void;
  /** Where on the page lies what a slip keeps clear of; undefined while it is not there. */
  lies(): Lies | undefined;
}

export interface Lies {
  readonly cell: DOMRect;
  /** What hangs under the cell: at the edge of the frame where the cell was scrolled out of it. */
  readonly under: DOMRect;
  readonly frame: DOMRect;
  /** The label of its row. */
  readonly label: DOMRect | undefined;
  /** The upper edge of the page (px). */
  readonly roof: number;
  /** The cells that are read. */
  readonly read: readonly DOMRect[];
}

/** A cell of some table on the page. */
export interface Found {
  readonly home: Home;
  readonly spot: Spot;
}
