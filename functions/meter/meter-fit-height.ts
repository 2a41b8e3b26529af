import { say } from '../check-args.ts';
import { type Cells, define, isRefusal, refuse } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT } from '../field/index.ts';
import { quantity, quoted } from '../formula-words.ts';
import { brent } from '../numeric/root.ts';
import { fitAt, measured, noModel, PPFD_READINGS } from './fit.ts';

const LEAST_POINTS = 5;
/** Steps of the look from the top down; evenly spaced in the logarithm of the height. */
const STEPS = 48;

const array = (cells: Cells): string => `{${cells.map((row) => row.map((x) => (x === null ? '' : String(x))).join(',')).join(';')}}`;

export const METER_FIT_HEIGHT = define({
  name: 'METER.FIT.HEIGHT',
  family: 'Meter and evenness',
  summary: 'The height at which the layout’s own output explains the readings.',
  use: 'To ask whether the lights hang lower or higher than said. Assumes output and dimming as the layout says: METER.FIT asks the other way round. At least five readings. Where two heights do, the higher.',
  formula: 'the highest h with METER.FIT(readings, layout, h) = 1',
  params: [
    PPFD_READINGS,
    LAYOUT_TEXT,
    { ...HEIGHT, name: 'lowest', quantity: 'lowest height looked at', meaning: '0.05 m unless said', optional: true, fallback: 0.05 },
    { ...HEIGHT, name: 'highest', quantity: 'highest height looked at', meaning: '3 m unless said', optional: true, fallback: 3 },
  ],
  returns: { quantity: 'mount height', unit: 'm' },
  source: 'Least squares through the origin, solved for the height by R. P. Brent’s method (Algorithms for Minimization Without Derivatives, 1973, chapter 4)',
  slow: true,
  examples: [
    { formula: 'METER.FIT.HEIGHT({35.69,61.02,35.69;61.02,127.32,61.02;35.69,61.02,35.69},LAYOUT(100,0,0,120,1,1,1,1),0.3,1)', gives: 0.5, within: 1e-3 },
  ],
  work: ([cells, text, lowest, highest], show) => {
    const name = 'METER.FIT.HEIGHT';
    if (lowest >= highest) return refuse(`${name}: the lowest height, ${say(lowest)} m, must be below the highest, ${say(highest)} m.`);
    const m = measured(name, cells, text);
    if (isRefusal(m)) return m;
    if (m.readings.values.length < LEAST_POINTS) return refuse(`${name}: there are ${m.readings.values.length} readings; at least ${LEAST_POINTS} are needed.`);
    const off = (h: number): number => Math.log(fitAt(m, h).factor);
    let above = highest;
    let offAbove = off(above);
    const ratio = (lowest / highest) ** (1 / STEPS);
    for (let i = 1; i <= STEPS; i++) {
      const below = i === STEPS ? lowest : highest * ratio ** i;
      const offBelow = off(below);
      if (Number.isFinite(offAbove) && Number.isFinite(offBelow) && offAbove > 0 !== offBelow > 0) {
        const height = brent(off, below, above, offBelow, offAbove).x;
        show?.search(
          'height at which no factor is left',
          height,
          'm',
          [below, above],
          `METER.FIT(${array(cells)},${quoted(text)},${quantity(height, 'm')})`,
          1,
          '1',
        );
        return height;
      }
      [above, offAbove] = [below, offBelow];
    }
    const [low, high] = [fitAt(m, lowest).factor, fitAt(m, highest).factor];
    if (!Number.isFinite(low) || !Number.isFinite(high)) return noModel(name);
    return refuse(
      `${name}: no height from ${say(lowest)} to ${say(highest)} m explains the readings: the factor left is ${say(low)} at ${say(lowest)} m and ${say(high)} at ${say(highest)} m.`,
    );
  },
});
