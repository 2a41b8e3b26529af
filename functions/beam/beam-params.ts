/** Parameters that the functions of one fixture share; the field’s are in functions/field. */
import { FACE_LENGTH, FACE_WIDTH, LIMITS } from '../field/index.ts';

/** A beam for closed forms, which hold for any; sums over faces keep to the field's 10° to 170°. */
export const ANY_BEAM = {
  name: 'beam',
  quantity: 'beam angle',
  unit: '°',
  meaning: 'full angle at half of the peak intensity',
  atLeast: 0.1,
  atMost: 179.9,
} as const;

const OFFSET = { unit: 'm', optional: true, fallback: 0, atLeast: -LIMITS.placeMost, atMost: LIMITS.placeMost } as const;

export const ALONG = { ...OFFSET, name: 'along', quantity: 'distance along the face', meaning: 'from its centre' } as const;
export const ACROSS = { ...OFFSET, name: 'across', quantity: 'distance across the face', meaning: 'from its centre' } as const;

export const SHARE = {
  name: 'share',
  quantity: 'share of the centre',
  unit: '1',
  meaning: 'PPFD there over PPFD under the centre',
  above: 0,
  below: 1,
} as const;

/** A face by itself may be so long that it stands for an endless row, or so large that it stands for an endless ceiling. */
const ENDLESS = 10_000;
export const LONG = { ...FACE_LENGTH, meaning: 'zero for a point; ten kilometres count as an endless row', atMost: ENDLESS } as const;
export const WIDE = { ...FACE_WIDTH, meaning: 'zero for a line', atMost: ENDLESS } as const;
