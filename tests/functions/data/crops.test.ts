import Ajv from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import crops from '../../../functions/data/crops.json' with { type: 'json' };
import schema from '../../../functions/data/crops.schema.json' with { type: 'json' };
import { cropRows, cropTargets } from '../../../functions/data/crops.ts';

// A range says what it is once, where it is defined, and not again where a field narrows it.
const fits = new Ajv({ strict: true, strictTypes: false, allErrors: true }).compile(schema);
const faultsOf = (data: unknown): string => (fits(data) ? '' : (fits.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`).join('\n'));

/** The file with its first row written otherwise. */
const withRow = (change: Readonly<Record<string, unknown>>): unknown => ({ ...crops, rows: [{ ...crops.rows[0], ...change }, ...crops.rows.slice(1)] });

test('the crops fit their schema', () => {
  expect(faultsOf(crops)).toBe('');
});

test.each([
  ['a row without its source', { source: undefined }, "/rows/0 must have required property 'source'"],
  ['a source that says nothing', { source: ' ' }, '/rows/0/source must match pattern'],
  ['a field of another name', { light: [1, 2] }, '/rows/0 must NOT have additional properties'],
  ['a range of one end', { dli: [17] }, '/rows/0/dli must NOT have fewer than 2 items'],
  ['a range of which nothing is known', { dli: [null, null] }, '/rows/0/dli must contain at least 1 valid item(s)'],
  ['a number in quotes', { ppfd: ['200', 300] }, '/rows/0/ppfd/0 must be number,null'],
  ['more hours than a day has', { hours: [16, 25] }, '/rows/0/hours/1 must be <= 24'],
  ['a day length that there is not', { dayLength: 'middling' }, '/rows/0/dayLength must be equal to one of the allowed values'],
])('%s is refused, and it is said which row and which field', (_, change, said) => {
  // What is left out in JSON is not there at all.
  expect(faultsOf(JSON.parse(JSON.stringify(withRow(change))))).toContain(said);
});

test('no range ends below where it begins', () => {
  const turned = cropTargets().flatMap(({ crop, stage, ppfd, dli, hours }) =>
    [ppfd, dli, hours].filter(([low, high]) => low !== null && high !== null && low > high).map((range) => [crop, stage, range]),
  );
  expect(turned).toEqual([]);
});

test('what a row leaves out is blank in the table that a book is filled with', () => {
  expect(cropRows().find(([crop]) => crop === 'tecoma')).toEqual([
    ...['tecoma', 'seed propagation'],
    ...[null, null, null],
    ...[14, 16],
    ...[null, null, null, null],
    ...['A. P. Torres and R. G. Lopez, HortScience 2011 46(2):282 (authors from memory)', 'read in the source'],
  ]);
});
