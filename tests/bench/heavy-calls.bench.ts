/** What one call costs of the functions that a plan worked out over and over spends most of its time in, arguments judged and all. */
import { checkArgs } from '../../functions/check-args.ts';
import { functions } from '../../functions/index.ts';
import { keep, timed } from './timing.ts';

const LAYOUT = '16 (2×8) of 156 µmol/s 1.2×0.05 m 120° over 3.6×1.5 m';
const CHECKS = [
  'holds, 12 % over the low end',
  'holds, 5 % under',
  'assumed, 35 % under; limit assumed: 2 500 µmol/m²/s on a leaf',
  'look, 2 % under',
  ...Array.from({ length: 8 }, (_, i) => `holds, ${i + 3} % under`),
];
const CALLS: readonly (readonly [string, readonly unknown[]])[] = [
  ['BENCH.UNIFORMITY.INSIDE', [LAYOUT, 0.4, 0.3, 60, 25]],
  ['BENCH.SHARE.LIT', [LAYOUT, 0.4, 200, 60, 25]],
  ['NEIGHBOUR.SPILL', [LAYOUT, 0.4, 0.6, 0]],
  ['VERDICT', [CHECKS.map((text) => [text]), CHECKS.map((_, i) => [`Check ${i + 1}`])]],
];
for (const [name, args] of CALLS) {
  const record = functions.find((one) => one.name === name);
  if (!record) throw new Error(`there is no ${name}`);
  const { best, median } = timed(() => {
    const answer = checkArgs(record, args) ?? record.work(args as never, undefined);
    keep(typeof answer === 'number' ? answer : 1);
  });
  console.log(`${name.padEnd(26)} ${best.toFixed(2)} µs, median ${median.toFixed(2)}`);
}
