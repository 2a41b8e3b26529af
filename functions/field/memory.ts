/** Arrays of numbers that are needed while one field is reckoned. To make a typed array takes as long as a hundred products, so those of a field are kept for the next one. */

/** Numbered: to find six arrays by name takes as long as thirty products. */
export const SLOT = { tau: 0, rootTau: 1, lnWeight: 2, weights: 3, x: 4, y: 5 } as const;
type Slot = (typeof SLOT)[keyof typeof SLOT];

/** Gives an array so long or longer, with anything in it. What is kept is good until its slot is asked for again. */
type Memory = (slot: Slot, length: number) => Float64Array;

/** For what outlives the field. */
export const newMemory: Memory = (_, length) => new Float64Array(length);

const kept = Object.values(SLOT).map(() => new Float64Array(0));

export const keptMemory: Memory = (slot, length) => {
  const known = kept[slot] as Float64Array;
  if (known.length >= length) return known;
  const longer = new Float64Array(length);
  kept[slot] = longer;
  return longer;
};

/** Bytes that small fields share. A field that is kept keeps so many in use; one that is sent to another thread takes them along, and must not take them away. */
const BLOCK = 16_384;
let block = new ArrayBuffer(0);
let taken = 0;

/** An array of zeros for a field. A block of its own would be a fourteenth of the time of a small field; a part of a block costs next to nothing. */
export function newField(points: number): Float64Array {
  const bytes = points * Float64Array.BYTES_PER_ELEMENT;
  if (bytes > BLOCK / 4) return new Float64Array(points);
  if (taken + bytes > block.byteLength) {
    block = new ArrayBuffer(BLOCK);
    taken = 0;
  }
  const field = new Float64Array(block, taken, points);
  taken += bytes;
  return field;
}
