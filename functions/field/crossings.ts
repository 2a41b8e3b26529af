import { beamExponent } from '../beam/beam-exponent.ts';
import { centres, type Group, type Layout } from './layout.ts';

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

export function crossings({ groups, bench }: Layout): Crossing[] {
  return groups.flatMap((group: Group): Crossing[] => {
    const { ppf, length, width, beam } = group.fixture;
    const m = beamExponent(beam);
    const face = (turned: boolean) => ({ ppf, m, length: turned ? width : length, width: turned ? length : width });
    if (group.kind === 'free') return group.places.map(({ x, y, turned }) => ({ ...face(turned), xs: [x], ys: [y], centred: false }));
    const xs = centres(group.along, bench.length, group.spreadAlong);
    const ys = centres(group.across, bench.width, group.spreadAcross);
    return [{ ...face(group.turned), xs, ys, centred: true }];
  });
}
