import { expect, it } from 'vitest';
import { sameValue } from '../../src/engine/same-value.ts';
import type { Value } from '../../src/engine/types.ts';

/** Each says another thing than all others. */
const APART: readonly (Value | undefined)[] = [
  undefined,
  { kind: 'blank' },
  { kind: 'number', base: 1, unit: 'm' },
  { kind: 'number', base: 1, unit: 'cm' },
  { kind: 'number', base: 1 + Number.EPSILON, unit: 'm' },
  { kind: 'text', text: '' },
  { kind: 'text', text: '1' },
  { kind: 'yes or no', yes: true },
  { kind: 'yes or no', yes: false },
  { kind: 'error', word: 'unit error', message: 'No.' },
  { kind: 'error', word: 'unit error', message: 'No, not so.' },
  { kind: 'error', word: 'out of range', message: 'No.' },
  { kind: 'error', word: 'unit error', message: 'No.', from: 'T.A1' },
  { kind: 'error', word: 'unit error', message: 'No.', mend: { label: 'So' } },
  { kind: 'error', word: 'unit error', message: 'No.', mend: { label: 'So', cell: 'T.A1', content: '2' } },
];

it('values are the same where they say the same to the last digit and word, and never otherwise', () => {
  for (const [i, a] of APART.entries()) {
    for (const [j, b] of APART.entries()) expect(sameValue(a, b && structuredClone(b)), `${i} and ${j}`).toBe(i === j);
  }
});

it('nought is nought, whichever sign it was reckoned with', () => {
  expect(sameValue({ kind: 'number', base: 0, unit: 'm' }, { kind: 'number', base: -0, unit: 'm' })).toBe(true);
});
