import { expect, test } from 'vitest';
import { isRefusal } from '../../../functions/define.ts';
import { record } from '../evaluate.ts';

function of(name: string, ...args: unknown[]): unknown {
  const f = record(name);
  const answer = f.work(f.params.map((p, i) => args[i] ?? (args[i] === null ? null : p.fallback)) as never, undefined);
  return isRefusal(answer) ? `refused: ${answer.message}` : answer;
}

test.each([
  ['CHECK.AT.MOST', [95.6, 100], 'look, 4.4 % under'],
  ['CHECK.AT.MOST', [95, 100], 'holds, 5 % under'],
  ['CHECK.AT.MOST', [97.9, 100, 0], 'holds, 2.1 % under'],
  ['CHECK.AT.MOST', [112, 100], 'fails, 12 % over'],
  ['CHECK.AT.MOST', [100.01, 100], 'fails, less than 0.1 % over'],
  ['CHECK.AT.MOST', [0.1 + 0.2, 0.3], 'look, at the limit'],
  ['CHECK.AT.MOST', [100, 100, 0], 'holds, at the limit'],
  ['CHECK.AT.MOST', [1, 0], 'fails, above a limit of zero'],
  ['CHECK.AT.MOST', [-1, 0], 'holds, below a limit of zero'],
  ['CHECK.AT.MOST', [0, 0], 'look, at the limit'],
  ['CHECK.AT.MOST', [-12, -10], 'holds, 20 % under'],
  ['CHECK.AT.MOST', [5, null], 'unknown, no limit given'],
  ['CHECK.AT.MOST', [5, 'unknown'], 'unknown, no limit given'],
  ['CHECK.AT.MOST', [1e9, 1], 'fails, more than a hundred times over'],
  ['CHECK.AT.LEAST', [109, 100], 'holds, 9 % above the least'],
  ['CHECK.AT.LEAST', [102, 100], 'look, 2 % above the least'],
  ['CHECK.AT.LEAST', [88, 100], 'fails, 12 % below the least'],
  ['CHECK.AT.LEAST', [0, 0], 'look, at the least'],
  ['CHECK.WITHIN', [13, 12, 18], 'holds, 8.3 % above the low end'],
  ['CHECK.WITHIN', [17, 12, 18], 'holds, 5.6 % under the high end'],
  ['CHECK.WITHIN', [12, 12, 12], 'holds, as asked'],
  ['CHECK.WITHIN', [11, 12, null], 'fails, 8.3 % below the low end'],
  ['CHECK.WITHIN', [13, 12, null], 'unknown, no high limit given'],
  ['CHECK.WITHIN', [13, null, null], 'unknown, no limit given'],
  ['CHECK.IP', [65, 44], 'holds, IP 65 against 44'],
  ['CHECK.IP', [54, 65], 'fails, dust 5 and 6 asked'],
  ['CHECK.IP', [67, 65], 'look, water 7 is another test than 5'],
  ['CHECK.IP', [67, 64], 'holds, IP 67 against 64'],
  ['CHECK.IP', [null, 44], 'unknown, no marking given'],
  ['CHECK.DAY.LENGTH', ['short', 16], 'fails, night of 8 h can keep a short-day crop from flowering; 12 h are asked'],
  ['CHECK.DAY.LENGTH', ['short', 10], 'holds, night of 14 h'],
  ['CHECK.DAY.LENGTH', [null, 10], 'unknown, how the crop takes day length is not given'],
] as const)('%s of %j is “%s”', (name, args, wanted) => expect(of(name, ...args)).toBe(wanted));

const column = (...cells: unknown[]) => cells.map((cell) => [cell]);

test('the worst check decides: fails before unknown before look before holds', () => {
  expect(of('VERDICT', column('look, 1 % under', 'holds'), column('A', 'B'))).toBe('look, see A');
  expect(of('VERDICT', column('look, 1 % under', 'unknown, no limit given'), column('A', 'B'))).toBe('unknown, see B');
  expect(of('VERDICT', column('unknown', 'fails, 3 % over', 'fails, 9 % over'), column('A', 'B', 'C'))).toBe('fails, see B');
  expect(of('VERDICT', column('holds', null, 'holds'))).toBe('holds');
  expect(of('VERDICT', column('holds', null), column('A', 'B'))).toBe('unknown, see B');
  expect(of('VERDICT', column('fine'))).toMatch(/^refused: .*a check begins with/);
});

test('a scenario that fails or of which something is unknown is never the cheapest', () => {
  expect(of('CHEAPEST.HOLDING', [['fails, see A', 'unknown, see B', 'look, see C', 'holds']], [[1, 2, 30, 40]])).toBe(3);
  expect(of('CHEAPEST.HOLDING', [['holds', 'holds']], [[40, 40]])).toBe(1);
  expect(of('CHEAPEST.HOLDING', [['fails, see A', 'unknown']], [[1, 2]])).toMatch(/^refused: .*none of the scenarios holds/);
  expect(of('CHEAPEST.HOLDING', [['holds', 'holds']], [[null, 2]])).toMatch(/^refused: .*cost of scenario 1 is not given/);
});
