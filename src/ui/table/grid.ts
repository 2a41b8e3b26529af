/** A table as a grid: its heading, its rows and their cells. Of a large one only what is in sight is drawn. */
import { html, noChange, nothing, type TemplateResult } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { repeat } from 'lit/directives/repeat.js';
import { placeIn, textOf } from '../../book/address.ts';
import type { Row } from '../../book/book.ts';
import { addressOf, baseColumn } from '../../book/look-up.ts';
import { baseOf, type CellView, spokenName, viewOf } from '../parts/cell-view.ts';
import { boxed, cellParts } from './cell.ts';
import type { Fold } from './folds.ts';
import type { Spot } from './grid-moves.ts';
import { type Drawing, type Line, RowPool } from './row-pool.ts';
import { isBlock } from './selection.ts';
import type { TableHost } from './table-host.ts';

/** Of a row: the columns to draw, where each begins, the row's place in the grid (from 1) and from the top (px). */
interface Where {
  readonly edges: readonly number[];
  readonly columns: readonly number[];
  readonly nth: number;
  readonly top: number;
}

/** Of a cell of a large table, in px: where it begins, how far that is behind the end of the one before, and its width; and its place in its row, from 1. */
interface CellWhere {
  readonly nth: number;
  readonly left: number;
  readonly gap: number;
  readonly width: number;
}

/** px that a cell which is its own box keeps free on its left, and on both sides: what other cells have within them. */
const [FREE_LEFT, FREE] = [7, 10];

/** Whether so many signs may need more than this many px: only then is a cell of a large table cut to its width, which takes the browser time for each. */
const isLong = (signs: number, width: number): boolean => signs * 9 + 40 > width;

function shownLength({ number, value, text }: CellView): number {
  if (number) return number.sign.length + number.whole.length + number.fraction.length + number.unit.length;
  // A blank given says that it is one.
  return value.kind === 'error' ? value.word.length : value.kind === 'blank' ? 16 : text.length;
}

const lineTemplate = ({ looks, nth, top, inside }: Line): TemplateResult =>
  html`<tr role="row" class=${looks} aria-rowindex=${nth ?? nothing} style=${top === undefined ? nothing : `top:${top}px`}>${inside}</tr>`;

export class Grid {
  readonly #host: TableHost;
  /** Digits before and after the point, by cell. */
  readonly #digits = new Map<string, readonly [number, number]>();

  readonly #pool = new RowPool();
  /** How the rows of a large table are drawn, and from what. */
  #drawing: Omit<Drawing, 'lines'> | undefined;
  #columns: readonly number[] = [];
  #asked = false;
  /** The time of the frame in which rows were drawn last. */
  #drawnAt: CSSNumberish | null = null;

  constructor(host: TableHost) {
    this.#host = host;
  }

