import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { upward } from '../supply/params.ts';

const MOST = 10_000;
const SIZE = { unit: 'm', atLeast: 0.01, atMost: 1000 } as const;

export const GRID_POINTS = define({
  name: 'GRID.POINTS',
  family: 'Meter and evenness',
  summary: 'How many points to read so that no cell is larger than you wish.',
  use: 'Divides length and width into equal cells; read at the centre of each. Smaller cells find darker lows.',
  formula: 'ceil(length / cell) · ceil(width / cell)',
  params: [
    { ...SIZE, name: 'length', quantity: 'length of the bench', meaning: 'x runs along it' },
    { ...SIZE, name: 'width', quantity: 'width of the bench', meaning: 'y runs across it' },
    { ...SIZE, name: 'cell', quantity: 'size of a cell', meaning: 'longest side allowed' },
  ],
  returns: { quantity: 'number of points', unit: '1' },
  source: 'By counting: whole cells each way',
  examples: [{ formula: 'GRID.POINTS(3.6,1.5,0.5)', gives: 24 }],
  work: ([length, width, cell], show) => {
    const [along, across] = [upward(length / cell), upward(width / cell)];
    const value = along * across;
    if (value > MOST) {
      // Rounding up to whole cells doubles their number at worst.
      const larger = Math.ceil(1000 * Math.max(Math.sqrt((2.1 * length * width) / MOST), Math.max(length, width) / MOST)) / 1000;
      return refuse(`GRID.POINTS: that would be ${say(value)} points; ${say(MOST)} are the most. Cells of ${say(larger)} m are large enough.`);
    }
    if (show) {
      show.expression('cells along', calc`ceil(${length} / ${cell} - 1e-9)`, along, '1');
      show.expression('cells across', calc`ceil(${width} / ${cell} - 1e-9)`, across, '1');
      show.expression('points', calc`${along} * ${across}`, value, '1');
    }
    return value;
  },
});
