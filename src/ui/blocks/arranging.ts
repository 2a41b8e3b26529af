/** What is done with pages and their pieces, and the slip on which a name is asked for or a loss is told before it happens. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Book } from '../../book/book.ts';
import { moveBlock, removeBlock } from '../../book/commands/blocks.ts';
import { addPage, movePage, removePage } from '../../book/commands/pages.ts';
import { renamePage, renameTable } from '../../book/commands/rename.ts';
import { addTable } from '../../book/commands/tables.ts';
import { tableOfBlock } from '../../book/look-up.ts';
import { type Answer, isRefused } from '../../book/refused.ts';
import type { Session } from '../../session.ts';
import type { Desk } from '../parts/command.ts';
import '../styles/blocks.css';
import { Part } from '../parts/part.ts';
import type { ObPictureSlip } from '../slips/picture-slip.ts';
import { readersText } from './readers.ts';
import { can, type Spot, spotOf, type Verb } from './verbs.ts';

/** A slip with fields, or with a question only. */
interface Slip {
  readonly name: string;
  readonly says?: string;
  readonly fields?: TemplateResult;
  readonly keep: string;
  change(data: FormData): { readonly command: (book: Book) => Answer; readonly after?: () => void };
}

const word = (data: FormData, key: string): string => String(data.get(key) ?? '').trim();

export class ObArranging extends Part {
  static override properties = {
    session: { attribute: false },
    desk: { attribute: false },
    pageId: { attribute: false },
    tick: { attribute: false },
    slip: { state: true },
    wrong: { state: true },
  };
  declare session: Session;
  declare desk: Desk;
  declare pageId: string;
  declare tick: number;
  declare slip: Slip | undefined;
  declare wrong: string;

  constructor() {
    super();
    this.wrong = '';
  }

  async arrange(verb: Verb): Promise<void> {
    const { book } = this.session;
    const spot = spotOf(book, this.pageId, this.desk.piece);
    if (!can(verb, book, spot)) return;
    if (verb === 'add-page') this.#ask(this.#newPage(spot));
    else if (spot) await this.#onPage(verb, spot);
  }

