/** A working can be reckoned again: expressions by a general evaluator from their printed numbers, sums from their terms, searches from their check. */
import { evaluate as reckon } from 'mathjs';
import { expect, test } from 'vitest';
import { isRefusal, type Step } from '../../functions/define.ts';
import { functions } from '../../functions/index.ts';
import { fromBase, need, toBase } from '../../functions/units.ts';
import { evaluate, parse, record, stepsOf } from './evaluate.ts';

const examples = functions.flatMap((f) => f.examples.map((example) => [example.formula, f] as const));

/** Printed numbers have 12 digits; a difference of two loses some. */
const NEAR = 1e-8;
const near = (a: number, b: number, scale = 0): boolean => Math.abs(a - b) <= NEAR * Math.max(Math.abs(a), Math.abs(b), scale, 1e-9);

/** What may be lost where nearly equal numbers of this size are taken from one another. */
const lost = (expression: string): number => 1e-3 * Math.max(0, ...[...expression.matchAll(/\d+(?:\.\d+)?(?:e[+-]?\d+)?/g)].map(([x]) => Number(x)));

const valued = (step: Step): step is Exclude<Step, { kind: 'note' }> => step.kind !== 'note';

function again(step: Exclude<Step, { kind: 'note' }>): void {
  if (step.kind === 'expression') {
    expect(
      near(reckon(step.expression) as number, step.value, lost(step.expression)),
      `${step.label}: ${step.expression} = ${reckon(step.expression)}, said ${step.value}`,
    ).toBe(true);
  } else if (step.kind === 'sum') {
    const terms = step.terms();
    const sum = terms.reduce((s, t) => s + t.value, 0);
    const size = terms.reduce((s, t) => s + Math.abs(t.value), 0);
    for (const term of terms) expect(term.label.trim()).not.toBe('');
    expect(near(step.scale * sum, step.value, Math.abs(step.scale) * size * 1e-4), `${step.label}: ${step.scale * sum}, said ${step.value}`).toBe(true);
  } else {
    const [a, b] = step.bracket;
    expect(step.value >= Math.min(a, b) && step.value <= Math.max(a, b), `${step.label}: ${step.value} between ${a} and ${b}`).toBe(true);
    const value = evaluate(step.check);
    if (typeof value !== 'number') throw new Error(`${step.check} gives ${isRefusal(value) ? value.message : value}`);
    const node = parse(step.check);
    const from = node.kind === 'call' ? record(node.name).returns.unit : '1';
    const inUnit = from === step.equalsUnit ? value : fromBase(toBase(value, need(from)), need(step.equalsUnit));
    expect(Math.abs(inUnit - step.equals), `${step.label}: ${step.check} = ${inUnit}, said ${step.equals}`).toBeLessThanOrEqual(
      1e-6 * Math.max(1, Math.abs(step.equals)),
    );
  }
}

test.each(examples)('each step of %s comes out again', (formula) => {
  for (const step of stepsOf(formula).steps) if (valued(step)) again(step);
});

test.each(examples)('a step of %s ends in its value', (formula) => {
  const { value, steps } = stepsOf(formula);
  if (typeof value !== 'number') return;
  // A quantity of any kind is given in base units, a step in the unit that it names.
  const any = record(formula.slice(0, formula.indexOf('('))).returns.unit === 'any';
  const ends = steps.filter(valued).map((step) => (any && step.unit !== 'any' ? toBase(step.value, need(step.unit)) : step.value));
  expect(
    ends.some((end) => near(end, value)),
    `${value} among ${ends.join(', ')}`,
  ).toBe(true);
});
