import { evaluate } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { fromBase, need } from '../../functions/units.ts';
import { standingOf } from '../../src/book/look-up.ts';
import type { TraceNode, TraceStep, Value } from '../../src/engine/types.ts';
import { formatTidy } from '../../src/files/csv/tidy.ts';
import { cases } from '../cases.ts';
import { chance, typedInto } from '../second/changes.ts';
import { Sheet } from '../second/sheet.ts';
import { readTidy } from '../second/tidy.ts';
import { cells, openTemplate, slugs } from './open-template.ts';
import { readsOfAll } from './references.ts';

/** Steps print twelve digits; differences of printed numbers lose a few. */
const AS_PRINTED = 1e-9;
/** A search stops where its answer is good to about this. */
const SEARCHED = 1e-6;

function nodes(tree: TraceNode): TraceNode[] {
  return [tree, ...tree.from.flatMap(nodes)];
}

/** The cells of a range as it is written, `Readings.B2:D4`. */
function inRange(text: string): string[] {
  const [, table = '', left = '', top = '', right = '', foot = ''] = /^(.+)\.([A-Z]+)(\d+):([A-Z]+)(\d+)$/.exec(text) ?? [];
  const found: string[] = [];
  for (let c = left.charCodeAt(0); c <= right.charCodeAt(0); c++)
    for (let r = Number(top); r <= Number(foot); r++) found.push(`${table}.${String.fromCharCode(c)}${r}`);
  return found;
}

/** The cells that stand for a node in what its parent reads. */
const cellsOf = (node: TraceNode): readonly string[] => (node.kind === 'range' ? inRange(node.row) : [node.address ?? '']);

/** All cells that a working tells, those among them that stand in a range that is summed up. */
const toldIn = (tree: TraceNode): ReadonlySet<string> => new Set(nodes(tree).flatMap(cellsOf));

function shown(value: Value | undefined): number {
  if (value?.kind !== 'number') throw new Error(`a step without a number: ${JSON.stringify(value)}`);
  return fromBase(value.base, need(value.unit));
}

const PRINTED = /\d+\.\d+(?:e[+-]?\d+)?/g;
/** What the twelfth digits of the numbers in a calculation leave open of its result: much of it where two that are nearly alike are taken from one another. */
function leftOpen(expression: string): number {
  const result = Number(evaluate(expression));
  return [...expression.matchAll(PRINTED)].reduce((sum, { 0: number, index }) => {
    const other = `${expression.slice(0, index)}${Number(number) + 0.5 * 10 ** (Math.floor(Math.log10(Number(number))) - 11)}${expression.slice(index + number.length)}`;
    return sum + Math.abs(Number(evaluate(other)) - result);
  }, 0);
}

const differs = (a: number, b: number, within: number): boolean => !(Math.abs(a - b) <= within * Math.max(Math.abs(a), Math.abs(b)));

/** Why the step does not give what it says, or undefined. Counts what kind it checked. */
async function fault(step: TraceStep, formula: (text: string) => Promise<Value>, counts: Record<string, number>): Promise<string | undefined> {
  counts[step.kind] = (counts[step.kind] ?? 0) + 1;
  if (step.kind === 'expression') {
    const result: unknown = evaluate(step.expression ?? '');
    if (step.value?.kind === 'yes or no')
      return result === step.value.yes ? undefined : `${step.label}: ${step.expression} = ${result}, said ${step.value.yes}`;
    const again = Number(result);
    const off = differs(again, shown(step.value), AS_PRINTED) && Math.abs(again - shown(step.value)) > leftOpen(step.expression ?? '');
    return off ? `${step.label}: ${step.expression} = ${again}, said ${shown(step.value)}` : undefined;
  }
  if (step.kind === 'sum') {
    const again = (step.scale ?? 1) * (step.terms ?? []).reduce((sum, term) => sum + term.value, 0);
    return differs(again, shown(step.value), AS_PRINTED) ? `${step.label}: terms give ${again}, said ${shown(step.value)}` : undefined;
  }
  if (step.kind === 'search') {
    const again = shown(await formula(step.check ?? ''));
    return differs(again, shown(step.equals), SEARCHED) ? `${step.label}: ${step.check} = ${again}, said ${shown(step.equals)}` : undefined;
  }
  return undefined;
}

