import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { PPF } from '../field/index.ts';

const SHARE = { unit: '1', above: 0, atMost: 1 } as const;
/** A count that is whole but for rounding is that count: 7.0000000001 fixtures are 7. */
export const ROUNDING = 1e-9;

/** More than any plan has; beyond it a count would lose its last digits to rounding. */
const MOST = 1e6;

/** Fixtures that give a kept mean over an area. */
export const COUNT_FOR_TARGET = define({
  name: 'COUNT.FOR.TARGET',
  family: 'Counts and dimming',
  summary: 'How many fixtures an area needs for a target.',
  use: 'A first count before there is a layout; then LAYOUT and BENCH.MEAN say what they give. The landing share of such a layout is LANDING.SHARE.',
  formula: '⌈target · area / (ppf · landing share · maintenance)⌉',
  params: [
    { name: 'target', quantity: 'mean PPFD asked for', unit: 'µmol/m²/s', meaning: 'maintained', above: 0, atMost: 1e5 },
    { name: 'area', quantity: 'area of the bench', unit: 'm²', meaning: 'to be lit', above: 0, atMost: 1e6 },
    PPF,
    { ...SHARE, name: 'landing share', quantity: 'share of the photons that lands', meaning: 'on the bench' },
    { ...SHARE, name: 'maintenance', quantity: 'maintenance factor', meaning: 'ageing × dirt' },
  ],
  returns: { quantity: 'fixtures', unit: '1' },
  source: 'Photons needed over photons landed by one fixture',
  examples: [
    { formula: 'COUNT.FOR.TARGET(200,2.88,156,0.64,0.88)', gives: 7 },
    { formula: 'COUNT.FOR.TARGET(100,0.7,10,0.7,1)', gives: 10 },
  ],
  work: ([target, area, ppf, landing, maintenance], show) => {
    const exact = (target * area) / (ppf * landing * maintenance);
    if (exact > MOST) return refuse(`COUNT.FOR.TARGET: that would take ${say(exact)} fixtures; check the output and the shares, or take a smaller area.`);
    const count = Math.max(1, Math.ceil(exact * (1 - ROUNDING)));
    show?.expression('fixtures, before rounding', calc`${target} * ${area} / (${ppf} * ${landing} * ${maintenance})`, exact, '1');
    show?.expression('whole fixtures', calc`ceil(${exact} * (1 - ${ROUNDING}))`, count, '1');
    return count;
  },
});
