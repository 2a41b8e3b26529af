import type { ReactiveControllerHost } from 'lit';
import type { Address } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import type { Wishes } from '../parts/index.ts';
import type { Doing } from './doing.ts';
import type { Entering } from './entering.ts';
import type { Fetching } from './fetching.ts';
import type { Keeping } from './keeping.ts';
import type { Telling } from './telling.ts';
import type { Tracing } from './tracing.ts';
import type { Typing } from './typing.ts';
import type { Whereabouts } from './whereabouts.ts';

/** The whole page, as what is drawn of it and what hears its wishes know it. */
export interface Shell extends ReactiveControllerHost, HTMLElement {
  readonly session: Session | undefined;
  /** Counts up when values or the book are others. */
  /** The contents are drawn out, where the page is narrow. */
  readonly drawer: boolean;
  /** The working is raised, where the page is narrow. */
  readonly sheet: boolean;
  /** Letters of the formula that is being written. */
  readonly citing: ReadonlyMap<Address, string> | undefined;
  readonly telling: Telling;
  readonly keeping: Keeping;
  readonly entering: Entering;
  readonly typing: Typing;
  readonly whereabouts: Whereabouts;
  readonly tracing: Tracing;
  readonly fetching: Fetching;
  readonly doing: Doing;
  /** Asks the engine of the open book: the same function at every turn, so that elements are not told that it changed. */
  readonly ask: Session['ask'];
  /** The page of the book that is shown hands itself in. */
  readonly takePage: (page: Element | undefined) => void;
  cite(letters: ReadonlyMap<Address, string> | undefined): void;
  /** Opens a cell of any page with a text that is put forward to be kept. */
  write(wish: Wishes['write']): Promise<void>;
  toggleDrawer(): void;
  toggleSheet(): void;
}
