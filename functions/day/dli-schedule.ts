import { say } from '../check-args.ts';
import { define, isRefusal, refuse } from '../define.ts';
import { pairedNumbers } from '../ranges.ts';
import { dli } from './dli.ts';
import { DLI_SOURCE, HOURS, PPFD } from './params.ts';

export const DLI_SCHEDULE = define({
  name: 'DLI.SCHEDULE',
  family: 'Daily light',
  summary: 'Light per day from several levels, each with its hours.',
  use: 'For lamps that are dimmed over the day, or for lamps and a dull window together. The hours must not add up to more than 24.',
  formula: 'Σ ppfdᵢ · hoursᵢ · 3600 / 10⁶',
  params: [
    { ...PPFD, shape: 'range', meaning: 'a level for each step of the day' },
    { ...HOURS, shape: 'range', meaning: 'hours at each of the levels, in the same order' },
  ],
  returns: { quantity: 'light per day (DLI)', unit: 'mol/m²/d' },
  source: DLI_SOURCE,
  examples: [{ formula: 'DLI.SCHEDULE({200;50},{12;12})', gives: 10.8 }],
  work: ([levels, hours], show) => {
    const pairs = pairedNumbers('DLI.SCHEDULE', ['ppfd', levels], ['hours', hours]);
    if (isRefusal(pairs)) return pairs;
    const day = pairs.reduce((sum, [, h]) => sum + h, 0);
    if (day > 24 + 1e-9) return refuse(`DLI.SCHEDULE: the hours add up to ${say(day)} h/d, and a day has 24.`);
    const value = pairs.reduce((sum, [p, h]) => sum + dli(p, h), 0);
    show?.sum(
      'light of each step of the day',
      () => pairs.map(([p, h], i) => ({ label: `step ${i + 1}: ${say(p)} µmol/m²/s for ${say(h)} h`, value: dli(p, h) })),
      1,
      value,
      'mol/m²/d',
    );
    return value;
  },
});
