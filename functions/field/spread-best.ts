import { say } from '../check-args.ts';
import { define, isRefusal, refuse } from '../define.ts';
import { quantity, quoted } from '../formula-words.ts';
import { greatestOn } from '../numeric/greatest.ts';
import { BEAM, BENCH_LENGTH, BENCH_WIDTH, FACE_LENGTH, FACE_WIDTH, HEIGHT, PPF } from './field-params.ts';
import { showLow, showMean } from './field-steps.ts';
import { benchField } from './kernel.ts';
import type { Layout } from './layout.ts';
import { defaultGrid } from './layout.ts';
import { layoutText, parseLayout } from './layout-text.ts';
import { LIMITS } from './limits.ts';
import { named } from './named.ts';
import { lowOf, sampleField } from './sample-field.ts';

const COUNT = { unit: '1', atLeast: 1, atMost: LIMITS.fixturesMost, whole: true } as const;
const metres = (x: number): string => `${say(x)} m`;

/** The spread, on one axis, with the best low over mean. */
export const SPREAD_BEST = define({
  name: 'SPREAD.BEST',
  family: 'The field over a bench',
  summary: 'How far to move the outer fixtures outwards for the most even light.',
  use: 'One axis at a time, the other at 1. More spread lifts the edges at the price of the mean: watch BENCH.MEAN as well.',
  formula: 'the spread with the greatest BENCH.UNIFORMITY',
  params: [
    PPF,
    FACE_LENGTH,
    FACE_WIDTH,
    BEAM,
    { ...COUNT, name: 'along', quantity: 'fixtures along the bench', meaning: 'in one row' },
    { ...COUNT, name: 'across', quantity: 'fixtures across the bench', meaning: 'rows' },
    BENCH_LENGTH,
    BENCH_WIDTH,
    { name: 'turned', quantity: 'turned', unit: 'yes or no', meaning: 'the length of the face lies across the bench' },
    HEIGHT,
    { name: 'overhang', quantity: 'overhang allowed', unit: 'm', meaning: 'how far the outer faces may reach past the bench', atLeast: 0, atMost: 10 },
    { name: 'axis', quantity: 'axis', unit: 'text', meaning: 'which way to spread', oneOf: ['along', 'across'] },
  ],
  returns: { quantity: 'spread', unit: '1' },
  source: 'Search over the range by steps, then golden section (J. Kiefer, Sequential minimax search for a maximum, Proc. AMS 4, 1953, pp. 502–506)',
  unchecked: 'A search for the greatest of BENCH.UNIFORMITY, which is checked; where that lies is not published for any bench.',
  examples: [
    { formula: 'SPREAD.BEST(156,1.2,0,120,2,4,2.4,1.2,FALSE,0.4,0,"across")', gives: 1.33333333333, within: 1e-9 },
    { formula: 'SPREAD.BEST(156,1.2,0,120,2,4,2.4,1.2,FALSE,0.4,0.3,"across")', gives: 1.529, within: 1e-3 },
  ],
  slow: true,
  work: ([ppf, length, width, beam, along, across, benchLength, benchWidth, turned, height, overhang, axis], show) => {
    const [count, size, face] = axis === 'along' ? [along, benchLength, turned ? width : length] : [across, benchWidth, turned ? length : width];
    if (count === 1) return refuse(`SPREAD.BEST: one fixture ${axis} has nothing to spread; two are the least.`);
    const least = Math.max(LIMITS.spreadLeast, (face * count) / size);
    const most = Math.min(LIMITS.spreadMost, (size + 2 * overhang - face) / (size * (1 - 1 / count)));
    if (!(most > least)) {
      return refuse(`SPREAD.BEST: ${count} faces of ${metres(face)} have no room to move ${axis} ${metres(size)} with ${metres(overhang)} overhang.`);
    }
    const layout = (spread: number): Layout => ({
      bench: { length: benchLength, width: benchWidth },
      sides: 0,
      groups: [
        {
          kind: 'regular',
          fixture: { ppf, length, width, beam },
          along,
          across,
          turned,
          spreadAlong: axis === 'along' ? spread : 1,
          spreadAcross: axis === 'across' ? spread : 1,
        },
      ],
    });
    const fault = parseLayout(layoutText(layout((least + most) / 2)));
    if (isRefusal(fault)) return named('SPREAD.BEST', fault);
    const grid = defaultGrid(fault);
    const evenness = (spread: number): number => {
      const field = benchField(layout(spread), height, ...grid);
      return (Math.min(...field) * field.length) / field.reduce((sum, e) => sum + e, 0);
    };
    const best = Number(greatestOn(evenness, least, most).toPrecision(12));
    if (show) {
      const text = layoutText(layout(best));
      const s = sampleField(text, height);
      if (isRefusal(s)) return named('SPREAD.BEST', s);
      showLow(show, s);
      showMean(show, s);
      const check = `BENCH.UNIFORMITY(${quoted(text)},${quantity(height, 'm')})`;
      show.search('spread with the greatest low over mean', best, '1', [least, most], check, lowOf(s) / s.mean, '1');
      show.note(`With spread 1 low over mean is ${say(evenness(1))}. The mean changes too: compare BENCH.MEAN of both.`);
    }
    return best;
  },
});
