import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';

const PPFD = { unit: 'µmol/m²/s', above: 0, atMost: 1e5 } as const;

/** The dimming that brings a mean down to a target. */
export const DIM_FOR_TARGET = define({
  name: 'DIM.FOR.TARGET',
  family: 'Counts and dimming',
  summary: 'How far to dim so that the mean is the target.',
  use: 'Light goes with the dimming share; input power need not, so ask the driver’s curve for watts.',
  formula: 'target / mean',
  params: [
    { ...PPFD, name: 'mean', quantity: 'mean PPFD undimmed', meaning: 'times the maintenance factor where the target is maintained light' },
    { ...PPFD, name: 'target', quantity: 'mean PPFD asked for', meaning: 'at the same age' },
  ],
  returns: { quantity: 'dimming', unit: '1' },
  source: 'Light is linear in output',
  examples: [{ formula: 'DIM.FOR.TARGET(277,200)', gives: 0.722, within: 1e-4 }],
  work: ([mean, target], show) => {
    const dim = target / mean;
    if (dim > 1 + 1e-9) {
      return refuse(
        `DIM.FOR.TARGET: full output gives ${say(mean)} µmol/m²/s, ${Number((100 * (1 - 1 / dim)).toPrecision(3))} % short of ${say(target)}; hang lower or add output.`,
      );
    }
    show?.expression('share of full output', calc`${target} / ${mean}`, dim, '1');
    return dim;
  },
});
