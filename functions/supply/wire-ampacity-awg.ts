import { say } from '../check-args.ts';
import { CORDS_NEC, MORE_CORES_NEC } from '../data/cords.ts';
import { calc, define, type Refusal, type Show } from '../define.ts';
import { AIR, AIR_FORMULA, AIR_SOURCE, CORD_USE, CORES, inAir, MOST_TEMPERATURE, unknown } from './cord.ts';
import { CODES } from './params.ts';
import { AWG_PARAM } from './wire-area.ts';

const SIZES = CORDS_NEC.map(([awg]) => awg).join(', ');

/** Most current (A) of a cord by its gauge, in air of a temperature in °C; “unknown” where the table does not say. `name`: of the function that is asked. */
export function gaugeAmps(
  name: string,
  awg: number,
  cores: number,
  air: number | undefined,
  most: number | null,
  show: Show | undefined,
): number | string | Refusal {
  const row = CORDS_NEC.find(([size]) => size === awg);
  if (!row) return unknown(show, `the table has no AWG ${say(awg)}; it has ${SIZES}`);
  const share = cores === 2 ? 1 : cores < 2 ? undefined : MORE_CORES_NEC.find(([upTo]) => cores <= upTo)?.[1];
  if (share === undefined) return unknown(show, `for ${say(cores)} loaded cores no share is listed`);
  const [, two, three] = row;
  const amps = cores === 2 ? two : three * share;
  show?.expression(`of the table, ${cores === 2 ? 'two' : 'three'} loaded cores`, calc`${cores === 2 ? two : three}`, cores === 2 ? two : three, 'A');
  if (cores > 3) show?.expression(`of ${say(cores)} loaded cores each`, calc`${three} * ${share}`, amps, 'A');
  return inAir(name, amps, air, most, show);
}

export const WIRE_AMPACITY_AWG = define({
  name: 'WIRE.AMPACITY.AWG',
  family: 'Supply, cable, breaker, support',
  summary: 'What a flexible copper cable of an American gauge may carry.',
  use: `${CORD_USE} More than three loaded cores carry a share of what three do. Other gauges and other numbers of cores are “unknown”. For metric sizes: WIRE.AMPACITY.`,
  formula: `table value for two or three loaded cores · share for more cores · ${AIR_FORMULA}`,
  params: [{ ...AWG_PARAM, meaning: `one of ${SIZES}; a blank gives “unknown”`, blankAllowed: true }, CORES, AIR, MOST_TEMPERATURE],
  returns: { quantity: 'current that the cable carries', unit: 'A' },
  source: `NFPA 70, National Electrical Code, 2020 (edition from memory), table 400.5(A)(1), thermoplastic cords, columns A and B (read second-hand; 17 AWG with three loaded cores from memory), and table 400.5(A)(3) for more cores (read in trade press); ${AIR_SOURCE}`,
  caution: CODES,
  examples: [
    { formula: 'WIRE.AMPACITY.AWG(18,2,30)', gives: 10 },
    { formula: 'WIRE.AMPACITY.AWG(18,3,30)', gives: 7 },
    { formula: 'WIRE.AMPACITY.AWG(14,4,30)', gives: 12 },
  ],
  work: ([awg, cores, air, most], show) => {
    if (typeof awg !== 'number') return unknown(show, 'the gauge of the cable is not given');
    if (typeof cores !== 'number') return unknown(show, 'how many cores carry current is not given');
    return gaugeAmps('WIRE.AMPACITY.AWG', awg, cores, typeof air === 'number' ? air : undefined, most, show);
  },
});
