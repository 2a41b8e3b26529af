/**
 * What one call of each simple function of ours costs, beside a call of the calculator's own SUM with as many arguments: 10,000 cells with the
 * same formula, all reading givens in the first row, worked out again after a change of one given that changes the answer. Functions of ranges
 * and of layouts are left out: their cost is their work. Name some functions to measure them alone.
 */
import { checkArgs } from '../../functions/check-args.ts';
import { type FunctionRecord, isRefusal, type Param } from '../../functions/define.ts';
import { functions } from '../../functions/index.ts';
import type { Book, Cell, Table } from '../../src/book/book.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { argumentsOf } from '../functions/evaluate.ts';
import { processorMs } from './timing.ts';

const CELLS = 10_000;
const ROUNDS = 3;
const MOST = 3;

type Value = number | string | boolean;
/** Arguments, and the place and other value of the one that is moved to and fro. */
interface Move {
  readonly args: readonly Value[];
  readonly at: number;
  readonly other: number;
}

const asked = process.argv.slice(3);
const simple = functions.filter((f) =>
  asked.length > 0 ? asked.includes(f.name) : !f.slow && f.params.every((p) => p.shape !== 'range' && p.name !== 'layout' && !p.repeats),
);

/** Where a given is moved to: a little away where that changes the answer, farther where the answer is a count or a verdict. */
const nearby = (x: number, whole = false): number[] =>
  whole ? [x - 1, x + 1, x - 2, x + 2, Math.round(x / 2)] : [0.9999, 1.1, 0.5, 2, 0.1].map((factor) => Number((x * factor).toPrecision(9)));

const answer = (f: FunctionRecord, args: readonly Value[]): unknown => {
  const all = f.params.map((p, i) => args[i] ?? p.fallback);
  const value = checkArgs(f, all) ?? f.work(all as never, undefined);
  return isRefusal(value) ? undefined : value;
};

/** The first example that has a given which, moved, moves the answer. */
function moveOf(f: FunctionRecord): Move | undefined {
  for (const { formula } of f.examples) {
    const args = argumentsOf(formula);
    if (!args.every((x) => typeof x === 'number' || typeof x === 'string' || typeof x === 'boolean')) continue;
    const before = answer(f, args);
    for (const [at, value] of args.entries()) {
      if (typeof value !== 'number') continue;
      const other = nearby(value, f.params[at]?.whole).find((x) => ![undefined, before].includes(answer(f, args.with(at, x)) as never));
      if (other !== undefined) return { args, at, other };
    }
  }
  return undefined;
}

const unitOf = (p: Param | undefined): string => (!p || p.unit === '1' || p.unit === 'any' ? '' : p.unit.replace('money', 'EUR'));
const letter = (i: number): string => String.fromCharCode(65 + i);
const given = (x: number, p: Param | undefined): Cell => ({ content: `${x} ${unitOf(p)}`.trim() });

/** Numbers stand in cells; texts, TRUE and FALSE in the formula. */
function bookOf(name: string, args: readonly Value[], params: readonly Param[]): Book {
  const cells: Record<string, Record<string, Cell>> = {};
  const written = args.map((x, i) => {
    if (typeof x !== 'number') return typeof x === 'string' ? JSON.stringify(x) : `${x ? 'TRUE' : 'FALSE'}()`;
    cells.r0 = { ...cells.r0, [`c${i}`]: given(x, params[i]) };
    return `$${letter(i)}$1`;
  });
  for (let r = 1; r <= CELLS; r++) cells[`r${r}`] = { c0: { content: `=${name}(${written.join(',')})` } };
  const table: Table = {
    id: 't',
    name: 'T',
    form: 'plain',
    columns: Array.from({ length: Math.max(1, args.length) }, (_, i) => ({ id: `c${i}` })),
    rows: Array.from({ length: CELLS + 1 }, (_, r) => ({ id: `r${r}` })),
    cells,
  };
  return { format: 'overbench book', version: 1, id: 'b', title: '', client: '', currency: 'EUR', measures: 'metric', pages: [], tables: [table], names: {} };
}

/** The least of three books: the compiler and the collector of garbage come between in any one of them, most of all in the first. */
async function leastCost(name: string, move: Move, params: readonly Param[]): Promise<number | undefined> {
  let best: number | undefined;
  for (let book = 0; book < 3; book++) {
    const us = await cost(name, move, params);
    if (us === undefined) return undefined;
    best = Math.min(best ?? us, us);
  }
  return best;
}

/** Microseconds a call: the least of some rounds, in each of which every cell changed. */
async function cost(name: string, { args, at, other }: Move, params: readonly Param[]): Promise<number | undefined> {
  const engine = createEngine();
  let book = bookOf(name, args, params);
  const values = await engine.load(book);
  if (values['T.A2']?.kind === 'error') return undefined;
  const states = [given(args[at] as number, params[at]), given(other, params[at])];
  let best = Number.POSITIVE_INFINITY;
  for (let round = 1; round <= ROUNDS; round++) {
    const table = book.tables[0] as Table;
    const column = `c${at}`;
    const [before, after] = [states[(round + 1) % 2] as Cell, states[round % 2] as Cell];
    const changed: Table = { ...table, cells: { ...table.cells, r0: { ...table.cells.r0, [column]: after } } };
    book = { ...book, tables: [changed] };
    const from = processorMs();
    const differ = await engine.apply([{ label: '', edits: [{ at: 'cell', table: 't', row: 'r0', column, before, after }] }], book);
    const spent = processorMs() - from;
    if (Object.keys(differ).length >= CELLS) best = Math.min(best, spent);
  }
  engine.close();
  return Number.isFinite(best) ? (best * 1000) / CELLS : undefined;
}

const builtIn = new Map<number, number>();
async function ownCost(count: number): Promise<number> {
  const known = builtIn.get(count);
  if (known !== undefined) return known;
  const args = Array.from({ length: count }, (_, i) => i + 1.5);
  const measured = (await leastCost('SUM', { args, at: 0, other: 1.4 }, [])) ?? Number.NaN;
  builtIn.set(count, measured);
  return measured;
}

let above = 0;
let measured = 0;
const leftOut: string[] = [];
for (const f of simple) {
  const move = moveOf(f);
  let us = move && (await cost(f.name, move, f.params));
  if (!move || us === undefined) {
    leftOut.push(f.name);
    continue;
  }
  measured++;
  const own = await ownCost(move.args.length);
  // Once may be the compiler; three times is the function.
  if (us > MOST * own) us = Math.min(us, (await leastCost(f.name, move, f.params)) ?? us);
  const ratio = us / own;
  if (ratio > MOST) above++;
  console.log(
    `${f.name.padEnd(26)} ${move.args.length} arguments  ${us.toFixed(2).padStart(6)} µs  SUM ${own.toFixed(2)} µs  ${ratio.toFixed(2)}×${ratio > MOST ? '  above' : ''}`,
  );
}
console.log(`${measured} measured, ${above} above ${MOST}×. Left out, with no example in which a number moves the answer: ${leftOut.join(', ') || 'none'}`);
