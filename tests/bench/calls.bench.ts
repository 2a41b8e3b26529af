/**
 * What one call of each simple function of ours costs, beside a call of the calculator's own SUM with as many arguments: 10,000 cells with the
 * same formula, all reading givens in the first row, worked out again after a change of the first given that the function takes. Functions that go over a
 * field, search, or take ranges are left out: their cost is their work.
 */
import { type FunctionRecord, isRefusal, type Param } from '../../functions/define.ts';
import { functions } from '../../functions/index.ts';
import type { Book, Cell, Table } from '../../src/book/book.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { processorMs } from './timing.ts';

const CELLS = 10_000;
const ROUNDS = 5;
const MOST = 3;

const simple = functions.filter(
  (f) => !f.slow && f.family !== 'Quantities in formulas' && f.params.every((p) => p.shape !== 'range' && p.unit !== 'text' && !p.repeats),
);

/** The arguments of the first example that are written numbers; undefined where it has others. */
function exampleArguments(f: FunctionRecord): readonly number[] | undefined {
  for (const { formula } of f.examples) {
    const inside = /^[A-Z0-9.]+\(([^()]*)\)$/.exec(formula)?.[1];
    const args = inside?.split(',').map(Number);
    if (args?.length && args.every(Number.isFinite)) return args;
  }
  return undefined;
}

const unitOf = (p: Param | undefined): string => (!p || p.unit === '1' || p.unit === 'any' ? '' : p.unit.replace('money', 'EUR'));
const letter = (i: number): string => String.fromCharCode(65 + i);

function bookOf(name: string, args: readonly number[], params: readonly Param[]): Book {
  const cells: Record<string, Record<string, Cell>> = {};
  for (const [i, x] of args.entries()) {
    cells.r0 ??= {};
    cells.r0[`c${i}`] = { content: `${x} ${unitOf(params[i])}`.trim() };
  }
  const formula = `=${name}(${args.map((_, i) => `$${letter(i)}$1`).join(',')})`;
  for (let r = 1; r <= CELLS; r++) cells[`r${r}`] = { c0: { content: formula } };
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

/** Microseconds a call: the least of some rounds, each with another value of the first argument. */
async function cost(name: string, args: readonly number[], params: readonly Param[]): Promise<number | undefined> {
  const engine = createEngine();
  let book = bookOf(name, args, params);
  const values = await engine.load(book);
  if (values['T!A2']?.kind === 'error') return undefined;
  let best = Number.POSITIVE_INFINITY;
  for (let round = 1; round <= ROUNDS; round++) {
    const table = book.tables[0] as Table;
    const before = table.cells.r0?.c0 as Cell;
    const after: Cell = { content: `${Number(((args[0] ?? 0) * (1 - round * 1e-4)).toPrecision(9))} ${unitOf(params[0])}`.trim() };
    const changed: Table = { ...table, cells: { ...table.cells, r0: { ...table.cells.r0, c0: after } } };
    book = { ...book, tables: [changed] };
    const from = processorMs();
    const differ = await engine.apply([{ label: '', edits: [{ at: 'cell', table: 't', row: 'r0', column: 'c0', before, after }] }], book);
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
  const measured =
    (await cost(
      'SUM',
      Array.from({ length: count }, (_, i) => i + 1.5),
      [],
    )) ?? Number.NaN;
  builtIn.set(count, measured);
  return measured;
}

let above = 0;
const leftOut: string[] = [];
for (const f of simple) {
  const args = exampleArguments(f);
  const wholeFirst = f.params[0]?.whole;
  const us = args && !wholeFirst && !isRefusal(args) ? await cost(f.name, args, f.params) : undefined;
  if (!args || us === undefined) {
    leftOut.push(f.name);
    continue;
  }
  const own = await ownCost(args.length);
  const ratio = us / own;
  if (ratio > MOST) above++;
  console.log(
    `${f.name.padEnd(26)} ${args.length} arguments  ${us.toFixed(2).padStart(6)} µs  SUM ${own.toFixed(2)} µs  ${ratio.toFixed(2)}×${ratio > MOST ? '  above' : ''}`,
  );
}
console.log(`${above} above ${MOST}×. Left out, with no example in plain numbers whose first can be moved: ${leftOut.join(', ')}`);
