/** How the lines of a table are drawn: from their data, and from nothing else. */
import { html, noChange, nothing, type TemplateResult } from 'lit';
import { Directive, directive } from 'lit/directive.js';
import { repeat } from 'lit/directives/repeat.js';
import type { CellView } from '../cells/index.ts';
import { boxed, cellParts } from './cell.ts';
import type { Fold } from './folds.ts';
import type { FoldModel, LineModel, MarkedCell, RowModel } from './rows.ts';

/** px that a cell which is its own box keeps free on its left, and on both sides: what other cells have within them. */
const [FREE_LEFT, FREE] = [7, 10];

/** Draws what its data say, where they are other than what stands there: the same object as before is not drawn again. */
export const drawn = directive(
  class extends Directive {
    #model: unknown;

    render<M>(model: M, template: (model: M) => unknown): unknown {
      return template(model);
    }

    override update(_part: unknown, [model, template]: [unknown, (model: unknown) => unknown]): unknown {
      if (model === this.#model) return noChange;
      this.#model = model;
      return template(model);
    }
  },
) as <M>(model: M, template: (model: M) => unknown) => unknown;

/** What a line of folded rows asks for. */
export type Turn = (fold: Fold) => void;

export const looksOf = (line: LineModel): string => (line.kind === 'row' ? line.looks : 'fold');

export const lineTemplate = (line: LineModel, turn: Turn): TemplateResult =>
  html`<tr role="row" class=${looksOf(line)} aria-rowindex=${line.lies?.nth ?? nothing} style=${line.lies ? `top:${line.lies.top}px` : nothing}>${insideOf(line, turn)}</tr>`;

/** A line without its own element. */
export const insideOf = (line: LineModel, turn: Turn): TemplateResult => (line.kind === 'row' ? rowInside(line) : foldInside(line, turn));

function foldInside({ fold, open, width }: FoldModel, turn: Turn): TemplateResult {
  return html`<th scope="row" colspan=${width}><button type="button" aria-expanded=${open} @click=${() => turn(fold)}>${open ? `Put away: ${fold.words}` : fold.words}</button></th>`;
}

function rowInside({ row, head, labelled, label, cells, lies }: RowModel): TemplateResult {
  const heading = head
    ? html`<th scope="col" role="columnheader"><span class="unseen">row</span></th>`
    : html`<th scope="row" role="rowheader" title=${(lies && label) || nothing}><span class="n" aria-hidden="true">${row + 1}</span><span class="lab">${label}</span></th>`;
  return html`${labelled ? heading : nothing}
      ${repeat(
        cells,
        ({ cell }) => cell.column,
        (cell) => drawn(cell, cellTemplate),
      )}`;
}

function cellTemplate({ cell, on, among, cut, letter, pending, lies }: MarkedCell): TemplateResult {
  const { view, head, id, spot } = cell;
  const parts = cellParts(view, { letter, pending, list: cell.list });
  // A cell of a large table is its own box: each element is time for the browser in every row that comes into sight. Not the first, which may stay in sight.
  const bare = lies !== undefined && lies.nth > 1 && !head;
  const inside = bare ? parts.inside : boxed(parts);
  const long = lies !== undefined && isLong(shownLength(view), lies.width);
  const looks = ['c', cell.base && 'base', on && 'on', among && 'among', cut && 'cut', cell.note && 'noted', bare && parts.looks, long && 'long']
    .filter(Boolean)
    .join(' ');
  if (head) {
    const width = cell.columnWidth ? `width:${cell.columnWidth}px;min-width:${cell.columnWidth}px` : nothing;
    return html`<th scope="col" role="columnheader" id=${id} data-spot=${spot} class=${looks} aria-selected=${among} aria-label=${cell.note ? cell.name : nothing} data-note=${cell.note ?? nothing} aria-colindex=${lies?.nth ?? nothing} style=${lies ? `left:${lies.left}px;width:${lies.width}px` : width}>${inside}${view.value.kind === 'blank' ? html`<span class="unseen">no heading</span>` : nothing}</th>`;
  }
  const place = lies && (bare ? `margin-left:${lies.gap + FREE_LEFT}px;width:${lies.width - FREE}px` : `margin-left:${lies.gap}px;width:${lies.width}px`);
  return html`<td role="gridcell" id=${id} data-spot=${spot} class=${looks} aria-selected=${among} aria-colindex=${lies?.nth ?? nothing} style=${place ?? nothing} title=${long ? view.text : nothing} data-note=${cell.note ?? nothing} aria-label=${cut ? `${cell.name}, cut` : cell.name}>${inside}</td>`;
}

/** Whether so many signs may need more than this many px: only then is a cell of a large table cut to its width, which takes the browser time for each. */
const isLong = (signs: number, width: number): boolean => signs * 9 + 40 > width;

function shownLength({ number, value, text }: CellView): number {
  if (number) return number.sign.length + number.whole.length + number.fraction.length + number.unit.length;
  // A blank given says that it is one.
  return value.kind === 'error' ? value.word.length : value.kind === 'blank' ? 16 : text.length;
}
