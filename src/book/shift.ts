/** How the rows, or the columns, of a table shift: which place each takes, and what becomes of a span of them. */

export type Shift =
  /** `count` lines come in before place `at`. */
  | { readonly kind: 'insert'; readonly at: number; readonly count: number }
  | { readonly kind: 'delete'; readonly at: number; readonly count: number }
  /** `count` lines from place `at` go to where they begin at place `to`, counted without them. */
  | { readonly kind: 'move'; readonly at: number; readonly count: number; readonly to: number };

/** The new place of a line, or undefined where it is deleted. */
export function shiftedPlace(shift: Shift, place: number): number | undefined {
  const { kind, at, count } = shift;
  if (kind === 'insert') return place < at ? place : place + count;
  if (place >= at && place < at + count) return kind === 'delete' ? undefined : shift.to + place - at;
  const without = place < at ? place : place - count;
  return kind === 'delete' || without < shift.to ? without : without + count;
}

/**
 * The new ends of a span. Lines inserted inside belong to it, lines deleted leave it. When lines move, a span whose lines stay together goes with
 * them; otherwise it is as if the lines were deleted and inserted, so that a line taken out of a list leaves its sum and one put into it joins it.
 */
export function shiftedSpan(shift: Shift, from: number, to: number): readonly [number, number] | undefined {
  const [low, high] = from <= to ? [from, to] : [to, from];
  if (shift.kind === 'move') {
    const together = movedTogether(shift, low, high);
    if (together) return together;
    const left = shiftedSpan({ kind: 'delete', at: shift.at, count: shift.count }, low, high);
    return left && shiftedSpan({ kind: 'insert', at: shift.to, count: shift.count }, ...left);
  }
  if (shift.kind === 'insert') return [low >= shift.at ? low + shift.count : low, high >= shift.at ? high + shift.count : high];
  const end = shift.at + shift.count;
  if (low >= shift.at && high < end) return undefined;
  const first = low < shift.at ? low : Math.max(low, end) - shift.count;
  const last = high < shift.at ? high : Math.max(high, end - 1) - shift.count;
  return [first, last];
}

function movedTogether(shift: Shift & { kind: 'move' }, low: number, high: number): readonly [number, number] | undefined {
  const { at, count, to } = shift;
  const inside = Math.max(0, Math.min(high, at + count - 1) - Math.max(low, at) + 1);
  const size = high - low + 1;
  const places: number[] = [];
  if (inside > 0) places.push(Math.max(low, at) - at + to, Math.min(high, at + count - 1) - at + to);
  if (inside < size) {
    // The lines of the span that do not move lie side by side once the moving ones are taken out.
    const rest = shiftedSpan({ kind: 'delete', at, count }, low, high);
    if (rest) {
      const stay = (place: number): number => (place < to ? place : place + count);
      places.push(stay(rest[0]), stay(rest[1]));
    }
  }
  const [first, last] = [Math.min(...places), Math.max(...places)];
  return last - first + 1 === size ? [first, last] : undefined;
}
