/** The margin: where the chosen value comes from, step by step, down to the givens, and what it feeds. */
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import { withSpaces } from '../../../functions/number-text.ts';
import { type At, cellAt } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, baseOf, columnHeading, decimalsOf, namesOf, noteOf, rowHeading, sourceOf, titleOf } from '../../book/look-up.ts';
import type { Address, TraceNode, TraceStep, Value, Values } from '../../engine/types.ts';
import { whyOf, workedLine } from '../../shown.ts';
import { allowedText, type CellView, headingFrom, lineOf, piecesOf, spokenValue, valueLine, viewOf, workedValue } from '../cells/index.ts';
import { loadWords } from '../own-pages/index.ts';
import { type Acts, Part, placeOfAt } from '../parts/index.ts';

/** The commands that stand in the margin. */
export type WorkingCommand = 'back' | 'mend' | 'same' | 'new-entry' | 'unit' | 'row-unit' | 'work-back' | 'copy-working' | 'print-working' | 'note';

/** What the engine told of the chosen cell. */
export interface Told {
  readonly address: Address;
  readonly trace: TraceNode;
  readonly feeds: readonly Address[];
}

const MOST_FEEDS = 12;
const MOST_ENTRIES = 60;
/** Entries that are unfolded in one go. */
const MOST_OPENED = 300;
/** Numbers that fill more than a few lines are folded. */
const LONG = 200;

/** What one needs to know to begin: it stands in the margin until a value is chosen. */
const HINTS = html`<div class="rest">
  <p>Choose a value on the page: this margin says where it comes from and what it feeds.</p>
  <p>What is slanted and on white is given: write over it. Enter keeps what you write, Escape puts back what was there.</p>
  <p><kbd>Ctrl K</kbd> finds everything that can be done here, <kbd>Ctrl Z</kbd> takes the last change back.</p>
</div>`;

export class ObWorking extends Part {
  static override properties = {
    book: { attribute: false },
    values: { attribute: false },
    at: { attribute: false },
    told: { attribute: false },
    letters: { attribute: false },
    acts: { attribute: false },
    opened: { state: true },
    wordsIn: { state: true },
  };
  declare book: Book;
  declare values: Values;
  declare at: At | undefined;
  declare told: Told | undefined;
  declare letters: ReadonlyMap<Address, string>;
  declare acts: Acts<WorkingCommand>;
  /** Entries of the tree whose own sources are shown. */
  declare opened: ReadonlySet<string>;

  /** Finds the words that are explained; fetched once a value is chosen. */
  declare wordsIn: Awaited<ReturnType<typeof loadWords>>['wordsIn'] | undefined;

  constructor() {
    super();
    this.opened = new Set();
  }

  override updated(): void {
    if (!this.at || this.#fetched) return;
    this.#fetched = true;
    // Without them the margin says all else.
    loadWords().then(
      ({ wordsIn }) => {
        this.wordsIn = wordsIn;
      },
      () => {},
    );
  }

  #fetched = false;

  override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get('at') as At | undefined;
    if (changed.has('at') && before && this.at && addressOf(before) !== addressOf(this.at)) this.opened = new Set();
  }

