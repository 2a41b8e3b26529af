/** What references mean: the identity of the cell that each of them names, wherever it stands. */
import { cellAt, readReference, referenceText, textOf } from '../../src/book/address.ts';
import type { Book, Table } from '../../src/book/book.ts';
import { isFormula } from '../../src/book/content.ts';
import { referencesIn } from '../../src/book/references.ts';

/** Every single-cell reference of every formula, name, chip and picture, by where it stands, with the identity of the cell it means. */
export function meanings(made: Book): Map<string, (string | undefined)[]> {
  const found = new Map<string, (string | undefined)[]>();
  const identity = (text: string, home?: Table): string | undefined => {
    const reference = readReference(text);
    if (!reference || reference.range) return undefined;
    const at = cellAt(made, textOf(reference.table ?? home?.name ?? '?', reference.from.column, reference.from.row));
    return at && `${at.table.id}/${at.row.id}/${at.column.id}`;
  };
  for (const table of made.tables) {
    for (const [row, line] of Object.entries(table.cells)) {
      for (const [column, cell] of Object.entries(line)) {
        if (!isFormula(cell.content)) continue;
        found.set(
          `${table.id}/${row}/${column}`,
          referencesIn(cell.content)
            .filter((reference) => !reference.range)
            .map((reference) => identity(referenceText(reference), table)),
        );
      }
    }
  }
  for (const [name, target] of Object.entries(made.names)) found.set(`name ${name}`, [identity(target)]);
  for (const page of made.pages) {
    for (const block of page.blocks) {
      if (block.kind === 'prose')
        found.set(
          block.id,
          [...block.text.matchAll(/\{\{\s*(.*?)\s*\}\}/gu)].map((match) => identity(match[1] ?? '')),
        );
      if (block.kind === 'picture')
        found.set(
          block.id,
          Object.values(block.reads).map((target) => identity(target)),
        );
    }
  }
  return found;
}

/** A cell's identity as `meanings` says it, where the book has it. */
export function isThere(book: Book, id: string): boolean {
  const [table, row, column] = id.split('/');
  const found = book.tables.find((t) => t.id === table);
  return (found?.rows.some((r) => r.id === row) && found.columns.some((c) => c.id === column)) ?? false;
}
