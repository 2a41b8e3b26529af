import { say } from '../check-args.ts';
import { CORDS_IEC } from '../data/cords.ts';
import { calc, define } from '../define.ts';
import { wholeGauge } from '../wire-gauge.ts';
import { AIR, AIR_FORMULA, AIR_SOURCE, CORD_USE, CORES, inAir, MOST_TEMPERATURE, unknown } from './cord.ts';
import { CODES } from './params.ts';
import { gaugeAmps } from './wire-ampacity-awg.ts';

/** Areas within a thousandth are one size. */
const NEAR = 1e-3;

/** Most current (A) of a metric cord with two loaded cores, in air of 30 °C; undefined for a size that is not in the table. */
export const cordAmps = (area: number): number | undefined => CORDS_IEC.find(([size]) => Math.abs(size - area) <= NEAR * size)?.[1];

export const WIRE_AMPACITY = define({
  name: 'WIRE.AMPACITY',
  family: 'Supply, cable, breaker, support',
  summary: 'What a flexible copper cable of a metric size may carry.',
  use: `${CORD_USE} 0.5 mm² is for cords of up to 2 m. Of other sizes, and of more than two loaded cores, no source is named: they are “unknown”. The area of an American gauge, as WIRE.AREA gives it, is answered as WIRE.AMPACITY.AWG answers.`,
  formula: `table value for two loaded cores · ${AIR_FORMULA}`,
  params: [
    {
      name: 'area',
      quantity: 'cross-section',
      unit: 'mm²',
      meaning: 'nominal area of one conductor; a blank gives “unknown”',
      blankAllowed: true,
      above: 0,
      atMost: 1000,
    },
    CORES,
    AIR,
    MOST_TEMPERATURE,
  ],
  returns: { quantity: 'current that the cable carries', unit: 'A' },
  source: `IEC 60335-1:2010 (edition from memory), table 11 (read in a transcription), and BS 7671:2018 (edition from memory), table 4F3A (1.25 mm², read second-hand); the lower 15, 20 and 25 A for 1.5, 2.5 and 4 mm² from lists of flexible cords in common use (read second-hand, no standard named); gauges: as WIRE.AMPACITY.AWG; ${AIR_SOURCE}`,
  caution: CODES,
  examples: [
    { formula: 'WIRE.AMPACITY(1.5,2,30)', gives: 15 },
    { formula: 'WIRE.AMPACITY(0.75,2,40)', gives: 4.898979485566 },
    { formula: 'WIRE.AMPACITY(3,2,30)', gives: 'unknown' },
    { formula: 'WIRE.AMPACITY(WIRE.AREA(16),2,30)', gives: 13 },
  ],
  work: ([area, cores, air, most], show) => {
    if (typeof area !== 'number') return unknown(show, 'the size of the cable is not given');
    if (typeof cores !== 'number') return unknown(show, 'how many cores carry current is not given');
    const amps = cordAmps(area);
    const gauge = amps === undefined ? wholeGauge(area) : undefined;
    if (gauge !== undefined) {
      show?.note(`AWG ${gauge}, by its area`);
      return gaugeAmps('WIRE.AMPACITY', gauge, cores, typeof air === 'number' ? air : undefined, most, show);
    }
    if (amps === undefined) return unknown(show, `the table has no ${say(area)} mm²; it has ${CORDS_IEC.map(([size]) => say(size)).join(', ')} mm²`);
    if (cores !== 2) return unknown(show, `the table is for two loaded cores; for ${say(cores)} no source is named`);
    show?.expression('of the table, two loaded cores', calc`${amps}`, amps, 'A');
    return inAir('WIRE.AMPACITY', amps, typeof air === 'number' ? air : undefined, most, show);
  },
});
