/**
 * The kinds of picture: what each shows and which cells it reads, by the key under which a block says them.
 *
 * A reference to a cell of a comparing table stands for that whole row: each scenario is drawn with its own cell, and a scenario added later is
 * drawn too. References to other tables are shared by all scenarios.
 */
export interface PictureRead {
  readonly key: string;
  /** As messages and the slip call it. */
  readonly name: string;
  readonly meaning: string;
  /** `layout`: the text that LAYOUT gives; `number`: any quantity; `texts`: names; else a unit of the quantity that is meant. */
  readonly takes: string;
  /** Cells one after another, one a month. */
  readonly run?: true;
  readonly needed?: true;
  /** A cell of a comparing table: no other says one thing of every scenario. */
  readonly compared?: true;
  /** What such a row or column is usually called. */
  readonly called: RegExp;
}

interface PictureKind {
  readonly kind: string;
  readonly title: string;
  readonly shows: string;
  readonly reads: readonly PictureRead[];
}

const PPFD = 'µmol/m²/s';
const LIGHT: readonly PictureRead[] = [
  { key: 'layout', name: 'layout', meaning: 'how the lights are arranged, as LAYOUT says it', takes: 'layout', needed: true, called: /^layout/i },
  { key: 'height', name: 'mount height', meaning: 'from the lit face down to the leaf tops', takes: 'm', needed: true, called: /^(?:mount height|hung over)/i },
  { key: 'dim', name: 'dimming', meaning: 'the share of full light; left empty: undimmed', takes: '1', called: /^dimmed/i },
  {
    key: 'maintenance',
    name: 'light that is left',
    meaning: 'the share that ageing and dirt leave; left empty: new and clean',
    takes: '1',
    called: /^(?:light left after|kept for each full)/i,
  },
  { key: 'low', name: 'least light wanted', meaning: 'the low end of the band', takes: PPFD, called: /^ppfd wanted.*at least/i },
  { key: 'high', name: 'most light wanted', meaning: 'the high end of the band', takes: PPFD, called: /^ppfd wanted.*at most/i },
];

export const PICTURE_KINDS: readonly PictureKind[] = [
  {
    kind: 'light map',
    title: 'Light map',
    shows: 'The light over the whole bench from above, in steps, with the fixtures and the band that is wanted.',
    reads: LIGHT,
  },
  { kind: 'cut', title: 'Cuts', shows: 'The light along the middle of the bench and across it, all scenarios in one frame.', reads: LIGHT },
  {
    kind: 'height curve',
    title: 'Light against height',
    shows: 'How the mean light falls as the lights hang higher, and where each scenario hangs.',
    reads: [
      ...LIGHT,
      { key: 'target', name: 'light aimed at', meaning: 'a line across', takes: PPFD, called: /^(?:ppfd aimed at|light wanted on the leaves)/i },
      { key: 'lowest', name: 'lowest height drawn', meaning: 'where the curve begins', takes: 'm', called: /^(?:lowest a light may|room asked over)/i },
      { key: 'highest', name: 'greatest height drawn', meaning: 'where the curve ends', takes: 'm', called: /^(?:highest (?:a|the) lights? |room between)/i },
    ],
  },
  {
    kind: 'scenario bars',
    title: 'Scenario bars',
    shows: 'One quantity of every scenario as bars side by side, the values written, with the line aimed at where there is one.',
    reads: [
      {
        key: 'value',
        name: 'quantity',
        meaning: 'a row of the scenarios: a length, a cost, a day’s light',
        takes: 'number',
        needed: true,
        compared: true,
        called: /^kept mean ppfd/i,
      },
      { key: 'target', name: 'value aimed at', meaning: 'a line across the bars, of the same quantity', takes: 'number', called: /^ppfd aimed at/i },
      { key: 'low', name: 'least wanted', meaning: 'the low end of the band', takes: 'number', called: /^ppfd wanted.*at least/i },
      { key: 'high', name: 'most wanted', meaning: 'the high end of the band', takes: 'number', called: /^ppfd wanted.*at most/i },
    ],
  },
  {
    kind: 'monthly light',
    title: 'Light by month',
    shows: 'The light of a day through the year: what the sun brings, what the lamps add, and what is wanted.',
    reads: [
      { key: 'months', name: 'months', meaning: 'their names, one a cell', takes: 'texts', run: true, needed: true, called: /^month$/i },
      {
        key: 'sun',
        name: 'sun on the bench',
        meaning: 'the light of a day by month, before the fixtures keep any off',
        takes: 'mol/m²/d',
        run: true,
        needed: true,
        called: /^sun under the roof/i,
      },
      { key: 'shade', name: 'sun that the fixtures keep off', meaning: 'a share; left empty: none', takes: '1', called: /^sun that the fixtures keep off/i },
      {
        key: 'gap',
        name: 'what the sun leaves open',
        meaning: 'what is short of the light aimed at, by month; the lamps fill it',
        takes: 'mol/m²/d',
        run: true,
        called: /^gap$/i,
      },
      { key: 'most', name: 'most that the lamps give', meaning: 'in a day, burning all their hours', takes: 'mol/m²/d', called: /^most that the lamps give/i },
      { key: 'target', name: 'light of a day aimed at', meaning: 'a line across', takes: 'mol/m²/d', called: /^day light aimed at/i },
    ],
  },
  {
    kind: 'planned beside measured',
    title: 'Planned beside measured',
    shows: 'What a meter read beside what was planned at the same points, in one scale, and the points that are off the pattern.',
    reads: [
      {
        key: 'planned',
        name: 'planned light',
        meaning: 'at each point, row by row, the first row nearest the bench’s corner',
        takes: PPFD,
        run: true,
        needed: true,
        called: /^planned/i,
      },
      { key: 'measured', name: 'measured light', meaning: 'at the same points', takes: PPFD, run: true, needed: true, called: /^measured/i },
      {
        key: 'off',
        name: 'difference from the pattern',
        meaning: 'a share at each point; left empty: none is marked',
        takes: '1',
        run: true,
        called: /^difference/i,
      },
      { key: 'limit', name: 'difference that deserves a look', meaning: 'a share', takes: '1', called: /^a point is looked at/i },
      { key: 'length', name: 'length of the bench', meaning: 'so that the maps have its shape', takes: 'm', called: /^(?:bench|shelf|bed) length/i },
      { key: 'width', name: 'width of the bench', meaning: 'so that the maps have its shape', takes: 'm', called: /^(?:bench|shelf|bed) (?:width|depth)/i },
    ],
  },
];

export const pictureKind = (kind: string): PictureKind | undefined => PICTURE_KINDS.find((each) => each.kind === kind);
