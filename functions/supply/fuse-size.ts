import { say } from '../check-args.ts';
import { UNKNOWN } from '../crop/crop-range.ts';
import { calc, define, refuse } from '../define.ts';
import { CABLE_AMPS, cableForFuse, cableTimes, FUSE_KIND, FUSE_SOURCE, fuseSizes, isAbove, OVER } from './fuse.ts';
import { AMPS, CODES } from './params.ts';

export const FUSE_SIZE = define({
  name: 'FUSE.SIZE',
  family: 'Supply, cable, breaker, support',
  summary: 'The smallest common fuse for a load that its cable can still stand.',
  use: 'For low-voltage branches. The fuse protects the cable: it must not be larger than what the cable carries, and one of class gG smaller, as it blows late. The fuse itself says whether it suits direct current, and for which voltage.',
  formula: 'least standard fuse ≥ 1.25 · amps, and ≤ cable amps; class gG: ≤ cable amps / 1.45 up to 4 A, / 1.31 below 16 A, / 1.1 from 16 A',
  params: [
    AMPS,
    CABLE_AMPS,
    {
      ...FUSE_KIND,
      meaning: '“gG” for class gG of IEC 60269, “other” for small fuses, which is taken where it is left out; a blank gives “unknown”',
      fallback: 'other',
    },
  ],
  returns: { quantity: 'rating of the fuse', unit: 'A' },
  source: FUSE_SOURCE,
  caution: CODES,
  examples: [
    { formula: 'FUSE.SIZE(6,10)', gives: 7.5 },
    { formula: 'FUSE.SIZE(6,15,"gG")', gives: 8 },
  ],
  work: ([amps, cable, kind], show) => {
    if (typeof cable !== 'number' || kind === null || kind === 'unknown') {
      show?.note(typeof cable === 'number' ? 'the kind of fuse is not given' : 'what the cable carries is not known');
      return UNKNOWN;
    }
    const least = OVER * amps;
    const sizes = fuseSizes(kind);
    const fuse = sizes.find((size) => size >= least * (1 - 1e-12));
    if (fuse === undefined)
      return refuse(`FUSE.SIZE: ${say(least)} A is more than the largest fuse listed, ${sizes.at(-1)} A. Split the load into several branches.`);
    const needs = cableForFuse(fuse, kind);
    if (isAbove(needs, cable)) {
      const why = least > cable ? `the load asks for at least ${say(least)} A` : `the next fuse above ${say(least)} A is ${fuse} A`;
      return refuse(`FUSE.SIZE: ${why} and the cable carries ${say(cable)} A: the cable binds. It takes a cable of at least ${say(needs)} A.`);
    }
    if (show) {
      show.expression('least rating', calc`1.25 * ${amps}`, least, 'A');
      if (kind === 'gG') show.expression('what its cable must carry', calc`${cableTimes(fuse, kind)} * ${fuse}`, needs, 'A');
      show.expression('next standard fuse', calc`${fuse}`, fuse, 'A');
    }
    return fuse;
  },
});
