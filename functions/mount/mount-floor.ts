import { say, sayMost } from '../check-args.ts';
import { define, isRefusal, refuse } from '../define.ts';
import { brightestByHeight, crossings, defaultGrid, LAYOUT_TEXT, LIMITS, NX, NY, named, parseLayout, showModel, showPoint } from '../field/index.ts';
import { quantity, quoted } from '../formula-words.ts';
import { crossingsDownward } from './highest-crossing.ts';

/** Kinds of places that the search takes in a second or so: a regular group is one, and so is every fixture put by itself. Reflections make each dearer. */
const KINDS_MOST = 80;
const KINDS_MOST_MIRRORED = 15;

/** The height is solved to this share of itself: the peak is not found any better. */
const SOLVED = 1e-8;

/** The lowest height from which on, upwards, no point of the bench is brighter than a ceiling. */
export const MOUNT_FLOOR = define({
  name: 'MOUNT.FLOOR',
  family: 'Mount height',
  summary: 'How low the fixtures may hang before the brightest point passes a ceiling.',
  use: 'Against bleached leaves. Looks for the peak between the points of the grid too; at every greater height the ceiling holds as well.',
  formula: 'least h with max E(x, y) ≤ ceiling there and above',
  params: [
    LAYOUT_TEXT,
    { name: 'ceiling', quantity: 'most PPFD allowed', unit: 'µmol/m²/s', meaning: 'at the brightest point, day one', above: 0, atMost: 1e5 },
    NX,
    NY,
  ],
  returns: { quantity: 'mount height', unit: 'm' },
  source:
    'Solved from BENCH.PPFD: local search for the peak, R. P. Brent’s method for the height (Algorithms for Minimization Without Derivatives, 1973, chapter 4)',
  examples: [{ formula: 'MOUNT.FLOOR(LAYOUT(156,1.2,0,120,1,1,2.4,1.2),400)', gives: 0.161, within: 4e-3 }],
  slow: true,
  caution: 'Bright sources: do not stare into them. A ceiling for leaves is no limit for eyes.',
  work: ([text, ceiling, nx, ny], show) => {
    const layout = parseLayout(text);
    if (isRefusal(layout)) return named('MOUNT.FLOOR', layout);
    const [columns, rows] = defaultGrid(layout);
    const cells = (nx ?? columns) * (ny ?? rows);
    if (cells > LIMITS.gridMost) return refuse(`MOUNT.FLOOR: the grid has ${cells} cells; the most is ${LIMITS.gridMost}.`);
    const kinds = crossings(layout).length;
    const most = layout.sides > 0 ? KINDS_MOST_MIRRORED : KINDS_MOST;
    if (kinds > most) {
      return refuse(
        `MOUNT.FLOOR: ${kinds} fixtures put one by one make the search too long; the most is ${KINDS_MOST}, with reflecting sides ${KINDS_MOST_MIRRORED}. A regular layout counts as one; BENCH.HIGH at a few heights says the brightest point too.`,
      );
    }
    const range = [LIMITS.heightLeast, LIMITS.heightMost] as const;
    const brightest = brightestByHeight(layout, ...range, nx ?? columns, ny ?? rows);
    const atTop = brightest(range[1], ceiling).ppfd;
    if (atTop > ceiling) {
      return refuse(`MOUNT.FLOOR: even at ${range[1]} m the brightest point gets ${say(atTop)} µmol/m²/s; dim to ${sayMost(ceiling / atTop)} of full output.`);
    }
    const found = crossingsDownward((h) => brightest(h, ceiling).ppfd, ...range, ceiling, false, SOLVED);
    const height = found.highest ?? range[0];
    if (show) {
      const peak = brightest(height, 0);
      showModel(show, layout);
      showPoint(show, layout, height, peak.x, peak.y, peak.ppfd, `brightest point, (${say(peak.x)}, ${say(peak.y)}) m`);
      const check = `BENCH.PPFD(${quoted(text)},${quantity(height, 'm')},${quantity(peak.x, 'm')},${quantity(peak.y, 'm')})`;
      if (found.highest === undefined) show.note(`No height is too low for this ceiling: ${range[0]} m is the least that is calculated.`);
      else show.search('height at which the brightest point is at the ceiling', height, 'm', range, check, ceiling, 'µmol/m²/s');
    }
    return height;
  },
});
