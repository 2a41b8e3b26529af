import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';

/** Hours until light that starts at `initial` and decays at `rate` (share per hour) is down to `share`. */
export const lifeTo = (share: number, rate: number, initial: number): number => Math.log(initial / share) / rate;

export const LIFE_TO = define({
  name: 'LIFE.TO',
  family: 'Ageing',
  summary: 'Hours until the light is down to a share of what it was.',
  use: 'With the decay rate of a test report. What may be claimed is limited by how long the test ran: LIFE.CLAIM.LIMIT.',
  formula: 'ln(initial / share) / rate',
  params: [
    { name: 'share', quantity: 'share of the first light', unit: '1', meaning: '0.9 for 90 %', above: 0, atMost: 1 },
    { name: 'rate', quantity: 'decay rate', unit: '/h', meaning: 'share lost for each hour', atLeast: 1e-9, atMost: 0.01 },
    {
      name: 'initial',
      quantity: 'light at the start of the fitted curve',
      unit: '1',
      meaning: 'over the first light',
      optional: true,
      fallback: 1,
      atLeast: 0.5,
      atMost: 1.5,
    },
  ],
  returns: { quantity: 'hours of life', unit: 'h' },
  source: 'ANSI/IES TM-21-19, 2019, eq. 3: L = ln(B / share) / α (read second-hand)',
  examples: [{ formula: 'LIFE.TO(0.9,0.000002)', gives: 52680.258, within: 1e-8 }],
  work: ([share, rate, initial], show) => {
    if (initial < share) return refuse(`LIFE.TO: share is ${say(share)} and the curve starts at ${say(initial)}; it is already below it.`);
    const value = lifeTo(share, rate, initial);
    show?.expression('hours until the curve is down to the share', calc`log(${initial} / ${share}) / ${rate}`, value, 'h');
    return value;
  },
});
