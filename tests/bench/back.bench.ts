/**
 * Questions of the trade bench worked back, each as a page asks it: the copy of the book is there, as it is made once the givens are listed; the formulas are
 * compiled anew each time, on another copy. The median by the clock and the slowest. To be within 300 ms each.
 */
import { readFileSync } from 'node:fs';
import type { Book } from '../../src/book/book.ts';
import { workBack } from '../../src/engine/back/index.ts';
import { Sweeper } from '../../src/engine/cone/index.ts';
import type { WorkedBack } from '../../src/engine/types.ts';

const book = JSON.parse(readFileSync('templates/trade-bench.json', 'utf8')) as Book;
const LIMIT_MS = 300;
const ROUNDS = 9;

const table = book.tables.find((one) => one.form === 'scenarios');
if (!table) throw new Error('the template compares nothing');
function rowOf(id: string, column = 'A'): string {
  const row = table?.rows.findIndex((one) => one.id === id) ?? -1;
  if (row < 0) throw new Error(`the template has no row ${id}`);
  return `${table?.name}.${column}${row + 1}`;
}

const QUESTIONS: readonly (readonly [what: string, cell: string, wanted: string, given: string])[] = [
  ['height for a mean', rowOf('kept'), '220', rowOf('height')],
  ['hours for a DLI', rowOf('dli'), '14', rowOf('hours')],
  ['dimming for a mean', rowOf('kept'), '220', rowOf('dim')],
  ['tariff for a yearly cost', rowOf('annual'), '1500', 'tariff'],
  ['tariff at which B is as dear as A', rowOf('annual', 'B'), rowOf('annual'), 'tariff'],
  ['heights for an evenness', rowOf('evenness'), '0.7', rowOf('height')],
  ['where the verdict holds, by height', rowOf('verdict'), 'holds', rowOf('height')],
  ['where the verdict holds, by dimming', rowOf('verdict'), 'holds', rowOf('dim')],
  ['count along for a mean', rowOf('kept'), '220', rowOf('along')],
  ['fixture for a mean', rowOf('kept'), '220', rowOf('fixture')],
  ['nothing that reaches it', rowOf('kept'), '2200', rowOf('height')],
];

const sorted = (times: readonly number[]): readonly number[] => [...times].sort((a, b) => a - b);

for (const [what, cell, wanted, given] of QUESTIONS) {
  const times: number[] = [];
  let said = '';
  for (let round = 0; round < ROUNDS; round++) {
    const sweeper = new Sweeper(book);
    const begun = performance.now();
    const worked = answered(sweeper, cell, wanted, given);
    times.push(performance.now() - begun);
    said = worked.ok ? `${worked.ways.length} ways` : worked.message;
    sweeper.close();
  }
  const [median, slowest] = [sorted(times)[ROUNDS >> 1] ?? Number.NaN, Math.max(...times)];
  console.log(
    `${what.padEnd(36)} ${median.toFixed(0).padStart(4)} ms, slowest ${slowest.toFixed(0).padStart(4)} (to be within ${LIMIT_MS})${median > LIMIT_MS ? ' TOO SLOW' : ''}: ${said}`,
  );
}

function answered(sweeper: Sweeper, cell: string, wanted: string, given: string): WorkedBack {
  const work = workBack(sweeper, { cell, wanted, given });
  let step = work.next();
  while (!step.done) step = work.next();
  return step.value;
}