  /** Drawn anew only where something in it may be other than before: what is written in the input over it is not. */
  render(): unknown {
    const { book, table, values, tick, chosenSpot, chosen, anchor, letters, pending, pooling, lines, sight, choosing } = this.#host;
    const reads = [
      book,
      table,
      values,
      tick,
      chosenSpot?.row,
      chosenSpot?.column,
      chosen,
      anchor,
      letters,
      pending,
      pooling.printing,
      choosing.taken,
      lines.turned,
      sight.turn,
      pooling.seen,
    ];
    return guard(reads, () => this.#table());
  }

  #table(): TemplateResult {
    const { table, lines: sight, pooling, chosenSpot: chosen } = this.#host;
    const large = pooling.isLarge(table);
    const { head, body: lines } = sight;
    const labelled = sight.labelled;
    const base = table.columns[baseColumn(table)];
    const comparing = table.form === 'scenarios';
    const titled = comparing || table.columns.some((column) => column.label);
    const width = table.columns.length + (labelled ? 1 : 0);
    // The heading has rows of its own before them.
    const above = (titled ? 1 : 0) + (head >= 0 ? 1 : 0);
    const edges = large ? pooling.edges(table, labelled) : undefined;
    const across = edges && { edges, columns: this.#keptColumns(pooling.columns(edges, chosen?.column ?? -1)) };
    const place = (at: number): string | typeof nothing => (edges ? `left:${edges[at]}px;width:${(edges[at + 1] ?? 0) - (edges[at] ?? 0)}px` : nothing);
    const line = (at: number): Line => {
      const found = lines[at] as number | Fold;
      const where = across && { ...across, nth: at + above + 1, top: at * pooling.rowHeight };
      return typeof found === 'number' ? this.#row(found, labelled, where) : this.#foldLine(found, width, where);
    };
    this.#drawing = across && { columns: across.columns, readsOf: this.#readsOf(lines), line, show: (columns) => pooling.show(columns) };
    return html`<table id="grid-${this.#host.book.tables.indexOf(table)}" class="cells ${table.form}" role="grid" aria-label=${table.name} aria-multiselectable="true" aria-colcount=${width} aria-rowcount=${large ? lines.length + above : nothing}>
      <thead role="rowgroup" style=${edges ? `width:${edges.at(-1)}px` : nothing}>
        ${
          titled
            ? html`<tr role="row" aria-rowindex=${large ? 1 : nothing}>
              ${labelled ? html`<th scope="col" role="columnheader" class="corner">${comparing && base && table.columns.length > 1 ? `compared with ${base.label ?? 'the first'}` : html`<span class="unseen">row</span>`}</th>` : nothing}
              ${table.columns.map(
                (column, at) =>
                  html`<th scope="col" role="columnheader" title=${(edges && [column.label, column.unit].filter(Boolean).join(' ')) || nothing} style=${edges ? place(at) : column.width ? `width:${column.width}px` : nothing}><span class=${comparing ? 'L' : 'h'}>${column.label ?? ''}</span>${column.note ? html`<span class="nm">${column.note}</span>` : nothing}${!comparing && column.unit ? html`<span class="u">${column.unit}</span>` : nothing}</th>`,
              )}
            </tr>`
            : nothing
        }
        ${head >= 0 ? lineTemplate(this.#row(head, labelled, across && { ...across, nth: above, top: 0 })) : nothing}
      </thead>
      <tbody role="rowgroup" style=${edges ? `width:${edges.at(-1)}px;height:${lines.length * pooling.rowHeight}px` : nothing}>${large ? nothing : this.#allLines(lines, line)}</tbody>
    </table>`;
  }

  #allLines(lines: readonly (number | Fold)[], line: (at: number) => Line): unknown {
    const { table, pooling, sight, chosenSpot } = this.#host;
    const printed = pooling.printing ? lines.slice(0, pooling.printed(table)) : lines;
    const keys = printed.map((found) => (typeof found === 'number' ? table.rows[found]?.id : `fold ${found.id}`));
    const left = sight.left(`${table.columns.map(({ id }) => id).join(' ')} | ${keys.join(' ')}`);
    return repeat(
      printed,
      (_, at) => keys[at],
      (found, at) => (left(at) && found !== chosenSpot?.row ? noChange : lineTemplate(line(at))),
    );
  }

  /** Draws the rows of a large table, once the table itself is on the page. */
  drawRows(): void {
    const { pooling, table, lines, chosenSpot } = this.#host;
    const body = pooling.isLarge(table) ? this.#host.querySelector('tbody') : null;
    if (!body || !this.#drawing) {
      this.#pool.clear();
      return;
    }
    const all = lines.body;
    const chosen = chosenSpot ? lines.placeOf(chosenSpot.row, all) : -1;
    this.#drawnAt = document.timeline.currentTime;
    if (this.#pool.draw(body, { ...this.#drawing, lines: pooling.rows(all.length, chosen) }) && !this.#asked) this.#drawNextFrame();
  }

  /** What is scrolled is told of at the beginning of a frame, which then is not the next one yet. */
  #drawNextFrame(): void {
    this.#asked = true;
    requestAnimationFrame((now) => {
      if (now === this.#drawnAt) return this.#drawNextFrame();
      this.#asked = false;
      this.drawRows();
    });
  }

  /** The same list where they are the same columns. */
  #keptColumns(columns: readonly number[]): readonly number[] {
    if (columns.join() !== this.#columns.join()) this.#columns = columns;
    return this.#columns;
  }

  /** A change has most rows as they were: what differs from row to row is asked of each. */
  #readsOf(lines: readonly (number | Fold)[]): Drawing['readsOf'] {
    const { book, table, values, letters, pending, choosing, chosenSpot, pooling, lines: sight } = this.#host;
    const area = isBlock(choosing.area) ? choosing.area : undefined;
    const all = [
      book.tables.indexOf(table),
      table.rows,
      table.columns,
      table.base,
      pooling.rowHeight,
      letters.size > 0 && letters,
      pending.size > 0 && pending,
      area,
      choosing.taken,
      sight.turned,
    ];
    // What others are compared with counts in every row, drawn or not.
    const base = baseColumn(table);
    return (at, columns) => {
      const row = lines[at];
      if (typeof row !== 'number') return [row, ...all];
      const own = [table.cells[table.rows[row]?.id ?? ''], chosenSpot?.row === row && chosenSpot.column];
      return [...own, ...[base, ...columns].map((column) => values[textOf(table.name, column, row)]), ...all];
    };
  }

