/** A table as a grid: its heading, its rows and their cells. Of a large one only what is in sight is drawn. */
import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { Area } from '../../book/area.ts';
import type { Book, Table } from '../../book/book.ts';
import { baseColumn } from '../../book/look-up.ts';
import type { Address } from '../../engine/types.ts';
import type { TableValues } from '../../values.ts';
import { readSpot } from '../parts/index.ts';
import { answers } from './answers.ts';
import type { Fold } from './folds.ts';
import type { Spot } from './grid-moves.ts';
import type { Lines } from './lines.ts';
import type { Pooling } from './pooling.ts';
import { type Models, RowPool } from './row-pool.ts';
import { drawn, lineTemplate } from './row-templates.ts';
import { foldModel, type LineModel, rowModel, type View } from './rows.ts';
import { isBlock } from './selection.ts';
import type { Sight } from './sight.ts';

/** What a grid shows. */
export interface Shown {
  readonly book: Book;
  readonly table: Table;
  readonly ownValues: TableValues;
  /** The chosen cell, where it is one of this table. */
  readonly chosenSpot: Spot | undefined;
  readonly letters: ReadonlyMap<Address, string>;
  readonly pending: ReadonlyMap<Address, string>;
  readonly choosing: { readonly area: Area | undefined; readonly taken: Area | undefined };
  readonly pooling: Pooling;
  readonly lines: Lines;
  readonly sight: Sight;
  /** What it is drawn in. */
  readonly root: ParentNode;
  /** Asks who gave an answer of the brief. */
  askAbout(spot: Spot): void;
}

export class Grid {
  readonly #shown: Shown;
  readonly #pool: RowPool;
  /** The lines of a table that is drawn whole, by their keys, and its row of headings. */
  #known = new Map<string, LineModel>();
  /** What the rows of a large table are drawn from, and which columns of them. */
  #large: { readonly models: Models; readonly columns: readonly number[] } | undefined;
  #columns: readonly number[] = [];
  #asked = false;
  /** The time of the frame in which rows were drawn last. */
  #drawnAt: CSSNumberish | null = null;

  constructor(shown: Shown) {
    this.#shown = shown;
    this.#pool = new RowPool(this.#turn);
  }

  readonly #turn = (fold: Fold): void => this.#shown.lines.turn(fold);

