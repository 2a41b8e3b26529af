/// <reference types="vite/client" />
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Book } from '../../book/book.ts';
import { paperOf } from '../../book/customs.ts';
import type { Values } from '../../engine/types.ts';
import type { Letters } from '../../handover/file.ts';
import { PAPERS, type Paper, pageStyle } from '../../handover/page-style.ts';
import { gather, type Sheet, sheet } from '../../handover/sheet.ts';
import type { Session } from '../../session.ts';
import literata from '../fonts/literata.woff2?url';
import recursive from '../fonts/recursive.woff2?url';
import { fileName, handOver, Part, PrintedOn } from '../parts/index.ts';
import '../styles/handover.css';

/** The hand-over sheet as it will be printed, with what is chosen for it: the scenario and the paper. */
export class ObHandover extends Part {
  static override properties = {
    book: { attribute: false },
    values: { attribute: false },
    ask: { attribute: false },
    scenario: { state: true },
    paper: { state: true },
    made: { state: true },
  };
  declare book: Book;
  declare values: Values;
  declare ask: Session['ask'];
  /** Undefined: the cheapest that holds. */
  declare scenario: string | undefined;
  /** Undefined: what goes with the book. */
  declare paper: Paper | undefined;
  declare made: Sheet | undefined;

  /** Paper is a matter of the whole document, and only while this page is shown. */
  readonly #page = new PrintedOn(this);
  #turn = 0;

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#turn++;
  }

  override willUpdate(changed: PropertyValues): void {
    if (changed.has('book') || changed.has('values') || changed.has('scenario')) void this.#make();
    if (this.made && (changed.has('made') || changed.has('paper'))) this.#page.say(pageStyle(this.made, this.#paper));
  }

  async #make(): Promise<void> {
    const turn = ++this.#turn;
    // A sheet asks many questions: one that nobody waits for any longer asks no more.
    const ask: Session['ask'] = (question) => (turn === this.#turn ? this.ask(question) : Promise.reject(new Error('Another sheet is being set.')));
    try {
      const made = await gather(this.book, this.values, ask, this.scenario);
      if (turn === this.#turn) this.made = made;
    } catch {
      // The session says above the page what is the matter; the last sheet stays.
    }
  }

  get #paper(): Paper {
    return this.paper ?? paperOf(this.book);
  }

  override render(): TemplateResult {
    const { made } = this;
    if (!made) return html`<p class="prose">The sheet is being set.</p>`;
    return html`<div class="do sheet-acts">
        ${
          made.reader.letters.length > 1
            ? this.#choice('Scenario', made.reader.letters, made.reader.letter, (letter) => {
                this.scenario = letter;
              })
            : nothing
        }
        ${this.#choice('Paper', PAPERS, this.#paper, (paper) => {
          this.paper = paper as Paper;
        })}
        <button type="button" class="btn first" @click=${() => window.print()}>Print</button>
        <button type="button" class="btn" @click=${() => void this.#sendOut(made)}>Send out as a file</button>
      </div>
      <div class="sheet-board">${sheet(made)}</div>`;
  }

  #choice(label: string, options: readonly string[], chosen: string, choose: (option: string) => void): TemplateResult {
    return html`<label>${label} <select @change=${(e: Event) => choose((e.target as HTMLSelectElement).value)}>${options.map(
      (option) => html`<option value=${option} ?selected=${option === chosen}>${option}</option>`,
    )}</select></label>`;
  }

  async #sendOut(made: Sheet): Promise<void> {
    const { sheetFile } = await import('../../handover/file.ts');
    const name = `${fileName(this.book)} hand-over sheet.html`;
    handOver(name, sheetFile(made, this.#paper, await letters()), 'text/html;charset=utf-8');
    this.say('tell', { text: `Sent out ${name}.` });
  }
}
customElements.define('ob-handover', ObHandover);

/** The letters that the page shows, so that the file has them with it. */
async function letters(): Promise<Letters> {
  const [print, hand] = await Promise.all([literata, recursive].map(inFull));
  return { literata: print ?? '', recursive: hand ?? '' };
}

async function inFull(address: string): Promise<string> {
  const bytes = new Uint8Array(await (await fetch(address)).arrayBuffer());
  let text = '';
  for (let at = 0; at < bytes.length; at += 8192) text += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return `data:font/woff2;base64,${btoa(text)}`;
}
