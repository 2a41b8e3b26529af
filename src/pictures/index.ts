/** Pictures of a plan, for page and paper alike: each kind is a file that says what it shows, reads its cells and draws what it read. */
export { contourMap, extremes, mapKey } from './contour-map.ts';
export { type CostAgainstEvenness, type Dot, dotAt, drawCostAgainstEvenness, type NamedDot } from './cost-against-evenness.ts';
export { PICTURES, type PictureKind, pictureKind } from './kinds.ts';
export type { Fields, Frame, PictureBlock, PictureRead, Ready, Wanted } from './picture.ts';
export { lightScale } from './scale.ts';
export { LAYOUT, pointsOver, readPicture, rowsCounted, type Series } from './series.ts';
