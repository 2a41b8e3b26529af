/** Arrays of numbers that are needed while one field is reckoned. To make a typed array takes as long as a hundred products, so those of a field are kept for the next one. */

type Slot = 'tau' | 'rootTau' | 'lnWeight' | 'weights' | 'x' | 'y';

/** Gives an array so long or longer, with anything in it. What is kept is good until its slot is asked for again. */
type Memory = (slot: Slot, length: number) => Float64Array;

/** For what outlives the field. */
export const newMemory: Memory = (_, length) => new Float64Array(length);

const none = new Float64Array(0);
const kept: Record<Slot, Float64Array> = { tau: none, rootTau: none, lnWeight: none, weights: none, x: none, y: none };

export const keptMemory: Memory = (slot, length) => {
  if (kept[slot].length < length) kept[slot] = new Float64Array(length);
  return kept[slot];
};
