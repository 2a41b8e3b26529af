/** Where the slip of a formula lies: at its cell, clear of the label of the row, and of as many of the cells that it reads as can be. */
import type { Lies } from './home.ts';

/** px */
const WIDEST = 540;
/** px: where less is left beside the labels, the slip has the whole width, above or below its row. */
const LEAST = 320;

/** Over its cell and on downwards or upwards, or clear of its row; the first that hides least is taken. */
const SIDES = ['over', 'over-up', 'below', 'above'] as const;

export function laySlip(slip: HTMLElement, lies: Lies): void {
  const { cell, under, frame, label } = lies;
  // Where the cell is, or would be at the edge of the frame out of which it was scrolled.
  const over = new DOMRect(under.left, under.top - cell.height, cell.width, cell.height);
  const clear = Math.max(frame.left, label?.right ?? 0);
  const beside = frame.right - clear >= LEAST;
  const left = beside ? clear : frame.left;
  const most = Math.max(over.width + 4, Math.min(WIDEST, frame.right - left));
  const { style } = slip;
  style.setProperty('--height', `${over.height}px`);
  style.setProperty('--most', `${most}px`);
  // To the right of where its cell begins, or to the left of where it ends, or all across.
  const across =
    over.left + most <= frame.right
      ? { left: '-2px', right: 'auto', width: '' }
      : over.right - most >= left
        ? { left: 'auto', right: '-2px', width: '' }
        : { left: `${left - over.left}px`, right: 'auto', width: `${most}px` };
  Object.assign(style, across);
  slip.dataset.side = sideOf(slip, lies, over, beside);
}

/** What lies well stays where it lies. */
function sideOf(slip: HTMLElement, { roof, read }: Lies, over: DOMRect, beside: boolean): string {
  const { left, right, height } = slip.getBoundingClientRect();
  const tops = { over: over.top, 'over-up': over.bottom - height, below: over.bottom, above: over.top - height };
  const sides = SIDES.filter((side) => (beside || !side.startsWith('over')) && (side === 'over' || side === 'below' || tops[side] >= roof));
  const hidden = (side: (typeof SIDES)[number]): number =>
    read.filter((cell) => cell.left < right - 1 && cell.right > left + 1 && cell.top < tops[side] + height - 1 && cell.bottom > tops[side] + 1).length;
  const least = Math.min(...sides.map(hidden));
  const now = sides.find((side) => side === slip.dataset.side && hidden(side) === least);
  return now ?? sides.find((side) => hidden(side) === least) ?? 'over';
}
