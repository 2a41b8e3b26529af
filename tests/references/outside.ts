/** How a case from outside is held against a formula of ours. */
import { fromBase, need } from '../../functions/units.ts';
import { createEngine } from '../../src/engine/engine.ts';

/** One formula that must give (a part of) what a case expects. */
export interface Check {
  readonly formula: string;
  /** Unit of the expected value; left out: a plain number, a text, or yes or no. */
  readonly in?: string;
  /** Which part of the expected value: a key, or a place in a list. */
  readonly of?: string | number;
  /** Not the result but the step with this label. */
  readonly step?: string;
  /** The formula must be refused, with these words in the sentence. */
  readonly refused?: string;
  /** The expected value is a pair of limits. */
  readonly between?: true;
  /** Where the case's expected value is a sentence: the number that it says. */
  readonly says?: number;
}

export type Checks = Readonly<Record<string, Check | readonly Check[]>>;

const engine = createEngine();

/** What came of a formula: a number in the unit asked for, or a text, a boolean, or `refused: sentence`. */
export async function outcome(check: Check): Promise<number | string | boolean | null> {
  const value = check.step === undefined ? await engine.evaluate(check.formula) : await stepValue(check.formula, check.step);
  if (value.kind === 'number') return fromBase(value.base, need(check.in ?? '1'));
  if (value.kind === 'text') return value.text;
  if (value.kind === 'yes or no') return value.yes;
  return value.kind === 'blank' ? null : `refused: ${value.message}`;
}

async function stepValue(formula: string, label: string) {
  const node = await engine.evaluateWithSteps(formula);
  const step = node.steps.find((s) => s.label === label);
  if (!step?.value) throw new Error(`${formula} has no step “${label}”; it has ${node.steps.map((s) => s.label).join(', ')}`);
  return step.value;
}
