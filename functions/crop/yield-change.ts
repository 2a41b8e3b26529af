import { calc, define } from '../define.ts';

/** How far from the light that the response was found at it is still taken to hold. */
const KNOWN_WITHIN = 0.3;

export const yieldChange = (before: number, after: number, response: number): number => (after / before) ** response - 1;

const DLI = { unit: 'mol/m²/d', atLeast: 0.01, atMost: 1000 } as const;

export const YIELD_CHANGE = define({
  name: 'YIELD.CHANGE',
  family: 'Crop',
  summary: 'By what share the yield changes when the daily light does.',
  use: 'A rule of thumb for changes of up to 30 % more or less, all else well: “one percent light, so many percent yield”. Beyond that it is a guess; the working says which.',
  formula: '(new / old)^share per share − 1',
  params: [
    { ...DLI, name: 'old', quantity: 'light per day', meaning: 'before' },
    { ...DLI, name: 'new', quantity: 'light per day', meaning: 'after' },
    {
      name: 'share per share',
      quantity: 'response of the yield',
      unit: '1',
      meaning: '0.9: one percent of light gives 0.9 percent of yield',
      atLeast: 0,
      atMost: 3,
    },
  ],
  returns: { quantity: 'change of the yield', unit: '1' },
  source:
    'L. F. M. Marcelis, A. G. M. Broekhuijsen, E. Meinen, E. M. F. M. Nijs and M. G. M. Raaphorst, Quantification of the growth response to light quantity of greenhouse grown crops, Acta Horticulturae 711, 2006: 0.5 to 1 % yield for 1 % light (from memory); written as a power so that steps chain',
  examples: [{ formula: 'YIELD.CHANGE(12,15,0.9)', gives: 0.2224, within: 1e-3 }],
  work: ([before, after, response], show) => {
    const value = yieldChange(before, after, response);
    show?.expression('ratio of light to the power of the response, less one', calc`(${after} / ${before})^${response} - 1`, value, '1');
    const within = Math.abs(after / before - 1) <= KNOWN_WITHIN;
    show?.note(`To be trusted for 30 % more or less light: this is ${within ? 'within' : 'beyond, and a guess'}.`);
    return value;
  },
});
