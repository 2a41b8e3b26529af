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

test('a supply of two 75 W ports cannot carry what its watts could, and the working says which binds', () => {
  expect(evaluate('SUPPLY.COUNT(8,40,300,0.8,2,75)')).toBe(4);
  expect(notes('SUPPLY.COUNT(8,40,300,0.8,2,75)')).toContain('The ports bind');
  expect(notes('SUPPLY.COUNT(4,150,480,0.8,3,160)')).toContain('The watts bind');
  expect(refusal('SUPPLY.COUNT(1,90,300,0.8,4,75)')).toContain('a port of at least 90 W');
});

test('binary dust does not cost a fixture: 0.1 A of 16 A at 0.8 is 128 of them', () => {
  expect(evaluate('CIRCUIT.COUNT(16,0.1,0.8)')).toBe(128);
  expect(evaluate('SUPPLY.COUNT(3,0.1,0.3,1,3,0.1)')).toBe(1);
});

test('without the maker’s figure the inrush is said to be unknown', () => {
  expect(notes('CIRCUIT.COUNT(16,1.22,0.8)')).toContain('inrush may allow fewer');
  expect(notes('CIRCUIT.COUNT(16,1.22,0.8,4)')).toContain('The maker’s limit binds');
});

test('a maker’s limit left blank gives “unknown”, never a count by current alone', () => {
  expect(record('CIRCUIT.COUNT').work([16, 1.22, 0.8, null] as never, undefined)).toBe('unknown');
});

test('a size that is no standard one names the nearest', () => {
  expect(refusal('WIRE.OHMS(3)')).toContain('2.5 mm² and 4 mm²');
  expect(refusal('WIRE.OHMS(1.5,3)')).toContain('1 (solid), 2 (stranded) or 5 (flexible)');
  expect(refusal('WIRE.OHMS.AWG(13)')).toContain('no AWG 13');
});

test('no standard size reaches a kilometre at 24 V, and the refusal says how far the thickest does', () => {
  expect(refusal('CABLE.AREA(1000,10,24,0.03)')).toMatch(/95 mm² reaches 174\.\d+ m/);
});

test('a fuse larger than its cable is refused, and which binds is said', () => {
  expect(refusal('FUSE.SIZE(9,10)')).toContain('the cable binds');
  expect(refusal('FUSE.SIZE(5,6)')).toContain('the load asks for at least 6.25 A');
});

test('limited outputs: one fixture above 100 W is refused, above 30 V wet contact is outside the limit', () => {
  expect(refusal('CLASS2.OUTPUTS(120,1,24)')).toContain('100 VA');
  expect(notes('CLASS2.OUTPUTS(60,1,48)')).toContain('wet contact is outside the limit');
  expect(notes('CLASS2.OUTPUTS(60,1,24)')).not.toContain('wet contact');
});

test('limited outputs up to 20 V give 5 A at most: 60 W at 12 V', () => {
  expect(refusal('CLASS2.OUTPUTS(90,1,12)')).toContain('60 VA at 12 V');
  expect(evaluate('CLASS2.OUTPUTS(60,2,12)')).toBe(2);
  expect(evaluate('CLASS2.OUTPUTS(30,2,12)')).toBe(1);
});

test('past the end of its derating a supply gives nothing', () => {
  expect(refusal('SUPPLY.DERATED(300,90,45,0.025)')).toContain('ends at 85 °C');
});

test('an area that is no size is refused with those next to it', () => {
  expect(refusal('WIRE.OHMS(1.6)')).toContain('The nearest are 1.5 mm² and 2.5 mm²; by gauge AWG 15');
  expect(refusal('WIRE.OHMS(1000)')).toContain('The nearest is 95 mm²; by gauge AWG 0');
});
