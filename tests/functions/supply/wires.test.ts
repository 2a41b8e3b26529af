/** What a cable carries, the fuse before it and the limited output: expectations by the tables named in tests/references, and by arithmetic here. */
import { expect, test } from 'vitest';
import { isRefusal } from '../../../functions/define.ts';
import { evaluate, record, stepsOf } from '../evaluate.ts';

const refusal = (formula: string): string => {
  const value = evaluate(formula);
  return isRefusal(value) ? value.message : `no refusal: ${value}`;
};
const notes = (formula: string): string =>
  stepsOf(formula)
    .steps.flatMap((s) => (s.kind === 'note' ? [s.label] : []))
    .join('\n');
const word = (formula: string): string => String(evaluate(formula)).split(',')[0] ?? '';
const work = (name: string, ...args: unknown[]) => record(name).work(args as never, undefined);

test('a metric size outside the table, more loaded cores than two and a blank are unknown, and the working says which', () => {
  for (const formula of ['WIRE.AMPACITY(3,2,30)', 'WIRE.AMPACITY(10,2,30)', 'WIRE.AMPACITY(0.9,2,30)', 'WIRE.AMPACITY(1.5,3,30)', 'WIRE.AMPACITY(1.5,1,30)'])
    expect(evaluate(formula), formula).toBe('unknown');
  for (const blank of [0, 1, 2]) expect(work('WIRE.AMPACITY', ...[1.5, 2, 30, 60].map((x, i) => (i === blank ? null : x)))).toBe('unknown');
  expect(notes('WIRE.AMPACITY(3,2,30)')).toContain('the table has no 3 mm²; it has 0.5, 0.75, 1, 1.25');
  expect(notes('WIRE.AMPACITY(1.5,3,30)')).toContain('for 3 no source is named');
});

test('the area of a gauge is answered as the gauge is', () => {
  // NFPA 70, table 400.5(A)(1): 18 AWG, two loaded cores 10 A, three 7 A.
  expect(evaluate('WIRE.AMPACITY(WIRE.AREA(18),2,30)')).toBe(10);
  expect(evaluate('WIRE.AMPACITY(0.823,3,30)')).toBe(7);
  expect(evaluate('WIRE.AMPACITY(WIRE.AREA(20),2,30)'), 'not in the table').toBe('unknown');
});

test('a gauge outside the table, one core, more than twenty and a blank are unknown', () => {
  for (const formula of ['WIRE.AMPACITY.AWG(20,2,30)', 'WIRE.AMPACITY.AWG(15,2,30)', 'WIRE.AMPACITY.AWG(14,1,30)', 'WIRE.AMPACITY.AWG(14,21,30)'])
    expect(evaluate(formula), formula).toBe('unknown');
  for (const blank of [0, 1, 2]) expect(work('WIRE.AMPACITY.AWG', ...[14, 2, 30, 60].map((x, i) => (i === blank ? null : x)))).toBe('unknown');
});

test('more cores carry a share of what three do, not of what two do', () => {
  // 12 AWG: 25 A for two, 20 for three.
  expect(evaluate('WIRE.AMPACITY.AWG(12,4,30)')).toBeCloseTo(0.8 * 20, 12);
  expect(evaluate('WIRE.AMPACITY.AWG(12,9,30)')).toBeCloseTo(0.7 * 20, 12);
  expect(evaluate('WIRE.AMPACITY.AWG(12,20,30)')).toBeCloseTo(0.5 * 20, 12);
});

test('in warmer air less is carried, in cooler air no more, and air as warm as the cable may get is refused', () => {
  expect(evaluate('WIRE.AMPACITY(1,2,45)')).toBeCloseTo(10 * Math.sqrt(15 / 30), 12);
  expect(evaluate('WIRE.AMPACITY(1,2,45,90)')).toBeCloseTo(10 * Math.sqrt(45 / 60), 12);
  expect(evaluate('WIRE.AMPACITY(1,2,-10)')).toBe(10);
  expect(evaluate('WIRE.AMPACITY.AWG(18,3,40,75)')).toBeCloseTo(7 * Math.sqrt(35 / 45), 12);
  expect(refusal('WIRE.AMPACITY(1,2,60)')).toContain('air of 60 °C leaves nothing to a cable of at most 60 °C');
  expect(refusal('WIRE.AMPACITY.AWG(18,2,75,75)')).toContain('leaves nothing');
  expect(work('WIRE.AMPACITY', 1, 2, 30, null), 'not marked').toBe(10);
});

