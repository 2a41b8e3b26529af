/**
 * The kind and the shown unit of every cell, kept up to date, and what a typed formula becomes when it is committed.
 *
 * The calculator knows nothing of it: where the kind of a cell is a failure, the engine gives that in place of the
 * calculator's value. Kinds are worked out operand first, each once; a change of a value stops at the cell, for its
 * kind is what it was.
 */

import { usualUnit } from '../../../functions/measures.ts';
import { otherCurrency, unitIn } from '../../../functions/quantity-text.ts';
import { aQuantity, over, PLAIN, quantityName } from '../../../functions/units.ts';
import type { Position, Span } from '../addresses.ts';
import { CellMap } from '../cell-map.ts';
import { FORMULA_BOUNDS } from '../formula-bounds.ts';
import { type Content, toCanonical } from '../formula-text.ts';
import type { Ast } from '../hyper.ts';
import { type Committed, committed } from './commit.ts';
import type { CellKinds } from './formula-parts.ts';
import type { QuantityHost } from './host.ts';
import { Inference } from './infer.ts';
import { any, type Fail, isQuantity, type Kind, kindOfText, kindOfUnit, kindWords, type NumberKind, plainNumber, sameKind, yesOrNo } from './kind.ts';
import { hint } from './shown.ts';
import { joinSpan } from './span.ts';

export type { Committed } from './commit.ts';
export type { QuantityHost } from './host.ts';
export { type Fail, type Kind, kindOfText } from './kind.ts';

/** What a formula that stands in no cell gives. */
export interface Inferred {
  readonly kind: Kind;
  /** The unit in which it is shown. */
  readonly unit: string;
}

const keyOf = (at: Position): number => (at.sheet * FORMULA_BOUNDS.rows + at.row) * FORMULA_BOUNDS.columns + at.col;
const CELLS_OF_A_TABLE = FORMULA_BOUNDS.rows * FORMULA_BOUNDS.columns;
const spanKey = ({ start, end }: Span): number => keyOf(start) * CELLS_OF_A_TABLE + (end.row * FORMULA_BOUNDS.columns + end.col);

export class Quantities implements CellKinds {
  private readonly host: QuantityHost;
  private readonly kinds = new CellMap<Kind>();
  private readonly spans = new Map<number, Kind>();
  private readonly units = new CellMap<string>();
  /** Cells whose kind is being worked out: one that is met again lies on a circle, which is the calculator's to report. */
  private readonly open = new Set<number>();

  constructor(host: QuantityHost) {
    this.host = host;
  }

  /** Forgets everything and works out the kind of every formula: after loading, and after rows, columns, tables or names move. */
  rebuild(): void {
    this.kinds.clear();
    this.spans.clear();
    this.units.clear();
    for (const at of this.host.formulas()) this.workOut(at);
  }

  /** The kind of a cell. A failure takes the place of whatever the calculator has there. */
  kindOf(at: Position): Kind {
    const known = this.kinds.get(at);
    if (known) return known;
    if (this.open.has(keyOf(at))) return any;
    this.workOut(at);
    return this.kinds.get(at) ?? any;
  }

  /** The joined kind of the cells of a range; texts count only where there is nothing else. */
  kindOfSpan(span: Span): Kind {
    const key = spanKey(span);
    const known = this.spans.get(key);
    if (known) return known;
    const { start, end } = span;
    // A range that grows row by row is the one before and a last row.
    const before = end.row > start.row ? this.spans.get(spanKey({ start, end: { ...end, row: end.row - 1 } })) : undefined;
    const grown = before && joinSpan(before, { start: { ...start, row: end.row }, end }, (at) => this.kindOf(at));
    // Where a range turns out mixed, a cell of each kind is looked for from its start.
    const kind = grown && (grown.is !== 'mixed' || grown === before) ? grown : joinSpan(undefined, span, (at) => this.kindOf(at));
    if (this.open.size === 0 || this.spanKnown(span)) this.spans.set(key, kind);
    return kind;
  }

