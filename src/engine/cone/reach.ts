/** Which cells vary between the givens and the results, each after all that it reads. */
import { keyOf, type Position } from '../addresses.ts';
import { reads } from '../relations.ts';
import type { Workbook } from '../workbook.ts';

export interface Reached {
  readonly at: Position;
  /** Places in the list of the varying cells that it reads directly; none for a given. */
  readonly reads: readonly number[];
}

interface Open {
  readonly at: Position;
  readonly waiting: Position[];
  readonly reads: Set<number>;
}

const STILL = -1;

/** Without recursion: chains may be as long as a table. A cell on a circle is the same mistake whatever is given, and does not vary. */
export function reach(workbook: Workbook, givens: readonly Position[], results: readonly Position[]): readonly Reached[] {
  const list: Reached[] = givens.map((at) => ({ at, reads: [] }));
  /** Where a cell stands in the list; −1 where it does not vary. */
  const known = new Map<number, number>(givens.map((at, i) => [keyOf(at), i]));
  for (const result of results) {
    const stack: Open[] = [];
    const settled = (at: Position): number | undefined => {
      const found = known.get(keyOf(at));
      if (found !== undefined) return found;
      if (workbook.content(at).kind === 'formula' && !workbook.feeding.fault(at) && !workbook.hyper.onCircle(at)) return undefined;
      known.set(keyOf(at), STILL);
      return STILL;
    };
    if (settled(result) !== undefined) continue;
    stack.push(opened(workbook, result));
    for (let top = stack.at(-1); top; top = stack.at(-1)) {
      const next = top.waiting.at(-1);
      if (!next) {
        stack.pop();
        known.set(keyOf(top.at), top.reads.size > 0 ? list.push({ at: top.at, reads: [...top.reads] }) - 1 : STILL);
        continue;
      }
      const found = settled(next);
      if (found === undefined) {
        stack.push(opened(workbook, next));
        continue;
      }
      if (found !== STILL) top.reads.add(found);
      top.waiting.pop();
    }
  }
  return list;
}

function opened(workbook: Workbook, at: Position): Open {
  const waiting: Position[] = [];
  for (const { start, end } of reads(workbook, at)) {
    for (let row = start.row; row <= end.row; row++) {
      for (let col = start.col; col <= end.col; col++) waiting.push({ sheet: start.sheet, row, col });
    }
  }
  return { at, waiting, reads: new Set() };
}
