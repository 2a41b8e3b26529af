import { calc, define, refuse } from '../define.ts';
import { fromBase, unit } from '../units.ts';

/** NUMBER.IN: the plain number that a quantity is in a unit. */
export const NUMBER_IN = define({
  name: 'NUMBER.IN',
  family: 'Conversions and spectrum',
  summary: 'The plain number that a quantity is in a unit of your choice.',
  use: 'Before ROUND, INT and the like, which take plain numbers: ROUND(NUMBER.IN(C5,"in"),1). UNIT turns the number back into a quantity.',
  formula: 'quantity / unit',
  params: [
    { name: 'quantity', quantity: 'any quantity', unit: 'any', meaning: 'the quantity' },
    { name: 'unit', quantity: 'unit', unit: 'text', meaning: 'a unit of the same kind' },
  ],
  returns: { quantity: 'plain number', unit: '1' },
  source: 'BIPM, The International System of Units (SI Brochure), 9th ed. 2019; NIST SP 811, 2008, appendix B',
  examples: [{ formula: 'NUMBER.IN(UNIT(6,"in"),"cm")', gives: 15.24, within: 1e-12 }],
  work: ([quantity, name], show) => {
    const found = unit(name);
    if (!found) return refuse(`NUMBER.IN: there is no unit “${name}”.`);
    if (typeof quantity !== 'number') return refuse('NUMBER.IN needs a number with a unit.');
    const number = fromBase(quantity, found);
    show?.expression(`the number in ${found.symbol}`, calc`${number}`, number, '1');
    return number;
  },
});
