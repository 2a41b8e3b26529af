import { calc, define } from '../define.ts';

const FULL_SAMPLE = 20;

export const LIFE_CLAIM_LIMIT = define({
  name: 'LIFE.CLAIM.LIMIT',
  family: 'Ageing',
  summary: 'The longest life that a test of so many hours lets a maker claim.',
  use: 'To judge a sheet: a claim beyond this is not backed by the test.',
  formula: '6 · test hours; 5.5 · test hours below 20 samples',
  params: [
    { name: 'test hours', quantity: 'length of the test', unit: 'h', meaning: 'that the report covers', atLeast: 1, atMost: 1e6 },
    { name: 'sample', quantity: 'units tested', unit: '1', meaning: 'at least ten', atLeast: 10, atMost: 1e5, whole: true },
  ],
  returns: { quantity: 'hours of life', unit: 'h' },
  source: 'ANSI/IES TM-21-19, 2019, section 5: six times the test with 20 samples or more, five and a half times with 10 to 19 (from memory)',
  examples: [
    { formula: 'LIFE.CLAIM.LIMIT(6000,20)', gives: 36000 },
    { formula: 'LIFE.CLAIM.LIMIT(6000,10)', gives: 33000 },
  ],
  work: ([hours, sample], show) => {
    const times = sample < FULL_SAMPLE ? 5.5 : 6;
    const value = times * hours;
    show?.expression(`${times} times the test, for ${sample} samples`, calc`${times} * ${hours}`, value, 'h');
    return value;
  },
});