  async #onPage(verb: Verb, spot: Spot): Promise<void> {
    const { page, pageIndex, index, block } = spot;
    const id = block?.id ?? '';
    // What is added stands after the piece in hand; else last on the page.
    const at = index < 0 ? page.blocks.length : index + 1;
    if (verb === 'name-page') this.#ask(namePage(page.id, page.title));
    else if (verb === 'page-up') this.#change((b) => movePage(b, { page: page.id, to: pageIndex - 1 }));
    else if (verb === 'page-down') this.#change((b) => movePage(b, { page: page.id, to: pageIndex + 1 }));
    else if (verb === 'drop-page') this.#dropPage(spot);
    else if (verb === 'add-text') this.say('text', { at });
    else if (verb === 'write-text') this.say('text', { block: id });
    else if (verb === 'add-picture') await this.#picture({ page: page.id, at });
    else if (verb === 'change-picture') await this.#picture({ block: id });
    else if (verb === 'add-table') this.#ask(this.#newTable(page.id, at));
    else if (verb === 'name-table') this.#ask(nameTable(tableOfBlock(this.session.book, block?.kind === 'table' ? block.table : '')?.name ?? ''));
    else if (verb === 'drop-piece') this.#dropPiece(spot);
    else {
      this.#change((b) => moveBlock(b, { block: id, to: index + (verb === 'piece-up' ? -1 : 1) }));
      // Moving it took the focus from it.
      this.say('piece-focus', { block: id });
    }
  }

  async #picture(where: Parameters<ObPictureSlip['open']>[0]): Promise<void> {
    await import('../slips/picture-slip.ts');
    await this.querySelector<ObPictureSlip>('ob-picture-slip')?.open(where);
  }

  #newPage(spot: Spot | undefined): Slip {
    const at = spot ? spot.pageIndex + 1 : this.session.book.pages.length;
    const group = spot?.page.group;
    return {
      name: 'Add a page',
      fields: html`<label>Its title <input name="title" type="text" required autocomplete="off" /></label>`,
      keep: 'Add it',
      change: (data) => ({
        command: (book) => addPage(book, { title: word(data, 'title'), at, ...(group === undefined ? {} : { group }) }),
        after: () => this.say('page', { page: this.session.book.pages[at]?.id ?? this.pageId }),
      }),
    };
  }

  #newTable(page: string, at: number): Slip {
    return {
      name: 'Add a table',
      fields: html`<label>Its name, as formulas say it <input name="name" type="text" required autocomplete="off" /></label>
        <label>What it is <select name="form">
          <option value="plain">Rows and columns with names of their own</option>
          <option value="list">A list to look things up in, headings in its first row</option>
          <option value="scenarios">The scenarios, side by side</option>
        </select></label>
        <label>Rows <input name="rows" type="number" min="1" max="20000" required .defaultValue=${'6'} /></label>
        <label>Columns (the scenarios have theirs) <input name="columns" type="number" min="1" max="100" required .defaultValue=${'3'} /></label>`,
      keep: 'Add it',
      change: (data) => {
        const form = word(data, 'form');
        return {
          command: (book) =>
            addTable(book, {
              page,
              at,
              name: word(data, 'name'),
              form: form === 'list' || form === 'scenarios' ? form : 'plain',
              rows: Number(word(data, 'rows')),
              columns: Number(word(data, 'columns')),
            }),
          after: () => this.say('piece-focus', { block: this.session.book.pages.find((each) => each.id === page)?.blocks[at]?.id }),
        };
      },
    };
  }

  #dropPage({ page, pageIndex }: Spot): void {
    const command = (book: Book): Answer => removePage(book, { page: page.id });
    const { pages } = this.session.book;
    const next = pages[pageIndex + 1] ?? pages[pageIndex - 1];
    const after = (): void => this.say('page', { page: next?.id ?? '' });
    if (page.blocks.length === 0) this.#change(command, after);
    else
      this.#ask({
        name: `Take the page ${page.title} away?`,
        says: this.#loss(command, page.blocks.length),
        keep: 'Take it away',
        change: () => ({ command, after }),
      });
  }

  #dropPiece({ page, index, block }: Spot): void {
    if (!block) return;
    const command = (book: Book): Answer => removeBlock(book, { block: block.id });
    const next = page.blocks[index + 1] ?? page.blocks[index - 1];
    const after = (): void => this.say('piece-focus', { block: next?.id });
    if (block.kind !== 'table') {
      this.#change(command, after);
      return;
    }
    const table = tableOfBlock(this.session.book, block.table)?.name ?? '';
    this.#ask({ name: `Take the table ${table} away?`, says: this.#loss(command, 1), keep: 'Take it away', change: () => ({ command, after }) });
  }

  /** What goes with it, before it goes. */
  #loss(command: (book: Book) => Answer, pieces: number): string {
    const answer = command(this.session.book);
    if (isRefused(answer)) return answer.message;
    const tables = answer.edits.flatMap((edit) => (edit.at === 'table' && edit.before ? [edit.before.name] : []));
    const gone = tables.length === 1 ? `The table ${tables[0]} and all that is in it` : `The tables ${tables.join(', ')} and all that is in them`;
    return [
      pieces === 1 ? '' : `${pieces} pieces stand on it.`,
      tables.length > 0 ? `${gone} would be gone from the book.` : 'No table would be gone from the book.',
      readersText(this.session.book, answer),
      'It can be taken back.',
    ]
      .filter(Boolean)
      .join(' ');
  }

  #change(command: (book: Book) => Answer, after?: () => void): void {
    this.say('change', { command });
    after?.();
  }

  #ask(slip: Slip): void {
    this.wrong = '';
    this.slip = slip;
    void this.updateComplete.then(() => {
      this.querySelector<HTMLFormElement>('.arranging form')?.reset();
      this.querySelector<HTMLDialogElement>('dialog.arranging')?.showModal();
    });
  }

  /** What was asked is no longer there to be drawn. */
  #closed(event: Event): void {
    if (!(event.target as HTMLDialogElement).open) this.slip = undefined;
  }

  #keep(event: Event): void {
    event.preventDefault();
    const change = this.slip?.change(new FormData(event.target as HTMLFormElement));
    if (!change) return;
    this.say('change', {
      command: change.command,
      answered: (answer) => {
        if (isRefused(answer)) {
          this.wrong = answer.message;
          return;
        }
        this.querySelector<HTMLDialogElement>('dialog.arranging')?.close();
        change.after?.();
      },
    });
  }

  override render(): TemplateResult {
    const { slip } = this;
    return html`<dialog class="slip-box arranging" aria-labelledby="arranging-name" @close=${this.#closed}>
        ${
          slip
            ? html`<form class="begin" @submit=${this.#keep}>
          <h2 id="arranging-name">${slip.name}</h2>
          ${slip.says ? html`<p>${slip.says}</p>` : nothing}
          ${slip.fields ?? nothing}
          ${this.wrong ? html`<p class="wrong" role="alert">${this.wrong}</p>` : nothing}
          <div class="do">
            <button type="submit" class="btn first">${slip.keep}</button>
            <button type="button" class="btn" @click=${() => this.querySelector<HTMLDialogElement>('dialog.arranging')?.close()}>Leave it as it was</button>
          </div>
        </form>`
            : nothing
        }
      </dialog>
      <ob-picture-slip .session=${this.session} .tick=${this.tick}></ob-picture-slip>`;
  }
}
customElements.define('ob-arranging', ObArranging);

const namePage = (page: string, title: string): Slip => ({
  name: 'Name this page',
  fields: html`<label>Its title <input name="title" type="text" required autocomplete="off" .defaultValue=${title} /></label>`,
  keep: 'Keep',
  change: (data) => ({ command: (book) => renamePage(book, { page, title: word(data, 'title') }) }),
});

const nameTable = (table: string): Slip => ({
  name: 'Name this table',
  says: 'Formulas, texts and pictures that say its name say the new one from then on.',
  fields: html`<label>Its name <input name="name" type="text" required autocomplete="off" .defaultValue=${table} /></label>`,
  keep: 'Keep',
  change: (data) => ({ command: (book) => renameTable(book, { table, name: word(data, 'name') }) }),
});
