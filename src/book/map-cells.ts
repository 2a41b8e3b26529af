/** Goes over every unit and content in a book: cells, rows, columns and allowed ranges. */
import type { Book, Cell, Range } from './book.ts';
import type { Edit } from './change.ts';
import { withoutBareTyped } from './content.ts';

interface Said {
  readonly unit?: string;
  readonly range?: Range;
}

/**
 * `viewOnly`: shown units change, allowed ranges keep the unit they were written in. `mapRange`: an allowed range, before its unit is mapped, with the unit
 * in which its limits are.
 */
export function mapCells(
  book: Book,
  mapUnit: (unit: string) => string,
  mapContent: (content: string) => string,
  viewOnly = false,
  mapRange: (range: Range, unit: string | undefined) => Range = (range) => range,
): readonly Edit[] {
  const mapped = <T extends Said>(before: T, shown: string | undefined): T =>
    mappedSaid(before, mapUnit, (range) => mappedRange(mapRange(range, range.unit ?? shown), shown, mapUnit, viewOnly));
  const edits: Edit[] = [];
  for (const table of book.tables) {
    const lines = [
      ['row', table.rows],
      ['column', table.columns],
    ] as const;
    for (const [at, list] of lines) {
      for (const [index, before] of list.entries()) {
        const after = mapped(before, before.unit);
        if (after !== before) edits.push({ at, table: table.id, index, before, after } as Edit);
      }
    }
    for (const [r, row] of table.rows.entries()) {
      for (const column of table.columns) {
        const before = table.cells[row.id]?.[column.id];
        if (!before) continue;
        const shown = before.unit ?? table.rows[r]?.unit ?? column.unit;
        const content = mapContent(before.content);
        const view = viewOnly && shown !== undefined && mapUnit(shown) !== shown ? withoutBareTyped(before) : before;
        const said = mapped<Cell>(view, shown);
        const after = content === before.content ? said : withContent(said, content);
        if (after !== before) edits.push({ at: 'cell', table: table.id, row: row.id, column: column.id, before, after });
      }
    }
  }
  return edits;
}

function withContent({ typed: _, ...cell }: Cell, content: string): Cell {
  return { ...cell, content };
}

function mappedSaid<T extends Said>(before: T, mapUnit: (unit: string) => string, inRange: (range: Range) => Range): T {
  const unit = before.unit === undefined ? undefined : mapUnit(before.unit);
  const range = before.range && inRange(before.range);
  if (unit === before.unit && range === before.range) return before;
  return { ...before, ...(unit === undefined ? {} : { unit }), ...(range ? { range } : {}) };
}

/** `shown`: the unit in which limits are that don't say their own. */
function mappedRange(range: Range, shown: string | undefined, mapUnit: (unit: string) => string, viewOnly: boolean): Range {
  if (viewOnly) {
    const limits = range.low !== undefined || range.high !== undefined;
    return limits && range.unit === undefined && shown !== undefined && mapUnit(shown) !== shown ? { ...range, unit: shown } : range;
  }
  if (range.unit === undefined) return range;
  const unit = mapUnit(range.unit);
  return unit === range.unit ? range : { ...range, unit };
}
