import { calc, define, refuse } from '../define.ts';
import { toBase, unit } from '../units.ts';

/** UNIT: a plain number becomes a quantity. In the editor it is written `6 in`. */
export const UNIT = define({
  name: 'UNIT',
  family: 'Conversions and spectrum',
  summary: 'A quantity: a number with its unit. The editor writes UNIT(6,"in") as 6 in.',
  use: 'To give a plain number a unit. A quantity given to it is refused: it has its unit already.',
  formula: 'x in the unit named',
  params: [
    { name: 'number', quantity: 'plain number', unit: '1', meaning: 'the number, in the unit named' },
    { name: 'unit', quantity: 'unit', unit: 'text', meaning: 'its unit: "in", "µmol/m²/s", "h/d"' },
  ],
  returns: { quantity: 'quantity', unit: 'any' },
  source: 'BIPM, The International System of Units (SI Brochure), 9th ed. 2019; NIST SP 811, 2008, appendix B',
  examples: [{ formula: 'UNIT(6,"in")', gives: 0.1524, within: 1e-12 }],
  work: ([number, name], show) => {
    const found = unit(name);
    if (!found) return refuse(`UNIT: there is no unit “${name}”.`);
    const base = toBase(number, found);
    show?.expression(`${number} ${found.symbol}`, calc`${number}`, number, name);
    return base;
  },
});
