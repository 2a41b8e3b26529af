/** Pieces of formula text for the checks in a working: numbers in full precision, with their unit. */

export const quantity = (x: number, unit: string): string => `UNIT(${x},"${unit}")`;

export const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
