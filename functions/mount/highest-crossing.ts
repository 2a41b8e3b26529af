/** Where something that falls with height reaches a wanted value: the highest such height, found by looking down from the top. */
import { topOfHump } from '../numeric/greatest.ts';
import { brent } from '../numeric/root.ts';

/** Heights looked at on the way down, evenly in their logarithm. Between two of them what turns back is followed to where it turns; two turns are not seen. */
const LOOKS = 32;
/** Where it turns is found to this share of the height: what is left of the value is the square of it. */
const TURN = 1e-6;

export interface Crossings {
  /** The highest height at which the value is the wanted one; undefined where there is none. */
  readonly highest: number | undefined;
  /** All found, from the top. */
  readonly all: readonly number[];
  /** Value at the top of the range, and the greatest one seen with its height. */
  readonly atTop: number;
  readonly greatest: number;
  readonly greatestAt: number;
}

/** A height looked at, and how far the value there is from the wanted one. */
interface Look {
  readonly height: number;
  readonly off: number;
}

/** `every`: look for the lower ones too. `tolerance`: of the heights, as Brent’s method takes it. */
export function crossingsDownward(
  f: (height: number) => number,
  lowest: number,
  highest: number,
  wanted: number,
  every: boolean,
  tolerance?: number,
): Crossings {
  const ratio = (lowest / highest) ** (1 / LOOKS);
  const look = (height: number): Look => ({ height, off: f(height) - wanted });
  const top = look(highest);
  const all: number[] = top.off === 0 ? [highest] : [];
  const cross = (below: Look, above: Look): void => {
    if (below.off === 0) all.push(below.height);
    else if (above.off !== 0 && below.off > 0 !== above.off > 0) {
      all.push(brent((h) => f(h) - wanted, below.height, above.height, below.off, above.off, tolerance).x);
    }
  };
  let [before, above, greatest] = [top, top, top];
  for (let i = 1; i <= LOOKS + 1 && (all.length === 0 || every); i++) {
    // Past the lowest height stands the lowest once more: it may be right beside a turn too.
    const below = i > LOOKS ? above : look(i === LOOKS ? lowest : highest * ratio ** i);
    if (turnsTowards(before, above, below)) {
      const side = Math.sign(above.off);
      const turn = look(topOfHump((h) => side * (wanted - f(h)), below.height, before.height, TURN * above.height));
      if (turn.off > greatest.off) greatest = turn;
      cross(turn, before);
      if (turn.off !== 0) cross(below, turn);
    }
    if (below !== above) cross(below, above);
    if (below.off > greatest.off) greatest = below;
    [before, above] = [above, below];
  }
  return { highest: all[0], all, atTop: top.off + wanted, greatest: greatest.off + wanted, greatestAt: greatest.height };
}

/** Whether the middle one of three looks is nearest to what is wanted, all on one side of it: beside it the value may get there and turn back. */
function turnsTowards(before: Look, middle: Look, below: Look): boolean {
  const side = Math.sign(middle.off);
  return [before, below].every(({ off }) => off * side > 0 && off * side >= middle.off * side);
}
