/**
 * A change is plain data that says how one book becomes another and how it comes back.
 * `invert` and `squash` are pure, and so is `apply`, save where it is told that it may write on the book before. One gesture is one change.
 *
 * Tables, rows and columns are named by their ids, so a cell's edit means the same before and after rows move. Removing a row or
 * a column leaves its cells alone: a change that deletes one clears its cells first, a change that moves one does not.
 */
import type { Block, Book, Cell, Column, Page, Row, Table } from './book.ts';

/** One edit, with what was there before, so that it can be turned round without asking anything. */
export type Edit =
  | { readonly at: 'cell'; readonly table: string; readonly row: string; readonly column: string; readonly before: Cell | null; readonly after: Cell | null }
  | { readonly at: 'row'; readonly table: string; readonly index: number; readonly before: Row | null; readonly after: Row | null }
  | { readonly at: 'column'; readonly table: string; readonly index: number; readonly before: Column | null; readonly after: Column | null }
  | { readonly at: 'table'; readonly index: number; readonly before: Table | null; readonly after: Table | null }
  | { readonly at: 'table fields'; readonly table: string; readonly before: TableFields; readonly after: TableFields }
  | { readonly at: 'page'; readonly index: number; readonly before: Page | null; readonly after: Page | null }
  | { readonly at: 'block'; readonly page: string; readonly index: number; readonly before: Block | null; readonly after: Block | null }
  | { readonly at: 'name'; readonly name: string; readonly before: string | null; readonly after: string | null }
  | { readonly at: 'book'; readonly before: BookFields; readonly after: BookFields };

/** Fields that change; one that is on one side only is added or taken away. */
export type TableFields = Partial<Pick<Table, 'name' | 'form' | 'base'>>;
export type BookFields = Partial<Pick<Book, 'title' | 'client' | 'currency' | 'measures' | 'wires' | 'paper' | 'purpose' | 'template' | 'went' | 'enquiry'>>;

export interface Change {
  /** What a person reads in the list of changes: "Mount height B: 50 cm → 45 cm". */
  readonly label: string;
  readonly edits: readonly Edit[];
}
