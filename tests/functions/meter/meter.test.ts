import { expect, test } from 'vitest';
import { isRefusal } from '../../../functions/define.ts';
import { benchField } from '../../../functions/field/kernel.ts';
import { parseLayout } from '../../../functions/field/layout-text.ts';
import { evaluate, record } from '../evaluate.ts';

const TEXT = String(evaluate('LAYOUT(156,1.2,0,120,2,4,2.4,1.2)'));
const layout = parseLayout(TEXT);
if (isRefusal(layout)) throw new Error(layout.message);

/** Readings as the layout would give them: 6 along, 4 across. */
function grid(height: number, change: (e: number, i: number) => number | null): (number | null)[][] {
  const field = benchField(layout as Exclude<typeof layout, { refused: true }>, height, 6, 4);
  return Array.from({ length: 4 }, (_, r) => Array.from({ length: 6 }, (_, c) => change(field[r * 6 + c] as number, r * 6 + c)));
}
const ask = (name: string, ...args: unknown[]): unknown => record(name).work(args as never, undefined);

test('a plant that is dimmed alike everywhere fits with that factor and no miss, blanks left out', () => {
  const readings = grid(0.4, (e, i) => (i === 3 ? null : 0.8 * e));
  expect(ask('METER.FIT', readings, TEXT, 0.4)).toBeCloseTo(0.8, 12);
  expect(ask('METER.MISS', readings, TEXT, 0.4)).toBeCloseTo(0, 12);
});

test('one point far off does not move the middle of reading over plan, as it moves the least squares', () => {
  const readings = grid(0.4, (e, i) => (i === 9 ? 0.2 * e : i === 3 ? null : 0.8 * e));
  expect(ask('METER.FIT', readings, TEXT, 0.4, 'middle')).toBeCloseTo(0.8, 12);
  expect(ask('METER.FIT', readings, TEXT, 0.4, 'squares')).toBeLessThan(0.78);
});

test('the height that was hung comes out of the readings', () => {
  expect(
    ask(
      'METER.FIT.HEIGHT',
      grid(0.47, (e) => e),
      TEXT,
      0.05,
      3,
    ),
  ).toBeCloseTo(0.47, 9);
});

test('a dead half of the bench shows as a miss above 10 %', () => {
  expect(
    ask(
      'METER.MISS',
      grid(0.4, (e, i) => (i % 6 < 3 ? e : 0.5 * e)),
      TEXT,
      0.4,
    ),
  ).toBeGreaterThan(0.1);
});

test('more than one blank in five is refused: a blank is no zero', () => {
  const value = ask('READINGS.MEAN', [[100, null, 100, 100]]);
  expect(isRefusal(value) && value.message).toContain('1 of 4 points is blank');
  expect(ask('READINGS.MEAN', [[100, null, 200, 100, 200]])).toBe(150);
});

test('four readings are too few for a height', () => {
  const value = ask('METER.FIT.HEIGHT', [[1, 2, 3, 4]], TEXT, 0.05, 3);
  expect(isRefusal(value) && value.message).toContain('at least 5');
});

test('without a tolerance nobody can say whether the readings hold', () => {
  expect(ask('METER.VERDICT', 145, 150, null)).toBe('unknown, no tolerance given');
  expect(ask('METER.VERDICT', 145, 150, 0.1)).toMatch(/^holds/);
});

test('a grid of too many points is refused with cells that are large enough', () => {
  for (const [length, width, cell] of [
    [100, 100, 0.1],
    [1000, 0.25, 0.01],
    [1000, 1000, 0.5],
    [30, 9, 0.11],
  ] as const) {
    const value = ask('GRID.POINTS', length, width, cell);
    if (typeof value === 'number') {
      expect(value).toBeLessThanOrEqual(10_000);
      continue;
    }
    const enough = Number(/Cells of ([\d.]+) m/.exec(isRefusal(value) ? value.message : '')?.[1]);
    expect(ask('GRID.POINTS', length, width, enough)).toBeLessThanOrEqual(10_000);
    expect(ask('GRID.POINTS', length, width, enough)).toBeGreaterThan(2000);
  }
});
