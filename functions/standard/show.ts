import { define, refuse } from '../define.ts';
import { GAP, showDecimal } from '../number-text.ts';
import { unit } from '../units.ts';

/** SHOW: a quantity as text, with its unit. */
export const SHOW = define({
  name: 'SHOW',
  family: 'Conversions and spectrum',
  summary: 'A quantity as a text with its unit, to be joined into a sentence.',
  use: 'Inside texts: "hang at "&SHOW(C5,"cm"). A text is not a number any more: do not calculate with it.',
  formula: 'number and unit',
  params: [
    { name: 'quantity', quantity: 'any quantity', unit: 'any', meaning: 'the quantity' },
    { name: 'unit', quantity: 'unit', unit: 'text', meaning: 'a unit of the same kind' },
    {
      name: 'decimals',
      quantity: 'decimals',
      unit: '1',
      meaning: 'digits after the point; as many as are sensible where left out',
      optional: true,
      whole: true,
      atLeast: 0,
      atMost: 15,
    },
  ],
  returns: { quantity: 'text', unit: 'text' },
  source: 'common practice, no published source',
  examples: [{ formula: 'SHOW(UNIT(0.9144,"m"),"in")', gives: '36 in' }],
  work: ([quantity, name, decimals], show) => {
    if (!unit(name)) return refuse(`SHOW: there is no unit “${name}”.`);
    if (typeof quantity !== 'number') return refuse('SHOW needs a number with a unit.');
    const text = showDecimal(quantity, name, decimals).text.replaceAll(GAP, ' ');
    show?.note(`written as ${text}`);
    return text;
  },
});
