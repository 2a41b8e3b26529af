import { say } from '../check-args.ts';
import { define, isRefusal, refuse } from '../define.ts';
import { numbers } from '../ranges.ts';
import { cableDrop } from './cable-drop.ts';
import { AMPS, CODES, OHMS_PER_KM, ONE_WAY } from './params.ts';

export const CABLE_DROP_CHAIN = define({
  name: 'CABLE.DROP.CHAIN',
  family: 'Supply, cable, breaker, support',
  summary: 'Voltage lost at the last of a chain of equal fixtures.',
  use: 'When one cable feeds fixture after fixture: the first stretch carries the current of all, the last of one. Equal fixtures, one at the end of each stretch.',
  formula: 'Σ 2 · lengthₖ · (n − k + 1) · amps each · Ω/km / 1000',
  params: [
    { ...AMPS, name: 'amps each', meaning: 'of one fixture' },
    { ...ONE_WAY, name: 'lengths', shape: 'range', meaning: 'one way, of each stretch from the supply on' },
    OHMS_PER_KM,
  ],
  returns: { quantity: 'voltage lost', unit: 'V' },
  source: 'Closed form: Ohm’s law over both conductors of each stretch',
  caution: CODES,
  examples: [{ formula: 'CABLE.DROP.CHAIN(2.5,{1,1,1,1},13.3)', gives: 0.665 }],
  work: ([each, stretches, ohms], show) => {
    const lengths = numbers('CABLE.DROP.CHAIN', 'lengths', stretches);
    if (isRefusal(lengths)) return lengths;
    const drops = lengths.map((length, k) => cableDrop(each * (lengths.length - k), length, ohms));
    const value = drops.reduce((sum, drop) => sum + drop, 0);
    if (value >= 1000) return refuse(`CABLE.DROP.CHAIN: the chain would lose ${say(value)} V; no low-voltage supply has that much.`);
    show?.sum(
      'stretch by stretch, there and back',
      () => drops.map((drop, k) => ({ label: `stretch ${k + 1}: ${say(each * (drops.length - k))} A`, value: drop })),
      1,
      value,
      'V',
    );
    return value;
  },
});
