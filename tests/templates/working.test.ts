import { evaluate } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { fromBase, need } from '../../functions/units.ts';
import { standingOf } from '../../src/book/look-up.ts';
import type { TraceNode, TraceStep, Value } from '../../src/engine/types.ts';
import { cells, openTemplate, slugs } from './open-template.ts';
import { readsOfAll } from './references.ts';

/** Steps print twelve digits; differences of printed numbers lose a few. */
const AS_PRINTED = 1e-9;
/** A search stops where its answer is good to about this. */
const SEARCHED = 1e-6;

function nodes(tree: TraceNode): TraceNode[] {
  return [tree, ...tree.from.flatMap(nodes)];
}

function shown(value: Value | undefined): number {
  if (value?.kind !== 'number') throw new Error(`a step without a number: ${JSON.stringify(value)}`);
  return fromBase(value.base, need(value.unit));
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
    return differs(again, shown(step.value), AS_PRINTED) ? `${step.label}: ${step.expression} = ${again}, said ${shown(step.value)}` : undefined;
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
    const reads = readsOfAll(session.book);
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
      const told = new Set(all.map((node) => node.address));
      // Down from the cell by the formulas' text alone: whatever is named one by one must be told.
      const waiting = [address];
      const seen = new Set(waiting);
      for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
        for (const read of reads.get(next)?.single ?? []) {
          if (seen.has(read) || standing.get(next) === 'given') continue;
          seen.add(read);
          waiting.push(read);
          if (!told.has(read)) faults.push(`${address}: its working does not tell ${read}`);
        }
      }
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
});