test('9.4 A on 0.5 mm² fails, whatever fuse there is and whether its kind is known or not', () => {
  // 90 W at 24 V … 225 W: 9.375 A; the cord carries 3 A.
  for (const fuse of ['10', '12', '0', ''])
    for (const kind of ['"gG"', '"other"', '']) expect(word(`CHECK.FUSE(${fuse},9.375,WIRE.AMPACITY(0.5,2,30),${kind})`)).toBe('fails');
});

test('a fuse holds from 1.25 times the load to what its cable carries, and gG only to its share of that', () => {
  const span = (amps: number, cable: number, kind: string, sizes: readonly number[]): readonly number[] =>
    sizes.filter((size) => word(`CHECK.FUSE(${size},${amps},${cable},"${kind}")`) === 'holds');
  const SIZES = [2, 2.5, 4, 5, 6, 7.5, 8, 10, 12, 15, 16, 20, 25, 30, 32];
  // 1.25 × 4 = 5; other: ≤ 15. gG: 12 × 1.31 = 15.72 > 15, 10 × 1.31 = 13.1.
  expect(span(4, 15, 'other', SIZES)).toEqual([5, 7.5, 8, 10, 15]);
  expect(span(4, 15, 'gG', SIZES)).toEqual([6, 8, 10]);
  // 16 × 1.1 = 17.6 ≤ 18, though 12 × 1.31 = 15.72 and 20 × 1.1 = 22 > 18.
  expect(span(9, 18, 'gG', SIZES)).toEqual([12, 16]);
  // 4 × 1.45 = 5.8: a cord for 6 A takes a 4 A fuse and no 6 A one (7.86); one for 3 A takes 2 A (2.9).
  expect(span(1, 6, 'gG', SIZES)).toEqual([2, 4]);
  expect(span(1, 3, 'gG', SIZES)).toEqual([2]);
  expect(evaluate('CHECK.FUSE(11,4,15,"gG")')).toBe('fails, 11 A is no standard size of such a fuse');
  expect(word('CHECK.FUSE(20,4,15,"gG")')).toBe('fails');
});

test('binary dust does not melt a fuse: 12.5 A is 1.25 times 10 A', () => {
  expect(word('CHECK.FUSE(12.5,10,12.5,"other")')).toBe('holds');
  expect(word('CHECK.FUSE(3.15,2.52,3.15,"other")')).toBe('holds');
});

test('a fuse that surely fails does so whatever else is not known', () => {
  // 12 A of class gG ask for 12 A × 1.31 = 15.7 A of cable (IEC 60364-4-43, clause 433.1, with the 1.31 of IEC 60269, read second-hand), whatever the load.
  expect(word('CHECK.FUSE(12,"unknown",15,"gG")')).toBe('fails');
  // 6.3 A is no rating of class gG (IEC 60269-1, from memory), whatever load and cable.
  expect(word('CHECK.FUSE(6.3,"unknown",15,"gG")')).toBe('fails');
  expect(word('CHECK.FUSE(6.3,2,"unknown","gG")')).toBe('fails');
  expect(word('CHECK.FUSE(10,"unknown",15,"gG")')).toBe('unknown');
  // Without a fuse a load of 16 A flows, whatever the source is said to let through.
  expect(word('CHECK.FUSE(0,16,15,"gG",15)')).toBe('fails');
});

