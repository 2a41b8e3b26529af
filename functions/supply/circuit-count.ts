import { say, sayMost } from '../check-args.ts';
import { UNKNOWN } from '../crop/crop-range.ts';
import { calc, define, refuse } from '../define.ts';
import { AMPS, CODES, CONTINUOUS, downward } from './params.ts';

export const CIRCUIT_COUNT = define({
  name: 'CIRCUIT.COUNT',
  family: 'Supply, cable, breaker, support',
  summary: 'How many supplies or fixtures one breaker carries.',
  use: 'The least of what the current allows and what the maker allows on one breaker of that kind (inrush). The maker’s number counts for the breaker that it names alone, never for another. A blank limit gives “unknown”, which no check takes as holding; leave the limit out to count by current alone.',
  formula: 'min(floor(breaker · continuous share / amps each), maker’s limit)',
  params: [
    { ...AMPS, name: 'breaker', quantity: 'rating of the breaker', meaning: 'as printed on it', atMost: 10000 },
    { ...AMPS, name: 'amps each', meaning: 'of one supply or mains fixture' },
    CONTINUOUS,
    {
      name: 'maker’s limit',
      quantity: 'most on one breaker by the maker',
      unit: '1',
      meaning: 'from the sheet, for a breaker of exactly that rating and type; a blank and “unknown” give “unknown”, left out only the current counts',
      optional: true,
      blankAllowed: true,
      unknownAllowed: true,
      atLeast: 1,
      atMost: 10000,
      whole: true,
    },
  ],
  returns: { quantity: 'number on one circuit', unit: '1' },
  source:
    'Continuous loads: NFPA 70 (NEC), 2020 (edition from memory), 210.20(A) with the definition of continuous load in article 100; elsewhere the local code. Inrush: maker’s sheet',
  caution: CODES,
  examples: [
    { formula: 'CIRCUIT.COUNT(16,1.22,0.8)', gives: 10 },
    { formula: 'CIRCUIT.COUNT(16,1.22,0.8,4)', gives: 4 },
  ],
  work: ([breaker, each, share, limit], show) => {
    const byAmps = downward((breaker * share) / each);
    if (byAmps < 1) {
      return refuse(
        `CIRCUIT.COUNT: one of ${say(each)} A is more than ${say(share)} of a ${say(breaker)} A breaker, which carries at most ${sayMost(breaker * share)} A of it. Take smaller ones, or have a circuit made for them.`,
      );
    }
    if (limit === null || typeof limit === 'string') {
      show?.note(`The maker’s limit for this breaker is not known: by current alone ${byAmps} fit, and inrush may allow fewer.`);
      return UNKNOWN;
    }
    const known = typeof limit === 'number';
    const value = known ? Math.min(byAmps, limit) : byAmps;
    if (show) {
      show.expression('what the current allows', calc`floor(${breaker} * ${share} / ${each} + 1e-9)`, byAmps, '1');
      if (known) {
        show.note(limit < byAmps ? 'The maker’s limit binds: inrush.' : 'The current binds, not the maker’s limit.');
        show.expression('the less of the two', calc`min(${byAmps}, ${limit})`, value, '1');
      } else show.note('By current alone: inrush may allow fewer.');
    }
    return value;
  },
});
