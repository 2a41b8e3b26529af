/** The families of functions, in the order in which they are listed: on the page, on the command line and in the catalogue. */
export const FAMILIES = [
  'Beam and footprint',
  'The field over a bench',
  'Mount height',
  'Counts and dimming',
  'Daily light',
  'Sun and greenhouse',
  'Conversions and spectrum',
  'Crop',
  'Meter and evenness',
  'Supply, cable, breaker, support',
  'Heat',
  'Cost',
  'Ageing',
  'Check',
] as const;

export type Family = (typeof FAMILIES)[number];

/** Functions by family; those of one stay in the order in which they come. A family without any is left out. */
export function byFamily<T extends { readonly family: Family }>(all: readonly T[]): readonly (readonly [family: Family, functions: readonly T[]])[] {
  return FAMILIES.map((family) => [family, all.filter((each) => each.family === family)] as const).filter(([, found]) => found.length > 0);
}
