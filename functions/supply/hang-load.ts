import { calc, define } from '../define.ts';

/** Standard gravity rounded to the trade's three digits, m/s². */
const GRAVITY = 9.81;

export const HANG_LOAD = define({
  name: 'HANG.LOAD',
  family: 'Supply, cable, breaker, support',
  summary: 'Force on each point that carries a hanging load, with its safety factor.',
  use: 'Count only points that surely carry: of four, two may carry all. The structure above is for someone who can judge it.',
  formula: '9.81 · kg · factor / points',
  params: [
    { name: 'mass', quantity: 'mass that hangs', unit: 'kg', meaning: 'fixtures, supplies, cable and rails', above: 0, atMost: 1e5 },
    {
      name: 'points',
      quantity: 'points that carry',
      unit: '1',
      meaning: '2 unless said',
      optional: true,
      fallback: 2,
      atLeast: 1,
      atMost: 1000,
      whole: true,
    },
    { name: 'factor', quantity: 'safety factor', unit: '1', meaning: '5 or more for loads over people, by common practice', atLeast: 1, atMost: 100 },
  ],
  returns: { quantity: 'force on one point', unit: 'N' },
  source: 'Closed form: weight shared by the points that carry; the factor is common practice, no published source',
  caution: 'A load over people or animals: hooks, ropes and roof must each be rated for it, by local rules and by someone competent.',
  examples: [{ formula: 'HANG.LOAD(5.8,2,5)', gives: 142.245 }],
  work: ([mass, points, factor], show) => {
    const value = (GRAVITY * mass * factor) / points;
    show?.expression('weight, times the factor, on one point', calc`9.81 * ${mass} * ${factor} / ${points}`, value, 'N');
    return value;
  },
});
