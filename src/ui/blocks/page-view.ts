import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { Block, Book, Page } from '../../book/book.ts';
import { lacksSaid } from '../../book/edition/said.ts';
import { tableHeading } from '../../book/label.ts';
import { placeOf, tableOfBlock } from '../../book/look-up.ts';
import type { Address, Engine, Values } from '../../engine/types.ts';
import { type Act, type Acts, draftOf, Part, type Place, type Wishes } from '../parts/index.ts';
import '../pictures/index.ts';
import type { Refusal } from '../table/index.ts';
import { askedLine } from './asked-line.ts';
import { buttons } from './buttons.ts';
import { menu } from './menu.ts';
import './prose.ts';
import type { ObProse } from './prose.ts';

const OF_PAGE = ['name-page', 'page-up', 'page-down', 'add-page', 'drop-page'] as const;
const OF_PIECE = ['piece-up', 'piece-down', 'add-text', 'add-picture', 'add-table', 'drop-piece'] as const;
const TO_ADD = ['add-text', 'add-picture', 'add-table'] as const;
const OF_SCENARIOS = ['add-scenario', 'scenario-copy', 'base', 'drop-scenario'] as const;

/** The commands that stand on a page. */
export type PageCommand =
  | (typeof OF_PAGE | typeof OF_PIECE | typeof OF_SCENARIOS)[number]
  | ('write-text' | 'change-picture' | 'name-table')
  | ('ask' | 'propose' | 'take-in' | 'carry-fit' | 'meter-grid');

/** A page, read from top to bottom: prose, tables and pictures. */
export class ObPage extends Part {
  static override properties = {
    book: { attribute: false },
    page: { attribute: false },
    values: { attribute: false },
    chosen: { attribute: false },
    anchor: { attribute: false },
    letters: { attribute: false },
    pending: { attribute: false },
    refusal: { attribute: false },
    acts: { attribute: false },
    ask: { attribute: false },
    begun: { state: true },
  };
  declare book: Book;
  declare page: Page;
  declare values: Values;
  declare chosen: Place | undefined;
  declare anchor: Place | undefined;
  declare letters: ReadonlyMap<Address, string>;
  declare pending: ReadonlyMap<Address, string>;
  declare refusal: Refusal | undefined;
  declare acts: Acts<PageCommand>;
  declare ask: <T>(question: (engine: Engine) => Promise<T>) => Promise<T>;
  /** Where a text is written that is not in the book yet. */
  declare begun: { readonly page: string; readonly at: number } | undefined;

  override willUpdate(changed: PropertyValues): void {
    // A new text that was being written when the whole page closed.
    const draft = changed.has('page') && this.begun?.page !== this.page.id ? draftOf(`${this.book.id}/${this.page.id}`) : undefined;
    if (draft?.at !== undefined) this.begun = { page: this.page.id, at: Math.min(draft.at, this.page.blocks.length) };
  }

  /** Opens a text for writing, or begins one. */
  async write(text: Wishes['text']): Promise<void> {
    if ('at' in text) this.begun = { page: this.page.id, at: text.at };
    await this.updateComplete;
    const where = 'at' in text ? '.begun' : `[data-block="${text.block}"]`;
    await this.querySelector<ObProse>(`${where} ob-prose`)?.write();
  }

  /** Takes up a piece, or the page where there is none such. */
  async focusPiece(block: string | undefined): Promise<void> {
    await this.updateComplete;
    const piece = block === undefined ? null : this.querySelector(`[data-block="${block}"]`);
    piece?.scrollIntoView({ block: 'nearest' });
    const target = piece?.querySelector<HTMLElement>('.piece-acts :is(button, summary)') ?? this.closest('main')?.querySelector<HTMLElement>('h2');
    target?.focus();
  }

