import { expect, test } from 'vitest';
import { isRefusal, refuse, stepList } from '../../../functions/define.ts';
import { record } from '../evaluate.ts';

function of(name: string, ...args: unknown[]): unknown {
  const f = record(name);
  const answer = f.work(f.params.map((p, i) => args[i] ?? (args[i] === null ? null : p.fallback)) as never, undefined);
  return isRefusal(answer) ? `refused: ${answer.message}` : answer;
}

test.each([
  ['CHECK.AT.MOST', [95.6, 100], 'close to limit, 4.4 % under'],
  ['CHECK.AT.MOST', [95, 100], 'holds, 5 % under'],
  ['CHECK.AT.MOST', [97.9, 100, 0], 'holds, 2.1 % under'],
  ['CHECK.AT.MOST', [112, 100], 'fails, 12 % over'],
  ['CHECK.AT.MOST', [100.01, 100], 'fails, less than 0.1 % over'],
  ['CHECK.AT.MOST', [0.1 + 0.2, 0.3], 'close to limit, at the limit'],
  ['CHECK.AT.MOST', [100, 100, 0], 'holds, at the limit'],
  ['CHECK.AT.MOST', [1, 0], 'fails, above a limit of zero'],
  ['CHECK.AT.MOST', [-1, 0], 'holds, below a limit of zero'],
  ['CHECK.AT.MOST', [0, 0], 'close to limit, at the limit'],
  ['CHECK.AT.MOST', [-12, -10], 'holds, 20 % under'],
  ['CHECK.AT.MOST', [5, null], 'unknown, no limit given'],
  ['CHECK.AT.MOST', [5, 'unknown'], 'unknown, no limit given'],
  ['CHECK.AT.MOST', [1e9, 1], 'fails, more than a hundred times over'],
  ['CHECK.AT.LEAST', [109, 100], 'holds, 9 % above the least'],
  ['CHECK.AT.LEAST', [102, 100], 'close to limit, 2 % above the least'],
  ['CHECK.AT.LEAST', [88, 100], 'fails, 12 % below the least'],
  ['CHECK.AT.LEAST', [0, 0], 'close to limit, at the least'],
  ['CHECK.WITHIN', [13, 12, 18], 'holds, 8.3 % above the low end'],
  ['CHECK.WITHIN', [17, 12, 18], 'holds, 5.6 % under the high end'],
  ['CHECK.WITHIN', [12, 12, 12], 'holds, as asked'],
  ['CHECK.WITHIN', [11, 12, null], 'fails, 8.3 % below the low end'],
  ['CHECK.WITHIN', [13, 12, null], 'unknown, no high limit given'],
  ['CHECK.WITHIN', [13, null, null], 'unknown, no limit given'],
  ['CHECK.IP', [65, 44], 'holds, IP 65 against 44'],
  ['CHECK.IP', [54, 65], 'fails, dust 5 and 6 asked'],
  ['CHECK.IP', [67, 65], 'close to limit, water 7 is a different test from 5'],
  ['CHECK.IP', [67, 64], 'holds, IP 67 against 64'],
  // High pressure is a higher numeral than immersion, and each digit of the marking must be the digit asked or more (IEC 60529, clause 6, from memory).
  ['CHECK.IP', [67, 49], 'fails, water 7 and 9 asked'],
  ['CHECK.IP', [68, 69], 'fails, water 8 and 9 asked'],
  ['CHECK.IP', [69, 67], 'close to limit, water 9 is a different test from 7'],
  ['CHECK.IP', [null, 44], 'unknown, no marking given'],
  ['CHECK.DAY.LENGTH', ['short', 16], 'fails, night of 8 h can keep a short-day crop from flowering; 12 h are asked'],
  ['CHECK.DAY.LENGTH', ['short', 10], 'holds, night of 14 h'],
  ['CHECK.DAY.LENGTH', [null, 10], 'unknown, no day-length response is given'],
] as const)('%s of %j is “%s”', (name, args, wanted) => expect(of(name, ...args)).toBe(wanted));