  /** A range with a cell that is still open is not final yet. */
  private spanKnown({ start, end }: Span): boolean {
    for (const key of this.open) {
      const line = Math.floor(key / FORMULA_BOUNDS.columns);
      const [sheet, row, col] = [Math.floor(line / FORMULA_BOUNDS.rows), line % FORMULA_BOUNDS.rows, key % FORMULA_BOUNDS.columns];
      if (sheet === start.sheet && row >= start.row && row <= end.row && col >= start.col && col <= end.col) return false;
    }
    return true;
  }

  /** Works out a cell's kind after those of all cells it reads, without recursion: chains may be as long as a table. */
  private workOut(first: Position): void {
    const stack: Position[] = [first];
    for (let at = stack.at(-1); at; at = stack.at(-1)) {
      if (this.kinds.has(at)) {
        stack.pop();
        continue;
      }
      const content = this.host.content(at);
      const ast = content.kind === 'formula' ? this.host.ast(at) : undefined;
      if (content.kind !== 'formula' || !ast) {
        this.kinds.set(at, content.kind === 'formula' ? any : this.kindOfContent(at, content));
        stack.pop();
        continue;
      }
      const key = keyOf(at);
      if (!this.open.has(key)) {
        this.open.add(key);
        const depth = stack.length;
        this.pushUnknown(ast, at, stack);
        if (stack.length > depth) continue;
      }
      this.kinds.set(at, this.claimed(at, new Inference(this.host, this, at, content.formula, ast)));
      this.open.delete(key);
      stack.pop();
    }
  }

  private pushUnknown(ast: Ast, at: Position, stack: Position[]): void {
    const push = (position: Position): void => {
      if (!this.kinds.has(position) && !this.open.has(keyOf(position)) && this.host.content(position).kind === 'formula') stack.push(position);
    };
    const walk = (part: Ast): void => {
      switch (part.type) {
        case 'CELL_REFERENCE':
          push(part.reference.toSimpleCellAddress(at));
          break;
        case 'CELL_RANGE':
          this.pushSpan({ start: part.start.toSimpleCellAddress(at), end: part.end.toSimpleCellAddress(at) }, push);
          break;
        case 'NAMED_EXPRESSION': {
          const span = this.host.named(part.expressionName);
          if (span) this.pushSpan(span, push);
          break;
        }
        case 'FUNCTION_CALL':
          part.args.forEach(walk);
          break;
        case 'ARRAY':
          part.args.flat().forEach(walk);
          break;
        case 'PARENTHESES':
          walk(part.expression);
          break;
        case 'MINUS_UNARY_OP':
        case 'PLUS_UNARY_OP':
        case 'PERCENT_OP':
          walk(part.value);
          break;
        default:
          if ('left' in part) {
            walk(part.left);
            walk(part.right);
          }
      }
    };
    walk(ast);
  }

  private pushSpan(span: Span, push: (position: Position) => void): void {
    if (this.spans.has(spanKey(span))) return;
    const { start, end } = span;
    const grown = end.row > start.row && this.spans.has(spanKey({ start, end: { ...end, row: end.row - 1 } }));
    for (let row = grown ? end.row : start.row; row <= end.row; row++) {
      for (let col = start.col; col <= end.col; col++) push({ sheet: start.sheet, row, col });
    }
  }

  private ownKind(at: Position): NumberKind | undefined {
    const said = this.host.ownUnit(at);
    const found = said === undefined ? undefined : unitIn(said, this.host.currency);
    return found && kindOfUnit(found);
  }

  private ownSymbol(at: Position): string | undefined {
    const said = this.host.ownUnit(at);
    return said === undefined ? undefined : unitIn(said, this.host.currency)?.symbol;
  }

  /** The kind of a given. */
  private kindOfContent(at: Position, content: Content): Kind {
    const own = this.ownKind(at);
    if (content.kind === 'text') return this.foreignMoney(at, content.text) ?? kindOfText(content.text);
    if (content.kind === 'yes or no') return yesOrNo;
    if (content.kind !== 'number') return own ?? any;
    if (content.given === 0 && content.unit === '') return own ?? any;
    const found = unitIn(content.unit, this.host.currency);
    const kind = found ? kindOfUnit(found) : plainNumber;
    if (!own || own === kind) return kind;
    return this.contradiction(at, kind, own, content.given);
  }

