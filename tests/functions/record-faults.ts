/** What a function's record lacks, and where its example gives something else, in sentences for whoever adds a function. */
import { type Example, type FunctionRecord, isRefusal, type Param } from '../../functions/define.ts';
import { FAMILIES } from '../../functions/family.ts';
import { unit } from '../../functions/units.ts';
import { evaluate } from './evaluate.ts';

const WORDS = new Set(['1', 'text', 'yes or no', 'any', 'mixed']);
/** Relative, where an example does not say how near its value must be. */
const WITHIN = 1e-9;

/** The fields that are missing, or hold no word. */
const blanks = (of: object, fields: readonly string[]): readonly string[] =>
  fields.filter((field) => String((of as Readonly<Record<string, unknown>>)[field] ?? '').trim() === '');

export function recordFaults(record: FunctionRecord): readonly string[] {
  const { name = '', family, params = [], returns = { quantity: '', unit: '' }, examples = [], caution = '' } = record;
  const faults = blanks(record, ['family', 'summary', 'use', 'formula', 'source']).map((field) => `its record has no “${field}”`);
  if (!/^[A-Z][A-Z0-9]*(\.[A-Z0-9]+)*$/.test(name)) faults.push('its name is to be of capitals and digits, with dots between words');
  if (family && !FAMILIES.includes(family)) faults.push(`its family “${family}” is none of those in functions/family.ts: ${FAMILIES.join('; ')}`);
  for (const field of ['params', 'returns', 'examples', 'work'] as const) if (record[field] === undefined) faults.push(`its record has no “${field}”`);
  if (record.examples?.length === 0) faults.push('its record has no example in “examples”');
  for (const [i, param] of params.entries()) faults.push(...paramFaults(param, `its parameter ${param.name || i + 1}`));
  if (record.returns) faults.push(...unitFaults(returns, 'what it returns'));
  if (family === 'Supply, cable, breaker, support' && !/licensed electrician|local rules/.test(caution)) {
    faults.push('its “caution” is to name local rules or a licensed electrician, as that of all that has to do with mains or with loads overhead');
  }
  for (const { formula = '' } of examples) if (!formula.startsWith(`${name}(`)) faults.push(`its example “${formula}” is no call of ${name}`);
  return faults.map((fault) => `${name || 'a function without a name'}: ${fault}.`);
}

function paramFaults(param: Param, which: string): readonly string[] {
  const faults = [...blanks(param, ['name', 'meaning']).map((field) => `${which} has no “${field}”`), ...unitFaults(param, which)];
  // One limit at each end, or the sentence that refuses a value would name the wrong one.
  if (param.atLeast !== undefined && param.above !== undefined) faults.push(`${which} has both “atLeast” and “above”`);
  if (param.atMost !== undefined && param.below !== undefined) faults.push(`${which} has both “atMost” and “below”`);
  return faults;
}

function unitFaults(of: { readonly quantity: string; readonly unit: string }, which: string): readonly string[] {
  const lacks = blanks(of, ['quantity', 'unit']).map((field) => `${which} has no “${field}”`);
  return of.unit && !WORDS.has(of.unit) && unit(of.unit) === undefined
    ? [...lacks, `the unit “${of.unit}” of ${which} is none that functions/units.ts knows`]
    : lacks;
}

/** Undefined where the example gives what it says. */
export function exampleFault({ formula, gives, within = WITHIN, absolute = false }: Example): string | undefined {
  const got = evaluate(formula);
  const near = typeof got === 'number' && typeof gives === 'number' && Math.abs(got - gives) <= (absolute ? within : within * Math.abs(gives));
  if (got === gives || near) return undefined;
  return `${formula}: got ${isRefusal(got) ? `a refusal (${got.message})` : got}, wanted ${gives} by its example.`;
}
