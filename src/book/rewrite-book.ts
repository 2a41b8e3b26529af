/** The edits that keep every reference in a book pointing at what it pointed at: in formulas, names, prose, pictures and lists of choices. */
import type { Block, Book, Range, Table } from './book.ts';
import type { Edit } from './change.ts';
import { isFormula } from './content.ts';
import { LOST, type Rewrite, type RewriteName, rewriteFormula, rewriteProse, rewriteTarget } from './references.ts';
import { asideAnew } from './set-aside.ts';

/** What points at nothing from now on. */
export interface Lost {
  /** How many formulas lost a cell that they read, by its address or by its name. */
  readonly lost: number;
  /** How many texts and pictures did. */
  readonly told: number;
  /** The names whose cells go. */
  readonly names: readonly string[];
}

export interface Rewritten extends Lost {
  readonly edits: readonly Edit[];
}

/**
 * `rewriteIn` gives the rewriting for texts that stand in a table, or (undefined) in none. Cells for which `skip` holds are about to go and are
 * left alone. Where a name loses its cell, the name goes: its formulas then say that there is no such name.
 */
export function rewriteBook(
  book: Book,
  rewriteIn: (table: Table | undefined) => Rewrite,
  skip: (table: Table, row: string, column: string) => boolean = () => false,
  rewriteName?: RewriteName,
): Rewritten {
  const edits: Edit[] = [];
  const outside = rewriteIn(undefined);
  const targets = Object.entries(book.names).map(([name, target]) => ({ name, target, made: rewriteTarget(target, outside) }));
  const names = targets.filter(({ made }) => made === LOST).map(({ name }) => name);
  const losesName = nameReader(names);
  let lost = 0;
  let told = 0;
  for (const table of book.tables) {
    const rewrite = rewriteIn(table);
    for (const [row, line] of Object.entries(table.cells)) {
      for (const [column, cell] of Object.entries(line)) {
        if (skip(table, row, column)) continue;
        const content = isFormula(cell.content) ? rewriteFormula(cell.content, rewrite, rewriteName) : cell.content;
        const range = cell.range && rewriteRange(cell.range, rewrite);
        if (count(content, LOST) > count(cell.content, LOST) || (isFormula(content) && losesName((see) => rewriteFormula(content, () => undefined, see))))
          lost++;
        const told = asideAnew(cell, (formula) => rewriteFormula(formula, rewrite, rewriteName));
        if (content === cell.content && range === cell.range && told === cell) continue;
        // What was typed named the cells by their old places.
        const { typed: _, ...kept } = told;
        edits.push({
          at: 'cell',
          table: table.id,
          row,
          column,
          before: cell,
          after: { ...(content === cell.content ? told : kept), content, ...(range ? { range } : {}) },
        });
      }
    }
    edits.push(...lineEdits(table, 'row', table.rows, rewrite), ...lineEdits(table, 'column', table.columns, rewrite));
  }
  for (const { name, target, made } of targets) {
    if (made !== target) edits.push({ at: 'name', name, before: target, after: made === LOST ? null : made });
  }
  for (const page of book.pages) {
    for (const [index, block] of page.blocks.entries()) {
      const made = rewriteBlock(block, outside, rewriteName);
      if (lostIn(made) > lostIn(block) || losesName((see) => rewriteBlock(made, () => undefined, see))) told++;
      if (made !== block) edits.push({ at: 'block', page: page.id, index, before: block, after: made });
    }
  }
  return { edits, lost, told, names };
}

/** Whether what is looked through, name by name, says one of these. */
function nameReader(names: readonly string[]): (look: (see: RewriteName) => unknown) => boolean {
  const going = new Set(names.map((name) => name.toLowerCase()));
  return (look) => {
    let found = false;
    if (going.size > 0)
      look((name) => {
        found ||= going.has(name.toLowerCase());
        return undefined;
      });
    return found;
  };
}

const lostIn = (block: Block): number =>
  count(block.kind === 'prose' ? block.text : block.kind === 'picture' ? Object.values(block.reads).join(' ') : '', LOST);

const count = (text: string, part: string): number => text.split(part).length - 1;

function rewriteRange(range: Range, rewrite: Rewrite): Range {
  if (range.from === undefined) return range;
  const from = rewriteTarget(range.from, rewrite);
  return from === range.from ? range : { ...range, from };
}

function lineEdits<T extends { readonly id: string; readonly range?: Range }>(
  table: Table,
  at: 'row' | 'column',
  lines: readonly T[],
  rewrite: Rewrite,
): Edit[] {
  return lines.flatMap((line, index) => {
    const range = line.range && rewriteRange(line.range, rewrite);
    return range === line.range ? [] : [{ at, table: table.id, index, before: line, after: { ...line, range } } as Edit];
  });
}

function rewriteBlock(block: Block, rewrite: Rewrite, rewriteName?: RewriteName): Block {
  if (block.kind === 'prose') {
    const text = rewriteProse(block.text, rewrite, rewriteName);
    return text === block.text ? block : { ...block, text };
  }
  if (block.kind !== 'picture') return block;
  const entries = Object.entries(block.reads);
  const made = entries.map(([key, target]) => [key, rewriteTarget(target, rewrite, rewriteName)] as const);
  return made.every(([, target], i) => target === entries[i]?.[1]) ? block : { ...block, reads: Object.fromEntries(made) };
}
