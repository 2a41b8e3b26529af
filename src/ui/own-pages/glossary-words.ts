/** The words that are explained: plain data. Definitions are common usage of the trade in our own words; where one is a published term its source stands with it. */

export interface GlossaryWord {
  /** Its place on the page, too. */
  readonly id: string;
  readonly word: string;
  readonly means: string;
  /** How it is written in headings and notes. */
  readonly says: RegExp;
  readonly picture?: 'beam' | 'height' | 'evenness' | 'spread' | 'ageing' | 'day' | 'drop' | 'neighbours';
}

export const GLOSSARY: readonly GlossaryWord[] = [
  {
    id: 'ppf',
    word: 'PPF',
    means: 'All the light of a fixture that plants can use, from 400 to 700 nm, in µmol/s. It stands on the data sheet.',
    says: /\bPPF\b/,
  },
  {
    id: 'ppfd',
    word: 'PPFD',
    means: 'How much of that light falls on a square metre of leaves each second, in µmol/m²/s. It is what a quantum meter shows.',
    says: /\bPPFD\b/,
  },
  {
    id: 'dli',
    word: 'DLI, daily light',
    means: 'Daily light integral: the light on a square metre in a whole day, in mol/m²/d. 200 µmol/m²/s for 16 hours is 11.5 mol/m²/d.',
    says: /\bDLI\b|daily light/i,
    picture: 'day',
  },
  {
    id: 'lux',
    word: 'Lux',
    means: 'Brightness to the eye. How many lux make one µmol/m²/s depends on the colour of the light, so a lux meter needs a factor for the lamp.',
    says: /\blux\b/i,
  },
  { id: 'full', word: 'Full light', means: 'What a fixture gives when it is new and not dimmed.', says: /\bfull (?:mean|light|output)\b|new and undimmed/i },
  {
    id: 'day-one',
    word: 'Day one',
    means: 'The light after installation: new, and dimmed as planned. It is what a meter should read then, and what no leaf may find too much.',
    says: /\bday[- ]one\b/i,
  },
  {
    id: 'maintained',
    word: 'Maintained light',
    means: 'What is left of day-one light after ageing and dirt, at the end of the years the light must last. It is what the crop can count on.',
    says: /\bmaintained\b/i,
    picture: 'ageing',
  },
  { id: 'l90', word: 'L90', means: 'The hours after which a light source still gives 90 % of its first light, as its maker states them.', says: /\bL90\b/ },
  {
    id: 'beam',
    word: 'Beam angle',
    means: 'The full angle within which a fixture shines with at least half of its strength straight down.',
    says: /\bbeam\b/i,
    picture: 'beam',
  },
  {
    id: 'mount-height',
    word: 'Mount height',
    means: 'From the light’s face down to the leaf tops; not to the soil or the shelf.',
    says: /\bmount height\b/i,
    picture: 'height',
  },
  {
    id: 'evenness',
    word: 'Evenness',
    means: 'The lowest point divided by the mean, over the same points. 1 is perfectly even; edges and corners get least.',
    says: /\bevenness\b/i,
    picture: 'evenness',
  },
  {
    id: 'spread',
    word: 'Spread',
    means: '1 shares the bench evenly among the rows. More moves the outer lights towards the edges or past them; less draws them together.',
    says: /\bspread (?:along|across)\b/i,
    picture: 'spread',
  },
  {
    id: 'band',
    word: 'Target band',
    means: 'From the least to the most daily light that a crop wants. Maintained light is held against the least, day-one light against the most.',
    says: /\btarget band\b|\bwanted, at (?:least|most)\b/i,
  },
  {
    id: 'day-length',
    word: 'Day-length response',
    means: 'Short-day crops flower when nights are long, long-day crops when they are short; neutral ones do not mind. What counts is the unbroken night.',
    says: /\bday[- ]length\b/i,
  },
  {
    id: 'neighbours',
    word: 'Neighbouring benches',
    means: 'Benches with the same lights across the aisle. What they add is shown separately, and counted in where the plan says so.',
    says: /\bneighbouring benches\b/i,
    picture: 'neighbours',
  },
  {
    id: 'supply',
    word: 'Supply',
    means: 'The box that turns mains into the low voltage on which fixtures run. Some fixtures have a driver of their own instead, and are fed by the mains.',
    says: /\bsuppl(?:y|ies)\b/i,
  },
  {
    id: 'output',
    word: 'Output of a supply',
    means: 'One of the terminals from which a cable leaves. Each has a limit of its own, besides that of the whole supply.',
    says: /\bone output\b|\boutput load\b/i,
  },
  {
    id: 'derating',
    word: 'Derating',
    means: 'In air warmer than its maker names, a supply may give less than its rating: so much less for each degree.',
    says: /\bderat/i,
  },
  {
    id: 'drop',
    word: 'Voltage drop',
    means: 'What is lost along the cable, there and back. The light at the far end gets that much less than the supply gives.',
    says: /\bvoltage drop\b/i,
    picture: 'drop',
  },
  {
    id: 'limited',
    word: 'Limited circuit',
    means: 'A low-voltage output that can give no more than a stated power, whatever hangs on it, and is marked so. Local codes say which.',
    says: /\blimited circuit\b|\bmarked as limited\b/i,
  },
  {
    id: 'ip',
    word: 'IP',
    means: 'Two digits marked on an enclosure: how well it keeps out dust and water (IEC 60529). 65: dust-tight, and safe against jets of water.',
    says: /\bIP\b/,
  },
  {
    id: 'power-factor',
    word: 'Power factor',
    means: 'Power drawn, divided by volts times amps. Below 1 the mains must carry more current than the watts alone would need.',
    says: /\bpower factor\b/i,
  },
  {
    id: 'working-load',
    word: 'Working load',
    means: 'What a hanger, and whatever it is fixed to, may carry in use. Ask the installer; overhead loads are theirs to answer for.',
    says: /\bworking load\b|\bhanging load\b|\bload on one hanger\b/i,
  },
  {
    id: 'capital',
    word: 'Capital cost',
    means: 'The price of all that is bought, shared over the years of the plan with interest.',
    says: /\bcapital cost\b/i,
  },
  {
    id: 'close',
    word: 'Close to limit',
    means: 'A check that holds with little to spare. The plan works, and the value should be watched.',
    says: /\bclose to limit\b/i,
  },
  {
    id: 'unknown',
    word: 'Unknown',
    means: 'A check that lacks its limit or its value. It never counts as holding until somebody answers.',
    says: /\bunknown\b/i,
  },
];

/** Those that stand in a text, in the order of the page. */
export const wordsIn = (text: string): readonly GlossaryWord[] => GLOSSARY.filter(({ says }) => says.test(text));
