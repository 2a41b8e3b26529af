import { expect, test } from 'vitest';
import { discountedPayback } from '../../../functions/cost/payback-years.ts';
import { isRefusal } from '../../../functions/define.ts';
import { evaluate } from '../evaluate.ts';

test('one price all day costs the same by bands as without', () => {
  expect(evaluate('RUN.COST.BANDS(500,18,10,{6,0.36;22,0.36},330)')).toBeCloseTo(evaluate('RUN.COST(ENERGY.USE(500,1,16,330),0.36)') as number, 9);
});

test('lamps past midnight fall into the night band', () => {
  expect(evaluate('RUN.COST.BANDS(1000,22,6,{6,0.36;22,0.18},1)')).toBeCloseTo(8 * 0.18, 9);
  expect(evaluate('RUN.COST.BANDS(1000,0,24,{6,0.36;22,0.18},1)')).toBeCloseTo(16 * 0.36 + 8 * 0.18, 9);
});

test('without interest both paybacks agree, and a saving smaller than the interest never pays', () => {
  expect(discountedPayback(1250, 300, 0)).toBeCloseTo(1250 / 300, 12);
  expect(discountedPayback(1200, 90, 0.08)).toBeUndefined();
  const value = evaluate('DISCOUNTED.PAYBACK(1200,90,0.08)');
  expect(isRefusal(value) && value.message).toContain('the interest on 1200 is 96 a year');
});

test('a payback of a thousand years is said to be one, not blamed on interest', () => {
  const said = (formula: string): string => {
    const value = evaluate(formula);
    return isRefusal(value) ? value.message : String(value);
  };
  expect(said('DISCOUNTED.PAYBACK(1200,1,0)')).toBe(
    'DISCOUNTED.PAYBACK: it takes more than 1000 years, as good as never: 1 a year is saved, and the interest on 1200 is 0 a year.',
  );
  expect(said('PAYBACK.YEARS(1200,1)')).toBe('PAYBACK.YEARS: it takes more than 1000 years, as good as never: the saving is 1 a year, against 1200 to pay.');
  expect(said('PAYBACK.YEARS(1200,-5)')).toBe('PAYBACK.YEARS: it never pays back: the saving is −5 a year, against 1200 to pay.');
});
