/**
 * Which template a book of version 1 or 2 was begun from. Such books don't say; the line on what the template is for went along with them,
 * and so did its title where nobody gave another. What stands here is what those templates said, and stays as it is.
 */
const SAID: Readonly<Record<string, { readonly title: string; readonly purpose: string }>> = {
  'germination-and-microgreens': {
    title: 'Germination and microgreens',
    purpose: 'Dark days, lit days and how bright: what a shelf of microgreens needs, how many trays it brings in a week, and what the light in one tray costs.',
  },
  'greenhouse-bench': {
    title: 'Greenhouse bench',
    purpose: 'Which months need lamps beside the sun, for how many hours, at what shade and what cost: one greenhouse bench, month by month.',
  },
  'growing-canopy': {
    title: 'Growing canopy',
    purpose: 'A crop that grows towards its lights: when to lift them and how far, what light each week brings, and how far to dim as they age.',
  },
  'meter-check': {
    title: 'Meter check',
    purpose: 'Do the readings match the plan: planned beside measured, what explains the difference, and what the light then costs.',
  },
  'rack-of-tiers': {
    title: 'Rack of tiers',
    purpose: 'How many lights per shelf of a rack, how much room they leave over the leaf tops, and what the whole rack draws, warms and costs.',
  },
  'replace-old-lamps': {
    title: 'Replace old lamps',
    purpose: 'Are new lights worth it over old ones: what is saved for the same light or in the same hours, less the heating that is lost, and when it pays.',
  },
  'single-shelf': {
    title: 'Single shelf',
    purpose: 'One light over one shelf: how high to hang it, how far its light is worth having, and whether to raise it or to dim it.',
  },
  'trade-bench': {
    title: 'Trade bench',
    purpose: 'Which lights, how many and how high over one bench, on which supplies, and at what cost: up to five ways side by side.',
  },
};

/** The slug, told by the template's own id, its purpose or its title; undefined where none of them is known. */
export function firstEdition({ id, title, purpose }: Readonly<Record<string, unknown>>): string | undefined {
  const all = Object.entries(SAID);
  if (typeof id === 'string' && Object.hasOwn(SAID, id)) return id;
  return (all.find(([, said]) => said.purpose === purpose) ?? all.find(([, said]) => said.title === title))?.[0];
}
