/**
 * Writing into a cell: opens, keeps and commits what stands in the input of a table.
 * What is typed is never waited for: the input is the browser's own, and reading it is asked of the engine only when it is committed.
 * A formula is handed on to the editor for formulas, text, caret and focus, as soon as that is fetched and no input method is composing.
 */
import { html, nothing, type ReactiveController, type ReactiveControllerHost, type TemplateResult } from 'lit';
import { readContent } from '../../../functions/quantity-text.ts';
import type { At } from '../../book/address.ts';
import { shownChoice } from '../../book/allowed.ts';
import { isFormula } from '../../book/content.ts';
import { lightOfLines } from '../../book/crop-line.ts';
import { fitting, isWhole, standingLine } from '../../book/goes-with.ts';
import { addressOf, noteOf, standingOf } from '../../book/look-up.ts';
import { lineOf, numberHints, valueAt } from '../cells/index.ts';
import { type FormulaEditor, fetchEditor, type Home } from '../formula/index.ts';
import { cellKey, type Draft, endDraft, noteDraft, type Place, type Step, type Wishes, waysOut, whenIdle } from '../parts/index.ts';
import type { Spot } from './grid-moves.ts';
import type { Refusal } from './refusal.ts';
import { cellAt, openTable } from './tables.ts';

let formula: Awaited<ReturnType<typeof fetchEditor>> | undefined;
async function fetchFormula(): Promise<typeof formula> {
  formula ??= await fetchEditor();
  return formula;
}

/** In what is written. */
interface Written extends Home, ReactiveControllerHost {
  /** The cell that has, or would have, the focus. */
  readonly at: At | undefined;
  readonly input: HTMLInputElement | null;
  readonly root: ParentNode & Node;
  cellId(spot: Spot): string;
  placeAt(spot: Spot): Place;
  take(): void;
  /** One step on after a commit. False where there is nowhere to go. */
  go(step: Step): boolean;
  /** What may be written here, for the slip. */
  choicesHere(): readonly string[];
  /** Also while it is off the page, as where that was turned while a formula was written. */
  say<K extends 'type' | 'tell' | 'letters' | 'page'>(name: K, detail: Wishes[K]): void;
}

export class CellWriting implements ReactiveController {
  readonly #host: Written;
  /** Something is being written. */
  isOpen = false;
  choices: readonly string[] = [];
  #all: readonly string[] = [];
  /** What each of them asks for, where that is known: a crop its light. */
  #light: ReadonlyMap<string, string> = new Map();
  #picked = -1;
  #before = '';
  /** Something was typed, or picked with a click. */
  #edited = false;
  #message = '';
  #place: Place | undefined;
  #editor: FormulaEditor | undefined;
  #composing = false;

  constructor(host: Written) {
    this.#host = host;
    host.addController(this);
  }

  hostConnected(): void {
    // What can't be fetched now is tried again with the first formula.
    whenIdle(() => {
      void fetchFormula().then(
        (kit) => kit?.prepare(this.#host.ask, this.#host.book.currency),
        () => {},
      );
    });
  }

  /** A formula is being written, in the editor for formulas. */
  get inFormula(): boolean {
    return this.#editor !== undefined;
  }

  get choiceId(): string | typeof nothing {
    return this.#picked >= 0 ? `${this.#slipId}-${this.#picked}` : nothing;
  }

  get #slipId(): string {
    return `${this.#host.cellId({ row: 0, column: 0 })}-choices`;
  }

