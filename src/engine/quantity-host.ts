/** What the quantities see of a workbook. */
import type { QuantityHost } from './quantities/host.ts';
import { readers } from './relations.ts';
import type { Workbook } from './workbook.ts';

export function hostOf(book: Workbook): QuantityHost {
  return {
    get currency() {
      return book.currency;
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
    address: (at) => book.grid.address(at),
    heading: (at) => book.grid.heading(at),
  };
}