describe.each(slugs)('the working of %s', (slug) => {
  test('of every worked number reaches its givens, and each step gives again what it says', async () => {
    const session = await openTemplate(slug);
    // The second evaluator says which cells a formula really reads, by its own values.
    const second = new Sheet(readTidy(formatTidy(session.book, session.values)));
    const reads = new Map(cells(session.book).map(({ address }) => [address, second.reads(address)]));
    const standing = new Map(cells(session.book).map(({ address, at }) => [address, standingOf(at)]));
    const worked = [...standing]
      .filter(([address, kind]) => (kind === 'worked' || kind === 'check') && session.values[address] !== undefined)
      .map(([address]) => address);
    const counts: Record<string, number> = {};
    const faults: string[] = [];
    const formula = (text: string): Promise<Value> => session.ask((engine) => engine.evaluate(text));

    for (const address of worked) {
      const tree = await session.ask((engine) => engine.trace(address));
      const all = nodes(tree);
      const told = toldIn(tree);
      const waiting = [address];
      const seen = new Set(waiting);
      for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
        for (const read of standing.get(next) === 'given' ? [] : (reads.get(next) ?? [])) {
          if (seen.has(read) || !standing.has(read)) continue;
          seen.add(read);
          waiting.push(read);
          if (!told.has(read)) faults.push(`${address}: its working does not tell ${read}`);
        }
      }
      for (const listed of tree.from.flatMap(cellsOf))
        if (!reads.get(address)?.has(listed)) faults.push(`${address}: its working lists ${listed}, which it does not read`);
      for (const node of all) {
        const kind = node.address === undefined ? undefined : standing.get(node.address);
        if (node.from.length === 0 && !node.again && (kind === 'worked' || kind === 'check'))
          faults.push(`${address}: the working stops at ${node.address}, which is worked`);
        if (node.address !== undefined && JSON.stringify(node.value) !== JSON.stringify(session.values[node.address] ?? { kind: 'blank' }))
          faults.push(`${address}: ${node.address} is told as another value than the table shows`);
      }
      for (const step of tree.steps) {
        const wrong = await fault(step, formula, counts);
        if (wrong) faults.push(`${address}: ${wrong}`);
      }
      const value = session.values[address];
      if (value?.kind === 'number' && tree.steps.length === 0) faults.push(`${address}: no steps`);
    }
    session.close();
    expect(faults).toEqual([]);
    console.log(`${slug}: ${worked.length} worked cells, steps checked: ${JSON.stringify(counts)}`);
    expect(worked.length).toBeGreaterThan(100);
    for (const kind of ['expression', 'sum', 'search']) expect(counts[kind] ?? 0, kind).toBeGreaterThan(0);
  });

  test('leaves out nothing that moves the value: what is not told can become another, as long as the same branches and entries are taken', async () => {
    const session = await openTemplate(slug);
    const start = session.book;
    const reads = readsOfAll(start);
    const tidy = new Map(readTidy(formatTidy(start, session.values)).map((cell) => [cell.address, cell]));
    const random = chance(2611 + slug.length + Number(process.env.SEED ?? 0));
    const any = <T>(all: readonly T[]): T | undefined => all[Math.floor(random() * all.length)];
    const worked = [...reads.keys()].filter((address) => /^(worked|check)$/.test(tidy.get(address)?.kind ?? ''));
    let held = 0;
    for (let i = 0; i < cases(60); i++) {
      const address = any(worked) ?? '';
      const told = toldIn(await session.ask((engine) => engine.trace(address)));
      // All that its formulas name, near and far, in whatever branch and range.
      const named = new Set([address]);
      for (const next of named) for (const read of [...(reads.get(next)?.single ?? []), ...(reads.get(next)?.ranged ?? [])]) named.add(read);
      const untold = [...named].flatMap((read) => (told.has(read) ? [] : (tidy.get(read) ?? []))).filter(({ kind, low }) => kind === 'given' && low !== '');
      const given = any(untold);
      const typed = given ? typedInto(given, tidy, random) : '';
      const before = session.values[address];
      if (!given || typed === '' || !(await session.type(given.address, typed)).ok) continue;
      await session.settled();
      const after = toldIn(await session.ask((engine) => engine.trace(address)));
      const same = after.size === told.size && [...after].every((one) => told.has(one));
      if (same) {
        held++;
        expect(session.values[address], `${address} after ${given.address} = ${typed}`).toEqual(before);
      }
      while (session.book !== start && session.undo());
      await session.settled();
    }
    session.close();
    expect(held).toBeGreaterThan(0);
  });
});