  override render(): TemplateResult {
    const at = this.at;
    if (!at) return HINTS;
    const view = viewOf(at, this.values);
    const told = this.told?.address === view.address ? this.told : undefined;
    const trace = told?.trace;
    const back = this.acts('back');
    return html`
      <h2><span>The working</span><span>${at.table.name}, row ${at.rowIndex + 1}${at.table.columns.length > 1 && at.column.label ? `, ${at.column.label}` : ''}</span></h2>
      ${back.usable ? html`<button type="button" class="return" @click=${() => this.#look(back.run)}>← back</button>` : nothing}
      <div class="what">${titleOf(at)}</div>
      ${this.#value(at)}
      ${this.#error(view.value, at)}
      ${trace?.formula ? this.#formula(trace.formula, at) : nothing}
      ${trace && trace.steps.length > 0 ? keyed(view.address, html`<h3>Step by step</h3><ol class="steps">${trace.steps.map((step) => this.#step(step))}</ol>`) : nothing}
      ${trace && trace.from.length > 0 ? html`<h3>Comes from</h3>${this.#unfold(trace)}${this.#sources(trace.from, trace.more, at, '', 0)}` : nothing}
      ${told ? this.#feeds(told.feeds, at) : nothing}
      ${this.#said(at)}
      ${this.#words(at, view)}
      ${this.#acts(at)}`;
  }

  #value(at: At): TemplateResult {
    const view = viewOf(at, this.values);
    const { number } = view;
    const base = baseOf(at);
    const words = [
      kindWords(view.standing),
      view.sameAs !== undefined ? `same as ${view.sameAs}` : '',
      view.differs && base ? `differs from ${base.column.label ?? 'the first'}` : '',
    ];
    if (view.difference && base)
      words.push(view.difference === 'same' ? `the same as ${base.column.label}` : `${view.difference} against ${base.column.label}`);
    const big = number
      ? html`<div class="big">${number.sign}${number.whole}${number.fraction}${number.unit ? html` <span class="u">${number.unit}</span>` : nothing}</div>`
      : view.state
        ? html`<div class="big check"><span class="tag ${view.state}">${view.word}</span></div>${view.text ? html`<div class="margin">${view.text}</div>` : nothing}`
        : view.value.kind === 'error'
          ? html`<div class="big err">${view.value.word}</div>`
          : html`<div class="big text">${view.value.kind === 'blank' ? spokenValue(view) : view.text}</div>`;
    return html`${big}<div class="kind">${words.filter(Boolean).join(', ')}</div>`;
  }

  #error(value: Value, at: At): TemplateResult | typeof nothing {
    if (value.kind !== 'error') return nothing;
    const elsewhere = value.from !== undefined && value.from !== addressOf(at) ? cellAt(this.book, value.from) : undefined;
    return html`<div class="trouble">
      <p>${whyOf(value.message, titleOf(elsewhere ?? at))}</p>
      ${elsewhere ? html`<p>It began at ${this.#link(elsewhere, titleOf(elsewhere))}.</p>` : nothing}
      ${
        value.mend
          ? value.mend.content !== undefined || value.mend.unit !== undefined
            ? html`<button type="button" class="btn first" @click=${() => this.acts('mend').run()}>${value.mend.label} <kbd>Ctrl M</kbd></button>`
            : html`<p>${value.mend.label}</p>`
          : nothing
      }
    </div>`;
  }

  #formula(formula: string, at: At): TemplateResult {
    const pieces = piecesOf(formula.replace(/^=\s*/, '= '), this.book, at, this.letters);
    return html`<div class="formula" role="group" aria-label="Formula">${pieces.map((piece) => {
      if ('text' in piece) return piece.text;
      const target = cellAt(this.book, piece.address);
      return html`<button type="button" class="ref" @click=${() => target && this.#follow(target)}>${piece.label}</button>${piece.letter ? html`<sup>${piece.letter}</sup>` : nothing}`;
    })}</div>`;
  }

  #step(step: TraceStep): TemplateResult {
    const value = step.value;
    const detail =
      step.kind === 'sum' && step.terms
        ? `${step.scale !== undefined && step.scale !== 1 ? `${Number(step.scale.toPrecision(6))} × ` : ''}the sum of ${step.terms.length} terms`
        : step.kind === 'search' && step.bracket
          ? `searched between ${Number(step.bracket[0].toPrecision(4))} and ${Number(step.bracket[1].toPrecision(4))}; there ${step.checkShown ?? step.check ?? ''} gives ${step.equals ? workedLine(step.equals) : ''}`
          : step.expression?.replaceAll(' * ', ' × ').replaceAll(' / ', ' ÷ ');
    return html`<li class=${step.kind}>
      <span>${step.label}</span>
      <span class="val">${value ? workedValue(value) : ''}</span>
      ${step.words ? html`<span class="words">${step.words}</span>` : nothing}
      ${detail && detail.length > LONG ? html`<details><summary>in numbers</summary><code>${detail}</code></details>` : detail ? html`<code>${detail}</code>` : nothing}
      ${
        step.kind === 'sum' && step.terms && step.terms.length > 0
          ? html`<details><summary>the terms</summary><ul>${step.terms.slice(0, MOST_ENTRIES).map((term) => html`<li><span>${term.label}</span><span>${Number(term.value.toPrecision(6))}</span></li>`)}${step.terms.length > MOST_ENTRIES ? html`<li>and ${step.terms.length - MOST_ENTRIES} more</li>` : nothing}</ul></details>`
          : nothing
      }
    </li>`;
  }

  /** All the way down to the givens in one press, and back. */
  #unfold(trace: TraceNode): TemplateResult | typeof nothing {
    const all = unfoldable(trace.from, '').slice(0, MOST_OPENED);
    if (all.length === 0) return nothing;
    const open = all.every((path) => this.opened.has(path));
    const press = (): void => {
      this.opened = new Set(open ? [] : all);
    };
    return html`<button type="button" class="link all" @click=${press}>${open ? 'Fold up' : 'Unfold to the givens'}</button>`;
  }

  #sources(nodes: readonly TraceNode[], untold: number | undefined, home: At, path: string, depth: number): TemplateResult {
    const more = Math.max(0, nodes.length - MOST_ENTRIES) + (untold ?? 0);
    return html`<ul class="from ${depth > 0 ? 'in' : ''}">
      ${nodes.slice(0, MOST_ENTRIES).map((node) => this.#source(node, home, `${path}/${keyOf(node)}`, depth))}
      ${more > 0 ? html`<li class="more">and ${more} more cells</li>` : nothing}
    </ul>`;
  }

  #source(node: TraceNode, home: At, path: string, depth: number): TemplateResult {
    const at = node.address === undefined ? undefined : cellAt(this.book, node.address);
    const letter = depth === 0 && node.address !== undefined ? this.letters.get(node.address) : undefined;
    const label = at ? entryHeading(at, home) : [node.row, node.column].filter(Boolean).join(', ');
    const has = unfolds(node);
    const open = this.opened.has(path);
    const look = node.kind === 'range' ? 'range' : node.kind === 'given' || node.kind === 'as' ? 'given' : 'worked';
    const text = lineOf(node.value, at && decimalsOf(at));
    return html`<li>
      <div class="entry">
        ${has ? html`<button type="button" class="twig" aria-expanded=${open} aria-label="What ${label} comes from" @click=${() => this.#toggle(path)}></button>` : html`<span class="twig"></span>`}
        <span class="name">${letter ? html`<sup>${letter}</sup> ` : nothing}${at ? this.#link(at, label) : label}</span>
        <span class="val ${look}" title=${look !== 'range' && text.length > 18 ? text : nothing}>${text === '' ? 'blank' : valueLine(node.value, at && decimalsOf(at))}</span>
        ${node.source ? html`<span class="src">${node.source}</span>` : nothing}
      </div>
      ${has && open ? this.#sources(node.from, node.more, home, path, depth + 1) : nothing}
    </li>`;
  }

  /** Copies the working as text, as far down as it is unfolded, and says what came of it. */
  async copy(): Promise<string> {
    if (!this.told) return 'There is no working yet.';
    const { trace } = this.told;
    const { workingText } = await import('../../handover/working-text.ts');
    try {
      const text = workingText(
        trace,
        (value) => lineOf(value) || 'blank',
        workedLine,
        (path) => this.opened.has(path),
      );
      await navigator.clipboard.writeText(withSpaces(text));
      return 'The working is copied as text.';
    } catch {
      return 'The browser does not let this page put anything among what is copied.';
    }
  }

  #toggle(path: string): void {
    const opened = new Set(this.opened);
    if (!opened.delete(path)) opened.add(path);
    this.opened = opened;
  }

  #feeds(feeds: readonly Address[], home: At): TemplateResult | typeof nothing {
    if (feeds.length === 0) return nothing;
    const ats = feeds.map((address) => cellAt(this.book, address)).filter((at) => at !== undefined);
    return html`<h3>Feeds</h3><p class="feeds">${ats.slice(0, MOST_FEEDS).map((at) => this.#link(at, headingFrom(at, home)))}${ats.length > MOST_FEEDS ? html`<span>and ${ats.length - MOST_FEEDS} more</span>` : nothing}</p>`;
  }

  #said(at: At): TemplateResult | typeof nothing {
    const source = sourceOf(at);
    const note = noteOf(at);
    const allowed = allowedText(at);
    const names = namesOf(this.book, at);
    if (!source && !note && !allowed && names.length === 0) return nothing;
    return html`<h3>About this value</h3><dl class="said">
      ${source ? html`<dt>Source</dt><dd>${source}</dd>` : nothing}
      ${allowed ? html`<dt>Allowed</dt><dd>${allowed}</dd>` : nothing}
      ${names.length > 0 ? html`<dt>Name</dt><dd>${names.join(', ')}</dd>` : nothing}
      ${note ? html`<dt>Note</dt><dd>${note}</dd>` : nothing}
    </dl>`;
  }

  #words(at: At, { word = '' }: CellView): TemplateResult | typeof nothing {
    const found = this.wordsIn?.(`${titleOf(at)}; ${noteOf(at) ?? ''}; ${word}`) ?? [];
    if (found.length === 0) return nothing;
    return html`<h3>Words</h3><p class="feeds">${found.map((each) => html`<button type="button" class="link" @click=${() => this.say('page', { page: 'glossary', word: each.id })}>${each.word}</button>`)}</p>`;
  }

  #acts(at: At): TemplateResult {
    const further = (['same', 'new-entry', 'work-back', 'unit', 'row-unit', 'copy-working', 'print-working', 'note'] as const)
      .map((id) => this.acts(id))
      .filter((act) => act.usable);
    return html`<div class="do">
      <button type="button" class="btn" @click=${() => this.say('write', { place: placeOfAt(at) })}>Write in this cell</button>
      ${further.map((act) => html`<button type="button" class="btn" @click=${act.run}>${act.label}</button>`)}
    </div>`;
  }

  #link(at: At, label: string): TemplateResult {
    return html`<button type="button" class="link" @click=${() => this.#follow(at)}>${label}</button>`;
  }

  #follow(at: At): void {
    this.#look(() => this.say('choose', { place: placeOfAt(at), follow: true }));
  }

  /** Looks at another value. What was pressed goes with the working it stood in; the keyboard stays in the margin, at its beginning. */
  #look(choose: () => void): void {
    const margin = this.closest<HTMLElement>('.working');
    margin?.focus({ preventScroll: true });
    margin?.scrollTo(0, 0);
    choose();
  }
}
customElements.define('ob-working', ObWorking);

/** What an entry is known by while values change. */
const keyOf = (node: TraceNode): string => node.address ?? node.row;

const unfolds = (node: TraceNode): boolean => node.from.length > 0 && !node.again;

function unfoldable(nodes: readonly TraceNode[], path: string): string[] {
  return nodes.filter(unfolds).flatMap((node) => [`${path}/${keyOf(node)}`, ...unfoldable(node.from, `${path}/${keyOf(node)}`)]);
}

/** An entry of a list says the list too: "Fixtures, Rail 90: Output". */
function entryHeading(at: At, home: At): string {
  if (at.table.form !== 'list' || at.table.id === home.table.id) return headingFrom(at, home);
  return `${at.table.name}, ${rowHeading(at)}: ${columnHeading(at)}`;
}

function kindWords(standing: ReturnType<typeof viewOf>['standing']): string {
  if (standing === 'as') return 'given';
  if (standing === 'head') return 'heading';
  return standing;
}
