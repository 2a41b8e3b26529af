/** Areas of gauges: ASTM B258, 2018, section 4; printed to four digits in common tables, here from NFPA 70, National Electrical Code, chapter 9, table 8 (from memory): 14 AWG 2.08 mm², 12 AWG 3.31 mm², 18 AWG 0.823 mm². */
import { expect, test } from 'vitest';
import { readQuantity } from '../../../functions/quantity-text.ts';
import { gaugeText, readGauge, wholeGauge, wireArea } from '../../../functions/wire-gauge.ts';

test('a cross-section is called by its gauge, and a metric size by the two that it lies between', () => {
  expect([2.08, 3.31, 0.823].map(gaugeText)).toEqual(['14 AWG', '12 AWG', '18 AWG']);
  expect([1.5, 2.5, 0.75].map(gaugeText)).toEqual(['16 to 15 AWG', '14 to 13 AWG', '19 to 18 AWG']);
  // 4/0 is 107.2 mm² and 1/0 53.5 mm².
  expect([107.2, 53.5].map(gaugeText)).toEqual(['4/0 AWG', '1/0 AWG']);
  expect([150, 0.001, 0, -1, Number.NaN].map(gaugeText)).toEqual([undefined, undefined, undefined, undefined, undefined]);
});

test('every gauge is told by its area, and is read again as it is written', () => {
  for (let awg = -3; awg <= 40; awg++) {
    expect(wholeGauge(wireArea(awg))).toBe(awg);
    expect(readGauge(gaugeText(wireArea(awg)) ?? '')).toBe(awg);
  }
});

test.each(['14 AWG', 'AWG 14', '14 awg', '#14', '14 gauge', '14 ga', '14ga.'])('%s in a cell of wires is the area of that gauge', (typed) => {
  const read = readQuantity(typed, { currency: 'USD', unit: 'mm²' });
  expect(read).toMatchObject({ kind: 'number', unit: 'mm²', typed });
  expect(read.kind === 'number' && read.value).toBeCloseTo(2.0809, 4);
});

test('elsewhere, and without its letters, it is no gauge', () => {
  expect(readQuantity('14', { currency: 'USD', unit: 'mm²' })).toMatchObject({ content: '14 mm²' });
  expect(readQuantity('14 AWG', { currency: 'USD', unit: 'm' })).toMatchObject({ kind: 'refused' });
  expect(readQuantity('55 AWG', { currency: 'USD', unit: 'mm²' })).toMatchObject({ kind: 'refused' });
});
