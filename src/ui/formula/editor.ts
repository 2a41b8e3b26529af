/**
 * The one-line editor that a formula is written in, on a slip of paper laid over its cell. It is fetched apart from the page; until it is
 * there, and for everything that is no formula, the table's own input serves.
 */
import { history, historyKeymap } from '@codemirror/commands';
import { Compartment, EditorSelection, EditorState, type Extension, StateField } from '@codemirror/state';
import { Decoration, EditorView, keymap, type ViewUpdate } from '@codemirror/view';
import { render } from 'lit';
import { unitAfter } from '../../../functions/unit-at.ts';
import type { At } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, titleOf } from '../../book/look-up.ts';
import { otherReference } from '../../book/other-writing.ts';
import type { Address } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import { closed, lineAt, standingAt, takesReference, type Word, wordsOf } from '../cells/index.ts';
import type { Step } from '../parts/index.ts';
import { type Candidate, type Completing, completing } from './completion.ts';
import { hintOf, type Verdict, verdictOf } from './hints.ts';
import type { Found, Home } from './home.ts';
import { type Citing, citingOf } from './letters.ts';
import { PAGES, Picking } from './picking.ts';
import { laySlip } from './placing.ts';
import '../styles/formula.css';
import { slipBelow } from './slip-below.ts';
import { libraryOf, NO_LIBRARY, unitsIn } from './stock.ts';

/** What is done with what is written. */
export interface Writer {
  /** Keeps it. True where another cell is chosen then. */
  keep(step: Step): boolean;
  /** Keeps it too, where the editor lost the focus. */
  leave(): void;
  /** Gives it up. */
  restore(): void;
  /** These cells are read by it. */
  cite(cells: ReadonlyMap<Address, string>): void;
  /** The cell, of whichever table, in which an element of the page lies. */
  cellAt(element: Element): Found | undefined;
}

interface Read extends Citing {
  readonly words: readonly Word[];
}

/** ms without another character before the engine is asked. */
const SETTLE = 250;
const NOTHING: Verdict = { text: '', wrong: false };
const PICK = 'input.pick';

let hasRun = false;

/** Before the first formula: what completion needs is asked for, and the editor run once, so that its first character is on screen as soon as any. */
export async function prepare(ask: Session['ask'], currency: string): Promise<void> {
  unitsIn(currency);
  if (!hasRun) new EditorView({ doc: '=A1', extensions: [history(), EditorView.lineWrapping] }).destroy();
  hasRun = true;
  await libraryOf(ask).catch(() => {});
}

export class FormulaEditor {
  readonly root = document.createElement('div');
  readonly #below = document.createElement('div');
  readonly #table: Home;
  readonly #home: At;
  readonly #writer: Writer;
  readonly #view: EditorView;
  readonly #reading: StateField<Read>;
  readonly #attributes = new Compartment();
  readonly #picking: Picking;
  /** The last that happened was a character, typed or taken away. */
  #typing = false;
  #library = NO_LIBRARY;
  #list: Completing | undefined;
  #picked = -1;
  #citing = 0;
  #told: Readonly<Record<string, string>> = {};
  #verdict = NOTHING;
  /** Only the answer to the last question counts. */
  #asked = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #closed = false;
  #docked = false;

