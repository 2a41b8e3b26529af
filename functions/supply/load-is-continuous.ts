import { define } from '../define.ts';
import { CODES } from './params.ts';

/** Article 100 counts a load as continuous from three hours on. */
const CONTINUOUS_FROM = 3;

export const LOAD_IS_CONTINUOUS = define({
  name: 'LOAD.IS.CONTINUOUS',
  family: 'Supply, cable, breaker, support',
  summary: 'Whether a load counts as continuous.',
  use: 'A continuous load may use only a share of its breaker: see CIRCUIT.COUNT and BREAKER.LEAST.',
  formula: 'hours ≥ 3',
  params: [{ name: 'hours', quantity: 'hours in one stretch', unit: 'h', meaning: 'with the largest current on', atLeast: 0, atMost: 8784 }],
  returns: { quantity: 'continuous', unit: 'yes or no' },
  source: 'NFPA 70, National Electrical Code, 2020 (edition from memory), article 100, continuous load: maximum current expected for 3 hours or more',
  caution: CODES,
  examples: [
    { formula: 'LOAD.IS.CONTINUOUS(16)', gives: true },
    { formula: 'LOAD.IS.CONTINUOUS(2.9)', gives: false },
  ],
  work: ([hours], show) => {
    show?.note(`three hours or more is continuous; here it is ${hours} h`);
    return hours >= CONTINUOUS_FROM;
  },
});
