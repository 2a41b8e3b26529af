/** A small workbook for tests: one real calculator under the quantities, cells written as a book stores them. */
import { readContent } from '../../../functions/quantity-text.ts';
import { columnText } from '../../../src/book/address.ts';
import { type Position, readReference } from '../../../src/engine/addresses.ts';
import type { Content } from '../../../src/engine/formula-text.ts';
import { toCanonical } from '../../../src/engine/formula-text.ts';
import { Hyper } from '../../../src/engine/hyper.ts';
import { type Kind, Quantities, type QuantityHost } from '../../../src/engine/quantities/index.ts';
import '../../../src/engine/register.ts';
import '../../../src/engine/put-in.ts';

export interface SheetOptions {
  readonly units?: Readonly<Record<string, string>>;
  readonly headings?: Readonly<Record<string, string>>;
  readonly names?: Readonly<Record<string, string>>;
  readonly currency?: string;
}

const BLANK: Content = { kind: 'blank' };

export class Sheet implements QuantityHost {
  readonly hyper: Hyper;
  readonly quantities: Quantities;
  readonly currency: string;
  private readonly contents = new Map<string, Content>();
  private readonly units: Record<string, string>;
  private readonly headings: Readonly<Record<string, string>>;
  private readonly areas: Readonly<Record<string, string>>;

  /** Cells by address; formulas as people type them, without units being written to bare numbers. */
  constructor(cells: Readonly<Record<string, string>>, options: SheetOptions = {}) {
    this.currency = options.currency ?? 'EUR';
    this.units = { ...options.units };
    this.headings = options.headings ?? {};
    this.areas = options.names ?? {};
    this.hyper = new Hyper(['T'], { state: () => ({ word: '', message: '' }) });
    for (const [name, area] of Object.entries(this.areas)) {
      const written = readReference(area);
      if (!written) throw new Error(`${name} stands for ${area}, which is no place`);
      this.hyper.name(name, 'T', written);
    }
    const rows: (number | string | boolean | null)[][] = [];
    for (const [address, stored] of Object.entries(cells)) {
      const { row, col } = place(address);
      while (rows.length <= row) rows.push([]);
      const line = rows[row];
      while (line && line.length < col) line.push(null);
      if (line) line[col] = this.take(address, stored);
    }
    this.hyper.fill(0, rows);
    this.quantities = new Quantities(this);
    this.quantities.rebuild();
  }

  /** Keeps a cell's content; gives what the calculator holds for it. */
  private take(address: string, stored: string): number | string | boolean | null {
    const canonical = stored.startsWith('=') ? toCanonical(stored, this.currency) : undefined;
    if (canonical && !canonical.ok) throw new Error(canonical.message);
    const content = readContent(canonical?.ok ? canonical.content : stored, this.currency);
    this.contents.set(address, content);
    if (content.kind === 'formula') return content.formula;
    if (content.kind === 'number') return content.base;
    if (content.kind === 'text') return `'${content.text}`;
    return content.kind === 'yes or no' ? content.yes : null;
  }

  /** Changes a cell; gives the addresses whose kind or shown unit changed. */
  set(address: string, content: string): readonly string[] {
    this.hyper.put(place(address), this.take(address, content));
    return this.quantities
      .changed([place(address)])
      .map((at) => this.address(at))
      .sort();
  }

  setUnit(address: string, unit: string | undefined): readonly string[] {
    if (unit === undefined) delete this.units[address];
    else this.units[address] = unit;
    return this.quantities
      .changed([place(address)])
      .map((at) => this.address(at))
      .sort();
  }

  kind(address: string): Kind {
    return this.quantities.kindOf(place(address));
  }

  unit(address: string): string {
    return this.quantities.shownUnitOf(place(address));
  }

  value(address: string): unknown {
    return this.hyper.hf.getCellValue(place(address));
  }

  commit(typed: string, at = 'Z99') {
    return this.quantities.commit(typed, place(at));
  }

  content(at: Position): Content {
    return this.contents.get(this.address(at)) ?? BLANK;
  }

  ast(at: Position) {
    return this.hyper.ast(at);
  }

  ownUnit(at: Position): string | undefined {
    return this.units[this.address(at)];
  }

  named(name: string) {
    const written = readReference(this.areas[Object.keys(this.areas).find((key) => key.toUpperCase() === name.toUpperCase()) ?? ''] ?? '');
    return written && { start: { sheet: 0, ...written.start }, end: { sheet: 0, ...written.end } };
  }

  *formulas(): Generator<Position> {
    for (const [address, content] of this.contents) if (content.kind === 'formula') yield place(address);
  }

  readers(at: Position): Iterable<Position> {
    const found: Position[] = [];
    const follow = (each: Parameters<typeof this.hyper.hf.getCellDependents>[0]): void => {
      for (const next of this.hyper.hf.getCellDependents(each)) {
        if ('start' in next || next.sheet < 0) follow(next);
        else found.push(next);
      }
    };
    follow(at);
    return found;
  }

  parse(formula: string, at: Position) {
    return this.hyper.parse(formula, at);
  }

  tokens(formula: string) {
    return this.hyper.tokens(formula);
  }

  text(ast: Parameters<Hyper['text']>[0], at: Position): string {
    return this.hyper.text(ast, at).slice(1);
  }

  address(at: Position): string {
    return `${columnText(at.col)}${at.row + 1}`;
  }

  heading(at: Position): string {
    return this.headings[this.address(at)] ?? this.address(at);
  }
}

export function place(address: string): Position {
  const written = readReference(address);
  if (!written) throw new Error(`no such address: ${address}`);
  return { sheet: 0, ...written.start };
}