const column = (...cells: unknown[]) => cells.map((cell) => [cell]);

test('what is close to its limit says look in formulas of earlier books, and is taken for the same', () => {
  expect(of('VERDICT', column('look, mains at the light', 'close to limit, 1 % under', 'holds'), column('A', 'B', 'C'))).toBe('close to limit 2: A, B');
  expect(of('CHEAPEST.HOLDING', [['look 1: A', 'close to limit 1: B']], [[3, 2]])).toBe(2);
});

test('a verdict names how many checks fail, are unknown or are close to their limit, and which, the worst first', () => {
  expect(of('VERDICT', column('fails, 8 % below', 'holds', 'fails, 3 % over'), column('Evenness', 'Drop', 'Circuits free'))).toBe(
    'fails 2: Evenness, Circuits free',
  );
  expect(of('VERDICT', column('close to limit, 1 % under', 'holds'), column('A', 'B'))).toBe('close to limit 1: A');
  expect(of('VERDICT', column('close to limit, 1 % under', 'unknown, no limit given'), column('A', 'B'))).toBe('unknown 1: B; close to limit 1: A');
  expect(of('VERDICT', column('unknown', 'fails, 3 % over', 'close to limit, 1 % under', 'fails, 9 % over', 'assumed, 4 % under'), column(...'ABCDE'))).toBe(
    'fails 2: B, D; unknown 1: A; close to limit 1: C; assumed 1: E',
  );
  expect(of('VERDICT', column('holds', null, 'holds'))).toBe('holds');
  expect(of('VERDICT', column('holds', null), column('A', 'B'))).toBe('unknown 1: B');
  expect(of('VERDICT', column('fails, 3 % over', 'holds'))).toBe('fails 1: check 1');
  // Checks that stand apart are counted with the others.
  expect(of('VERDICT', column('holds', 'fails, 3 % over'), column('A', 'B'), column('assumed, 1 ×'), column('Life'))).toBe('fails 1: B; assumed 1: Life');
  expect(of('VERDICT', column('holds'), column('A'), column('holds'))).toMatch(/^refused: .*2 checks and 1 labels/);
  expect(of('VERDICT', column('fine'))).toMatch(/^refused: .*a check begins with/);
});

test('a verdict with nothing worse than an assumption never says plain “holds”, also over other verdicts', () => {
  expect(of('VERDICT', column('holds', 'assumed, 35 % under', 'assumed, day-neutral'), column('A', 'Brightest point', 'Day length'))).toBe(
    'holds, 2 assumed: Brightest point, Day length',
  );
  expect(of('VERDICT', column('holds', 'holds, 2 assumed: Brightest point, Day length'), column('Bench 1', 'Bench 2'))).toBe('holds, 1 assumed: Bench 2');
  expect(of('VERDICT', column('assumed, 35 % under', 'close to limit, 1 % under'), column('A', 'B'))).toBe('close to limit 1: B; assumed 1: A');
});

