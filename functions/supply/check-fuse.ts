import { say } from '../check-args.ts';
import { calc, define } from '../define.ts';
import { CABLE_AMPS, cableTimes, FUSE_KIND, FUSE_SOURCE, fuseSizes, isAbove, OVER } from './fuse.ts';
import { CODES } from './params.ts';

interface Run {
  /** A; 0 where there is none. */
  readonly fuse: number | undefined;
  readonly amps: number | undefined;
  readonly cable: number | undefined;
  readonly kind: string | undefined;
  /** Most that the source lets through, A. */
  readonly overload: number | undefined;
}

/** Of a hundredth of an ampere: limits are said to the hundredth, rounded to the side that works, and binary dust must not move them. */
const DUST = 1e-6;

/** Whether a fuse suits its load and protects its cable. What surely fails fails, whatever else is not known. */
export function checkFuse({ fuse, amps, cable, kind, overload }: Run): string {
  if (fuse === 0) return checkNoFuse(amps, cable, overload);
  if (amps !== undefined && cable !== undefined && isAbove(amps, cable))
    return `fails, the load of ${say(amps)} A is more than the ${say(cable)} A that the cable carries`;
  if (fuse === undefined) return 'unknown, no fuse is given';
  if (amps !== undefined && isAbove(OVER * amps, fuse)) return `fails, ${say(fuse)} A is less than 1.25 times the load of ${say(amps)} A`;
  if (cable !== undefined && isAbove(fuse, cable)) return `fails, ${say(fuse)} A is more than the ${say(cable)} A that the cable carries`;
  const times = kind === undefined ? 1 : cableTimes(fuse, kind);
  if (cable !== undefined && isAbove(fuse * times, cable))
    return `fails, ${say(fuse)} A of class gG is more than ${say(cable)} A of cable / ${times}, for it melts late`;
  if (kind !== undefined && !fuseSizes(kind).includes(fuse)) return `fails, ${say(fuse)} A is no standard size of such a fuse`;
  if (cable === undefined) return 'unknown, what the cable carries is not known';
  if (amps === undefined) return 'unknown, the load is not known';
  if (kind === undefined) return 'unknown, the kind of fuse is not given';
  return `holds, ${say(fuse)} A between ${say(Math.ceil(OVER * amps * 100 - DUST) / 100)} and ${say(Math.floor((cable / times) * 100 + DUST) / 100)} A`;
}

/** Without one, the source itself must not be able to give more than the cable carries. */
function checkNoFuse(amps: number | undefined, cable: number | undefined, overload: number | undefined): string {
  const least = overload === undefined || amps === undefined ? (overload ?? amps) : Math.max(overload, amps);
  if (least !== undefined && cable !== undefined && isAbove(least, cable))
    return `fails, no fuse, and ${say(least)} A can flow in a cable that carries ${say(cable)} A`;
  if (cable === undefined) return 'unknown, no fuse, and what the cable carries is not known';
  if (overload === undefined) return 'unknown, no fuse, and what can flow in overload is not given';
  return `holds, no fuse, and at most ${say(overload)} A can flow in a cable that carries ${say(cable)} A`;
}

const known = (x: number | string | null | undefined): number | undefined => (typeof x === 'number' ? x : undefined);
/** An amount that may not be known; a load of nothing and no fuse at all are amounts too. */
const CURRENT = { quantity: 'current', unit: 'A', blankAllowed: true, unknownAllowed: true, atLeast: 0, atMost: 1e5 } as const;

export const CHECK_FUSE = define({
  name: 'CHECK.FUSE',
  family: 'Supply, cable, breaker, support',
  summary: 'Holds or fails: a fuse against its load and its cable.',
  use: 'For each run of cable. The fuse carries 1.25 times the load, is of a standard size, and blows before the cable gets too hot. Where there is none (0 A), what the source gives in overload must be no more than the cable carries: for an output without a limit of its own that is the supply’s overload limit, above its rating. What is blank is unknown.',
  formula:
    '1.25 · amps ≤ fuse ≤ cable amps; class gG: fuse ≤ cable amps / 1.45 up to 4 A, / 1.31 above 4 and below 16 A, / 1.1 from 16 A; no fuse: overload amps ≤ cable amps',
  params: [
    { ...CURRENT, name: 'fuse', quantity: 'rating of the fuse', meaning: 'as printed on it; 0 where there is none; a blank gives “unknown”' },
    { ...CURRENT, name: 'amps', meaning: 'of the load on that run; a blank and “unknown” give “unknown”' },
    CABLE_AMPS,
    { ...FUSE_KIND, meaning: '“gG” for class gG of IEC 60269, “other” for small fuses; blank or left out gives “unknown”' },
    {
      ...CURRENT,
      name: 'overload amps',
      meaning: 'most that the source lets through, from its sheet; asked where there is no fuse',
      optional: true,
    },
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source: FUSE_SOURCE,
  caution: CODES,
  examples: [
    { formula: 'CHECK.FUSE(10,6,15,"gG")', gives: 'holds, 10 A between 7.5 and 11.45 A' },
    { formula: 'CHECK.FUSE(12,6,15,"gG")', gives: 'fails, 12 A of class gG is more than 15 A of cable / 1.31, for it melts late' },
    { formula: 'CHECK.FUSE(0,9.375,3,"other",12.5)', gives: 'fails, no fuse, and 12.5 A can flow in a cable that carries 3 A' },
  ],
  work: ([fuse, amps, cable, kind, overload], show) => {
    const run = {
      fuse: known(fuse),
      amps: known(amps),
      cable: known(cable),
      kind: kind === null || kind === 'unknown' ? undefined : kind,
      overload: known(overload),
    };
    if (show) {
      if (run.amps !== undefined) show.expression('the least that the load asks for', calc`1.25 * ${run.amps}`, OVER * run.amps, 'A');
      if (run.fuse && run.kind !== undefined)
        show.expression('what the cable must carry', calc`${cableTimes(run.fuse, run.kind)} * ${run.fuse}`, cableTimes(run.fuse, run.kind) * run.fuse, 'A');
      show.note(run.fuse === 0 ? 'without a fuse, the most that can flow is what the source gives in overload' : 'the fuse stands between load and cable');
    }
    return checkFuse(run);
  },
});