  #foldLine(fold: Fold, width: number, where: Where | undefined): Line {
    const { lines } = this.#host;
    const open = lines.isOpen(fold);
    const inside = html`<th scope="row" colspan=${width}><button type="button" aria-expanded=${open} @click=${() => lines.turn(fold)}>${open ? `Put away: ${fold.words}` : fold.words}</button></th>`;
    return { looks: 'fold', nth: where?.nth, top: where?.top, inside };
  }

  /** `where`: in a table of which not all is drawn, what is, and where. */
  #row(index: number, labelled: boolean, where: Where | undefined): Line {
    const { table, chosenSpot } = this.#host;
    const row = table.rows[index] as Row;
    const head = row.head === true;
    const on = chosenSpot?.row === index;
    const looks = [row.parted && 'parted', row.strong && 'strong', on && 'sel'].filter(Boolean).join(' ');
    const inside = html`${labelled ? (head ? html`<th scope="col" role="columnheader"><span class="unseen">row</span></th>` : html`<th scope="row" role="rowheader" title=${(where && row.label) ?? nothing}><span class="n" aria-hidden="true">${index + 1}</span><span class="lab">${row.label ?? ''}</span></th>`) : nothing}
      ${
        where
          ? repeat(
              where.columns,
              (column) => column,
              (column, nth) => {
                const { edges } = where;
                const left = edges[column] ?? 0;
                const before = where.columns[nth - 1];
                return this.#cell({ row: index, column }, head, {
                  nth: column + (labelled ? 2 : 1),
                  left,
                  gap: left - (edges[before === undefined ? 0 : before + 1] ?? 0),
                  width: (edges[column + 1] ?? 0) - left,
                });
              },
            )
          : table.columns.map((_, column) => this.#cell({ row: index, column }, head))
      }`;
    return { looks, nth: where?.nth, top: where?.top, inside };
  }

  #cell(spot: Spot, head: boolean, where?: CellWhere): unknown {
    const { table, values, letters, pending } = this.#host;
    const at = placeIn(table, spot.column, spot.row);
    if (!at) return nothing;
    const address = addressOf(at);
    const base = baseOf(at);
    const { on, among, cut } = this.#host.marks(spot);
    const deps = [
      at.cell,
      at.row,
      at.column,
      spot.row,
      values[address],
      base?.cell,
      base && values[addressOf(base)],
      letters.get(address),
      pending.get(address),
      on,
      among,
      cut,
      where?.gap,
      where?.width,
    ];
    return guard(deps, () => {
      const view = viewOf(at, values);
      const key = `${at.row.id} ${at.column.id}`;
      if (view.number) this.#digits.set(key, [view.number.sign.length + view.number.whole.length, view.number.fraction.length]);
      else this.#digits.delete(key);
      const parts = cellParts(view, { letter: letters.get(address), pending: pending.get(address), list: table.form !== 'scenarios' });
      const name = cut ? `${spokenName(at, view)}, cut` : spokenName(at, view);
      // A cell of a large table is its own box: each element is time for the browser in every row that comes into sight. Not the first, which may stay in sight.
      const bare = where !== undefined && where.nth > 1 && !head;
      const inside = bare ? parts.inside : boxed(parts);
      const id = this.#host.cellId(spot);
      const place = `${spot.row},${spot.column}`;
      const long = where !== undefined && isLong(shownLength(view), where.width);
      const looks = ['c', on && 'on', among && 'among', cut && 'cut', bare && parts.looks, long && 'long'].filter(Boolean).join(' ');
      if (head)
        return html`<th scope="col" role="columnheader" id=${id} data-spot=${place} class=${looks} aria-selected=${among} aria-colindex=${where?.nth ?? nothing} style=${where ? `left:${where.left}px;width:${where.width}px` : at.column.width ? `width:${at.column.width}px;min-width:${at.column.width}px` : nothing}>${inside}</th>`;
      const lies =
        where && (bare ? `margin-left:${where.gap + FREE_LEFT}px;width:${where.width - FREE}px` : `margin-left:${where.gap}px;width:${where.width}px`);
      return html`<td role="gridcell" id=${id} data-spot=${place} class=${looks} aria-selected=${among} aria-colindex=${where?.nth ?? nothing} style=${lies ?? nothing} title=${long ? view.text : nothing} aria-label=${name}>${inside}</td>`;
    });
  }

  /** Numbers of a comparing table have their points under one another: the table says how wide wholes and decimals are. */
  shareDigits(): void {
    let [whole, part] = [2, 0];
    for (const [w, f] of this.#digits.values()) [whole, part] = [Math.max(whole, w), Math.max(part, f)];
    const widths = `--whole:${Math.min(whole, 4) * 8}px;--part:${Math.min(part, 3) * 7.8}px;--count:${this.#host.table.columns.length}`;
    const grid = this.#host.querySelector<HTMLElement>('table.cells');
    if (grid && grid.getAttribute('style') !== widths) grid.setAttribute('style', widths);
  }
}
