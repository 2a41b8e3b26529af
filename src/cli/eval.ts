import { createInterface } from 'node:readline';
import { createEngine } from '../engine/engine.ts';
import type { Value } from '../engine/types.ts';
import { inDefaultUnit } from './default-units.ts';
import { print } from './output.ts';
import type { Verb } from './verb.ts';
import { Failure, WrongUse } from './wrong-use.ts';

/** No book is open, so there is none to say its currency. */
const CURRENCY = 'EUR';

type Line =
  | { readonly formula: string; readonly value: number | string | boolean; readonly unit: string }
  | { readonly formula: string; readonly error: string };

export const verb: Verb = {
  usage: 'FORMULA [--json], or overbench eval --lines to read one formula a line from standard input',
  about: 'Works out a formula, in full precision and in the usual unit of its quantity. No book is open: it reads no cells.',
  options: {
    json: { type: 'boolean', about: 'answers with an object of JSON' },
    lines: { type: 'boolean', about: 'reads one formula a line from standard input and answers each with an object of JSON a line' },
  },
  async run(operands, { json, lines }) {
    const [formula, more] = operands;
    if (lines) {
      if (formula !== undefined) throw new WrongUse('with --lines the formulas come from standard input');
      return evaluateLines();
    }
    if (formula === undefined) throw new WrongUse('a formula is missing');
    if (more !== undefined) throw new WrongUse(`one formula, in quotes, not also ${more}`);
    const engine = createEngine();
    const line = said(formula, await engine.evaluate(formula));
    engine.close();
    if (json) await print(`${JSON.stringify(line)}\n`);
    else if ('error' in line) throw new Failure(line.error);
    else await print(`${[line.value, line.unit].join(' ').trimEnd()}\n`);
    return 'error' in line ? 1 : 0;
  },
};

async function evaluateLines(): Promise<number> {
  const engine = createEngine();
  let failed = false;
  for await (const formula of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
    if (formula.trim() === '') continue;
    const line = said(formula, await engine.evaluate(formula));
    failed ||= 'error' in line;
    await print(`${JSON.stringify(line)}\n`);
  }
  engine.close();
  return failed ? 1 : 0;
}

function said(formula: string, value: Value): Line {
  switch (value.kind) {
    case 'number':
      return { formula, ...inDefaultUnit(formula, value.base, value.unit, CURRENCY) };
    case 'text':
      return { formula, value: value.text, unit: '' };
    case 'yes or no':
      return { formula, value: value.yes, unit: '' };
    case 'blank':
      return { formula, value: '', unit: '' };
    case 'error':
      return { formula, error: value.message };
  }
}
