import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { placeIn } from '../../book/address.ts';
import type { Book, Page } from '../../book/book.ts';
import { paperOf } from '../../book/customs.ts';
import { standingOf, tableOfBlock } from '../../book/look-up.ts';
import { countLeft } from '../../book/said-by.ts';
import type { Values } from '../../engine/types.ts';
import { menu } from '../blocks/index.ts';
import { viewOf } from '../cells/index.ts';
import type { CommandId } from '../commands/index.ts';
import { type Acts, Part, PrintedOn, whenIdle } from '../parts/index.ts';

/** ms after which it is counted though the page is not idle. */
const LATEST = 100;

/** The inside of the cover: the pages by group, and what is still to do on each. */
export class ObContents extends Part {
  static override properties = {
    book: { attribute: false },
    values: { attribute: false },
    page: { attribute: false },
    changes: { attribute: false },
    acts: { attribute: false },
  };
  declare book: Book;
  declare values: Values;
  declare page: string;
  /** How many changes the book remembers. */
  declare changes: number;
  declare acts: Acts<CommandId>;
  #shown: string | undefined;
  /** What the pages of the book are printed on; the hand-over sheet says its own. */
  readonly #paper = new PrintedOn(this);

  /** How the pages stand is counted once the page is idle: what was edited is drawn before. Another page is shown at once. */
  protected override async scheduleUpdate(): Promise<void> {
    if (this.page === this.#shown) await new Promise<void>((resolve) => whenIdle(resolve, LATEST));
    this.#shown = this.page;
    await super.scheduleUpdate();
  }

  override willUpdate(changed: PropertyValues): void {
    if (!changed.has('book')) return;
    const size = paperOf(this.book);
    this.#paper.say(`@page { size: ${size}; } @page across { size: ${size} landscape; }`);
  }

  override render(): TemplateResult {
    const groups = new Map<string, Page[]>();
    for (const page of this.book.pages) {
      const group = groups.get(page.group ?? '');
      if (group) group.push(page);
      else groups.set(page.group ?? '', [page]);
    }
    return html`
      ${[...groups].map(
        ([name, pages]) => html`${name === '' ? nothing : html`<h2>${name}</h2>`}
          <ol>${pages.map((page) => this.#entry(page.id, page.title, this.#state(page)))}</ol>`,
      )}
      <div class="contents-acts">${this.#acts()}</div>
      <h2>The book itself</h2>
      <ol>
        ${this.#entry('hand-over', 'Hand-over sheet', nothing)}
        ${this.#entry('what-changed', 'What changed', this.changes > 0 ? html`<i>${this.changes}</i>` : nothing)}
        ${this.#entry('functions', 'The functions', nothing)}
        ${this.#entry('glossary', 'Words', nothing)}
      </ol>`;
  }

  /** What is done with the page that is shown, and a new one. */
  #acts(): TemplateResult {
    const { acts } = this;
    const page = this.book.pages.find(({ id }) => id === this.page);
    const add = acts('add-page');
    return html`<button type="button" @click=${add.run}>${add.label}</button>
      ${page ? menu({ label: 'Change this page', of: page.title, acts: [acts('name-page'), acts('page-up'), acts('page-down'), acts('drop-page')] }) : nothing}`;
  }

  #entry(id: string, title: string, state: unknown): TemplateResult {
    const here = id === this.page;
    return html`<li class=${here ? 'here' : ''}>
      <button type="button" aria-current=${here ? 'page' : nothing} @click=${() => this.say('page', { page: id })}><span>${title}</span>${state}</button>
    </li>`;
  }

  #state(page: Page): unknown {
    const { all, left } = countLeft(this.book, page);
    let verdict: string | undefined;
    for (const block of page.blocks) {
      const table = block.kind === 'table' ? tableOfBlock(this.book, block.table) : undefined;
      if (table?.form === 'scenarios') verdict ??= this.#verdict(table);
    }
    if (left > 0) return html`<i class="left">${left} of ${all} left</i>`;
    return verdict === undefined ? nothing : html`<i>${verdict}</i>`;
  }

  /** How many scenarios hold, how many of them on assumptions, or where none does, may: "2 hold", "2 hold, 1 assumed" (of the two), "1 holds, assumed", "1 close to limit". Read from the verdict row. */
  #verdict(table: Book['tables'][number]): string | undefined {
    const row = table.rows.findIndex((r) => r.strong);
    if (row < 0) return undefined;
    let holds = 0;
    let assumed = 0;
    let look = 0;
    let checks = 0;
    for (const [c] of table.columns.entries()) {
      const at = placeIn(table, c, row);
      if (!at || standingOf(at) !== 'check') continue;
      const { state, value } = viewOf(at, this.values);
      if (value.kind !== 'blank') checks++;
      if (state === 'holds') holds++;
      if (state === 'assumed') assumed++;
      if (state === 'look') look++;
    }
    // None: there are no checks, or they are not worked out yet.
    if (checks === 0) return undefined;
    // What is only close to its limit may work.
    if (holds + assumed === 0) return look > 0 ? `${look} close to limit` : 'none holds';
    const all = holds + assumed;
    const on = assumed === all ? ', assumed' : `, ${assumed} assumed`;
    return `${all === 1 ? '1 holds' : `${all} hold`}${assumed > 0 ? on : ''}`;
  }
}
customElements.define('ob-contents', ObContents);
