import { LIMITS } from '../field/index.ts';

export const LOW_TO_MEAN = {
  name: 'low to mean',
  quantity: 'evenness asked for',
  unit: '1',
  meaning: 'PPFD midway between the rows over the mean',
  atLeast: 0.05,
  atMost: 0.999,
} as const;

export const ROW_GAP = {
  name: 'row gap',
  quantity: 'gap between rows',
  unit: 'm',
  meaning: 'centre to centre',
  atLeast: 0.01,
  atMost: LIMITS.benchMost,
} as const;
