import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { HEIGHT } from '../field/index.ts';

/** What a small error in height does to the light. */
export const HEIGHT_ERROR = define({
  name: 'HEIGHT.ERROR',
  family: 'Mount height',
  summary: 'How much the light changes when the height is a little off.',
  use: 'For small errors, up to about a tenth of the height; beyond half of it the rule says nothing and is refused. The power is FALLOFF.POWER’s: 1 near a long bar, 2 far from anything.',
  formula: '−power · error / h',
  params: [
    { name: 'power', quantity: 'power of the falloff', unit: '1', meaning: 'FALLOFF.POWER gives it', atLeast: 0, atMost: 10 },
    HEIGHT,
    { name: 'error', quantity: 'error in height', unit: 'm', meaning: 'above zero: hung too high', atLeast: -5, atMost: 5 },
  ],
  returns: { quantity: 'relative change of the light', unit: '1' },
  source: 'First term of the series of h^(−power)',
  examples: [{ formula: 'HEIGHT.ERROR(1.07,0.25,0.02)', gives: -0.0856 }],
  work: ([power, height, error], show) => {
    const change = (-power * error) / height;
    if (Math.abs(error) > height / 2 || change < -1) {
      return refuse(
        `HEIGHT.ERROR: ${say(error)} m is too much of ${say(height)} m for this rule, which holds up to about ${say(height / 10)} m; FALLOFF.RATIO takes large moves.`,
      );
    }
    if (Math.abs(error) > height / 10) show?.note('More than a tenth of the height: too much for this rule; FALLOFF.RATIO takes large moves.');
    show?.expression('relative change', calc`-${power} * ${error} / ${height}`, change, '1');
    return change;
  },
});
