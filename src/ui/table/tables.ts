/** The tables that are on the page now, for what goes from one to another: each says when it comes and when it goes. */
import type { Found, Home } from '../formula/index.ts';
import { readSpot } from '../parts/index.ts';
import type { Spot } from './grid-moves.ts';

export interface OpenTable extends Home {
  /** What it is drawn in. */
  readonly root: ParentNode & Node;
  /** The chosen cell, where it is one of this table. */
  readonly chosenSpot: Spot | undefined;
  readonly input: HTMLInputElement | null;
  readonly writing: { readonly isOpen: boolean; open(text?: string): Promise<void> };
  readonly updateComplete: Promise<boolean>;
  /** Takes the focus, where the cell just chosen is to be worked on. */
  take(): void;
  requestUpdate(): void;
}

const open = new Set<OpenTable>();

export const comes = (table: OpenTable): void => void open.add(table);
export const goes = (table: OpenTable): void => void open.delete(table);

/** Has all of them drawn, where what they show is known outside them. */
export const drawTables = (): void => {
  for (const table of open) table.requestUpdate();
};

const found = (is: (table: OpenTable) => boolean): OpenTable | undefined => [...open].find(is);

/** The table that holds the chosen cell. */
export const chosenTable = (): OpenTable | undefined => found(({ chosenSpot }) => chosenSpot !== undefined);

export const openTable = (id: string): OpenTable | undefined => found(({ table }) => table.id === id);

/** Something is being written in a cell. */
export const isWriting = (): boolean => found(({ writing }) => writing.isOpen) !== undefined;

/** Something is being written in this field; undefined where it is none of a table's. */
export const writesIn = (field: HTMLElement): boolean | undefined => found(({ input }) => input === field)?.writing.isOpen;

/** The cell in which an element of the page lies. */
export function cellAt(element: Element): Found | undefined {
  const cell = element.closest<HTMLElement>('[data-spot]');
  const home = cell ? found(({ root }) => root.contains(cell)) : undefined;
  return cell && home ? { home, spot: readSpot(cell.dataset.spot ?? '') } : undefined;
}
