/** A formula in its cell, before anything is inferred of it: its parts in words, and how a part of its text is written anew. */

import { cellText, columnText } from '../../book/address.ts';
import type { Position, Span } from '../addresses.ts';
import { toEditable } from '../formula-text.ts';
import type { Ast } from '../hyper.ts';
import type { Mend } from '../types.ts';
import type { QuantityHost } from './host.ts';
import { type Fail, isQuantity, type Kind, plainNumber, samePosition } from './kind.ts';
import { spliced, stretchesOf } from './stretches.ts';
import { isWritten } from './written.ts';

export abstract class FormulaInCell {
  readonly host: QuantityHost;
  readonly at: Position;
  /** Canonical text of the formula. */
  readonly formula: string;
  readonly root: Ast;

  constructor(host: QuantityHost, at: Position, formula: string, root: Ast) {
    this.host = host;
    this.at = at;
    this.formula = formula;
    this.root = root;
  }

  /** The unit in which a part of this formula would be shown. */
  abstract shown(ast: Ast, kind: Kind): string;

  /** The cells that a reference, range or name stands for. */
  span(ast: Ast): Span | undefined {
    if (ast.type === 'PARENTHESES') return this.span(ast.expression);
    if (ast.type === 'NAMED_EXPRESSION') return this.host.named(ast.expressionName);
    if (ast.type === 'CELL_REFERENCE') {
      const at = ast.reference.toSimpleCellAddress(this.at);
      return { start: at, end: at };
    }
    if (ast.type !== 'CELL_RANGE') return undefined;
    const [a, b] = [ast.start.toSimpleCellAddress(this.at), ast.end.toSimpleCellAddress(this.at)];
    return {
      start: { sheet: a.sheet, row: Math.min(a.row, b.row), col: Math.min(a.col, b.col) },
      end: { sheet: a.sheet, row: Math.max(a.row, b.row), col: Math.max(a.col, b.col) },
    };
  }

  protected isRange(ast: Ast): boolean {
    const span = this.span(ast);
    return span !== undefined && !samePosition(span.start, span.end);
  }

  fail(message: string, mend?: Mend): Fail {
    return { is: 'fail', message, at: this.at, ...(mend && { mend }) };
  }

  /** A part in words: a cell by heading and address, anything else by its text. */
  described(ast: Ast): string {
    if (ast.type === 'PARENTHESES') return this.described(ast.expression);
    const span = this.span(ast);
    if (span && samePosition(span.start, span.end)) return this.cellWords(span.start);
    if (span && ast.type === 'NAMED_EXPRESSION') return `${ast.expressionName}, ${this.spanText(span)}`;
    if (span) return this.spanText(span);
    return toEditable(`=${this.host.text(ast, this.at).trim()}`, this.host.currency).slice(1);
  }

  cellWords(at: Position): string {
    const address = at.sheet === this.at.sheet ? cellText(at.col, at.row) : this.host.address(at);
    const heading = this.host.heading(at);
    return heading === '' || heading === this.host.address(at) ? address : `${heading}, ${address}`;
  }

  private spanText({ start, end }: Span): string {
    const first = start.sheet === this.at.sheet ? cellText(start.col, start.row) : this.host.address(start);
    return `${first}:${columnText(end.col)}${end.row + 1}`;
  }

  /** What would mend a part that is of one kind where another is needed. */
  mendFor(ast: Ast, kind: Kind, want: Kind, unitText: string): Mend | undefined {
    if (kind === plainNumber && isQuantity(want) && unitText !== '') {
      const span = this.span(ast);
      if (span && samePosition(span.start, span.end)) {
        const address = this.host.address(span.start);
        const content = this.host.content(span.start);
        if (content.kind === 'number')
          return { label: `give ${address} the unit ${unitText}`, cell: address, content: `${content.given} ${unitText}`, unit: unitText };
        return undefined;
      }
      if (isWritten(ast) && ast.type !== 'ARRAY') return this.rewritten(ast, (written) => `UNIT(${written.replaceAll(/[()\s+]/g, '')},"${unitText}")`);
      return this.isRange(ast) ? undefined : this.wrapped(ast, 'UNIT', unitText);
    }
    if (isQuantity(kind) && want === plainNumber) return this.wrapped(ast, 'NUMBER.IN', this.shown(ast, kind));
    return undefined;
  }

  /** A call put around a part: `NUMBER.IN(C5,"in")`. */
  protected wrapped(ast: Ast, name: string, unitText: string): Mend | undefined {
    if (this.isRange(ast)) return undefined;
    return this.rewritten(ast, (part) => `${name}(${part},"${unitText}")`);
  }

  /** The whole formula with one part of its text written anew. */
  rewritten(ast: Ast, write: (part: string) => string): Mend | undefined {
    const stretch = stretchesOf(this.root, this.host.tokens(this.formula)).get(ast);
    if (!stretch) return undefined;
    const piece = write(this.formula.slice(stretch.start, stretch.end));
    const content = spliced(this.formula, [{ stretch, text: piece }]);
    return { label: `write ${toEditable(`=${piece}`, this.host.currency).slice(1)}`, cell: this.host.address(this.at), content };
  }
}
