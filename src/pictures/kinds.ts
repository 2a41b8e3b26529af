/** All kinds of picture, by the name that a block says, in the order in which they are offered. */
import { cut } from './cut.ts';
import { heightCurve } from './height-curve.ts';
import { lightMap } from './light-map.ts';
import { monthlyLight } from './monthly-light.ts';
import type { Picture } from './picture.ts';
import { plannedBesideMeasured } from './planned-beside-measured.ts';
import { scenarioBars } from './scenario-bars.ts';
import { smallLightMaps } from './small-light-maps.ts';

export type PictureKind = 'light map' | 'small light maps' | 'cut' | 'height curve' | 'scenario bars' | 'monthly light' | 'planned beside measured';

export const PICTURES = {
  'light map': lightMap,
  'small light maps': smallLightMaps,
  cut,
  'height curve': heightCurve,
  'scenario bars': scenarioBars,
  'monthly light': monthlyLight,
  'planned beside measured': plannedBesideMeasured,
} satisfies Record<PictureKind, Picture>;

/** A kind may be called as nothing but itself: every object has a `constructor`. */
export const pictureKind = (kind: string): Picture | undefined => (Object.hasOwn(PICTURES, kind) ? PICTURES[kind as PictureKind] : undefined);
