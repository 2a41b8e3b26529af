/** Layouts that were found, as they are listed: in words and amounts as the book shows them, sorted, and those of them that are asked for. */
import { type ShownNumber, showNumber, spokenNumber, withSpaces } from '../../../functions/number-text.ts';
import { fromBase, need, toBase, withCurrency } from '../../../functions/units.ts';
import type { Book, Table } from '../../book/book.ts';
import { inSentence } from '../../book/label.ts';
import type { Layout } from '../../engine/proposing/index.ts';
import type { Dot } from '../../pictures/index.ts';

/** How the book shows what a layout says. */
export interface Units {
  readonly cost: string;
  readonly light: string;
  /** What the light is: PPFD, or DLI where the book has that in its place. */
  readonly lit: string;
  readonly height: string;
  /** What the row of the height is called, and what is said before a height in a line. */
  readonly hung: string;
  readonly at: string;
  /** The book says how evenly, and at what cost. */
  readonly hasCost: boolean;
  readonly hasEvenness: boolean;
}

export function unitsOf(book: Book, table: Table | undefined): Units {
  const row = (...ids: readonly string[]) => table?.rows.find(({ id }) => ids.includes(id));
  const height = row('height', 'drop_below');
  return {
    cost: withCurrency(row('annual')?.unit ?? 'money/year', book.currency),
    light: row('kept') ? (row('kept')?.unit ?? 'µmol/m²/s') : (row('dli_mean')?.unit ?? 'mol/m²/d'),
    lit: row('kept') ? 'PPFD' : 'DLI',
    height: height?.unit ?? (book.measures === 'metric' ? 'm' : 'ft'),
    hung: height?.label ?? 'Mount height',
    at: height?.id === 'drop_below' ? inSentence(height.label ?? '') : 'at',
    hasCost: row('annual') !== undefined,
    hasEvenness: row('evenness') !== undefined,
  };
}

export const ORDERS = {
  cost: { label: 'Cost a year', first: 'cheapest first', of: (layout: Layout) => layout.annual, up: true },
  evenness: { label: 'Evenness', first: 'most even first', of: (layout: Layout) => layout.evenness, up: false },
  count: { label: 'Lights', first: 'fewest lights first', of: (layout: Layout) => layout.count, up: true },
  light: { label: 'Light', first: 'most light first', of: (layout: Layout) => layout.light, up: false },
  height: { label: 'Hung', first: 'lowest first', of: (layout: Layout) => layout.metres, up: true },
} as const;

export type Order = keyof typeof ORDERS;

export interface Sorting {
  readonly by: Order;
  /** The other way round than it begins. */
  readonly turned: boolean;
}

export interface Wanted {
  /** Each of them stands in what the layout says of itself. */
  readonly words: string;
  /** In the unit of the cost. */
  readonly most: number | undefined;
  readonly least: number | undefined;
}

export const ANY: Wanted = { words: '', most: undefined, least: undefined };

/** Those that are asked for, sorted; equals in their listed order, and what is not known last. */
export function listed(layouts: readonly Layout[], units: Units, { words, most, least }: Wanted, { by, turned }: Sorting): readonly Layout[] {
  const sought = words
    .toLowerCase()
    .split(/[\s,]+/u)
    .filter(Boolean);
  const cost = most === undefined ? undefined : toBase(most, need(units.cost));
  const kept = layouts.filter(
    (layout) =>
      (cost === undefined || layout.annual <= cost) &&
      (least === undefined || layout.evenness >= least) &&
      (sought.length === 0 || saysAll(titleOf(layout).toLowerCase(), sought)),
  );
  const { of, up } = ORDERS[by];
  const sign = up === turned ? -1 : 1;
  return kept.sort((a, b) => {
    const [x, y] = [of(a), of(b)];
    if (Number.isNaN(x) || Number.isNaN(y)) return Number(Number.isNaN(x)) - Number(Number.isNaN(y)) || a.place - b.place;
    return sign * (x - y) || a.place - b.place;
  });
}

const saysAll = (text: string, words: readonly string[]): boolean => words.every((word) => text.includes(word));

