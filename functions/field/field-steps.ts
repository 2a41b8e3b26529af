/** The working that the functions of the field share: what one reader needs to rework a field's number by hand. */

import { say } from '../check-args.ts';
import { calc, type Show } from '../define.ts';
import { beamExponent } from './beam-exponent.ts';
import { facePpfd } from './face-ppfd.ts';
import { type FixtureShare, fixtureShares } from './fixture-shares.ts';
import { imageCount } from './images.ts';
import type { Layout } from './layout.ts';
import { NEAR_DIODES } from './near-diodes.ts';
import { pointOf, type SampleField } from './sample-field.ts';

const at = (x: number, y: number): string => `(${say(x)}, ${say(y)}) m`;

/** What the model takes for granted, where it matters. */
export function showModel(show: Show, layout: Layout): void {
  for (const beam of new Set(layout.groups.map((group) => group.fixture.beam))) {
    show.expression(`exponent of a ${say(beam)}° beam`, calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, beamExponent(beam), '1');
  }
  show.note(NEAR_DIODES);
  const { beside } = layout;
  if (beside)
    show.note(`Rows alike beside it, ${say(beside.apart)} m from centre to centre, are counted: ${beside.before} on one side, ${beside.after} on the other.`);
  if (layout.sides > 0) {
    show.note(
      `The sides of the bench reflect ${say(layout.sides * 100)} % as ideal mirrors, ${imageCount(layout.sides)} images each way: optimistic for matt white.`,
    );
  }
}

/** Grid, model, and the mean as a sum of the points. */
export function showMean(show: Show, s: SampleField): void {
  showGrid(show, s);
  const label = `mean of the ${s.field.length} points`;
  show.sum(label, () => Array.from(s.field, (value, i) => ({ label: `point ${at(...pointOf(s, i))}`, value })), 1 / s.field.length, s.mean, 'µmol/m²/s');
}

export function showGrid(show: Show, s: SampleField): void {
  const { bench } = s.layout;
  const cm = (size: number, cells: number): string => say((size / cells) * 100);
  show.note(`Sample grid ${s.nx} × ${s.ny}: the centres of cells of ${cm(bench.length, s.nx)} × ${cm(bench.width, s.ny)} cm, all weighing the same.`);
  showModel(show, s.layout);
}

export const showLow = (show: Show, s: SampleField): void => showSample(show, s, 'dimmest', s.lowAt);
export const showHigh = (show: Show, s: SampleField): void => showSample(show, s, 'brightest', s.highAt);

function showSample(show: Show, s: SampleField, which: string, i: number): void {
  const [x, y] = pointOf(s, i);
  showPoint(show, s.layout, s.height, x, y, s.field[i] as number, `${which} point, ${at(x, y)}`);
}

/** One point: the sum over the fixtures, and the strongest of them by itself. */
export function showPoint(show: Show, layout: Layout, height: number, x: number, y: number, value: number, label: string): void {
  const shares = fixtureShares(layout, height, x, y);
  const terms = () => shares.map((share, n) => ({ label: `fixture ${n + 1} at ${at(share.face.x, share.face.y)}`, value: share.ppfd }));
  show.sum(`${label}: all fixtures`, terms, 1, value, 'µmol/m²/s');
  const most = shares.reduce((best, share) => (share.ppfd > best.ppfd ? share : best));
  showOne(show, most, shares.indexOf(most) + 1, height, x, y, layout.sides > 0);
}

function showOne(show: Show, { face, ppf, m }: FixtureShare, number: number, height: number, x: number, y: number, mirrored: boolean): void {
  const label = `fixture ${number} there${mirrored ? ', its direct light without reflections' : ''}`;
  facePpfd({ ppf, m, length: face.length, width: face.width }, height, x - face.x, y - face.y, show, label);
}
