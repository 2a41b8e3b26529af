/** What WIRE.AMPACITY and WIRE.AMPACITY.AWG share: the air, and how a current in free air of 30 °C becomes one in warmer air. */
import { say } from '../check-args.ts';
import { UNKNOWN } from '../crop/crop-range.ts';
import { CORD_AIR } from '../data/cords.ts';
import { calc, type Refusal, refuse, type Show } from '../define.ts';

/** Share of its current that a cord keeps in warmer air; cooler air is no gain. */
export const airShare = (air: number, most: number): number => Math.min(1, Math.sqrt((most - air) / (most - CORD_AIR)));

/** The current of the table in air of another temperature; “unknown” where the air is not given. */
export function inAir(name: string, amps: number, air: number | undefined, most: number | null, show: Show | undefined): number | string | Refusal {
  const limit = most ?? UNMARKED;
  if (air === undefined) return unknown(show, 'how warm the air gets is not given');
  if (air >= limit)
    return refuse(
      `${name}: air of ${say(air)} °C leaves nothing to a cable of at most ${say(limit)} °C. It must be cooler there, or the cable marked for more.`,
    );
  const share = airShare(air, limit);
  show?.expression('share left in such air', calc`min(1, sqrt((${limit} - ${air}) / (${limit} - ${CORD_AIR})))`, share, '1');
  const value = amps * share;
  show?.expression('most current', calc`${amps} * ${share}`, value, 'A');
  return value;
}

/** Says why, and gives “unknown”. */
export function unknown(show: Show | undefined, why: string): string {
  show?.note(why);
  return UNKNOWN;
}

/** A cord that is not marked otherwise, °C. */
const UNMARKED = 60;

export const CORES = {
  name: 'loaded cores',
  quantity: 'cores that carry current',
  unit: '1',
  meaning: 'there and back are two; a protective conductor is none; a blank gives “unknown”',
  blankAllowed: true,
  atLeast: 1,
  atMost: 1000,
  whole: true,
} as const;
export const AIR = {
  name: 'air',
  quantity: 'air temperature',
  unit: '°C',
  meaning: 'the warmest along the cable; a blank gives “unknown”',
  blankAllowed: true,
  atLeast: -60,
  atMost: 150,
} as const;
export const MOST_TEMPERATURE = {
  name: 'most temperature',
  quantity: 'most temperature of the conductor',
  unit: '°C',
  meaning: 'marked on the cable; 60 °C where it is not, or left blank',
  optional: true,
  fallback: UNMARKED,
  blankAllowed: true,
  atLeast: 40,
  atMost: 250,
} as const;
export const CORD_USE =
  'For one cable that hangs or lies free in air. Coiled, bundled, covered or laid in insulation it carries less: ask the code. A fuse must suit it too: CHECK.FUSE.';
export const AIR_FORMULA = '√((most − air)/(most − 30 °C)), at most 1';
export const AIR_SOURCE =
  'warmer air: NFPA 70, 2020 (edition from memory), table 310.15(B)(1) and its equation, √((Tc − Ta)/(Tc − 30)), read second-hand; 60 °C unless marked: listing standards of cords, read in trade press';