/** Which light, how many rows of them, which way, on what. */
export function titleOf({ fixture, along, across, turned, supply, fuse }: Layout): string {
  return [arrangedIn({ fixture, along, across, turned }), fedBy({ supply, fuse })].filter(Boolean).join(', ');
}

const arrangedIn = ({ fixture, along, across, turned }: Pick<Layout, 'fixture' | 'along' | 'across' | 'turned'>): string =>
  `${fixture}, ${along} × ${across}${turned ? ', turned' : ''}`;

/** A fuse of nothing is none. */
const fedBy = ({ supply, fuse }: Pick<Layout, 'supply' | 'fuse'>): string =>
  [supply, fuse === '' ? '' : /^0\b/u.test(fuse) ? 'no fuse' : `fuse ${fuse}`].filter(Boolean).join(', ');

/** A number as it stands in the list, its unit apart. */
export type Amount = Pick<ShownNumber, 'text' | 'unit'>;

export interface Line {
  readonly arranged: string;
  readonly fed: string;
  readonly height: Amount;
  readonly dim: Amount;
  readonly count: Amount;
  readonly light: Amount;
  readonly evenness: Amount;
  readonly cost: Amount;
  /** All of it for the ear. */
  readonly spoken: string;
}

const NONE: Amount = { text: '', unit: '' };

export function lineOf(layout: Layout, units: Units): Line {
  const height = showNumber(layout.metres, units.height);
  const light = showNumber(layout.light, units.light, units.lit === 'PPFD' ? 0 : undefined);
  const cost = showNumber(layout.annual, units.cost, 0);
  const known = <T>(base: number, made: T, none: T): T => (Number.isNaN(base) ? none : made);
  const number = ({ sign, whole, fraction, unit }: ShownNumber): Amount => ({ text: `${sign}${whole}${fraction}`, unit });
  const evenness = known(layout.evenness, layout.evenness.toFixed(3), '');
  const said = [
    titleOf(layout).replace(' × ', ' by '),
    known(layout.metres, spokenNumber(height), ''),
    `dimmed to ${layout.dim} percent`,
    known(layout.count, `${layout.count} ${layout.count === 1 ? 'light' : 'lights'}`, ''),
    known(layout.light, spokenNumber(light), ''),
    evenness && `evenness ${evenness}`,
    known(layout.annual, spokenNumber(cost), ''),
  ];
  return {
    arranged: arrangedIn(layout),
    fed: fedBy(layout),
    height: known(layout.metres, { text: height.text, unit: '' }, NONE),
    dim: { text: `${layout.dim} %`, unit: '' },
    count: known(layout.count, { text: String(layout.count), unit: '' }, NONE),
    light: known(layout.light, number(light), NONE),
    evenness: { text: evenness, unit: '' },
    cost: known(layout.annual, number(cost), NONE),
    spoken: said.filter(Boolean).join(', '),
  };
}

/** In one line, for labels and notes: "Rail 90, 3 × 4, Supply 24/300, fuse 6.3 A, at 45 cm, dimmed to 85 %". */
export function inWords(layout: Layout, units: Units): string {
  const { height, dim } = lineOf(layout, units);
  return [titleOf(layout), height.text && `${units.at} ${withSpaces(height.text)}`, layout.dim === 100 ? '' : `dimmed to ${dim.text}`]
    .filter(Boolean)
    .join(', ');
}

/** Where it lies in the picture; undefined where the book does not say both. */
export function dotOf(layout: Layout, units: Units): Dot | undefined {
  if (Number.isNaN(layout.annual) || Number.isNaN(layout.evenness)) return undefined;
  return { cost: fromBase(layout.annual, need(units.cost)), evenness: layout.evenness };
}

/** Found again among others, also where it came from another search. */
export const sameLayout = (a: Layout | undefined, b: Layout | undefined): boolean => a !== undefined && b !== undefined && inFull(a) === inFull(b);

const inFull = ({ fixture, along, across, turned, spreadAlong, spreadAcross, height, dim, supply, fuse }: Layout): string =>
  JSON.stringify([fixture, along, across, turned, spreadAlong, spreadAcross, height, dim, supply, fuse]);
