import { BREAKERS_IEC, BREAKERS_NEC } from '../data/protection.ts';
import { calc, define } from '../define.ts';
import { CODES, CONTINUOUS } from './params.ts';

const LOAD = { quantity: 'current', unit: 'A', atLeast: 0, atMost: 1e5 } as const;

/** The least breaker rating (A): continuous load over its share, the rest as it is. */
export const breakerLeast = (continuous: number, other: number, share: number): number => continuous / share + other;

const next = (sizes: readonly number[], least: number): string => {
  const fit = sizes.find((size) => size >= least * (1 - 1e-12));
  return fit === undefined ? 'none listed' : `${fit} A`;
};

export const BREAKER_LEAST = define({
  name: 'BREAKER.LEAST',
  family: 'Supply, cable, breaker, support',
  summary: 'The least rating of a breaker for a load, before it is rounded up to a standard size.',
  use: 'Grow lights are on for three hours and more: they are a continuous load. The working names the next standard sizes. The cable must suit the breaker.',
  formula: 'continuous amps / continuous share + other amps',
  params: [
    { ...LOAD, name: 'continuous amps', meaning: 'of what is on for three hours or more' },
    { ...LOAD, name: 'other amps', meaning: 'of the rest', optional: true, fallback: 0 },
    CONTINUOUS,
  ],
  returns: { quantity: 'rating of the breaker', unit: 'A' },
  source:
    'NFPA 70 (NEC), 2020, 210.20(A): rating not less than the noncontinuous load plus 125 percent of the continuous load. Standard sizes: NEC table 240.6(A) and IEC 60898-1:2015 (from memory)',
  caution: CODES,
  examples: [
    { formula: 'BREAKER.LEAST(12)', gives: 15 },
    { formula: 'BREAKER.LEAST(10,5)', gives: 17.5 },
  ],
  work: ([continuous, other, share], show) => {
    const value = breakerLeast(continuous, other, share);
    if (show) {
      show.expression('least rating', calc`${continuous} / ${share} + ${other}`, value, 'A');
      show.note(`next standard size: ${next(BREAKERS_IEC, value)} (IEC 60898-1), ${next(BREAKERS_NEC, value)} (NEC 240.6)`);
    }
    return value;
  },
});
