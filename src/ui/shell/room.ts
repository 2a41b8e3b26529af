import type { At } from '../../book/address.ts';
import type { Area } from '../../book/area.ts';
import type { Session } from '../../session.ts';
import type { Verb } from '../blocks/verbs.ts';
import type { Wishes } from '../parts/part.ts';

/** What the desk needs of the page around it. */
export interface Room {
  readonly session: Session | undefined;
  readonly at: At | undefined;
  /** The chosen cell, or the block of cells that is chosen. */
  readonly area: Area | undefined;
  /** The page that is shown. */
  readonly pageId: string;
  readonly canReturn: boolean;
  tell(text: string, show?: boolean): void;
  choose(wish: Wishes['choose']): void;
  /** The next cell that is chosen is the other corner of a block. */
  chooseOn(): void;
  /** A slip by its tag, once its part of the program is fetched. */
  slip<T extends Element>(tag: string): T | null;
  type(wish: Wishes['type']): Promise<void>;
  showPage(page: string): void;
  bringIn(): void;
  find(): void;
  toShelf(): Promise<void>;
  goBack(): void;
  /** From the table into the working of its chosen value, and back again. */
  toWorking(): void;
  arrange(verb: Verb): Promise<void>;
  nameIt(): void;
  askUnit(what: 'cell' | 'row'): Promise<void>;
  askQuestions(): Promise<void>;
}
