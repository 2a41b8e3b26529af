/**
 * The places over a bench at which a meter reads, along it and across: which tables have a cell for each. Nothing marks them, so that older books
 * have theirs too. They begin with what functions of readings take and pictures show beside it; what is worked out there leads on to what was written.
 */
import { placeIn, type Reference, readReference, tableNamed } from './address.ts';
import type { Book, Table } from './book.ts';
import { referencesIn } from './references.ts';

/** The cells of one table, from the first on. */
export interface GridPart {
  readonly table: Table;
  readonly row: number;
  readonly column: number;
  /** From cells in how many other tables it is worked out; 0: it is written down there. */
  readonly reads: number;
}

export interface MeterGrid {
  readonly along: number;
  readonly across: number;
  /** Those that read others come first. */
  readonly parts: readonly GridPart[];
}

/** The largest of a book: readings of a part of the bench may be reckoned with too. */
export function meterGrid(book: Book): MeterGrid | undefined {
  const taken = book.tables.flatMap((home) =>
    Object.values(home.cells).flatMap((line) =>
      Object.values(line).flatMap(({ content }) =>
        content.includes('READINGS.') ? [...content.matchAll(/READINGS\.[A-Z.]+\(([^()]*)\)/giu)].flatMap(([, text = '']) => areaOf(book, text, home)) : [],
      ),
    ),
  );
  const [first] = taken.sort((a, b) => b.along * b.across - a.along * a.across);
  if (!first) return undefined;
  const { along, across } = first;
  const shown = book.pages.flatMap(({ blocks }) =>
    blocks.flatMap((block) =>
      block.kind === 'picture' && block.picture === 'planned beside measured' ? Object.values(block.reads).flatMap((text) => areaOf(book, text)) : [],
    ),
  );
  const parts = new Map<Table, GridPart>();
  for (const { table, from, ...size } of [...taken, ...shown]) {
    if (size.along !== along || size.across !== across || parts.get(table)?.reads) continue;
    const read = new Map<Table, GridPart>();
    for (const { table: name, range, from: to } of referencesIn(placeIn(table, from.column, from.row)?.cell?.content ?? '')) {
      const other = name === undefined ? undefined : tableNamed(book, name);
      if (other && other !== table && !range && !to.rowFixed && !to.columnFixed) read.set(other, { table: other, row: to.row, column: to.column, reads: 0 });
    }
    for (const each of read.values()) if (!parts.has(each.table)) parts.set(each.table, each);
    parts.set(table, { table, row: from.row, column: from.column, reads: read.size });
  }
  return { along, across, parts: [...parts.values()].sort((a, b) => b.reads - a.reads) };
}

/** A range with several places each way. */
function areaOf(book: Book, text: string, home?: Table): { table: Table; from: Reference['from']; along: number; across: number }[] {
  const reference = readReference(text.trim());
  const table = reference?.table === undefined ? home : tableNamed(book, reference.table);
  if (!reference || !table) return [];
  const { from, to } = reference;
  const [along, across] = [to.column - from.column + 1, to.row - from.row + 1];
  return along > 1 && across > 1 ? [{ table, from, along, across }] : [];
}