  readonly #ask = (spot: string): void => {
    this.#shown.askAbout(readSpot(spot));
  };

  get #id(): string {
    return `grid-${this.#shown.book.tables.indexOf(this.#shown.table)}`;
  }

  render(): TemplateResult {
    return this.#shown.table.form === 'brief' ? this.#answers() : this.#table();
  }

  #answers(): TemplateResult {
    const { book, table, ownValues } = this.#shown;
    const view = this.#view(undefined);
    const rows = table.rows.map(({ id }, row) => {
      const model = rowModel(book, table, ownValues, view, { row, line: row }, this.#known.get(id));
      this.#known.set(id, model);
      return model;
    });
    return answers({ id: this.#id, name: table.name, rows, ask: this.#ask });
  }

  #view(large: View['large']): View {
    const { chosenSpot, choosing, letters, pending } = this.#shown;
    return { chosen: chosenSpot, area: isBlock(choosing.area) ? choosing.area : undefined, taken: choosing.taken, letters, pending, large };
  }

  #table(): TemplateResult {
    const { book, table, ownValues, lines, pooling, chosenSpot: chosen } = this.#shown;
    const isLarge = pooling.isLarge(table);
    const { head, body, labelled } = lines;
    const base = table.columns[baseColumn(table)];
    const comparing = table.form === 'scenarios';
    const titled = comparing || table.columns.some((column) => column.label);
    const width = table.columns.length + (labelled ? 1 : 0);
    // The heading has rows of its own before them.
    const above = (titled ? 1 : 0) + (head >= 0 ? 1 : 0);
    const edges = isLarge ? pooling.edges(table, labelled) : undefined;
    const columns = edges && this.#keptColumns(pooling.columns(edges, chosen?.column ?? -1));
    const view = this.#view(edges && { edges, rowHeight: pooling.rowHeight, above });
    const place = (at: number): string | typeof nothing => (edges ? `left:${edges[at]}px;width:${(edges[at + 1] ?? 0) - (edges[at] ?? 0)}px` : nothing);
    const model = (found: number | Fold, line: number, drawnColumns?: readonly number[], before?: LineModel): LineModel =>
      typeof found === 'number'
        ? rowModel(book, table, ownValues, view, { row: found, line, ...(drawnColumns && { columns: drawnColumns }) }, before)
        : foldModel(table, found, lines.isOpen(found), view, line, before);
    this.#large = columns && { columns, models: (line, those, before) => model(body[line] as number | Fold, line, those, before) };
    const before = this.#known;
    this.#known = new Map();
    const keep = (key: string, line: LineModel): unknown => {
      this.#known.set(key, line);
      return drawn(line, (now) => lineTemplate(now, this.#turn));
    };
    return html`<table id=${this.#id} class="cells ${table.form}" role="grid" aria-label=${table.name} aria-multiselectable="true" aria-colcount=${width} aria-rowcount=${isLarge ? body.length + above : nothing}>
      <thead role="rowgroup" style=${edges ? `width:${edges.at(-1)}px` : nothing}>
        ${
          titled
            ? html`<tr role="row" aria-rowindex=${isLarge ? 1 : nothing}>
              ${labelled ? html`<th scope="col" role="columnheader" class="corner">${comparing && base && table.columns.length > 1 ? `compared with ${base.label ?? 'the first'}` : html`<span class="unseen">row</span>`}</th>` : nothing}
              ${table.columns.map(
                (column, at) =>
                  html`<th scope="col" role="columnheader" class=${comparing && column === base ? 'base' : nothing} title=${(edges && [column.label, column.unit].filter(Boolean).join(' ')) || nothing} style=${edges ? place(at) : column.width ? `width:${column.width}px` : nothing}><span class=${comparing ? 'L' : 'h'}>${column.label ?? ''}</span>${column.note ? html`<span class="nm">${column.note}</span>` : nothing}${!comparing && column.unit ? html`<span class="u"> ${column.unit}</span>` : nothing}</th>`,
              )}
            </tr>`
            : nothing
        }
        ${head >= 0 ? keep('', model(head, -1, columns, before.get(''))) : nothing}
      </thead>
      <tbody role="rowgroup" style=${edges ? `width:${edges.at(-1)}px;height:${body.length * pooling.rowHeight}px` : nothing}>${
        isLarge
          ? nothing
          : this.#allLines(
              body,
              (found, line, key) => keep(key, model(found, line, undefined, before.get(key))),
              (key) => {
                const line = before.get(key);
                return line && keep(key, line);
              },
            )
      }</tbody>
    </table>`;
  }

  /** `again`: draws a line as it was, where it is one that was drawn before. */
  #allLines(lines: readonly (number | Fold)[], draw: (found: number | Fold, line: number, key: string) => unknown, again: (key: string) => unknown): unknown {
    const { table, pooling, sight, chosenSpot } = this.#shown;
    const printed = pooling.printing ? lines.slice(0, pooling.printed(table)) : lines;
    const keys = printed.map((found) => (typeof found === 'number' ? (table.rows[found]?.id ?? '') : `fold ${found.id}`));
    const left = sight.left(`${table.columns.map(({ id }) => id).join(' ')} | ${keys.join(' ')}`);
    return repeat(
      printed,
      (_, at) => keys[at],
      (found, at) => {
        const key = keys[at] ?? '';
        return (left(at) && found !== chosenSpot?.row && again(key)) || draw(found, at, key);
      },
    );
  }

  /** Draws the rows of a large table, once the table itself is on the page. */
  drawRows(): void {
    const { pooling, table, lines, chosenSpot, root } = this.#shown;
    const body = pooling.isLarge(table) ? root.querySelector('tbody') : null;
    if (!body || !this.#large) {
      this.#pool.clear();
      return;
    }
    const all = lines.body;
    const chosen = chosenSpot ? lines.placeOf(chosenSpot.row, all) : -1;
    this.#drawnAt = document.timeline.currentTime;
    const { models, columns } = this.#large;
    const viewport = { lines: pooling.rows(all.length, chosen), columns, show: (those: readonly number[]) => pooling.show(those) };
    if (this.#pool.draw(body, models, viewport) && !this.#asked) this.#drawNextFrame();
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

  /** Numbers of a comparing table have their points under one another: the table says how wide wholes and decimals are. */
  shareDigits(): void {
    let [whole, part] = [2, 0];
    for (const line of [...this.#known.values(), ...this.#pool.drawn])
      for (const { cell } of line.kind === 'row' ? line.cells : []) {
        const { number } = cell.view;
        if (number) [whole, part] = [Math.max(whole, number.sign.length + number.whole.length), Math.max(part, number.fraction.length)];
      }
    const widths = `--whole:${Math.min(whole, 4) * 8}px;--part:${Math.min(part, 3) * 7.8}px;--count:${this.#shown.table.columns.length}`;
    const grid = this.#shown.root.querySelector<HTMLElement>('table.cells');
    if (grid && grid.getAttribute('style') !== widths) grid.setAttribute('style', widths);
  }
}
