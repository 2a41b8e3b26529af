/** What functions take out of ranges of cells. A blank is never a zero. */
import { type Cells, isRefusal, type Refusal, refuse } from './define.ts';

/** The cells of a range row by row, with text and TRUE refused and blanks kept as null. */
function inOrder(name: string, argument: string, cells: Cells): (number | null)[] | Refusal {
  const found: (number | null)[] = [];
  for (const row of cells) {
    for (const cell of row) {
      if (cell !== null && typeof cell !== 'number') return refuse(`${name}: ${argument} holds “${String(cell).slice(0, 40)}”; numbers are needed.`);
      found.push(cell);
    }
  }
  return found;
}

/** The numbers of a range, blanks left out; a range with none is refused. */
export function numbers(name: string, argument: string, cells: Cells): number[] | Refusal {
  const all = inOrder(name, argument, cells);
  if (isRefusal(all)) return all;
  const found = all.filter((x) => x !== null);
  return found.length > 0 ? found : refuse(`${name}: ${argument} holds no number.`);
}

/** Two ranges of one length, cell by cell. A pair that is blank on both sides is left out; one that is half blank is refused. */
export function pairedNumbers(name: string, [nameA, a]: readonly [string, Cells], [nameB, b]: readonly [string, Cells]): [number, number][] | Refusal {
  const [left, right] = [inOrder(name, nameA, a), inOrder(name, nameB, b)];
  if (isRefusal(left)) return left;
  if (isRefusal(right)) return right;
  if (left.length !== right.length) return refuse(`${name}: ${nameA} has ${left.length} cells and ${nameB} ${right.length}; they must be as many.`);
  const pairs: [number, number][] = [];
  for (const [i, x] of left.entries()) {
    const y = right[i] ?? null;
    if (x === null && y === null) continue;
    if (x === null || y === null) return refuse(`${name}: ${x === null ? nameA : nameB} is blank in cell ${i + 1}, where the other is not.`);
    pairs.push([x, y]);
  }
  return pairs.length > 0 ? pairs : refuse(`${name}: ${nameA} and ${nameB} hold no numbers.`);
}
