/** Which book is open: what there is to open, and how a book is entered and left. */

import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Book } from '../../book/book.ts';
import { freeTitle } from '../../book/free-title.ts';
import type { Session } from '../../session.ts';
import { AGAIN, cellKey, draftOf, endDraft, handOver, type Wishes } from '../parts/index.ts';
import { askToLeave, fetchKeptSlips, type ObSlips } from '../slips/index.ts';
import { fetchTable } from '../table/index.ts';
import type { Found, View } from './found.ts';
import type { Keeping } from './keeping.ts';
import type { ShelfCard, TemplateCard } from './start.ts';
import type { Telling } from './telling.ts';
import type { Whereabouts } from './whereabouts.ts';

/** The page that a book is entered on. */
interface Page extends ReactiveControllerHost, Element {
  readonly session: Session | undefined;
  /** Fetches what an open book is drawn with. */
  prepare(): Promise<void>;
  enter(session: Session, view: View | undefined): void;
  leave(): void;
  readonly whereabouts: Whereabouts;
  readonly telling: Telling;
  readonly slips: ObSlips;
  write(wish: Wishes['write']): Promise<void>;
}

export class Entering implements ReactiveController {
  readonly #host: Page;
  readonly #keeping: Keeping;
  templates: readonly TemplateCard[] = [];
  /** A template as it is, once what fetches one is here. */
  fetchTemplate: ((slug: string) => Promise<Book | undefined>) | undefined;
  shelf: readonly ShelfCard[] = [];
  /** Why a book could not be opened, or the shelf not read. */
  problem = '';
  /** A book that can't be opened, as it is kept. */
  damaged: string | undefined;

  constructor(host: Page, keeping: Keeping) {
    this.#host = host;
    this.#keeping = keeping;
    host.addController(this);
  }

  /** Opens what was open last, else shows where to begin. */
  hostConnected(): void {
    void this.#arrive();
  }

  async #arrive(): Promise<void> {
    const last = this.#keeping.lastOpen;
    if (last !== undefined && (await this.open({ what: 'book', id: last }))) return;
    await this.#fillStart();
  }

  async #fillStart(): Promise<void> {
    const { cards, problem } = await this.#keeping.shelf();
    this.shelf = cards;
    this.problem ||= problem;
    this.#host.requestUpdate();
    const { fetchTemplate, templateCards, warmUp } = await import('./opening.ts');
    this.templates = templateCards;
    this.fetchTemplate = fetchTemplate;
    this.#host.requestUpdate();
    await this.#host.updateComplete;
    void warmUp();
    void Promise.all([import('./book-parts.ts'), fetchTable()]).catch(() => {});
  }

  async open(wish: Wishes['open']): Promise<boolean> {
    try {
      return await this.#fetchAndEnter(wish);
    } catch (error) {
      // A part of the program that can't be fetched: the server is gone, or the program was built anew meanwhile.
      this.#tellProblem(`That could not be opened. Load the page again and try once more. (${error instanceof Error ? error.message : error})`);
      return false;
    }
  }

  async #fetchAndEnter(wish: Wishes['open']): Promise<boolean> {
    // Before a book is fetched, because what an ended page left of it is taken over with it; a file may turn out to be a table for the open book.
    if (wish.what === 'book' && !(await this.#mayLeave())) return false;
    const opening = await import('./opening.ts');
    const found = await opening.fetchBook(wish, this.#keeping);
    if (found === undefined) return false;
    if ('table' in found) {
      if (this.#host.session) await this.#bringTable(found.table);
      else this.#tellProblem(`${found.table.name} holds a table, not a book. Begin a plan or open one first, then bring the table into it.`);
      return false;
    }
    if ('problem' in found) {
      this.damaged = found.raw;
      this.#tellProblem(found.problem);
      return false;
    }
    if (wish.what !== 'book' && !(await this.#mayLeave())) return false;
    await this.#enter(found);
    return true;
  }

  async #bringTable(file: File): Promise<void> {
    await this.#host.slips.openSlip({ slip: 'bring in', asked: { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) } });
  }

  /** Where nothing is open it stands with what there is to open. */
  #tellProblem(problem: string): void {
    this.problem = problem;
    this.#host.requestUpdate();
    if (this.#host.session) this.#host.telling.tell(problem, true);
  }

  async #enter(found: Found): Promise<void> {
    // All that can be missing comes before the book that is open is put away.
    const [{ startSession }, { Saving }] = await Promise.all([
      import('./opening.ts'),
      import('./book-parts.ts'),
      fetchTable(),
      this.#host.prepare(),
      fetchKeptSlips(),
    ]);
    const session = await startSession(found.book, found.history);
    this.problem = '';
    this.damaged = undefined;
    this.#leave();
    this.#host.enter(session, found.view);
    this.#keeping.follow(new Saving(session, found.standing, this.#keeping));
    if (found.notice) this.#host.telling.tell(found.notice, true);
    const half = draftOf(cellKey(found.book.id));
    if (half?.place && this.#host.whereabouts.atPlace(half.place)) {
      endDraft(cellKey(found.book.id));
      await this.#host.write({ place: half.place, text: half.text });
      this.#host.telling.tell(AGAIN, true);
    }
  }

  /** Whether the open book may be put away: it is saved, or whoever works on it was asked. */
  async #mayLeave(): Promise<boolean> {
    const { session } = this.#host;
    await this.#keeping.now();
    if (!session || !this.#keeping.unsaved) return true;
    const { sendOut } = await import('./book-parts.ts');
    return askToLeave(this.#host, this.#keeping.miss?.message ?? '', () => sendOut('book', session.book, session.values));
  }

  #leave(): void {
    this.#keeping.leave();
    this.#host.leave();
    // What was said of one client's book is not read aloud in the next.
    this.#host.telling.tell('');
  }

  async toShelf(): Promise<void> {
    if (!(await this.#mayLeave())) return;
    this.#leave();
    this.#keeping.forget();
    await this.#fillStart();
  }

  /** What could not be saved over another goes on as a book of its own, under a title that the shelf does not have. */
  async keepAsAnother(): Promise<void> {
    const { session } = this.#host;
    if (!session) return;
    const { cards } = await this.#keeping.shelf();
    const { line } = this.#keeping;
    const { book, history } = session;
    const title = freeTitle(
      book.title,
      cards.map((card) => card.title),
    );
    const kept = cards.some(({ id }) => id === book.id) ? ' The one that was saved in the other tab is on the shelf, as it was saved.' : '';
    await this.#enter({
      book: { ...book, id: crypto.randomUUID(), title },
      history,
      standing: { revision: 0 },
      notice: `This is now another book, “${title}”.${kept}`,
    });
    await this.#keeping.now();
    // Its changes are in the other one now.
    if (!this.#keeping.unsaved && line !== undefined) await this.#keeping.remove(line);
  }

  async remove({ id, title }: Wishes['remove']): Promise<void> {
    if (!confirm(`Throw away “${title}”? It is not kept anywhere else, unless it was sent out as a file.`)) return;
    this.problem = await this.#keeping.remove(id);
    await this.#fillStart();
  }

  sendDamaged(): void {
    handOver('damaged book.json', this.damaged ?? '', 'application/json');
  }
}
