import { percent, same } from '../check/margin.ts';
import { calc, define } from '../define.ts';

const LIGHT = { unit: 'µmol/m²/s', atLeast: 0, atMost: 1e6 } as const;

export const METER_VERDICT = define({
  name: 'METER.VERDICT',
  family: 'Meter and evenness',
  summary: 'Whether the measured mean is what the plan said, within a tolerance.',
  use: 'The target is the day-one light (full times dimming), for that is what a new plant reads. The tolerance covers meter, height and make; a blank one gives unknown, which never counts as holding.',
  formula: '|mean / target − 1| ≤ tolerance',
  params: [
    { ...LIGHT, name: 'mean', quantity: 'measured mean', meaning: 'as READINGS.MEAN gives it' },
    { name: 'target', quantity: 'planned mean', unit: LIGHT.unit, meaning: 'of day one', above: 0, atMost: LIGHT.atMost },
    {
      name: 'tolerance',
      quantity: 'share allowed either way',
      unit: '1',
      meaning: '0.1 by common practice, no published source; blank means that none is known',
      above: 0,
      atMost: 1,
      blankAllowed: true,
    },
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source: 'Our own wording; the margin is the difference over the target',
  unchecked: 'It words a comparison; the wording is our own.',
  examples: [
    { formula: 'METER.VERDICT(145,150,0.1)', gives: 'holds, 3.3 % under' },
    { formula: 'METER.VERDICT(180,150,0.1)', gives: 'fails, 20 % over' },
  ],
  work: ([mean, target, tolerance], show) => {
    const off = mean / target - 1;
    show?.expression('difference over the target', calc`${mean} / ${target} - 1`, off, '1');
    if (tolerance === null) return 'unknown, no tolerance given';
    if (same(mean, target)) return 'holds, just as planned';
    const word = Math.abs(off) <= tolerance * (1 + 1e-9) ? 'holds' : 'fails';
    return `${word}, ${percent(off)} ${off < 0 ? 'under' : 'over'}`;
  },
});
