/** Several benches in one book: their totals by hand, what is left out and says so, and lines put in. */
import { expect, test } from 'vitest';
import { insertLines } from '../../src/book/commands/insert-lines.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import type { Answer } from '../../src/book/refused.ts';
import { isRefused } from '../../src/book/refused.ts';
import type { Session } from '../../src/session.ts';
import { lineOf } from '../../src/shown.ts';
import { openTemplate } from './open-template.ts';
import { cellOf, fill, row, said } from './rows.ts';

const BOOKS = ['trade-bench', 'greenhouse-bench', 'growing-canopy', 'rack-of-tiers'] as const;

async function run(session: Session, answer: Answer): Promise<void> {
  if (isRefused(answer)) throw new Error(answer.message);
  session.dispatch(answer);
  await session.settled();
}

const named = (session: Session, name: string, symbol = ''): string | number => said(session, session.book.names[name]?.replaceAll('$', '') ?? name, symbol);
const listOf = (session: Session): string => session.book.tables.find(({ id }) => id === 'benches')?.name ?? '';

/** A line of the list: name, length, width, scenario, how many. */
const bench = (session: Session, line: number, ...cells: readonly string[]): Promise<void> =>
  fill(session, ...cells.map((cell, i) => [`${listOf(session)}.${'ABCDE'[i]}${line}`, cell] as const));

/** What each scenario's check comes to, whatever the plans of the template say. */
async function verdicts(session: Session, ...texts: readonly string[]): Promise<void> {
  for (const [i, text] of texts.entries()) await run(session, setCell(session.book, { address: cellOf(session, 'verdict', 'ABC'[i]), content: text }));
}

test.each(BOOKS)('%s: three benches come to what their scenarios come to, each as often as it is there', async (slug) => {
  const session = await openTemplate(slug);
  await verdicts(session, 'holds', 'close to limit, see Light', 'holds');
  expect(named(session, 'all_whole')).toBe('nothing counted yet');
  expect(named(session, 'all_lights')).toBe(0);
  const [length, width] = ['Brief.A1', 'Brief.A2'].map((at) => `${said(session, at, 'm')} m`) as [string, string];
  await bench(session, 2, 'North', length, width, 'A', '2');
  await bench(session, 3, 'South', length, width, 'B', '1');
  // A small letter is the same scenario.
  await bench(session, 5, 'Annex', length, width, 'c', '3');
  for (const [total, id, unit] of [
    ['all_lights', 'count', ''],
    ['all_supplies', 'supplies', ''],
    ['all_circuits', 'circuits', ''],
    ['all_power', 'drawn_undimmed', 'W'],
    ['all_heat', 'heat', 'W'],
    ['all_buy', 'buy', 'EUR'],
    ['all_year', 'annual', 'EUR/year'],
  ] as const) {
    const [a, b, c] = ['A', 'B', 'C'].map((letter) => row(session, id, unit, letter)).map((x) => (typeof x === 'number' ? x : 0)) as [number, number, number];
    expect(a + b + c, id).toBeGreaterThan(0);
    expect(named(session, total, unit), total).toBeCloseTo(2 * a + b + 3 * c, 8);
  }
  expect(named(session, 'all_benches')).toBe(6);
  expect(named(session, 'all_whole')).toBe('whole');
  session.close();
});

test('the trade bench by the numbers of its catalogue: three benches of Rail 90 and Rail 45', async () => {
  const session = await openTemplate('trade-bench');
  await verdicts(session, 'holds', 'holds', 'holds');
  const counts = ['A', 'B', 'C'].map((letter) => row(session, 'count', '', letter) as number) as [number, number, number];
  const watts = ['A', 'B', 'C'].map(
    (letter) => ({ 'Rail 45': 45, 'Rail 90': 90, 'Tile 150': 150, 'Bay 320': 320, 'Puck 18': 18 })[row(session, 'fixture', '', letter) as string] ?? 0,
  );
  const efficiency = ['A', 'B', 'C'].map((letter) => row(session, 'efficiency', '', letter) as number);
  const [length, width] = ['Brief.A1', 'Brief.A2'].map((at) => `${said(session, at, 'm')} m`) as [string, string];
  await bench(session, 2, 'North', length, width, 'A', '2');
  await bench(session, 3, 'South', length, width, 'B', '1');
  await bench(session, 4, 'Annex', length, width, 'C', '1');
  expect(named(session, 'all_lights')).toBe(2 * counts[0] + counts[1] + counts[2]);
  const drawn = [2, 1, 1].reduce((sum, n, i) => sum + (n * (counts[i] ?? 0) * (watts[i] ?? 0)) / (efficiency[i] ?? 1), 0);
  expect(named(session, 'all_power', 'W')).toBeCloseTo(drawn, 8);
  session.close();
});

