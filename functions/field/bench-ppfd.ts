import { say } from '../check-args.ts';
import { define, isRefusal, refuse } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT } from './field-params.ts';
import { showModel, showPoint } from './field-steps.ts';
import { ppfdAt } from './kernel.ts';
import { parseLayout } from './layout-text.ts';
import { LIMITS } from './limits.ts';
import { named } from './named.ts';

const POSITION = { unit: 'm', atLeast: -LIMITS.placeMost, atMost: LIMITS.placeMost } as const;

/** PPFD at one point of the bench or beside it. */
export const BENCH_PPFD = define({
  name: 'BENCH.PPFD',
  family: 'The field over a bench',
  summary: 'PPFD at one point of the bench, from all the fixtures.',
  use: 'For one plant, one meter position, or a point beside the bench. Between reflecting sides only for points on the bench.',
  formula: 'E = Σ Φ(m+1)h^(m+1)/(2πA) ∫ dA / r^(m+3)',
  params: [
    LAYOUT_TEXT,
    HEIGHT,
    { ...POSITION, name: 'x', quantity: 'position along the bench', meaning: 'from the corner at the origin' },
    { ...POSITION, name: 'y', quantity: 'position across the bench', meaning: 'from the corner at the origin' },
  ],
  returns: { quantity: 'PPFD', unit: 'µmol/m²/s' },
  source: 'Sum over the fixtures of a cosine-power emitter over its face, added up as derived for this program',
  examples: [
    { formula: 'BENCH.PPFD(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,1.2,0.6)', gives: 354, within: 2e-3 },
    { formula: 'BENCH.PPFD(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4,0.05,0.05)', gives: 132, within: 2e-3 },
  ],
  work: ([text, height, x, y], show) => {
    const layout = parseLayout(text);
    if (isRefusal(layout)) return named('BENCH.PPFD', layout);
    const { length, width } = layout.bench;
    if (layout.sides > 0 && !(x >= 0 && x <= length && y >= 0 && y <= width)) {
      return refuse(`BENCH.PPFD: (${say(x)}, ${say(y)}) m lies behind a reflecting side; x can be 0 to ${say(length)} m and y 0 to ${say(width)} m.`);
    }
    const value = ppfdAt(layout, height, x, y);
    if (show) {
      showModel(show, layout);
      showPoint(show, layout, height, x, y, value, 'PPFD at the point');
    }
    return value;
  },
});
