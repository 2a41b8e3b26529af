/** Every function is held against something from outside, or its record says why it can't be. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { functions } from '../../functions/index.ts';

const MOST_UNCHECKED = 15;

const here = new URL('.', import.meta.url);
/** Formulas of cases and cross-checks: each names the functions that it exercises. */
const text = readdirSync(here, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts') && !file.startsWith('coverage'))
  .map((file) => readFileSync(new URL(file, here), 'utf8'))
  .join('\n');
const called = new Set([...text.matchAll(/(?<![A-Z0-9.])([A-Z][A-Z0-9]*(?:\.[A-Z0-9]+)*)\(/g)].map(([, name]) => name));

test('each function has a check from outside or a stated reason, of which there are at most 15', () => {
  const stated = functions.filter((f) => f.unchecked !== undefined);
  console.log(`functions: ${functions.length}; without a check from outside: ${stated.length}\n${stated.map((f) => `  ${f.name}: ${f.unchecked}`).join('\n')}`);
  const open = functions
    .filter((f) => !called.has(f.name) && f.unchecked === undefined)
    .map((f) => `${f.name}: no case in tests/references/formulas/ calls it, and its record does not say under “unchecked” why none can.`);
  expect(open, open.join('\n')).toEqual([]);
  expect(stated.length).toBeLessThanOrEqual(MOST_UNCHECKED);
});

test('a reason is not left standing beside a check', () => {
  const both = functions
    .filter((f) => called.has(f.name) && f.unchecked !== undefined)
    .map((f) => `${f.name}: a case in tests/references/ calls it, so its record’s “unchecked” is not so.`);
  expect(both, both.join('\n')).toEqual([]);
  for (const f of functions) if (f.unchecked !== undefined) expect(f.unchecked.length).toBeGreaterThan(10);
});
