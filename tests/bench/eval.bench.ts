/**
 * 10,000 formulas of mixed functions, each in no cell, as `overbench eval --lines` works them out: the examples of every function
 * in the catalogue and some of the open standard, with their numbers moved a little each time round, so that no result is known yet.
 */
import { functions } from '../../functions/index.ts';
import { createEngine } from '../../src/engine/engine.ts';

const STANDARD = [
  'SUM(1,2,3.5)',
  'ROUND(2.345,2)',
  'IF(3>2,1,0)',
  'SQRT(2)*PI()',
  'MAX(3 m,9 ft)',
  '60 W*16 h/d*330 d/year',
  'PMT(0.05,10,1000)',
  'MOD(17,5)',
  '"bar "&LEFT("abc",2)',
];
const FORMULAS = 10_000;

const examples = [...functions.flatMap((record) => record.examples.map((example) => example.formula)), ...STANDARD];

/** The last number with decimals gets one more digit, which leaves counts and shares in their ranges. */
function moved(formula: string, round: number): string {
  const at = [...formula.matchAll(/\d\.\d+(?![\w.]*")/g)].at(-1);
  return at ? `${formula.slice(0, at.index + at[0].length)}${round}${formula.slice(at.index + at[0].length)}` : formula;
}

const lines = Array.from({ length: FORMULAS }, (_, i) => moved(examples[i % examples.length] ?? '1', 1 + Math.floor(i / examples.length)));
const engine = createEngine();
const spent = new Map<string, number>();
let errors = 0;
const begun = performance.now();
for (const line of lines) {
  const from = performance.now();
  if ((await engine.evaluate(line)).kind === 'error') errors++;
  const name = /^[A-Z.0-9]+(?=\()/.exec(line)?.[0] ?? 'operators';
  spent.set(name, (spent.get(name) ?? 0) + performance.now() - from);
}
const total = performance.now() - begun;
console.log(
  `${FORMULAS} formulas, ${new Set(lines).size} different, of ${examples.length} kinds: ${total.toFixed(0)} ms (goal: under 5,000), ${errors} errors`,
);
const slowest = [...spent].sort((a, b) => b[1] - a[1]).slice(0, 8);
console.log(`most time: ${slowest.map(([name, ms]) => `${name} ${ms.toFixed(0)} ms`).join(', ')}`);