test.each([
  // 325 of 500 is 35 % under, 480 is 4 % under, 560 is 12 % over.
  ['CHECK.AT.MOST', [325, 'unknown', 0.05, 500, '500 µmol/m²/s on a leaf'], 'assumed, 35 % under; limit assumed: 500 µmol/m²/s on a leaf'],
  ['CHECK.AT.MOST', [325, null, 0.05, 500], 'assumed, 35 % under; limit assumed'],
  ['CHECK.AT.MOST', [480, null, 0.05, 500, '500'], 'close to limit, 4 % under; limit assumed: 500'],
  ['CHECK.AT.MOST', [560, null, 0.05, 500, '500'], 'fails, 12 % over; limit assumed: 500'],
  ['CHECK.AT.MOST', [500, null, 0, 500, '500'], 'assumed, at the limit; limit assumed: 500'],
  ['CHECK.AT.MOST', [325, 400, 0.05, 500, '500'], 'holds, 19 % under'],
  ['CHECK.AT.MOST', [325, null, 0.05, null, '500'], 'unknown, no limit given'],
  ['CHECK.AT.MOST', [325, 'unknown', 0.05, 'unknown', '500'], 'unknown, no limit given'],
  ['CHECK.AT.MOST', [325, 'no high end', 0.05, 'no high end'], 'assumed, no high end is named'],
  ['CHECK.AT.MOST', [560, 'no high end', 0.05, 500, '500'], 'fails, 12 % over; limit assumed: 500'],
  ['CHECK.AT.LEAST', [109, null, 0.05, 100, '100'], 'assumed, 9 % above the least; least assumed: 100'],
  ['CHECK.AT.LEAST', [88, null, 0.05, 100, '100'], 'fails, 12 % below the least; least assumed: 100'],
  ['CHECK.AT.LEAST', [88, null], 'unknown, no limit given'],
  ['CHECK.WITHIN', [13, 12, null, null, 18, '18'], 'assumed, 8.3 % above the low end; high end assumed: 18'],
  ['CHECK.WITHIN', [17, null, 18, 12, null, '12'], 'assumed, 5.6 % under the high end; low end assumed: 12'],
  ['CHECK.WITHIN', [13, null, null, 12, 18, '12 to 18'], 'assumed, 8.3 % above the low end; both ends assumed: 12 to 18'],
  ['CHECK.WITHIN', [13, null, null, 12], 'unknown, no high limit given'],
  ['CHECK.WITHIN', [20, null, null, 12, 18], 'fails, 11 % over the high end; both ends assumed'],
  ['CHECK.DAY.LENGTH', ['unknown', 16, 12, 'neutral'], 'assumed, day-neutral; day length assumed: neutral'],
  ['CHECK.DAY.LENGTH', [null, 10, 12, 'short', 'short, as most of its kin'], 'assumed, night of 14 h; day length assumed: short, as most of its kin'],
  ['CHECK.DAY.LENGTH', [null, 16, 12, 'long'], 'assumed, night of 8 h; day length assumed: long'],
  ['CHECK.DAY.LENGTH', ['long', 16, 12, 'neutral'], 'holds, night of 8 h'],
  ['CHECK.DAY.LENGTH', [null, 16, 12, 'unknown'], 'unknown, no day-length response is given'],
] as const)('where a limit is assumed, %s of %j says “%s”', (name, args, wanted) => expect(of(name, ...args)).toBe(wanted));

test.each([
  // New 30.8 mol against a top of 30, though the aged 28 is 6.7 % under it: 0.8 / 30 = 2.7 %.
  [[28, 30.8, 20, 30], 'fails, 2.7 % over the high end, day one'],
  // 331 against 309: 22 / 309 = 7.1 %.
  [[290, 331, 206, 309], 'fails, 7.1 % over the high end, day one'],
  [[11, 14, 12, 18], 'fails, 8.3 % below the low end, maintained'],
  [[11, 20, 12, 18], 'fails, 8.3 % below the low end, maintained; 11 % over the high end, day one'],
  [[13, 14, 12, 18], 'holds, 8.3 % above the low end, maintained'],
  [[16, 17, 12, 18], 'holds, 5.6 % under the high end, day one'],
  [[13, 14, 12, null], 'unknown, no high limit given'],
  // A source that names a low end alone: 2 of 13 is 15 %, half of 13 is 3.8 %, and new light has nothing to pass.
  [[15, 90, 13, 'no high end'], 'holds, 15 % above the low end, maintained; no high end is named'],
  [[13.5, 15, 13, 'no high end'], 'close to limit, 3.8 % above the low end, maintained; no high end is named'],
  [[13, 15, 13, 'no high end'], 'close to limit, at the low end, maintained; no high end is named'],
  [[11.7, 15, 13, 'no high end'], 'fails, 10 % below the low end, maintained'],
  [
    [15, 17, 13, 'no high end', null, null, null, true],
    'assumed, 15 % above the low end, maintained; no high end is named; the crop is known only from trials',
  ],
  [[15, 17, null, 'no high end'], 'unknown, no limit given'],
  [[11, 14, 12, null], 'fails, 8.3 % below the low end, maintained'],
  [[13, 19, null, 18], 'fails, 5.6 % over the high end, day one'],
  [[13, 14, null, 18], 'unknown, no low limit given'],
  [[13, 14, 'unknown', 'unknown'], 'unknown, no limit given'],
  [[13, 14, 12, null, null, 18, '18'], 'assumed, 8.3 % above the low end, maintained; high end assumed: 18'],
  [[13, 14, 12, 18, null, null, null, true], 'assumed, 8.3 % above the low end, maintained; the crop is known only from trials'],
  [[11, 14, 12, 18, null, null, null, true], 'fails, 8.3 % below the low end, maintained; the crop is known only from trials'],
  [[14, 13, 12, 18], 'refused: CHECK.BAND: maintained light is more than day-one light; swap them.'],
  [[13, 14, 18, 12], 'refused: CHECK.BAND: the low end is above the high end; swap them.'],
] as const)('the low end of a band is held against maintained light, the high end against day-one light: %j is “%s”', (args, wanted) =>
  expect(of('CHECK.BAND', ...args)).toBe(wanted),
);

