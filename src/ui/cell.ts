/** How one cell is drawn: kinds and states by shape and word first, colour second. */
import { html, nothing, type TemplateResult } from 'lit';
import type { CellView } from './cell-view.ts';
import { lineAt } from './formula-text.ts';

export interface CellMarks {
  /** Ties it to the margin: it feeds the chosen value. */
  readonly letter?: string | undefined;
  /** What was typed and is being read. */
  readonly pending?: string | undefined;
  /** In a list the numbers stand at the right, without columns of their own for wholes and decimals. */
  readonly list?: boolean | undefined;
}

export function cellTemplate(view: CellView, marks: CellMarks): TemplateResult {
  const letter = marks.letter ? html`<i class="key">${marks.letter}</i>` : nothing;
  const keyed = marks.letter ? `keyed ${lineAt(marks.letter)}` : '';
  if (marks.pending !== undefined) return html`<div class="v g t ${keyed}"><span class="k"></span><span class="x">${marks.pending}</span>${letter}</div>`;
  if (view.value.kind === 'error') return errorTemplate(view, keyed, letter);
  if (view.state) {
    return html`<div class="ck ${keyed}"><span class="tag ${view.state}">${view.state}</span><span class="m">${view.text}</span>${letter}</div>`;
  }
  const kind = `${kindClass(view)} ${keyed}`;
  if (view.number) return numberTemplate(view, kind, marks.list === true, letter);
  if (view.value.kind === 'blank' && view.standing === 'given') {
    return html`<div class="v blank t ${keyed}"><span class="k"></span><span class="x">not answered yet</span>${letter}</div>`;
  }
  return html`<div class="v ${kind} t"><span class="k">${ditto(view)}</span><span class="x" title=${view.text.length > 24 ? view.text : nothing}>${view.text}</span>${letter}</div>`;
}

function numberTemplate(view: CellView, kind: string, list: boolean, letter: unknown): TemplateResult {
  const { sign = '', whole = '', fraction = '', unit = '' } = view.number ?? {};
  if (list)
    return html`<div class="v ${kind} r"><span class="x">${sign}${whole}${fraction}</span>${unit ? html`<span class="u">${unit}</span>` : nothing}${letter}</div>`;
  return html`<div class="v ${kind} ${view.difference === '' ? '' : 'vs'}"><span class="k">${ditto(view)}</span><span class="i">${sign}${whole}</span><span class="f">${fraction}</span><span class="u">${unit}</span><span class="d">${view.difference}</span>${letter}</div>`;
}

function errorTemplate(view: CellView, keyed: string, letter: unknown): TemplateResult {
  const value = view.value;
  if (value.kind !== 'error') return html``;
  // What only waits for another cell says its word; the sentence stands where the trouble began.
  const here = value.from === undefined || value.from === view.address;
  const waiting = value.word === 'not answered yet';
  return html`<div class="v ${waiting ? 'waits' : 'bad'} t ${keyed}"><span class="k"></span><span class="x err">${value.word}</span>${letter}</div>
    ${here && !waiting ? html`<div class="sentence">${value.message}</div>` : nothing}`;
}

function kindClass(view: CellView): string {
  if (view.standing === 'given') return view.differs ? 'g dif' : 'g';
  if (view.standing === 'as') return `g same${view.differs ? ' dif' : ''}`;
  return 'w';
}

const ditto = (view: CellView): string => (view.sameAs !== undefined ? '″' : '');
