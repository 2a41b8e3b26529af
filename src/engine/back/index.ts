/** A book worked backwards: from what a worked cell should be to the given that makes it so. */
export { workBack } from './back.ts';
export { Copy } from './copy.ts';
export { givensOf } from './givens.ts';