test('a scenario that fails or of which something is unknown is never the cheapest', () => {
  expect(of('CHEAPEST.HOLDING', [['fails 1: A', 'unknown 1: B', 'close to limit 1: C', 'holds']], [[1, 2, 30, 40]])).toBe(3);
  expect(of('CHEAPEST.HOLDING', [['holds', 'holds, 1 assumed: Hours', 'assumed, 3 % under']], [[40, 30, 20]])).toBe(3);
  expect(of('CHEAPEST.HOLDING', [['holds', 'holds']], [[40, 40]])).toBe(1);
  expect(of('CHEAPEST.HOLDING', [['fails 1: A', 'unknown']], [[1, 2]])).toMatch(/^refused: .*none of the scenarios works/);
  expect(of('CHEAPEST.HOLDING', [['holds', 'maybe']], [[1, 2]])).toMatch(/^refused: .*it must begin with holds, assumed, close to limit, unknown or fails/);
});

test('what can’t be compared is left out of the ranking, and the working says why', () => {
  const lost = refuse('no height reaches the aim');
  expect(of('CHEAPEST.HOLDING', [['holds', 'holds']], [[null, 2]])).toBe(2);
  expect(of('CHEAPEST.HOLDING', [['holds', lost, 'close to limit 1: Load']], [[50, 2, 40]])).toBe(3);
  expect(of('CHEAPEST.HOLDING', [['holds', 'holds']], [[refuse('Price is not answered yet.'), 2]])).toBe(2);
  expect(of('CHEAPEST.HOLDING', [['holds', 'fails 1: A']], [[refuse('Price is not answered yet.'), 2]])).toBe(
    'refused: CHEAPEST.HOLDING: no scenario can be compared. Scenario 1 is left out: its cost can’t be worked out: Price is not answered yet.',
  );
  const { steps, show } = stepList();
  record('CHEAPEST.HOLDING').work([['holds', lost, 'fails 1: A', 'holds'].map((x) => [x]), [[50], [2], [1], [null]]] as never, show);
  expect(steps.flatMap((step) => (step.kind === 'note' ? [step.label] : []))).toEqual([
    'scenario 2 is not ranked: its verdict can’t be worked out: no height reaches the aim',
    'scenario 3 is not ranked: fails',
    'scenario 4 is left out: its cost is not given',
    'costs of those that work: 1: 50',
  ]);
});

test('those that work are counted, whatever the others are', () => {
  expect(of('HOLDING.COUNT', [['holds', 'close to limit 1: A', 'holds, 1 assumed: B', 'fails 1: C', 'unknown 1: D', refuse('lost'), null]])).toBe(3);
  expect(of('HOLDING.COUNT', [['fails 1: C', refuse('lost')]])).toBe(0);
});
