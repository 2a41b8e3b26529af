import { expect, test } from 'vitest';
import { isRefusal } from '../../functions/define.ts';
import { functions } from '../../functions/index.ts';
import { unit } from '../../functions/units.ts';
import { evaluate, stepsOf } from './evaluate.ts';

const WORDS = new Set(['1', 'text', 'yes or no', 'any', 'mixed']);

test('no two functions have one name', () => {
  const names = functions.map((f) => f.name);
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  expect(names.length).toBeGreaterThan(0);
});

test.each(functions.map((f) => [f.name, f] as const))('%s says what it is, in which units, from which source, with an example', (_, f) => {
  expect(f.name).toMatch(/^[A-Z][A-Z0-9]*(\.[A-Z0-9]+)*$/);
  for (const text of [f.family, f.summary, f.use, f.formula, f.source, f.returns.quantity]) expect(text.trim()).not.toBe('');
  for (const p of [...f.params, { ...f.returns, name: 'result', meaning: 'result' }]) {
    expect(WORDS.has(p.unit) || unit(p.unit) !== undefined, `unit “${p.unit}” of ${p.name}`).toBe(true);
    expect(p.quantity.trim()).not.toBe('');
    expect(p.meaning.trim()).not.toBe('');
  }
  // One limit at each end, or the sentence that refuses a value would name the wrong one.
  for (const { name, atLeast, above, atMost, below } of f.params) {
    expect([atLeast, above].filter((limit) => limit !== undefined).length, `low limits of ${name}`).toBeLessThan(2);
    expect([atMost, below].filter((limit) => limit !== undefined).length, `high limits of ${name}`).toBeLessThan(2);
  }
  if (f.family === 'Supply, cable, breaker, support') expect(f.caution ?? '').toMatch(/licensed electrician|local rules/);
  expect(f.examples.length).toBeGreaterThan(0);
});

const examples = functions.flatMap((f) => f.examples.map((example) => [example.formula, example, f] as const));

test.each(examples)('%s gives what its page says', (formula, example) => {
  const value = evaluate(formula);
  if (isRefusal(value)) throw new Error(value.message);
  if (typeof example.gives !== 'number') {
    expect(value).toBe(example.gives);
    return;
  }
  const within = example.within ?? 1e-9;
  expect(Math.abs((value as number) - example.gives)).toBeLessThanOrEqual(example.absolute ? within : within * Math.abs(example.gives));
});

test.each(examples)('%s shows its steps, and shows the same value as without', (formula) => {
  const { value, steps } = stepsOf(formula);
  expect(value).toEqual(evaluate(formula));
  expect(steps.length).toBeGreaterThan(0);
});
