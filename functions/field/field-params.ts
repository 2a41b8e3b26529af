/** Parameters that the functions of the field share. */
import { LIMITS } from './limits.ts';

export const LAYOUT_TEXT = {
  name: 'layout',
  quantity: 'layout',
  unit: 'text',
  meaning: 'what LAYOUT, LAYOUT.AT or LAYOUT.JOIN gives',
} as const;

export const HEIGHT = {
  name: 'height',
  quantity: 'mount height',
  unit: 'm',
  meaning: 'from the emitting faces down to the canopy',
  atLeast: LIMITS.heightLeast,
  atMost: LIMITS.heightMost,
} as const;

const cells = { unit: '1', optional: true, atLeast: 1, atMost: 1000, whole: true } as const;

export const NX = { ...cells, name: 'nx', quantity: 'columns of the sample grid', meaning: 'cells along the bench; left out: none larger than 10 cm' } as const;

export const NY = { ...cells, name: 'ny', quantity: 'rows of the sample grid', meaning: 'cells across the bench; left out: none larger than 10 cm' } as const;

export const PPF = {
  name: 'ppf',
  quantity: 'output of one fixture',
  unit: 'µmol/s',
  meaning: 'initial, undimmed, 400–700 nm',
  above: 0,
  atMost: LIMITS.ppfMost,
} as const;

export const FACE_LENGTH = {
  name: 'length',
  quantity: 'length of the emitting face',
  unit: 'm',
  meaning: 'zero for a point',
  atLeast: 0,
  atMost: LIMITS.faceMost,
} as const;

export const FACE_WIDTH = {
  name: 'width',
  quantity: 'width of the emitting face',
  unit: 'm',
  meaning: 'zero for a line',
  atLeast: 0,
  atMost: LIMITS.faceMost,
} as const;

export const BEAM = {
  name: 'beam',
  quantity: 'beam angle',
  unit: '°',
  meaning: 'full angle at half of the peak intensity',
  atLeast: LIMITS.beamLeast,
  atMost: LIMITS.beamMost,
} as const;

export const BENCH_LENGTH = {
  name: 'bench length',
  quantity: 'length of the bench',
  unit: 'm',
  meaning: 'x runs along it',
  atLeast: LIMITS.benchLeast,
  atMost: LIMITS.benchMost,
} as const;

export const BENCH_WIDTH = {
  name: 'bench width',
  quantity: 'width of the bench',
  unit: 'm',
  meaning: 'y runs across it',
  atLeast: LIMITS.benchLeast,
  atMost: LIMITS.benchMost,
} as const;

export const SIDES = {
  name: 'wall reflectance',
  quantity: 'reflectance of the sides of the bench',
  unit: '1',
  meaning: 'share sent back, as by ideal mirrors; optimistic for matt white',
  atLeast: 0,
  atMost: LIMITS.sidesMost,
} as const;
