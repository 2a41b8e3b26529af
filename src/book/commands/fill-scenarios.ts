/** Puts the formula of one scenario into all the others, each reading its own column. */
import { type At, cellAt, placeIn } from '../address.ts';
import { carriedCell } from '../area.ts';
import type { Book } from '../book.ts';
import { isFormula } from '../content.ts';
import { sameAs } from '../ditto.ts';
import { fill, type Piece } from '../fill.ts';
import { rowHeading } from '../look-up.ts';
import { rewriteFormula } from '../references.ts';
import { type Answer, refused } from '../refused.ts';
import { movedOver, tablesWithScenarios } from './add-scenario.ts';

/** The cells of the other scenarios that have another content than its formula, moved over. */
function lackingIt(book: Book, at: At): readonly Piece[] {
  const { table, cell, columnIndex } = at;
  if (table.form !== 'scenarios' || !cell || !isFormula(cell.content) || sameAs(at)) return [];
  const tables = tablesWithScenarios(book, table);
  const { typed: _, note: __, ...kept } = carriedCell(at) ?? cell;
  return table.columns.flatMap((_column, c) => {
    const other = placeIn(table, c, at.rowIndex);
    const content = rewriteFormula(cell.content, movedOver(tables, table, columnIndex, c));
    return !other || c === columnIndex || other.cell?.content === content ? [] : [{ at: other, cell: { ...kept, content } }];
  });
}

export function fillScenarios(book: Book, { address }: { readonly address: string }): Answer {
  const at = cellAt(book, address);
  const pieces = at ? lackingIt(book, at) : [];
  if (!at || pieces.length === 0) return refused('There is no formula here that another scenario lacks.');
  return fill(book, `${rowHeading(at)}: the same formula in every scenario`, pieces);
}
