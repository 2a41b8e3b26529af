/** Reckons the steps of a working again with a general evaluator, from nothing but what is printed in them. */
import { evaluate } from 'mathjs';
import { fromBase, unit } from '../../functions/units.ts';
import type { Engine, TraceNode, TraceStep, Value } from '../../src/engine/types.ts';

const inUnit = (value: Value | undefined): number | boolean | undefined => {
  if (value?.kind === 'yes or no') return value.yes;
  const u = value?.kind === 'number' ? unit(value.unit) : undefined;
  return value?.kind === 'number' && u ? fromBase(value.base, u) : undefined;
};

const near = (a: unknown, b: unknown, within = 1e-9): boolean =>
  typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) <= within * Math.max(Math.abs(a), Math.abs(b), 1e-300) || Math.abs(a - b) < 1e-12 : a === b;

/** What is wrong with a step, or undefined where it comes out as printed. */
async function wrongWith(step: TraceStep, engine: Engine): Promise<string | undefined> {
  const printed = inUnit(step.value);
  if (step.kind === 'note') return undefined;
  if (printed === undefined) return `${step.label}: no value in its unit`;
  if (step.kind === 'expression') {
    const again: unknown = evaluate(step.expression ?? '');
    return near(again, printed) ? undefined : `${step.label}: ${step.expression} gives ${again}, printed ${printed}`;
  }
  if (step.kind === 'sum') {
    const again = (step.scale ?? 1) * (step.terms ?? []).reduce((sum, term) => sum + term.value, 0);
    return near(again, printed) ? undefined : `${step.label}: the terms give ${again}, printed ${printed}`;
  }
  const checked = inUnit(await engine.evaluate(step.check ?? ''));
  const [low, high] = step.bracket ?? [Number.NaN, Number.NaN];
  if (!near(checked, inUnit(step.equals), 1e-6)) return `${step.label}: ${step.check} gives ${checked}, printed ${inUnit(step.equals)}`;
  return typeof printed === 'number' && printed >= low && printed <= high ? undefined : `${step.label}: ${printed} lies outside ${low} to ${high}`;
}

/** The result in the unit in which a step gives it: what is shown in feet and inches is worked in inches. */
function resultAs(result: Value, step: Value | undefined): number | boolean | undefined {
  const u = result.kind === 'number' && step?.kind === 'number' ? unit(step.unit) : undefined;
  return result.kind === 'number' && u?.dimension === unit(result.unit)?.dimension && u ? fromBase(result.base, u) : inUnit(result);
}

/** Everything wrong with a node's own steps: a step that does not come out, or a result that no step leads to. */
export async function faultsIn(node: TraceNode, engine: Engine): Promise<readonly string[]> {
  const faults: string[] = [];
  for (const step of node.steps) {
    const fault = await wrongWith(step, engine);
    if (fault) faults.push(`${node.address} ${fault}`);
  }
  const result = inUnit(node.value);
  if (
    node.formula !== undefined &&
    !node.again &&
    result !== undefined &&
    !node.steps.some((step) => near(inUnit(step.value), resultAs(node.value, step.value)))
  ) {
    faults.push(`${node.address}: no step gives ${result} (${node.formula})`);
  }
  return faults;
}
