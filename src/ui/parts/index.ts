/** What all rooms build on: the base of elements and their wishes, acts, places, what is kept in the browser. */
export type { Act, Acts } from './act.ts';
export { clock } from './clock.ts';
export { AGAIN, beginDrafts, cellKey, type Draft, draftOf, endDraft, noteDraft } from './drafts.ts';
export { fileName, handOver } from './file-out.ts';
export { keep, openGroupsKey } from './keep.ts';
export { letterAt } from './letter-at.ts';
export { holdDrawing, Part, type Place, placeOfAt, type Step, samePlace, type Wishes, whenIdle } from './part.ts';
export { PrintedOn } from './printed-on.ts';
export { readSpot, type Spot, spotText } from './spot.ts';
export { waysOut } from './ways-out.ts';
