import { say } from '../check-args.ts';
import { define, isRefusal, refuse } from '../define.ts';
import { pairedNumbers } from '../ranges.ts';

export const SPECTRUM_MIX = define({
  name: 'SPECTRUM.MIX',
  family: 'Conversions and spectrum',
  summary: 'Share of a colour in the light of several fixtures together.',
  use: 'Each fixture’s share of one colour (blue, say, 400–500 nm), weighed by its output. Holds on the bench only where their light mixes evenly.',
  formula: 'Σ ppfᵢ · shareᵢ / Σ ppfᵢ',
  params: [
    { name: 'ppf', quantity: 'output', unit: 'µmol/s', shape: 'range', meaning: 'of each kind of fixture in all', atLeast: 0, atMost: 1e8 },
    { name: 'shares', quantity: 'share of the colour', unit: '1', shape: 'range', meaning: 'in the photons of each, in the same order', atLeast: 0, atMost: 1 },
  ],
  returns: { quantity: 'share of the colour', unit: '1' },
  source: 'Closed form: photons add',
  examples: [{ formula: 'SPECTRUM.MIX({300;100},{0.1;0.3})', gives: 0.15 }],
  work: ([ppf, shares], show) => {
    const pairs = pairedNumbers('SPECTRUM.MIX', ['ppf', ppf], ['shares', shares]);
    if (isRefusal(pairs)) return pairs;
    const all = pairs.reduce((sum, [flux]) => sum + flux, 0);
    if (all <= 0) return refuse('SPECTRUM.MIX: there is no output in ppf; at least one must be above 0 µmol/s.');
    const value = pairs.reduce((sum, [flux, share]) => sum + flux * share, 0) / all;
    show?.sum(
      `photons of the colour over ${say(all)} µmol/s in all`,
      () => pairs.map(([flux, share], i) => ({ label: `${i + 1}: ${say(flux)} µmol/s, ${say(share)} of it`, value: flux * share })),
      1 / all,
      value,
      '1',
    );
    return value;
  },
});
