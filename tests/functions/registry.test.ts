import { expect, test } from 'vitest';
import type { FunctionRecord } from '../../functions/define.ts';
import { byFamily, FAMILIES } from '../../functions/family.ts';
import { functions } from '../../functions/index.ts';
import { evaluate, record, stepsOf } from './evaluate.ts';
import { exampleFault, recordFaults } from './record-faults.ts';

test('no two functions have one name', () => {
  const names = functions.map((f) => f.name);
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  expect(names.length).toBeGreaterThan(0);
});

test('every record that a file defines is in the catalogue', () => {
  const files = import.meta.glob<Readonly<Record<string, unknown>>>(['../../functions/*/*.ts', '!../../functions/*/index.ts'], { eager: true });
  const isRecord = (x: unknown): x is FunctionRecord => typeof x === 'object' && x !== null && 'work' in x && 'examples' in x;
  const defined = Object.entries(files).flatMap(([path, exports]) =>
    Object.values(exports)
      .filter(isRecord)
      .map((f) => [path.replace('../../', ''), f] as const),
  );
  const forgotten = defined.filter(([, f]) => !functions.includes(f)).map(([path, f]) => `${f.name} of ${path} is not in the list of functions/index.ts.`);
  expect(forgotten, forgotten.join('\n')).toEqual([]);
  expect(defined.length).toBe(functions.length);
});

test.each(functions.map((f) => [f.name, f] as const))('%s says what it is, in which units, from which source, with an example', (_, f) => {
  const faults = recordFaults(f);
  expect(faults, faults.join('\n')).toEqual([]);
});

const examples = functions.flatMap((f) => f.examples.map((example) => [example.formula, example] as const));

test.each(examples)('%s gives what its page says', (_, example) => {
  const fault = exampleFault(example);
  expect(fault, fault).toBeUndefined();
});

test.each(examples)('%s shows its steps, and shows the same value as without', (formula) => {
  const { value, steps } = stepsOf(formula);
  expect(value).toEqual(evaluate(formula));
  expect(steps.length, `${formula}: its work shows no steps. Give each to “show”.`).toBeGreaterThan(0);
});

const DLI = record('DLI');
/** As a record may reach the catalogue from a file that was not checked for types. */
const written = (change: Readonly<Record<string, unknown>>): FunctionRecord => ({ ...DLI, ...change }) as unknown as FunctionRecord;
const param = (change: Readonly<Record<string, unknown>>): unknown => ({ params: [{ ...DLI.params[0], ...change }, DLI.params[1]] });

test.each<readonly [string, unknown, string]>([
  ['no source', { source: undefined }, 'DLI: its record has no “source”.'],
  ['a summary without a word', { summary: ' ' }, 'DLI: its record has no “summary”.'],
  ['no family', { family: undefined }, 'DLI: its record has no “family”.'],
  ['a family that there is not', { family: 'Daylight' }, `DLI: its family “Daylight” is none of those in functions/family.ts: ${FAMILIES.join('; ')}.`],
  ['no parameters', { params: undefined }, 'DLI: its record has no “params”.'],
  ['nothing that it returns', { returns: undefined }, 'DLI: its record has no “returns”.'],
  ['no examples', { examples: undefined }, 'DLI: its record has no “examples”.'],
  ['an empty list of examples', { examples: [] }, 'DLI: its record has no example in “examples”.'],
  ['no work', { work: undefined }, 'DLI: its record has no “work”.'],
  ['a parameter without a meaning', param({ meaning: '' }), 'DLI: its parameter ppfd has no “meaning”.'],
  ['a parameter without a name', param({ name: undefined }), 'DLI: its parameter 1 has no “name”.'],
  ['a parameter without a quantity', param({ quantity: undefined }), 'DLI: its parameter ppfd has no “quantity”.'],
  ['a parameter without a unit', param({ unit: undefined }), 'DLI: its parameter ppfd has no “unit”.'],
  ['a unit that there is not', param({ unit: 'umole' }), 'DLI: the unit “umole” of its parameter ppfd is none that functions/units.ts knows.'],
  ['two low limits', param({ atLeast: 0, above: 0 }), 'DLI: its parameter ppfd has both “atLeast” and “above”.'],
  ['two high limits', param({ atMost: 9, below: 9 }), 'DLI: its parameter ppfd has both “atMost” and “below”.'],
  ['a result without a unit', { returns: { quantity: 'light' } }, 'DLI: what it returns has no “unit”.'],
  ['a name in small letters', { name: 'dli', examples: [] }, 'dli: its name is to be of capitals and digits, with dots between words.'],
  ['an example of another function', { examples: [{ formula: 'DLI.GAP(1,2)', gives: 1 }] }, 'DLI: its example “DLI.GAP(1,2)” is no call of DLI.'],
  ['mains without a caution', { family: 'Supply, cable, breaker, support' }, 'DLI: its “caution” is to name local rules or a licensed electrician'],
])('a record with %s is refused, and it is said which field', (_, change, said) => {
  expect(recordFaults(DLI)).toEqual([]);
  const faults = recordFaults(written(change as Readonly<Record<string, unknown>>));
  expect(faults.filter((fault) => fault.startsWith(said))).toHaveLength(1);
});

test('an example that gives something else is refused with what it got and what was wanted', () => {
  expect(exampleFault({ formula: 'DLI(200,16)', gives: 11.52 })).toBeUndefined();
  expect(exampleFault({ formula: 'DLI(200,16)', gives: 26 })).toBe('DLI(200,16): got 11.52, wanted 26 by its example.');
  expect(exampleFault({ formula: 'DLI(200,16)', gives: 11.521, within: 1e-3 })).toBeUndefined();
  expect(exampleFault({ formula: 'DLI(200,16)', gives: 11.521, within: 1e-4, absolute: true })).toBe('DLI(200,16): got 11.52, wanted 11.521 by its example.');
  expect(exampleFault({ formula: 'DLI(200,30)', gives: 'much' })).toMatch(/^DLI\(200,30\): got a refusal \(DLI.*\), wanted much by its example\.$/);
});

test('functions are listed by family in one order, and no family is empty', () => {
  const listed = byFamily(functions);
  expect(listed.map(([family]) => family)).toEqual([...FAMILIES]);
  expect(listed.flatMap(([, found]) => found).length).toBe(functions.length);
});
