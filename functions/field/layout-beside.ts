import { define, isRefusal } from '../define.ts';
import { LAYOUT_TEXT } from './field-params.ts';
import { layoutText, parseLayout } from './layout-text.ts';
import { LIMITS } from './limits.ts';
import { named } from './named.ts';

const ROWS = { unit: '1', whole: true, atLeast: 0, atMost: LIMITS.besideMost, quantity: 'rows on one side' } as const;

/** A layout with the light of rows alike beside it, lights and all. */
export const LAYOUT_BESIDE = define({
  name: 'LAYOUT.BESIDE',
  family: 'The field over a bench',
  summary: 'A layout with the light of rows alike beside it: benches, beds or gutters with the same lights, across aisles.',
  use: 'What reads the light then has theirs in it; counts and output stay those of one row. As many on both sides is a row in the middle, none on one side a row at the end.',
  formula: 'E(x, y) = Σ E₁(x, y − k·distance), k from −before to after',
  params: [
    LAYOUT_TEXT,
    {
      name: 'centre to centre',
      quantity: 'distance of rows',
      unit: 'm',
      meaning: 'of one row and the next',
      atLeast: LIMITS.benchLeast,
      atMost: LIMITS.placeMost,
    },
    { ...ROWS, name: 'before', meaning: 'below y = 0' },
    { ...ROWS, name: 'after', meaning: 'beyond y = width' },
  ],
  returns: { quantity: 'layout', unit: 'text' },
  source: 'Our own convention; light of several lamps adds up',
  examples: [
    {
      formula: 'LAYOUT.BESIDE(LAYOUT(243,1.15,0.06,120,9,1,12,0.2),1.1,1,1)',
      gives: '9 (9×1) of 243 µmol/s 1.15×0.06 m 120° over 12×0.2 m, beside 1 and 1 at 1.1 m',
    },
  ],
  work: ([text, apart, before, after], show) => {
    const one = parseLayout(text);
    if (isRefusal(one)) return named('LAYOUT.BESIDE', one);
    // Rows that were said before give way to these.
    const made = layoutText({ ...one, beside: before + after > 0 ? { apart, before, after } : undefined });
    const layout = parseLayout(made);
    if (isRefusal(layout)) return named('LAYOUT.BESIDE', layout);
    show?.note(`${before + after + 1} rows alike; their light adds up, and what is counted and bought stays that of one.`);
    return made;
  },
});