  /** An amount in another currency is kept as text, which a sum would pass over in silence. */
  private foreignMoney(at: Position, text: string): Fail | undefined {
    const other = otherCurrency(text, this.host.currency);
    if (other === undefined) return undefined;
    const message = `${this.words(at)} is ${text}, and this book is in ${this.host.currency}: ${other} can’t be converted, as a book has no rate of exchange.`;
    return { is: 'fail', at, message };
  }

  private contradiction(at: Position, kind: NumberKind, own: NumberKind, given: number): Fail {
    const symbol = this.ownSymbol(at) ?? '';
    const address = this.host.address(at);
    const message = `${this.words(at)} is set to ${kindWords(own)}${symbol && ` in ${symbol}`} and holds ${kindWords(kind)}.`;
    if (kind === plainNumber && isQuantity(own)) {
      return { is: 'fail', at, message, mend: { label: `give ${address} the unit ${symbol}`, cell: address, content: `${given} ${symbol}` } };
    }
    return { is: 'fail', at, message, mend: this.viewMend(at, kind) };
  }

  private viewMend(at: Position, kind: NumberKind): NonNullable<Fail['mend']> {
    const unitText = usualUnit(kind.dimension, kind.reading, this.host) || '1';
    const address = this.host.address(at);
    return { label: unitText === '1' ? `show ${address} as a plain number` : `show ${address} in ${unitText}`, cell: address, unit: unitText };
  }

  private words(at: Position): string {
    const [heading, address] = [this.host.heading(at), this.host.address(at)];
    return heading === '' || heading === address ? address : `${heading} (${address})`;
  }

  /** The kind of a formula, held against the unit that is set on its cell. */
  private claimed(at: Position, inference: Inference): Kind {
    const kind = inference.result();
    if (kind.is === 'mixed') return inference.mixed('This formula', inference.root, kind);
    const own = this.ownKind(at);
    if (!own || kind === own || kind.is === 'fail' || kind.is === 'text' || kind === yesOrNo) return kind;
    if (kind === any) return own;
    if (kind.is !== 'number') return kind;
    const symbol = this.ownSymbol(at) ?? '';
    const gives = usualUnit(kind.dimension, kind.reading, this.host);
    const message = `${this.words(at)} is set to ${kindWords(own)}${symbol && ` in ${symbol}`}, and its formula gives ${kindWords(kind)}${gives && ` in ${gives}`}.${this.missing(own, kind)}`;
    // What other cells read means what its unit says: there the formula is to be mended, not the meaning.
    const [read] = this.host.readers(at);
    return { is: 'fail', at, message, ...(read === undefined && { mend: this.viewMend(at, kind) }) };
  }

  /** "A price of energy such as EUR/kWh is missing." */
  private missing(own: NumberKind, kind: NumberKind): string {
    if (own.reading || kind.reading) return '';
    const named = (of: typeof PLAIN): string | undefined => {
      if (of === PLAIN || quantityName(of).startsWith('quantity in')) return undefined;
      const words = aQuantity(of);
      return `${words} such as 1 ${usualUnit(of, false, this.host)}`;
    };
    const factor = named(over(own.dimension, kind.dimension));
    if (factor) return ` To be multiplied by ${factor}, perhaps?`;
    const divisor = named(over(kind.dimension, own.dimension));
    return divisor ? ` To be divided by ${divisor}, perhaps?` : '';
  }

  /** The unit in which a cell is shown; an empty text for plain numbers and for what is no number. */
  shownUnitOf(first: Position): string {
    const path: Position[] = [];
    let unitText: string | undefined;
    for (let at = first; unitText === undefined; ) {
      unitText = this.units.get(at) ?? this.ownSymbol(at);
      if (unitText !== undefined) break;
      path.push(at);
      const next = path.length > FORMULA_BOUNDS.formulas ? '' : this.lender(at);
      if (typeof next === 'string') unitText = next;
      else at = next;
    }
    for (const at of path) this.units.set(at, unitText);
    return unitText;
  }

