import { beamExponent } from './beam-exponent.ts';
import { centres, type Fixture, type Layout, withBeside } from './layout.ts';

/** Like faces at the crossings of two rows of centres: what the separable sum takes in one go. */
export interface Crossing {
  readonly ppf: number;
  readonly m: number;
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly length: number;
  readonly width: number;
  /** Centred on the bench, so that the field on a centred grid is symmetric both ways. */
  readonly centred: boolean;
}

export function crossings(layout: Layout): Crossing[] {
  const { beside } = layout;
  const found: Crossing[] = [];
  for (const group of layout.groups) {
    const m = beamExponent(group.fixture.beam);
    if (group.kind === 'regular') {
      const xs = centres(group.along, layout.bench.length, group.spreadAlong);
      const ys = withBeside(centres(group.across, layout.bench.width, group.spreadAcross), beside);
      found.push(crossing(group.fixture, m, group.turned, xs, ys, beside?.before === beside?.after));
    } else {
      for (const { x, y, turned } of group.places) found.push(crossing(group.fixture, m, turned, [x], withBeside([y], beside), false));
    }
  }
  return found;
}

function crossing({ ppf, length, width }: Fixture, m: number, turned: boolean, xs: number[], ys: number[], centred: boolean): Crossing {
  return { ppf, m, xs, ys, length: turned ? width : length, width: turned ? length : width, centred };
}