test('a bench of another size, one whose scenario fails and one not filled in are not counted, and say so', async () => {
  const session = await openTemplate('trade-bench');
  await fill(session, ['Brief.A1', '3 m'], ['Brief.A2', '1.2 m']);
  await verdicts(session, 'holds', 'fails 1: Evenness', 'unknown 1: Hours');
  await bench(session, 2, 'North', '3 m', '1.2 m', 'A', '1');
  await bench(session, 3, 'Long', '4 m', '1.2 m', 'A', '1');
  await bench(session, 4, 'Dim', '3 m', '1.2 m', 'B', '1');
  await bench(session, 5, 'Late', '3 m', '1.2 m', 'C', '1');
  await bench(session, 6, 'Open');
  await bench(session, 7, 'Far', '3 m', '1.2 m', 'D', '1');
  const list = listOf(session);
  expect(said(session, `${list}.F2`)).toBe('yes');
  expect(said(session, `${list}.F3`)).toBe('no: planned for 3 m × 1.2 m; this one is 4 m × 1.2 m');
  expect(said(session, `${list}.F4`)).toBe('no: scenario B fails 1: Evenness');
  expect(said(session, `${list}.F5`)).toBe('no: scenario C unknown 1: Hours');
  expect(said(session, `${list}.F6`)).toBe('no: its size, its scenario and how many are asked');
  expect(said(session, `${list}.F7`)).toBe('no: there is no scenario D');
  expect(named(session, 'all_left')).toBe(5);
  expect(named(session, 'all_whole')).toBe('not whole: a line is not counted');
  expect(named(session, 'all_lights')).toBe(row(session, 'count'));
  await run(session, setMeasures(session.book, { measures: 'US customary' }));
  const us = session.values[`${list}.F3`];
  expect(us && lineOf(us)).toBe('no: planned for 9′ 10 1/8″ × 3′ 11 1/4″; this one is 13′ 1 1/2″ × 3′ 11 1/4″');
  session.close();
});

test('lines put in, in the middle or at the end, take the formulas along and are in the totals', async () => {
  const session = await openTemplate('trade-bench');
  await verdicts(session, 'holds', 'holds', 'holds');
  const [length, width] = ['Brief.A1', 'Brief.A2'].map((at) => `${said(session, at, 'm')} m`) as [string, string];
  const rows = (): number => session.book.tables.find(({ id }) => id === 'benches')?.rows.length ?? 0;
  const first = rows();
  await run(session, insertLines(session.book, { table: 'benches', axis: 'row', at: rows(), count: 12 }));
  await run(session, insertLines(session.book, { table: 'benches', axis: 'row', at: 4 }));
  expect(rows()).toBe(first + 13);
  for (const line of [2, 5, first, first + 1, rows()]) await bench(session, line, `Line ${line}`, length, width, 'A', '1');
  expect(named(session, 'all_benches')).toBe(5);
  expect(named(session, 'all_lights')).toBe(5 * (row(session, 'count') as number));
  expect(named(session, 'all_whole')).toBe('whole');
  // Filled to its foot, it takes more lines still.
  await run(session, insertLines(session.book, { table: 'benches', axis: 'row', at: rows() }));
  await bench(session, rows(), 'One more', length, width, 'A', '1');
  expect(named(session, 'all_benches')).toBe(6);
  session.close();
});
