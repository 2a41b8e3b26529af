/** Many variants of one book: formulas compiled once between what varies and what is wanted. */
export { type Cone, ConeDiffers, HELD } from './cone.ts';
export type { Put } from './given.ts';
export { Sweeper } from './sweeper.ts';
