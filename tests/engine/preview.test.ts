/** What a formula that is still being written would give, or what is wrong with it. */
import { describe, expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { book, short, table } from './helpers.ts';

const plan = table(
  'Plan',
  [
    ['3 ft', '200 µmol/m²/s'],
    ['5 W', '=A1+A1'],
    [{ content: '', kind: 'given', range: { low: 0.1, high: 2, unit: 'm' } }, '=B2'],
    ['9 (3×3) of 243 µmol/s 1.15×0.06 m 120° over 3.6×1.5 m', '16 h/d'],
  ],
  [{}, { label: 'Draw' }, { unit: 'm' }],
);

async function wouldGive(address: string, formula: string) {
  const engine = createEngine();
  const before = await engine.load(book([plan]));
  const value = await engine.preview(address, formula);
  const after = await engine.load(book([plan]));
  expect(after).toEqual(before);
  return value;
}

describe('a formula that is being written', () => {
  it('says what it would give in its cell, which stands as it is', async () => {
    expect(await wouldGive('Plan.A3', '=A1+6 in')).toEqual({ kind: 'number', base: 1.0668, unit: 'm' });
    expect(short(await wouldGive('Plan.B4', '=DLI(B1,16)'))).toBeCloseTo((200 * 16 * 3600) / 1e6, 12);
  });

  it.each([
    ['Plan.B4', '=A1+A2', /unit error: .*length.*power/],
    ['Plan.A3', '=A2*2', /unit error: .*is set to a length in m, and its formula gives a power/],
    ['Plan.B4', '=DLI(B1,A1)', /unit error: .*DLI.*length/],
    ['Plan.B4', '=DLI(-5,30)', /DLI/],
    ['Plan.B4', '=DLII(200,16)', /no such name: There is no function DLII\. Did you mean DLI/],
    ['Plan.B4', '=(A1', /not closed/],
    ['Plan.B4', '=Z9', /no such cell/],
    ['Plan.A3', '=A1*9', /out of range: .*above what is allowed/],
    ['Plan.B4', '=B4+1', /goes in a circle/],
    ['Plan.A1', '=B3/2', /goes in a circle/],
    ['Plan.A1', '=SUM(B1:B3)', /goes in a circle/],
  ])('%s %s is told to be wrong', async (address, formula, message) => {
    expect(short(await wouldGive(address, formula))).toMatch(message);
  });

  it('is not worked out where that may take seconds, but its units are looked at', async () => {
    expect(await wouldGive('Plan.B4', '=MOUNT.FLOOR(A4,500 µmol/m²/s)')).toEqual({ kind: 'blank' });
    expect(short(await wouldGive('Plan.B4', '=MOUNT.FLOOR(A4,A2)'))).toMatch(/unit error: .*power/);
  });
});
