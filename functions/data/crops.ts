/**
 * Light targets by crop and stage, each with its source and how sure it is. The rows stand in crops.json, one a crop and stage; what they may hold, and
 * in which units, says crops.schema.json.
 */
import crops from './crops.json' with { type: 'json' };

/** PPFD in µmol/m²/s, DLI in mol/m²/d, hours in h/d; null is unknown. */
export interface CropTarget {
  readonly crop: string;
  readonly stage: string;
  readonly ppfd: readonly [low: number | null, high: number | null];
  readonly ppfdLimit: number | null;
  readonly dli: readonly [low: number | null, high: number | null];
  readonly hours: readonly [low: number | null, high: number | null];
  readonly hoursLimit: number | null;
  readonly dayLength: 'short' | 'long' | 'neutral' | null;
  readonly source: string;
  readonly sure: string;
}

/** Headings of a Crops table, as the look-ups find its columns by, with the unit of each. */
export const CROP_HEADINGS = [
  ['crop', 'text'],
  ['stage', 'text'],
  ['PPFD low', 'µmol/m²/s'],
  ['PPFD high', 'µmol/m²/s'],
  ['PPFD limit', 'µmol/m²/s'],
  ['DLI low', 'mol/m²/d'],
  ['DLI high', 'mol/m²/d'],
  ['hours low', 'h/d'],
  ['hours high', 'h/d'],
  ['hours limit', 'h/d'],
  ['day length', 'text'],
  ['source', 'text'],
  ['how sure', 'text'],
] as const;

export type CropHeading = (typeof CROP_HEADINGS)[number][0];

type Stored = Pick<CropTarget, 'crop' | 'stage' | 'source' | 'sure'> & Partial<CropTarget>;

/** What a row leaves out. */
const UNKNOWN: Omit<CropTarget, 'crop' | 'stage' | 'source' | 'sure'> = {
  ppfd: [null, null],
  ppfdLimit: null,
  dli: [null, null],
  hours: [null, null],
  hoursLimit: null,
  dayLength: null,
};

/** That the rows are of this form is held by their schema. Made when asked for: the look-ups need the headings alone. */
export const cropTargets = (): readonly CropTarget[] => (crops.rows as readonly unknown[] as readonly Stored[]).map((row) => ({ ...UNKNOWN, ...row }));

/** The rows of a Crops table in the units of the headings, headings first: what a book's own table is first filled from. */
export const cropRows = (): readonly (readonly (string | number | null)[])[] => [
  CROP_HEADINGS.map(([heading]) => heading),
  ...cropTargets().map((c) => [c.crop, c.stage, ...c.ppfd, c.ppfdLimit, ...c.dli, ...c.hours, c.hoursLimit, c.dayLength, c.source, c.sure]),
];