  /** Opens with what stands in the cell, or with a text that is put forward to be kept. */
  async open(text?: string): Promise<void> {
    const at = this.#host.at;
    const input = this.#host.input;
    if (!at || !input || this.isOpen) return;
    // What is the same as in another scenario, and picked from a list, is picked anew: a finger could hardly write over the formula.
    const picks = standingOf(at) === 'as' && this.#host.choicesHere().length > 0;
    const stored = picks
      ? lineOf(valueAt(this.#host.values, addressOf(at)))
      : (standingLine(this.#host.book, at) ?? at.cell?.typed ?? shownChoice(at.cell?.content ?? ''));
    if (text !== undefined) {
      this.#begin(text);
      this.#before = '';
      input.setSelectionRange(text.length, text.length);
      this.#handOn();
      return;
    }
    this.#begin(stored.replace(/^'/, ''));
    const place = this.#place;
    input.select();
    if (picks || !isFormula(at.cell?.content ?? '')) return;
    // A formula is stored with its units spelled out; the engine says how a person reads it.
    const nicer = await this.#host.ask((engine) => engine.editable(addressOf(at))).catch(() => stored);
    if (!this.isOpen || this.#editor || this.#place !== place || input.value !== stored) return;
    input.value = nicer;
    this.#before = nicer;
    input.setSelectionRange(nicer.length, nicer.length);
    this.#handOn();
  }

  /** Shows again what was refused, unless something else is being written. */
  reopen(refusal: Refusal): void {
    if (this.isOpen) return;
    void this.#host.updateComplete.then(() => {
      const input = this.#host.input;
      if (!input || this.isOpen) return;
      this.#begin(refusal.typed);
      this.#message = refusal.message;
      this.#before = '';
      input.focus({ preventScroll: true });
      this.#handOn();
      this.#host.requestUpdate();
    });
  }

  /** A character came; while nothing was open it replaces what stood there. */
  typed(event: Event): void {
    this.#composing = (event as InputEvent).isComposing === true;
    const input = this.#host.input;
    if (!input) return;
    if (!this.isOpen) {
      const value = input.value;
      this.#begin(value);
      this.#before = '';
    }
    this.#edited = true;
    this.#message = '';
    this.#filter(input.value);
    this.#handOn();
    this.#host.requestUpdate();
  }

  /** Hands a formula on to its own editor. */
  #handOn(): void {
    const input = this.#host.input;
    const at = this.#host.at;
    if (!input || !at || !this.isOpen || this.#editor || this.#composing || !input.value.startsWith('=')) return;
    if (!formula) {
      // Until it is there the input serves.
      void fetchFormula().then(
        () => this.#handOn(),
        () => {},
      );
      return;
    }
    const end = input.value.length;
    const caret = [input.selectionStart ?? end, input.selectionEnd ?? end] as const;
    const editor = new formula.FormulaEditor(
      this.#host,
      at,
      {
        keep: (step) => {
          const place = this.#place;
          this.commit();
          if (this.#goBack(place)) return true;
          this.#host.take();
          return this.#host.go(step);
        },
        leave: () => this.commit(),
        restore: () => {
          const place = this.#place;
          this.#restore();
          if (!this.#goBack(place)) this.#host.take();
        },
        cite: (letters) => this.#host.say('letters', { letters }),
        cellAt,
      },
      `${this.#host.cellId({ row: 0, column: 0 })}-formula`,
      [input.value, ...caret],
    );
    this.#editor = editor;
    input.value = '';
    this.choices = [];
    this.#picked = -1;
    if (this.#message) editor.refused(this.#message);
    // At once, not with the next drawing: the next key is the editor's.
    this.#host.root.querySelector('.formula-here')?.append(editor.root);
    editor.focus();
    this.#host.requestUpdate();
  }

  /** True where the page was turned while a formula was written: its cell is shown and taken up again. */
  #goBack(place: Place | undefined): boolean {
    if (this.#host.root.isConnected || !place) return false;
    const page = this.#host.book.pages.find((each) => each.blocks.some((block) => block.kind === 'table' && block.table === place.table));
    if (page) this.#host.say('page', { page: page.id });
    requestAnimationFrame(() => requestAnimationFrame(() => openTable(place.table)?.take()));
    return true;
  }

  #begin(value: string): void {
    const at = this.#host.at;
    const input = this.#host.input;
    if (!at || !input) return;
    this.isOpen = true;
    this.#message = '';
    this.#place = this.#host.placeAt({ row: at.rowIndex, column: at.columnIndex });
    this.#before = value;
    this.#edited = false;
    if (input.value !== value) input.value = value;
    noteDraft(cellKey(this.#host.book.id), () => this.#draft);
    this.#all = this.#host.choicesHere();
    this.choices = this.#all;
    this.#light = lightOfLines(this.#host.book, at);
    this.#picked = this.#all.indexOf(value);
    this.#host.requestUpdate();
  }

  #filter(text: string): void {
    const wanted = text.trim().toLowerCase();
    this.choices = fitting(this.#all, wanted);
    // A number means itself: who writes 2 A must not be given the 20 A that begins alike.
    const first = this.choices[0];
    const isAmount = first !== undefined && readContent(first).kind === 'number';
    this.#picked = wanted === '' || first === undefined || (isAmount && first.toLowerCase() !== wanted) || isWhole(this.choices, wanted) ? -1 : 0;
  }

  get #written(): string {
    return this.#editor?.text ?? this.#host.input?.value ?? '';
  }

  get #draft(): Draft | undefined {
    return this.#place && this.#written !== this.#before ? { text: this.#written, place: this.#place } : undefined;
  }

  /** Sends what is written, if it differs from what stood there. */
  commit(text = this.#written): void {
    if (!this.isOpen) return;
    const place = this.#place;
    // The very value that stands there, written anew, is an answer as well.
    const changed = text !== this.#before || (this.#edited && text !== '');
    this.#end();
    if (place && changed) this.#host.say('type', { place, typed: text });
  }

  /** The input lost the focus: to the editor, which goes on with what it held, or to something else. */
  left(): void {
    if (!this.#editor) this.commit();
  }

  #end(): void {
    this.isOpen = false;
    endDraft(cellKey(this.#host.book.id));
    this.#message = '';
    this.choices = [];
    this.#picked = -1;
    if (this.#editor) this.#host.say('letters', { letters: undefined });
    this.#editor?.close();
    this.#editor = undefined;
    // The table empties the input when it is drawn: emptied here, it would have a frame of its own before what follows from the edit.
    this.#host.requestUpdate();
  }

  #restore(): void {
    this.#end();
    this.#host.say('tell', { text: 'Left as it was.' });
  }

  /** True where the key was taken for writing. */
  press(event: KeyboardEvent): boolean {
    if (!this.isOpen) return false;
    const { key } = event;
    if (key === 'Enter' || key === 'Tab') {
      const steps: Record<string, Step> = { Enter: event.shiftKey ? 'up' : 'down', Tab: event.shiftKey ? 'left' : 'right' };
      const picked = this.choices[this.#picked];
      this.commit(picked ?? this.#host.input?.value ?? '');
      const went = this.#host.go(steps[key] ?? 'stay');
      // At the last cell Tab goes on to what follows the table.
      if (went || key === 'Enter') event.preventDefault();
    } else if (key === 'Escape') {
      event.preventDefault();
      event.stopPropagation();
      this.#restore();
    } else if ((key === 'ArrowDown' || key === 'ArrowUp') && this.choices.length > 0) {
      event.preventDefault();
      const n = this.choices.length;
      this.#picked = (this.#picked + (key === 'ArrowDown' ? 1 : n - 1) + (this.#picked < 0 && key === 'ArrowUp' ? 1 : 0)) % n;
      this.#host.requestUpdate();
      void this.#host.updateComplete.then(() => this.#host.root.querySelector('.slip [aria-selected="true"]')?.scrollIntoView({ block: 'nearest' }));
    }
    return true;
  }

  /** The slip of paper under the input: what is allowed, what to pick from, what was wrong. */
  slip(): TemplateResult | typeof nothing {
    const at = this.#host.at;
    if (!this.isOpen || this.#editor || !at) return nothing;
    const standing = standingOf(at);
    const replaces = isFormula(at.cell?.content ?? '') && standing !== 'as';
    const says = [...numberHints(at), replaces && 'This writes over a formula.', noteOf(at)].filter(Boolean);
    return html`<div class="slip" id="${this.#host.cellId({ row: 0, column: 0 })}-slip">
      ${this.#message ? html`<p class="wrong">${this.#message}</p>` : nothing}
      ${says.length > 0 ? html`<p class="hint">${says.join(' ')}</p>` : nothing}
      ${
        this.choices.length > 0
          ? html`<ul class="pick" role="listbox" id=${this.#slipId} aria-label="Choose from the list">${this.choices.map(
              (choice, i) =>
                html`<li role="option" id="${this.#slipId}-${i}" aria-selected=${i === this.#picked} @pointerdown=${(event: Event) => this.#pick(event, choice)}>${choice}${this.#light.has(choice) ? html` <small>${this.#light.get(choice)}</small>` : nothing}</li>`,
            )}</ul>`
          : nothing
      }
      ${waysOut(
        () => {
          this.commit();
          this.#host.take();
        },
        () => {
          this.#restore();
          this.#host.take();
        },
      )}
    </div>`;
  }

  #pick(event: Event, choice: string): void {
    event.preventDefault();
    event.stopPropagation();
    this.#edited = true;
    this.commit(choice);
  }
}
