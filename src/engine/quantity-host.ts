/** What the quantities see of a workbook. */
import type { Measures } from '../../functions/measures.ts';
import type { Position, Span } from './addresses.ts';
import type { Ast, Hyper } from './hyper.ts';
import type { QuantityHost } from './quantities/index.ts';
import { type Related, readers } from './relations.ts';
import type { Sheets } from './sheets.ts';

/** What is asked of a workbook for them. */
interface Held extends Related {
  readonly currency: string;
  readonly measures: Measures;
  readonly life: { readonly beat?: () => void };
  readonly hyper: Pick<Hyper, 'hf' | 'parse' | 'tokens' | 'text'>;
  readonly sheets: Pick<Sheets, 'address' | 'heading'>;
  formulaIn(at: Position): Ast | undefined;
  unitSaid(at: Position): string | undefined;
  named(name: string): Span | undefined;
  formulasAll(): Iterable<Position>;
}

export function hostOf(book: Held): QuantityHost {
  return {
    get currency() {
      return book.currency;
    },
    get measures() {
      return book.measures;
    },
    content: (at) => book.content(at),
    ast: (at) => {
      book.life.beat?.();
      return book.formulaIn(at);
    },
    ownUnit: (at) => book.unitSaid(at),
    named: (name) => book.named(name),
    formulas: () => book.formulasAll(),
    readers: (at) => readers(book, at),
    parse: (formula, at) => book.hyper.parse(formula, at),
    tokens: (formula) => book.hyper.tokens(formula),
    text: (ast, at) => book.hyper.text(ast, at).slice(1),
    address: (at) => book.sheets.address(at),
    heading: (at) => book.sheets.heading(at),
  };
}
