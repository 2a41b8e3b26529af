import { define, isRefusal } from '../define.ts';
import { BEAM, BENCH_LENGTH, BENCH_WIDTH, FACE_LENGTH, FACE_WIDTH, PPF, SIDES } from './field-params.ts';
import { type Layout, layoutCount, layoutPpf } from './layout.ts';
import { layoutText, parseLayout } from './layout-text.ts';
import { LIMITS } from './limits.ts';
import { named } from './named.ts';

const COUNT = { unit: '1', atLeast: 1, atMost: LIMITS.fixturesMost, whole: true } as const;
const SPREAD = { unit: '1', optional: true, fallback: 1, atLeast: LIMITS.spreadLeast, atMost: LIMITS.spreadMost } as const;

/** A regular layout as a text; every other function of the field takes that text. */
export const LAYOUT = define({
  name: 'LAYOUT',
  family: 'The field over a bench',
  summary: 'A grid of like fixtures centred over a bench, as a text that says it in full.',
  use: 'First step of every calculation over a bench. Spread 1 shares the bench evenly; more moves the outer fixtures towards the edges or past them.',
  formula: 'centre i = size/2 + spread·((i+½)/count − ½)·size, along and across',
  params: [
    PPF,
    FACE_LENGTH,
    FACE_WIDTH,
    BEAM,
    { ...COUNT, name: 'along', quantity: 'fixtures along the bench', meaning: 'in one row' },
    { ...COUNT, name: 'across', quantity: 'fixtures across the bench', meaning: 'rows' },
    BENCH_LENGTH,
    BENCH_WIDTH,
    { name: 'turned', quantity: 'turned', unit: 'yes or no', meaning: 'the length of the face lies across the bench', optional: true, fallback: false },
    { ...SPREAD, name: 'spread along', quantity: 'spread along the bench', meaning: '1 shares the bench evenly' },
    { ...SPREAD, name: 'spread across', quantity: 'spread across the bench', meaning: '1 shares the bench evenly' },
    { ...SIDES, optional: true, fallback: 0 },
  ],
  returns: { quantity: 'layout', unit: 'text' },
  source: 'Our own convention; numbers are kept to 12 digits',
  examples: [
    { formula: 'LAYOUT(243,1.15,0.06,120,3,3,3.6,1.5)', gives: '9 (3×3) of 243 µmol/s 1.15×0.06 m 120° over 3.6×1.5 m' },
    {
      formula: 'LAYOUT(243,0.06,1.15,120,3,3,3.6,1.5,TRUE,1.01,1.25,0)',
      gives: '9 (3×3) of 243 µmol/s 0.06×1.15 m 120° over 3.6×1.5 m, turned, spread 1.01×1.25',
    },
  ],
  work: ([ppf, length, width, beam, along, across, benchLength, benchWidth, turned, spreadAlong, spreadAcross, sides], show) => {
    const asked: Layout = {
      bench: { length: benchLength, width: benchWidth },
      sides,
      groups: [{ kind: 'regular', fixture: { ppf, length, width, beam }, along, across, turned, spreadAlong, spreadAcross }],
    };
    const text = layoutText(asked);
    // Read back, so that what is checked is what the text says.
    const layout = parseLayout(text);
    if (isRefusal(layout)) return named('LAYOUT', layout);
    show?.note(`${layoutCount(layout)} fixtures, ${Number(layoutPpf(layout).toPrecision(12))} µmol/s together; the text is what every other function reads.`);
    return text;
  },
});
