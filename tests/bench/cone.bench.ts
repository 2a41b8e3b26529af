/**
 * The trade bench worked out for one row of givens after another: by its formulas compiled, and by the engine beside it. A time is of one row, with all of
 * its results told: the median by the clock, of rows that are each another. What is asked of it stands beside each.
 */
import { readFileSync } from 'node:fs';
import { placeIn } from '../../src/book/address.ts';
import type { Book } from '../../src/book/book.ts';
import { addressOf, standingOf } from '../../src/book/look-up.ts';
import { type Put, Sweeper } from '../../src/engine/cone/index.ts';

const book = JSON.parse(readFileSync('templates/trade-bench.json', 'utf8')) as Book;

/** Numbers from 0 to 1, the same in every run (Park and Miller 1988, the "minimal standard" generator). */
let state = 20_261;
const chance = (): number => {
  state = (state * 48_271) % 2_147_483_647;
  return state / 2_147_483_647;
};
const between = (low: number, high: number): number => Number((low + chance() * (high - low)).toPrecision(5));
const whole = (low: number, high: number): number => Math.floor(low + chance() * (high - low + 1));

const table = book.tables.find((one) => one.form === 'scenarios');
if (!table) throw new Error('the template compares nothing');
const rowOf = (id: string): string => `${table.name}.A${table.rows.findIndex((row) => row.id === id) + 1}`;
const all = table.rows.flatMap((_, r) => {
  const at = placeIn(table, 0, r);
  return at && ['worked', 'check'].includes(standingOf(at)) ? [addressOf(at)] : [];
});
const LAYOUT = ['along', 'across', 'turned', 'spread_along', 'spread_across', 'height', 'dim'].map(rowOf);
const layout = (most: number): Put[] => [
  whole(1, most),
  whole(1, most),
  chance() < 0.5 ? 'TRUE' : 'FALSE',
  between(0.8, 1.3),
  between(0.8, 1.3),
  between(0.2, 0.9),
  whole(50, 100),
];

const CASES: readonly (readonly [string, readonly string[], () => Put[], readonly string[], string])[] = [
  ['one scenario, 7 givens, all rows', LAYOUT, () => layout(9), all, '0.4 ms'],
  ['the same, at most 3 × 3 fixtures', LAYOUT, () => layout(3), all, '0.4 ms'],
  ['the same, verdict and yearly cost', LAYOUT, () => layout(3), [rowOf('verdict'), rowOf('annual')], '0.2 ms'],
  ['height alone, all rows', [rowOf('height')], () => [between(0.2, 0.9)], all, '0.15 ms'],
  ['two prices, yearly cost', ['Prices.A1', 'Prices.A3'], () => [between(0.1, 0.5), between(1, 12)], [rowOf('annual')], '0.02 ms'],
];

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN;

for (const [what, givens, row, results, asked] of CASES) {
  const sweeper = new Sweeper(book);
  const begun = performance.now();
  const cone = sweeper.cone(givens, results);
  cone.put(row());
  for (const i of results.keys()) cone.value(i);
  const first = performance.now() - begun;
  const times: number[] = [];
  const seen: Record<string, number> = {};
  for (let n = 0; n < 2_000; n++) {
    const values = row();
    const from = performance.now();
    cone.put(values);
    let kind = '';
    for (const i of results.keys()) kind = cone.value(i).kind;
    times.push(performance.now() - from);
    const last = cone.byEngine === undefined ? kind : 'by the engine';
    seen[last] = (seen[last] ?? 0) + 1;
  }
  const engine = new Sweeper(book);
  const theirs: number[] = [];
  const units = givens.map((address) => engine.workbook.shownUnit(engine.workbook.at(address)));
  for (let n = 0; n < 150; n++) {
    const values = row();
    const contents = new Map(givens.map((address, i) => [address, typeof values[i] === 'number' ? `${values[i]} ${units[i]}`.trim() : String(values[i])]));
    const from = performance.now();
    engine.move(contents);
    for (const address of results) engine.workbook.valueAt(engine.workbook.at(address));
    theirs.push(performance.now() - from);
  }
  console.log(
    `${what.padEnd(38)} ${median(times.slice(500)).toFixed(3)} ms (to be within ${asked}), engine ${median(theirs.slice(50)).toFixed(2)} ms; compiled with its first row in ${first.toFixed(0)} ms; the last result of 2,000: ${JSON.stringify(seen)}`,
  );
}
