import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { annuity, BUY, INTEREST_SOURCE, noInterest, RATE, YEARLY } from './params.ts';

export const EXTRA = { ...BUY, name: 'extra', quantity: 'extra price', meaning: 'paid now over the cheaper way' } as const;
export const SAVING = { ...YEARLY, name: 'saving', quantity: 'saving a year', meaning: 'against the cheaper way' } as const;
/** Longer than any lamp: beyond it the answer is as good as never. */
const LONGEST = 1000;
const TOO_LONG = `it takes more than ${say(LONGEST)} years, as good as never`;

export const PAYBACK_YEARS = define({
  name: 'PAYBACK.YEARS',
  family: 'Cost',
  summary: 'Years until a saving has paid back the extra price.',
  use: 'Without interest. Longer than the thing lasts is never: hold it against its years of life. More than 1000 years are refused. With interest: DISCOUNTED.PAYBACK.',
  formula: 'extra / saving',
  params: [EXTRA, SAVING],
  returns: { quantity: 'time to pay back', unit: 'year' },
  source: 'By definition: extra price over yearly saving',
  examples: [{ formula: 'PAYBACK.YEARS(1200,300)', gives: 4 }],
  work: ([extra, saving], show) => {
    if (extra > 0 && (saving <= 0 || extra / saving > LONGEST)) {
      const long = saving > 0 ? TOO_LONG : 'it never pays back';
      return refuse(`PAYBACK.YEARS: ${long}: the saving is ${say(saving)} a year, against ${say(extra)} to pay.`);
    }
    const value = extra === 0 ? 0 : extra / saving;
    show?.expression('extra price over yearly saving', extra === 0 ? '0' : calc`${extra} / ${saving}`, value, 'year');
    return value;
  },
});

/** Years until the savings, each at the end of its year and worth less by the interest, sum to the extra price; straight line within the last year. */
export function discountedPayback(extra: number, saving: number, rate: number): number | undefined {
  if (extra === 0) return 0;
  if (saving <= 0) return undefined;
  if (rate > 0 && extra * rate >= saving) return undefined;
  const ratio = extra / saving;
  const exact = noInterest(rate) ? ratio : -Math.log1p(-ratio * rate) / Math.log1p(rate);
  const whole = Math.floor(exact + 1e-12);
  if (whole > LONGEST) return undefined;
  const left = ratio - annuity(rate, whole);
  return whole + Math.max(0, left) * (1 + rate) ** (whole + 1);
}

export const DISCOUNTED_PAYBACK = define({
  name: 'DISCOUNTED.PAYBACK',
  family: 'Cost',
  summary: 'Years until a saving has paid back the extra price with its interest.',
  use: 'Savings count at the end of each year; within the last year the straight line is taken. More than 1000 years are refused.',
  formula: 'n + (extra − saving · Σ (1 + rate)^−k) · (1 + rate)^(n+1) / saving',
  params: [EXTRA, SAVING, RATE],
  returns: { quantity: 'time to pay back', unit: 'year' },
  source: INTEREST_SOURCE,
  examples: [{ formula: 'DISCOUNTED.PAYBACK(1200,300,0.08)', gives: 5.0115683, within: 1e-8 }],
  work: ([extra, saving, rate], show) => {
    const value = discountedPayback(extra, saving, rate);
    if (value === undefined) {
      const [long, must] = saving > extra * rate ? [TOO_LONG, ''] : ['it never pays back', ' The saving must be more than that.'];
      return refuse(`DISCOUNTED.PAYBACK: ${long}: ${say(saving)} a year is saved, and the interest on ${say(extra)} is ${say(extra * rate)} a year.${must}`);
    }
    if (show) {
      const whole = Math.floor(value);
      const worth = annuity(rate, whole);
      if (extra === 0) show.expression('nothing to pay back', '0', 0, 'year');
      else {
        if (noInterest(rate)) show.expression('worth today of one a year over the whole years', calc`${whole}`, worth, 'year');
        else show.expression('worth today of one a year over the whole years', calc`(1 - (1 + ${rate})^(-${whole})) / ${rate}`, worth, 'year');
        show.expression(
          'whole years, and the rest of one',
          calc`${whole} + max(0, ${extra} / ${saving} - ${worth}) * (1 + ${rate})^(${whole} + 1)`,
          value,
          'year',
        );
      }
    }
    return value;
  },
});
