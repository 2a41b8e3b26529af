import { calc, define, refuse } from '../define.ts';
import { fromBase, quantityName, toBase, unit } from '../units.ts';

/** CONVERT: a plain number from one unit to another of the same kind. */
export const CONVERT = define({
  name: 'CONVERT',
  family: 'Conversions and spectrum',
  summary: 'A plain number taken from one unit to another of the same kind.',
  use: 'For bare numbers from elsewhere. A quantity is refused, since its unit is only how it is shown: set the cell’s unit instead, or use NUMBER.IN.',
  formula: 'x · from / to',
  params: [
    { name: 'number', quantity: 'plain number', unit: '1', meaning: 'the number, in the first unit' },
    { name: 'from', quantity: 'unit', unit: 'text', meaning: 'its unit' },
    { name: 'to', quantity: 'unit', unit: 'text', meaning: 'the unit that is wanted' },
  ],
  returns: { quantity: 'plain number', unit: '1' },
  source:
    'BIPM, The International System of Units (SI Brochure), 9th ed. 2019; NIST SP 811, 2008, appendix B; OASIS, OpenDocument 1.2, Part 2, 2011, section 6.16, CONVERT',
  examples: [
    { formula: 'CONVERT(1,"ft","m")', gives: 0.3048, within: 1e-12 },
    { formula: 'CONVERT(212,"°F","°C")', gives: 100, within: 1e-12 },
  ],
  work: ([number, from, to], show) => {
    const [a, b] = [unit(from), unit(to)];
    if (!a || !b) return refuse(`CONVERT: there is no unit “${a ? to : from}”.`);
    if (a.dimension !== b.dimension || a.reading !== b.reading) {
      const [kind, other] = [quantityName(a.dimension, a.reading), quantityName(b.dimension, b.reading)];
      return refuse(`CONVERT: “${from}” is a unit of ${kind} and “${to}” one of ${other}; both must be of one kind.`);
    }
    const answer = fromBase(toBase(number, a), b);
    if (a.offset === 0 && b.offset === 0) {
      show?.expression(`${from} to ${to}`, calc`${number} * ${a.numerator} / ${a.denominator} * ${b.denominator} / ${b.numerator}`, answer, '1');
    } else {
      show?.expression(
        `${from} to ${to}`,
        calc`(${number} + ${a.offset}) * ${a.numerator} / ${a.denominator} * ${b.denominator} / ${b.numerator} - ${b.offset}`,
        answer,
        '1',
      );
    }
    return answer;
  },
});
