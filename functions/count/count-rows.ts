import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { LIMITS } from '../field/index.ts';
import { ROW_GAP } from '../mount/rows-params.ts';
import { ROUNDING } from './count-for-target.ts';

/** Whole rows across a bench. */
export const COUNT_ROWS = define({
  name: 'COUNT.ROWS',
  family: 'Counts and dimming',
  summary: 'How many rows fit across a bench at a gap.',
  use: 'Each row serves a strip one gap wide. For evenness no worse than ROW.GAP.MAX allows, one row more than this unless the gap divides the width.',
  formula: '⌊width / row gap⌋',
  params: [{ name: 'width', quantity: 'width of the bench', unit: 'm', meaning: 'to be filled', above: 0, atMost: LIMITS.benchMost }, ROW_GAP],
  returns: { quantity: 'rows', unit: '1' },
  source: 'Whole strips within the width',
  examples: [
    { formula: 'COUNT.ROWS(1.2,0.3)', gives: 4 },
    { formula: 'COUNT.ROWS(1.5,0.4)', gives: 3 },
  ],
  work: ([width, gap], show) => {
    const exact = width / gap;
    const count = Math.floor(exact * (1 + ROUNDING));
    if (count < 1) return refuse(`COUNT.ROWS: a gap of ${say(gap)} m is wider than the bench of ${say(width)} m; the gap can be up to its width.`);
    show?.expression('rows, before rounding', calc`${width} / ${gap}`, exact, '1');
    show?.expression('whole rows', calc`floor(${exact} * (1 + ${ROUNDING}))`, count, '1');
    return count;
  },
});
