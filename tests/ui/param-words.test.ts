import { expect, test } from 'vitest';
import { functions } from '../../functions/index.ts';
import { paramText } from '../../src/ui/cells/param-words.ts';

test('an argument is told in one sentence, whatever its unit begins with', () => {
  const exponent = { name: 'exponent', quantity: 'number', unit: '1', above: 0, meaning: 'how narrow; 1 is a Lambertian emitter' } as const;
  expect(paramText(exponent)).toBe('how narrow; 1 is a Lambertian emitter; a plain number, above 0.');
  expect(paramText({ ...exponent, unit: 'm', meaning: 'of the face' })).toBe('of the face; m, above 0.');
  const all = functions.flatMap((f) => f.params.map(paramText));
  expect(all.length).toBeGreaterThan(100);
  expect(all.filter((text) => /[.?!…](?: [a-zµ]|;)/u.test(text))).toEqual([]);
});
