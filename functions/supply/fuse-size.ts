import { say } from '../check-args.ts';
import { FUSES } from '../data/protection.ts';
import { calc, define, refuse } from '../define.ts';
import { AMPS, CODES } from './params.ts';

const OVER = 1.25;

export const FUSE_SIZE = define({
  name: 'FUSE.SIZE',
  family: 'Supply, cable, breaker, support',
  summary: 'The smallest common fuse for a load that its cable can still stand.',
  use: 'For low-voltage branches. The fuse protects the cable: it must not be larger than what the cable carries.',
  formula: 'least standard fuse ≥ 1.25 · amps, and ≤ cable amps',
  params: [AMPS, { ...AMPS, name: 'cable amps', quantity: 'current that the cable carries', meaning: 'by its own rating, as laid' }],
  returns: { quantity: 'rating of the fuse', unit: 'A' },
  source: 'NFPA 70 (NEC), 210.20(A): 125 percent of a continuous load; ratings in which small fuses are sold: common practice, no published source',
  caution: CODES,
  examples: [{ formula: 'FUSE.SIZE(6,10)', gives: 7.5 }],
  work: ([amps, cable], show) => {
    const least = OVER * amps;
    const fuse = FUSES.find((size) => size >= least * (1 - 1e-12));
    if (fuse === undefined)
      return refuse(`FUSE.SIZE: ${say(least)} A is more than the largest fuse listed, ${FUSES.at(-1)} A. Split the load into several branches.`);
    if (fuse > cable) {
      const why = least > cable ? `the load asks for at least ${say(least)} A` : `the next fuse above ${say(least)} A is ${fuse} A`;
      return refuse(`FUSE.SIZE: ${why} and the cable carries ${say(cable)} A: the cable binds. It takes a cable of at least ${fuse} A.`);
    }
    if (show) {
      show.expression('least rating', calc`1.25 * ${amps}`, least, 'A');
      show.expression('next standard fuse', calc`${fuse}`, fuse, 'A');
    }
    return fuse;
  },
});
