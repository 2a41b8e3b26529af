/** The letter of the cell that a formula reads in this place, from 0: after z come aa, ab and on. */
export const letterAt = (i: number): string =>
  i < 26 ? String.fromCharCode(97 + i) : `${String.fromCharCode(96 + Math.floor(i / 26))}${String.fromCharCode(97 + (i % 26))}`;