  /** The text that was begun is a piece like any other now, or was dropped: then the piece before it is in hand again. */
  #ended({ block, back }: Wishes['text-ended']): void {
    const piece = block ?? this.page.blocks[(this.begun?.at ?? 0) - 1]?.id;
    this.begun = undefined;
    this.say('in-hand', { block: piece });
    if (back) this.say('piece-focus', { block: piece });
  }

  override render(): TemplateResult {
    const { page } = this;
    const begun = this.begun?.page === page.id ? this.begun : undefined;
    const empty = page.blocks.length === 0 && !begun;
    return html`<div class="page-acts">${menu({ label: 'This page', of: page.title, acts: OF_PAGE.map((id) => this.acts(id)) })}</div>
      ${this.#lacks()}
      ${askedLine(this.book, page, this.acts('ask'), this.acts('propose'))}
      <div @ob-text-ended=${(e: CustomEvent<Wishes['text-ended']>) => this.#ended(e.detail)}>
        ${repeat(
          page.blocks,
          (block) => block.id,
          (block, i) => html`${begun?.at === i ? this.#newText(begun) : nothing}${this.#piece(block)}`,
        )}
        ${begun && begun.at >= page.blocks.length ? this.#newText(begun) : nothing}
      </div>
      ${empty ? html`<p class="prose">There is nothing on this page yet.</p><div class="do">${buttons(TO_ADD.map((id) => this.acts(id)))}</div>` : nothing}`;
  }

  /** On the pages of scenarios, above all else: what the verdicts there do not look at. */
  #lacks(): TemplateResult | typeof nothing {
    const lacks = lacksSaid(this.book);
    const compares = this.page.blocks.some((block) => block.kind === 'table' && tableOfBlock(this.book, block.table)?.form === 'scenarios');
    if (lacks === '' || !compares) return nothing;
    return html`<div class="asked-line lacks"><p>${lacks}</p><div class="do">${buttons([this.acts('take-in')])}</div></div>`;
  }

  #newText(begun: { readonly page: string; readonly at: number }): TemplateResult {
    return html`<div class="begun"><ob-prose .text=${''} .begun=${begun} .book=${this.book} .values=${this.values}></ob-prose></div>`;
  }

  #piece(block: Block): TemplateResult {
    const inHand = (): void => this.say('in-hand', { block: block.id });
    const act = (id: PageCommand): Act => this.acts(id, block.id);
    return html`<div class="on-page of-${block.kind}" data-block=${block.id} @focusin=${inHand} @pointerdown=${inHand}
      @keydown=${(e: KeyboardEvent) => this.#press(e, block)} @dblclick=${(e: Event) => this.#twice(e, block)}>
      ${this.#block(block)}
      <div class="piece-acts">
        ${block.kind === 'prose' ? html`<button type="button" aria-label="Write: ${said(block)}" @click=${act('write-text').run}>Write</button>` : nothing}
        ${block.kind === 'picture' ? html`<button type="button" aria-label="Change: ${said(block)}" @click=${act('change-picture').run}>Change</button>` : nothing}
        ${menu({
          label: 'More',
          of: this.#said(block),
          acts: [...(block.kind === 'table' ? ['name-table' as const] : []), ...OF_PIECE].map(act),
        })}
      </div>
    </div>`;
  }

  /** F2 writes a text and changes a picture, as it opens a cell. */
  #press(event: KeyboardEvent, block: Block): void {
    if (event.key !== 'F2' || event.defaultPrevented || block.kind === 'table' || event.target instanceof HTMLTextAreaElement) return;
    event.preventDefault();
    this.acts(block.kind === 'prose' ? 'write-text' : 'change-picture', block.id).run();
  }

  #twice(event: Event, block: Block): void {
    if (block.kind === 'prose' && (event.target as Element).closest('.prose')) this.acts('write-text', block.id).run();
  }

  #said(block: Block): string {
    return block.kind === 'table' ? (tableOfBlock(this.book, block.table)?.name ?? 'a table') : said(block);
  }

  #block(block: Block): unknown {
    if (block.kind === 'prose') return html`<ob-prose .text=${block.text} .block=${block.id} .book=${this.book} .values=${this.values}></ob-prose>`;
    if (block.kind === 'picture') {
      return html`<ob-picture .block=${block} .book=${this.book} .values=${this.values} .chosen=${this.chosen} .ask=${this.ask}></ob-picture>`;
    }
    const table = tableOfBlock(this.book, block.table);
    if (!table) return html`<p class="prose">This page names a table that the book does not have: ${block.table}.</p>`;
    const several = this.page.blocks.filter((b) => b.kind === 'table').length > 1;
    return html`${several && table.name !== this.page.title ? html`<h3 class="piece">${tableHeading(table.name)}</h3>` : nothing}
      <ob-table .book=${this.book} .table=${table} .values=${this.values} .chosen=${this.chosen} .anchor=${this.anchor} .letters=${this.letters} .pending=${this.pending} .refusal=${this.refusal} .ask=${this.ask}></ob-table>
      ${table.form === 'scenarios' ? this.#below(OF_SCENARIOS) : nothing}
      ${placeOf(this.book, 'light_carried')?.table === table ? this.#below(['carry-fit', 'meter-grid']) : nothing}`;
  }

  #below(ids: readonly PageCommand[]): TemplateResult {
    return html`<div class="do acts-below">${buttons(ids.map((id) => this.acts(id)))}</div>`;
  }
}
customElements.define('ob-page', ObPage);

/** The first words of a text or a caption: which of several is meant. */
function said(block: Exclude<Block, { kind: 'table' }>): string {
  const text = (block.kind === 'prose' ? block.text.replace(/\{\{.*?\}\}/gu, '…') : block.caption).replace(/[*_#`>]/gu, '').trim();
  const words = text.split(/\s+/u);
  return words.length > 6 ? `${words.slice(0, 6).join(' ')} …` : text || (block.kind === 'prose' ? 'an empty text' : 'a picture');
}
