import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { Block, Book } from '../../book/book.ts';
import { addBlock, setBlock } from '../../book/commands/blocks.ts';
import { columnHeading, placeOf, rowHeading, titleOf } from '../../book/look-up.ts';
import { type Answer, isRefused } from '../../book/refused.ts';
import { PICTURES, type PictureRead, pictureKind } from '../../pictures/index.ts';
import { cellsIn } from '../finding/index.ts';
import type { Wishes } from '../parts/index.ts';
import '../styles/blocks.css';
import { choicesFor, judge, usualReads } from './picture-cells.ts';
import { Slip } from './slip.ts';

/** A picture that is there, or the place where a new one is to stand. */
type Where = { readonly block: string } | { readonly page: string; readonly at: number };

/** The slip on which one says what a picture is of and which cells it reads. */
export class ObPictureSlip extends Slip<Where> {
  static override properties = {
    where: { state: true },
    picture: { state: true },
    caption: { state: true },
    reads: { state: true },
    wrong: { state: true },
  };
  declare where: Where | undefined;
  declare picture: string;
  declare caption: string;
  declare reads: Readonly<Record<string, string>>;
  /** By key of what is read; under an empty key what the book refused. */
  declare wrong: Readonly<Record<string, string>>;

  constructor() {
    super();
    this.picture = '';
    this.caption = '';
    this.reads = {};
    this.wrong = {};
  }

  async open(where: Where): Promise<void> {
    const { book, values } = this.around.session;
    const block = 'block' in where ? pictureOf(book, where.block) : undefined;
    this.where = where;
    this.wrong = {};
    this.picture = block?.picture ?? Object.keys(PICTURES)[0] ?? '';
    this.caption = block?.caption ?? '';
    this.reads = block?.reads ?? usualReads(this.picture, book, values);
    await this.updateComplete;
    this.dialog?.showModal();
  }

  /** With nothing to show, values that come draw nothing. */
  #closed(): void {
    if (!this.isOpen) this.where = undefined;
  }

  /** What the other kind reads as well stays; the rest is as usual. */
  #kind(picture: string): void {
    this.picture = picture;
    this.wrong = {};
    const usual = usualReads(picture, this.around.session.book, this.around.session.values);
    const keys = pictureKind(picture)?.reads.map(({ key }) => key) ?? [];
    const same = (key: string): boolean => {
      const [old, now] = [this.reads[key], pictureKind(picture)?.reads.find((read) => read.key === key)];
      return old !== undefined && old !== '' && now !== undefined && 'reference' in judge(now, old, this.around.session.book, this.around.session.values);
    };
    this.reads = Object.fromEntries(keys.flatMap((key) => (same(key) ? [[key, this.reads[key] ?? '']] : usual[key] ? [[key, usual[key]]] : [])));
  }

  #found(read: PictureRead, text: string): void {
    const judged = judge(read, text, this.around.session.book, this.around.session.values);
    const { [read.key]: _, ...others } = this.wrong;
    this.wrong = 'wrong' in judged ? { ...others, [read.key]: judged.wrong } : others;
    this.reads = { ...this.reads, [read.key]: 'wrong' in judged ? text : judged.reference };
  }

  #keep(event: Event): void {
    event.preventDefault();
    const { where, picture } = this;
    const { session } = this.around;
    if (!where) return;
    const wrong: Record<string, string> = {};
    const reads: Record<string, string> = {};
    for (const read of pictureKind(picture)?.reads ?? []) {
      const judged = judge(read, this.reads[read.key] ?? '', session.book, session.values);
      if ('wrong' in judged) wrong[read.key] = judged.wrong;
      else if (judged.reference !== '') reads[read.key] = judged.reference;
    }
    this.wrong = wrong;
    if (Object.keys(wrong).length > 0) {
      void this.updateComplete.then(() => this.querySelector<HTMLElement>('[aria-invalid=true]')?.focus());
      return;
    }
    const caption = this.caption.trim();
    const command = (book: Book): Answer =>
      'block' in where
        ? setBlock(book, { block: where.block, picture, caption, reads })
        : addBlock(book, { page: where.page, at: where.at, block: { kind: 'picture', picture, caption, reads } });
    this.say('change', {
      command,
      answered: (answer) => {
        if (isRefused(answer)) {
          this.wrong = { '': answer.message };
          return;
        }
        this.close();
        if ('at' in where) this.say('piece-focus', { block: session.book.pages.find((page) => page.id === where.page)?.blocks[where.at]?.id });
      },
    });
  }

  override render(): TemplateResult {
    const { where } = this;
    const { session } = this.around;
    const kind = pictureKind(this.picture);
    return html`<dialog class="slip-box picture-slip" aria-labelledby="picture-slip-name" @close=${this.#closed}>
      ${
        where
          ? html`<form class="begin" novalidate @submit=${this.#keep}>
        <h2 id="picture-slip-name">${'at' in where ? 'Add a picture' : 'Change this picture'}</h2>
        <fieldset><legend>What it shows</legend>
          ${Object.entries(PICTURES).map(
            ([kind, { title, shows }]) =>
              html`<label class="kind"><input type="radio" name="kind" .checked=${kind === this.picture} @change=${() => this.#kind(kind)} /><span><b>${title}</b> ${shows}</span></label>`,
          )}
        </fieldset>
        <label>Caption <input type="text" autocomplete="off" .value=${this.caption} @input=${(e: Event) => {
          this.caption = (e.target as HTMLInputElement).value;
        }} /></label>
        <fieldset><legend>Which cells it reads</legend>
          <p class="hint">A cell of a scenario stands for all scenarios.</p>
          ${repeat(
            kind?.reads ?? [],
            (read) => `${this.picture} ${read.key}`,
            (read) => html`<div class="read" @ob-found=${(e: CustomEvent<Wishes['found']>) => this.#found(read, e.detail.reference)}>
              <ob-cell-finder .label=${`${read.name.charAt(0).toUpperCase()}${read.name.slice(1)}${read.needed ? ', needed' : ''}`} .hint=${this.#hint(read)} .value=${this.reads[read.key] ?? ''} .wrong=${this.wrong[read.key] ?? ''}
                .choices=${(wanted: string) => choicesFor(read, session.book, session.values, wanted)}></ob-cell-finder></div>`,
          )}
        </fieldset>
        ${this.wrong[''] ? html`<p class="wrong" role="alert">${this.wrong['']}</p>` : nothing}
        <div class="do">
          <button type="submit" class="btn first">${'at' in where ? 'Add it' : 'Keep'}</button>
          <button type="button" class="btn" @click=${() => this.close()}>Leave it as it was</button>
        </div>
      </form>`
          : nothing
      }
    </dialog>`;
  }

  #hint(read: PictureRead): string {
    const { book } = this.around.session;
    const text = this.reads[read.key] ?? '';
    const at = read.run ? cellsIn(book, text)?.[0] : placeOf(book, text);
    const comparing = at?.table.form === 'scenarios';
    const title = at && (read.run ? columnHeading(at) || rowHeading(at) : comparing ? rowHeading(at) : titleOf(at));
    return `${read.meaning.charAt(0).toUpperCase()}${read.meaning.slice(1)}.${at ? ` Now: ${title}, ${at.table.name}.` : ''}`;
  }
}
customElements.define('ob-picture-slip', ObPictureSlip);

function pictureOf(book: Book, id: string): Extract<Block, { kind: 'picture' }> | undefined {
  const block = book.pages.flatMap((page) => page.blocks).find((each) => each.id === id);
  return block?.kind === 'picture' ? block : undefined;
}
