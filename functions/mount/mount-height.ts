import { say, sayMost } from '../check-args.ts';
import { define, isRefusal, type Refusal, refuse } from '../define.ts';
import { defaultGrid, HEIGHT, LAYOUT_TEXT, meanByHeight, named, parseLayout, sampleField, showHigh, showLow, showMean } from '../field/index.ts';
import { quantity, quoted } from '../formula-words.ts';
import { type Crossings, crossingsDownward } from './highest-crossing.ts';

function outOfReach(target: number, lowest: number, highest: number, found: Crossings): Refusal {
  const asked = `MOUNT.HEIGHT: between ${say(lowest)} m and ${say(highest)} m the mean is never ${say(target)} µmol/m²/s;`;
  return found.atTop > target
    ? refuse(
        `${asked} the highest limit binds, at ${say(highest)} m it is still ${say(found.atTop)} µmol/m²/s. Dim to ${sayMost(target / found.atTop)} of it there, or allow more height.`,
      )
    : refuse(`${asked} at most it is ${sayMost(found.greatest)} µmol/m²/s, at ${say(found.greatestAt)} m. Take that target or less, or add output.`);
}

/** The height at which the mean of the sample grid is a target. */
export const MOUNT_HEIGHT = define({
  name: 'MOUNT.HEIGHT',
  family: 'Mount height',
  summary: 'The height at which the bench gets the target on average.',
  use: 'New and undimmed: pass target/(dim × maintenance) for maintained light. Where two heights do, the higher one is given and the working says so.',
  formula: 'the highest h with BENCH.MEAN(layout, h) = target',
  params: [
    LAYOUT_TEXT,
    { name: 'target', quantity: 'mean PPFD asked for', unit: 'µmol/m²/s', meaning: 'of the default sample grid', above: 0, atMost: 1e5 },
    { ...HEIGHT, name: 'lowest', quantity: 'lowest height allowed', meaning: 'the search looks no lower', optional: true, fallback: 0.05 },
    { ...HEIGHT, name: 'highest', quantity: 'highest height allowed', meaning: 'the search looks no higher', optional: true, fallback: 10 },
  ],
  returns: { quantity: 'mount height', unit: 'm' },
  source: 'Solved from BENCH.MEAN by R. P. Brent’s method (Algorithms for Minimization Without Derivatives, 1973, chapter 4)',
  examples: [{ formula: 'MOUNT.HEIGHT(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),200)', gives: 0.703, within: 1e-3 }],
  caution: 'Keep clear of foliage, and never hang anything lower or heavier than its maker and the support allow.',
  work: ([text, target, lowest, highest], show) => {
    const layout = parseLayout(text);
    if (isRefusal(layout)) return named('MOUNT.HEIGHT', layout);
    if (lowest >= highest) return refuse(`MOUNT.HEIGHT: the lowest height, ${say(lowest)} m, must be below the highest, ${say(highest)} m.`);
    const mean = meanByHeight(layout, lowest, highest, ...defaultGrid(layout));
    const found = crossingsDownward(mean, lowest, highest, target, show !== undefined);
    const height = found.highest;
    if (height === undefined) return outOfReach(target, lowest, highest, found);
    if (show) {
      const check = `BENCH.MEAN(${quoted(text)},${quantity(height, 'm')})`;
      show.search('height at which the mean is the target', height, 'm', [lowest, highest], check, target, 'µmol/m²/s');
      if (found.all.length > 1) {
        const others = found.all.slice(1).map((h) => `${say(h)} m`);
        show.note(
          `The mean is the target at ${others.join(' and ')} too: some faces hang outside the bench, or nearer than the grid can see. The highest is taken.`,
        );
      }
      const sample = sampleField(text, height);
      if (!isRefusal(sample)) {
        showHigh(show, sample);
        showLow(show, sample);
        showMean(show, sample);
      }
    }
    return height;
  },
});