  constructor(table: Home, home: At, writer: Writer, id: string, [text, from, to]: readonly [text: string, from: number, to: number]) {
    this.#table = table;
    this.#home = home;
    this.#writer = writer;
    this.root.className = 'slip formula-slip';
    this.root.id = id;
    this.root.setAttribute('role', 'group');
    this.root.setAttribute('aria-label', `Writing ${titleOf(home)}`);
    this.#reading = StateField.define<Read>({
      create: (state) => readOf(state.doc.toString(), table.book, home),
      update: (before, tr) => (tr.docChanged ? readOf(tr.newDoc.toString(), table.book, home) : before),
      provide: (field) => EditorView.decorations.from(field, decorations),
    });
    this.#view = new EditorView({
      state: EditorState.create({ doc: text, selection: EditorSelection.single(from, to), extensions: this.#extensions() }),
      parent: this.root,
    });
    this.root.append(this.#below);
    const editor = this;
    this.#picking = new Picking({
      table,
      get caret() {
        return editor.#caret;
      },
      get takes() {
        return takesReference(editor.#read.words, editor.#caret);
      },
      put: (start, end, insert) => this.#put(start, end, insert, PICK),
      turn: () => this.#dock(),
      cellAt: (element) => writer.cellAt(element),
    });
    this.#cite();
    this.#judge();
    this.#draw();
    libraryOf(table.ask).then(
      (library) => {
        this.#library = library;
        if (this.#typing) this.#setList(this.#completing(false));
        else this.#draw();
      },
      () => {}, // The engine's trouble is told above the page; names and cells are completed without it.
    );
  }

  get text(): string {
    return this.#view.state.doc.toString();
  }

  focus(): void {
    this.#view.focus();
    requestAnimationFrame(() => this.#place());
  }

  /** The page with its cell is turned away from: the slip stays, at the foot of the window. */
  #dock(): void {
    if (this.#docked) return;
    this.#docked = true;
    this.root.removeAttribute('style');
    delete this.root.dataset.side;
    this.root.classList.add('docked');
    document.body.append(this.root);
    this.#view.focus();
  }

  /** What is written is kept where the focus goes elsewhere, but not where a page is turned, which takes it to its title. */
  #blurred(to: Element | null): void {
    if (this.#closed) return;
    if (this.#docked && (to === null || to.closest(`main h2, ${PAGES}`)))
      requestAnimationFrame(() => {
        if (!this.#closed) this.#view.focus();
      });
    else this.#writer.leave();
  }

  /** Lays the slip by its cell, and shows it. */
  #place(): void {
    if (this.#closed || this.#docked) return;
    const lies = this.#table.lies();
    if (lies) laySlip(this.root, lies);
    this.#show();
  }

  /** Brought into sight, unless a cell that is being picked is. */
  #show(): void {
    if (!this.#picking.isLive && !this.#docked) this.root.scrollIntoView({ block: 'nearest' });
  }

  /** Why what is written was not taken. */
  refused(message: string): void {
    this.#asked++;
    clearTimeout(this.#timer);
    this.#verdict = { text: message, wrong: true };
    this.#draw();
  }

  close(): void {
    this.#closed = true;
    this.#asked++;
    clearTimeout(this.#timer);
    this.#picking.end();
    this.#view.destroy();
    this.root.remove();
  }

  get #read(): Read {
    return this.#view.state.field(this.#reading);
  }

  get #caret(): number {
    return this.#view.state.selection.main.head;
  }

  #extensions(): Extension {
    const pick = (key: string) => ({
      key,
      run: () => (/Up|Down/.test(key) && this.#along(key === 'ArrowDown' ? 1 : -1)) || this.#picking.press(key, false),
      shift: () => this.#picking.press(key, true),
    });
    return [
      this.#reading,
      history(),
      EditorView.lineWrapping,
      // One line: what is pasted in several becomes one.
      EditorState.transactionFilter.of((tr) => (tr.newDoc.lines > 1 ? [tr, { changes: joints(tr.newDoc.toString()), sequential: true }] : tr)),
      keymap.of([
        { key: 'Enter', run: () => this.#takePicked() || this.#keep('down', true), shift: () => this.#keep('up', true) },
        { key: 'Tab', run: () => this.#takePicked() || this.#keep('right', false), shift: () => this.#keep('left', false) },
        { key: 'Escape', run: () => this.#shut() || this.#restore(), stopPropagation: true },
        { key: 'Ctrl-Space', run: () => this.#complete(true) },
        ...['ArrowDown', 'ArrowUp', 'ArrowRight', 'ArrowLeft'].map(pick),
        ...historyKeymap,
      ]),
      this.#attributes.of(EditorView.contentAttributes.of(this.#contentAttributes())),
      EditorView.updateListener.of((update) => this.#updated(update)),
      EditorView.domEventHandlers({
        blur: (event) => this.#blurred(event.relatedTarget as Element | null),
      }),
    ];
  }

  #contentAttributes(): Readonly<Record<string, string>> {
    const { id } = this.root;
    return {
      'aria-label': `Formula for ${titleOf(this.#home)}`,
      'aria-multiline': 'false',
      'aria-autocomplete': 'list',
      'aria-haspopup': 'listbox',
      'aria-describedby': `${id}-hint`,
      autocapitalize: 'off',
      enterkeyhint: 'done',
      ...(this.#list && { 'aria-controls': `${id}-list` }),
      ...(this.#list && this.#picked >= 0 && { 'aria-activedescendant': `${id}-${this.#picked}` }),
    };
  }

  #updated(update: ViewUpdate): void {
    if (this.#closed || !(update.docChanged || update.selectionSet)) return;
    const picked = update.transactions.some((tr) => tr.isUserEvent(PICK));
    if (!picked) this.#picking.drop();
    if (update.docChanged) {
      const [before, now] = [update.startState.field(this.#reading).cells, this.#read.cells];
      if (!alike(before, now)) this.#cite();
      this.#judge();
    }
    if (!picked && !this.#docked) this.#table.showCell();
    this.#typing = update.docChanged && update.transactions.some((tr) => tr.isUserEvent('input.type') || tr.isUserEvent('delete'));
    this.#setList(this.#typing || this.#list ? this.#completing(false) : undefined);
  }

  /** The letters on the page come after the frame that shows what was written. */
  #cite(): void {
    cancelAnimationFrame(this.#citing);
    this.#citing = requestAnimationFrame(() =>
      setTimeout(() => {
        if (this.#closed) return;
        this.#writer.cite(this.#read.cells);
        // With the letters drawn it is known what the slip would hide. It does not jump about under a list that one goes through.
        requestAnimationFrame(() => this.#list || this.#place());
      }),
    );
  }

  #put(from: number, to: number, insert: string, userEvent: string): void {
    this.#view.dispatch({ changes: { from, to, insert }, selection: { anchor: from + insert.length }, userEvent, scrollIntoView: true });
    this.#view.focus();
  }

  // ---- the list

  #completing(asked: boolean): Completing | undefined {
    const { cards, texts } = this.#library;
    const { book } = this.#table;
    return completing(this.text, this.#read.words, this.#caret, { book, home: this.#home, cards, signatures: texts, units: unitsIn(book.currency) }, asked);
  }

  #complete(asked: boolean): boolean {
    this.#setList(this.#completing(asked));
    return true;
  }

  /** Nothing is picked in a new list: Enter and Tab keep what is written until one goes down into it. */
  #setList(list: Completing | undefined, picked = -1): void {
    this.#list = list;
    this.#picked = picked;
    // An update must be over before the next begins.
    queueMicrotask(() => {
      if (this.#closed) return;
      const told = this.#contentAttributes();
      if (JSON.stringify(told) !== JSON.stringify(this.#told))
        this.#view.dispatch({ effects: this.#attributes.reconfigure(EditorView.contentAttributes.of(told)) });
      this.#told = told;
      this.#draw();
    });
  }

  #shut(): boolean {
    if (!this.#list) return false;
    this.#setList(undefined);
    return true;
  }

  /** One on in the list, and round. */
  #along(step: 1 | -1): boolean {
    const { list } = this.#list ?? {};
    if (!list) return false;
    const from = this.#picked < 0 && step < 0 ? 0 : this.#picked;
    this.#setList(this.#list, (from + step + list.length) % list.length);
    return true;
  }

  #takePicked(): boolean {
    const candidate = this.#list?.list[this.#picked];
    if (candidate) this.#take(candidate);
    return candidate !== undefined;
  }

  #take(candidate: Candidate): void {
    const { from, to } = this.#list ?? { from: this.#caret, to: this.#caret };
    this.#list = undefined;
    this.#put(from, to, candidate.insert, 'input.complete');
  }

  // ---- the ways out

  #keep(step: Step, always: boolean): boolean {
    return this.#writer.keep(step) || always;
  }

  #restore(): boolean {
    this.#writer.restore();
    return true;
  }

  // ---- what is said of it

  /** Asks the engine what it makes of the formula, once nothing was written for a moment. */
  #judge(): void {
    const turn = ++this.#asked;
    clearTimeout(this.#timer);
    const half = closed(this.text, this.#read.words);
    if (!half) {
      this.#verdict = NOTHING;
      return;
    }
    this.#timer = setTimeout(async () => {
      const answer = await this.#table.ask((engine) => engine.preview(addressOf(this.#home), half.text)).catch(() => undefined);
      if (turn !== this.#asked || !answer) return;
      this.#verdict = verdictOf(answer, half.whole);
      this.#draw();
    }, SETTLE);
  }

  #draw(): void {
    const { words, cited } = this.#read;
    const standing = standingAt(words, this.#caret);
    const hint = standing && hintOf(standing, this.#library.signatures.get(standing.name), this.#library.cards.get(standing.name));
    const template = slipBelow({
      id: this.root.id,
      hint,
      list: this.#list?.list ?? [],
      picked: this.#picked,
      take: (candidate) => this.#take(candidate),
      keep: () => this.#keep('stay', true),
      leave: () => this.#restore(),
      // A name that could still become one in the list is not wrong yet.
      verdict: this.#list && this.#verdict.naming ? NOTHING : this.#verdict,
      cited,
      values: this.#table.values,
      saidOfPick: this.#picking.said,
      picks: this.#picking.isLive ? 'moves' : takesReference(words, this.#caret) ? 'begins' : undefined,
    });
    render(template, this.#below);
    requestAnimationFrame(() => this.#show());
  }
}

function readOf(text: string, book: Book, home: At): Read {
  const unitLength = (after: string): number => {
    const found = unitAfter(after, book.currency);
    return found && 'length' in found ? found.length : 0;
  };
  const words = wordsOf(text, unitLength, otherReference);
  return { words, ...citingOf(words, book, home) };
}

function decorations({ words, marks }: Read) {
  const units = words.filter((word) => word.kind === 'unit').map((word) => Decoration.mark({ class: 'unit' }).range(word.from, word.to));
  const refs = marks.map(({ from, to, letter }) => Decoration.mark({ class: `ref ${lineAt(letter)}`, attributes: { 'data-letter': letter } }).range(from, to));
  return Decoration.set([...units, ...refs], true);
}

/** A space in the place of each line break. */
function joints(text: string): readonly { readonly from: number; readonly to: number; readonly insert: string }[] {
  return [...text.matchAll(/\n/g)].map(({ index }) => ({ from: index, to: index + 1, insert: ' ' }));
}

function alike(a: ReadonlyMap<Address, string>, b: ReadonlyMap<Address, string>): boolean {
  return a.size === b.size && [...a].every(([address, letter]) => b.get(address) === letter);
}
