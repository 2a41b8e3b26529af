import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { LIMITS } from '../field/index.ts';
import { ROUNDING } from './count-for-target.ts';

/** Whole fixtures in one row. */
export const COUNT_ALONG = define({
  name: 'COUNT.ALONG',
  family: 'Counts and dimming',
  summary: 'How many fixtures fit along a bench, end to end with gaps between.',
  use: 'For the row that a bench has room for. Count the whole housing, not only the emitting face.',
  formula: '⌊(length + gap) / (fixture length + gap)⌋',
  params: [
    { name: 'length', quantity: 'length of the bench', unit: 'm', meaning: 'to be filled', above: 0, atMost: LIMITS.benchMost },
    { name: 'fixture length', quantity: 'length of a fixture', unit: 'm', meaning: 'housing and connectors included', above: 0, atMost: LIMITS.faceMost },
    { name: 'gap', quantity: 'gap between fixtures', unit: 'm', meaning: 'end to end', atLeast: 0, atMost: LIMITS.benchMost },
  ],
  returns: { quantity: 'fixtures', unit: '1' },
  source: 'n fixtures and n − 1 gaps within the length',
  examples: [
    { formula: 'COUNT.ALONG(2.4,1.2,0)', gives: 2 },
    { formula: 'COUNT.ALONG(2.4,1.2,0.05)', gives: 1 },
  ],
  work: ([length, fixture, gap], show) => {
    const exact = (length + gap) / (fixture + gap);
    const count = Math.floor(exact * (1 + ROUNDING));
    if (count < 1) return refuse(`COUNT.ALONG: a fixture of ${say(fixture)} m does not fit along ${say(length)} m; the bench must be that long at least.`);
    show?.expression('fixtures, before rounding', calc`(${length} + ${gap}) / (${fixture} + ${gap})`, exact, '1');
    show?.expression('whole fixtures', calc`floor(${exact} * (1 + ${ROUNDING}))`, count, '1');
    return count;
  },
});