test('what is not given is unknown, and says what', () => {
  expect(work('CHECK.FUSE', null, 4, 15, 'gG', undefined)).toBe('unknown, no fuse is given');
  expect(work('CHECK.FUSE', 10, 4, 'unknown', 'gG', undefined)).toBe('unknown, what the cable carries is not known');
  expect(work('CHECK.FUSE', 10, 4, null, 'gG', undefined)).toBe('unknown, what the cable carries is not known');
  expect(work('CHECK.FUSE', 10, null, 15, 'gG', undefined)).toBe('unknown, the load is not known');
  expect(work('CHECK.FUSE', 10, 4, 15, null, undefined)).toBe('unknown, the kind of fuse is not given');
  expect(evaluate('CHECK.FUSE(10,4,15)')).toBe('unknown, the kind of fuse is not given');
  // It fails all the same where it fails with any kind, or with any cable.
  expect(work('CHECK.FUSE', 20, 4, 15, null, undefined)).toMatch(/^fails, 20 A is more than the 15 A/);
  expect(work('CHECK.FUSE', 4, 4, 'unknown', null, undefined)).toMatch(/^fails, 4 A is less than 1.25 times/);
});

test('without a fuse the overload of the source is held against the cable, and it is unknown until the sheet says it', () => {
  expect(evaluate('CHECK.FUSE(0,4,15,"other",12.5)')).toBe('holds, no fuse, and at most 12.5 A can flow in a cable that carries 15 A');
  expect(word('CHECK.FUSE(0,4,10,"other",12.5)')).toBe('fails');
  expect(evaluate('CHECK.FUSE(0,4,15)')).toBe('unknown, no fuse, and what can flow in overload is not given');
  expect(work('CHECK.FUSE', 0, 4, 'unknown', null, 12.5)).toMatch(/^unknown/);
});

test('FUSE.SIZE takes the smallest of its kind that the cable stands, and is unknown where kind or cable are', () => {
  // 1.25 × 6 = 7.5 → 8 A of gG; 8 × 1.31 = 10.48.
  expect(evaluate('FUSE.SIZE(6,10.5,"gG")')).toBe(8);
  expect(refusal('FUSE.SIZE(6,10.4,"gG")')).toContain('It takes a cable of at least 10.48 A');
  expect(evaluate('FUSE.SIZE(6,10.4,"other")')).toBe(7.5);
  expect(work('FUSE.SIZE', 6, 'unknown', 'gG')).toBe('unknown');
  expect(work('FUSE.SIZE', 6, null, 'gG')).toBe('unknown');
  expect(work('FUSE.SIZE', 6, 10, null)).toBe('unknown');
});

test('an output of 240 W with 90 W on it is not limited; one of 96 W is, if it is marked so', () => {
  expect(evaluate('CHECK.LIMITED(TRUE,240,100)')).toBe('fails, an output of 240 W is over the limit of 100 W');
  expect(word('CHECK.LIMITED("yes",100,100)')).toBe('holds');
  expect(word('CHECK.LIMITED("no",96,100)')).toBe('fails');
  expect(evaluate('CHECK.LIMITED(FALSE,96,100)')).toBe('fails, the output is not marked as limited');
  expect(work('CHECK.LIMITED', null, 96, 100)).toBe('unknown, whether the output is marked as limited is not given');
  expect(work('CHECK.LIMITED', 'unknown', 96, 100)).toMatch(/^unknown/);
  expect(work('CHECK.LIMITED', true, null, 100)).toBe('unknown, what the output can give is not given');
  expect(work('CHECK.LIMITED', true, 96, 'unknown')).toBe('unknown, no limit given');
  expect(work('CHECK.LIMITED', null, 240, 100), 'not marked, and too large for it anyway').toMatch(/^fails/);
  expect(refusal('CHECK.LIMITED("perhaps",96,100)')).toContain('give yes or no');
  expect(refusal('CHECK.LIMITED(1,96,100)')).toContain('give yes or no');
});

test('a maker’s number that is unknown gives “unknown”, and a breaker that is too small is not made larger by the refusal', () => {
  expect(work('CIRCUIT.COUNT', 15, 1.22, 0.8, 'unknown')).toBe('unknown');
  const said = refusal('CIRCUIT.COUNT(15,13,0.8)');
  expect(said).toContain('carries at most 12 A of it');

  expect(said).not.toContain('16');
});
