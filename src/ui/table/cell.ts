/** How one cell is drawn: kinds and states by shape and word first, colour second. */
import { html, nothing, type TemplateResult } from 'lit';
import { type CellView, lineAt } from '../cells/index.ts';

export interface CellMarks {
  /** Ties it to the margin: it feeds the chosen value. */
  readonly letter?: string | undefined;
  /** What was typed and is being read. */
  readonly pending?: string | undefined;
  /** In a list the numbers stand at the right, without columns of their own for wholes and decimals. */
  readonly list?: boolean | undefined;
}

/** What stands in a cell, the classes of the box it stands in, and what is said under that. */
export interface CellParts {
  readonly looks: string;
  readonly inside: unknown;
  readonly under?: TemplateResult;
}

/** A cell's parts in a box of its own. */
export function boxed({ looks, inside, under }: CellParts): TemplateResult {
  return html`<div class=${looks}>${inside}</div>${under ?? nothing}`;
}

export function cellParts(view: CellView, marks: CellMarks): CellParts {
  const letter = marks.letter ? html`<i class="key">${marks.letter}</i>` : nothing;
  const keyed = marks.letter ? ` keyed ${lineAt(marks.letter)}` : '';
  if (marks.pending !== undefined) return { looks: `v g t${keyed}`, inside: html`${line(marks.pending)}${letter}` };
  if (view.value.kind === 'error') return errorParts(view, keyed, letter);
  if (view.state) {
    return {
      looks: `ck${keyed}`,
      inside: html`<span class="tag ${view.state}">${view.word}</span><span class="m" title=${view.text.length > 24 ? view.text : nothing}>${view.text}</span>${letter}`,
    };
  }
  const looks = `v ${kindClass(view)}`;
  if (view.number) return numberParts(view, `${looks}${keyed}`, marks.list === true, letter);
  if (view.value.kind === 'blank' && view.standing === 'given') return { looks: `v blank t${keyed}`, inside: html`${line('not answered yet')}${letter}` };
  return { looks: `${looks} t${keyed}`, inside: html`${line(view.text, ditto(view))}${letter}` };
}

/** A line of text that is cut where its cell ends; what is cut is told on pointing at it. */
const line = (text: string, mark = ''): TemplateResult =>
  html`<span class="k">${mark}</span><span class="x" title=${text.length > 24 ? text : nothing}>${text}</span>`;

function numberParts(view: CellView, looks: string, list: boolean, letter: unknown): CellParts {
  const { sign = '', whole = '', fraction = '', unit = '' } = view.number ?? {};
  if (list) return { looks: `${looks} r`, inside: html`${sign}${whole}${fraction}${unit ? html`<span class="u"> ${unit}</span>` : nothing}${letter}` };
  return {
    looks: view.difference === '' ? looks : `${looks} vs`,
    inside: html`<span class="k">${ditto(view)}</span><span class="i">${sign}${whole}</span><span class="f">${fraction}</span><span class="u">${unit && ` ${unit}`}</span><span class="d">${view.difference}</span>${letter}`,
  };
}

function errorParts({ value, address, why }: CellView, keyed: string, letter: unknown): CellParts {
  if (value.kind !== 'error') return { looks: '', inside: nothing };
  // What only waits for another cell says its word; the sentence stands where the trouble began.
  const here = value.from === undefined || value.from === address;
  const waiting = value.word === 'not answered yet';
  return {
    looks: `v ${waiting ? 'waits' : 'bad'} t${keyed}`,
    inside: html`<span class="k"></span><span class="x err">${value.word}</span>${letter}`,
    ...(here && !waiting && { under: html`<div class="sentence">${why}</div>` }),
  };
}

function kindClass(view: CellView): string {
  if (view.standing === 'given') return view.differs ? 'g dif' : 'g';
  if (view.standing === 'as') return `g same${view.differs ? ' dif' : ''}`;
  return 'w';
}

const ditto = (view: CellView): string => (view.sameAs !== undefined ? '″' : '');