  /** The unit of a cell that has none set, or the cell that it takes it from. */
  private lender(at: Position): string | Position {
    const content = this.host.content(at);
    if (content.kind === 'number') return content.unit;
    if (content.kind !== 'formula') return '';
    const kind = this.kindOf(at);
    const ast = this.host.ast(at);
    if (kind.is !== 'number' || !ast) return '';
    const inference = new Inference(this.host, this, at, content.formula, ast);
    return hint(inference, ast, kind) ?? usualUnit(kind.dimension, kind.reading, this.host);
  }

  /**
   * Takes note that cells hold something else or have another unit set; gives the cells whose kind or shown unit is not what it
   * was. For moved rows and columns, and for names, use `rebuild`.
   */
  changed(positions: Iterable<Position>): readonly Position[] {
    const edited = [...positions];
    const differ = new Map<number, Position>();
    const before = this.forget(edited);
    const units = new Map<number, string>();
    for (const at of edited) this.forgetUnit(at, units);
    const moved = edited.filter((at) => !sameKind(before.get(keyOf(at)) ?? any, this.kindOf(at)));
    if (moved.length > 0) {
      this.spans.clear();
      const behind = this.readersOf(moved, () => true);
      for (const [key, kind] of this.forget([...behind.values()])) if (!before.has(key)) before.set(key, kind);
      for (const at of behind.values()) this.forgetUnit(at, units);
      for (const at of [...edited, ...behind.values()]) if (!sameKind(before.get(keyOf(at)) ?? any, this.kindOf(at))) differ.set(keyOf(at), at);
    }
    const known = [...edited, ...differ.values()];
    const restyled = known.filter((at) => units.has(keyOf(at)) && units.get(keyOf(at)) !== this.shownUnitOf(at));
    const followers = this.readersOf(restyled, (at) => this.ownSymbol(at) === undefined);
    for (const at of followers.values()) this.forgetUnit(at, units);
    for (const at of [...known, ...followers.values()]) {
      const key = keyOf(at);
      if (units.has(key) && units.get(key) !== this.shownUnitOf(at)) differ.set(key, at);
    }
    return [...differ.values()];
  }

  private forget(positions: readonly Position[]): Map<number, Kind> {
    const before = new Map<number, Kind>();
    for (const at of positions) {
      const key = keyOf(at);
      const kind = this.kinds.get(at);
      if (kind) before.set(key, kind);
      this.kinds.delete(at);
    }
    return before;
  }

  private forgetUnit(at: Position, into: Map<number, string>): void {
    const key = keyOf(at);
    // A cell with a unit set is not in the map: what it was shown in is not known here, so it counts as changed.
    if (!into.has(key)) into.set(key, this.units.get(at) ?? '\u0000');
    this.units.delete(at);
  }

  /** All that follows from cells, through those that `passes` lets through. */
  private readersOf(positions: readonly Position[], passes: (at: Position) => boolean): ReadonlyMap<number, Position> {
    const found = new Map<number, Position>();
    const queue = [...positions];
    for (let at = queue.pop(); at; at = queue.pop()) {
      for (const reader of this.host.readers(at)) {
        const key = keyOf(reader);
        if (found.has(key) || !passes(reader)) continue;
        found.set(key, reader);
        queue.push(reader);
      }
    }
    return found;
  }

  /** The kind and shown unit of a canonical formula as if it stood in `at`. Written numbers have their units in it already. */
  inferFormula(formula: string, at: Position): Inferred {
    const { ast } = this.host.parse(formula, at);
    const inference = new Inference(this.host, this, at, formula, ast);
    const kind = inference.result();
    return { kind, unit: inference.shown(ast, kind) };
  }

  /** The kind of a canonical formula as if it stood in `at`, held against the unit that is set there. */
  kindIn(formula: string, at: Position): Kind {
    return this.claimed(at, new Inference(this.host, this, at, formula, this.host.parse(formula, at).ast));
  }

  /** What a typed formula becomes in a cell: canonical text, with the unit that is meant written to every bare number. */
  commit(typed: string, at: Position): Committed {
    const canonical = toCanonical(typed, this.host.currency);
    return canonical.ok ? this.commitCanonical(canonical.content, at) : { refused: canonical.message };
  }

  /** The same for a formula whose spelling was put right already. */
  commitCanonical(canonical: string, at: Position): Committed {
    return committed(this.host, this, canonical, at);
  }
}
