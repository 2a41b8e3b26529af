/** One arrangement after another put into a copy of the book, and what is asked of each. */
import { verdictWord } from '../../../functions/check/verdict.ts';
import { fromBase, need } from '../../../functions/units.ts';
import type { At } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, placeOf, rangeOf } from '../../book/look-up.ts';
import type { Cone, Sweeper } from '../cone/index.ts';
import type { Address, Value, Values } from '../types.ts';
import { type Anatomy, aimOf, lowEndOf, PARTS, type Part, rowOf } from './anatomy.ts';
import type { Arrangement, Height } from './space.ts';
import type { Choices } from './types.ts';

/** A supply and a fuse, as they go into their cells. */
export interface Fed {
  readonly supply: string;
  readonly fuse: string;
}

/** An arrangement in which something is in the way. */
export interface Miss {
  readonly arrangement: Arrangement;
  readonly height: Height;
  readonly dim: number;
  readonly fed: Fed;
  /** Places of the checks that fail or are unknown. */
  readonly fails: readonly number[];
}

/** Places of results that are asked besides checks; undefined where the book has no such row. */
interface Asked {
  readonly layout: number | undefined;
  readonly count: number | undefined;
  readonly annual: number | undefined;
  readonly evenness: number | undefined;
  readonly feed: number | undefined;
  readonly circuits: number | undefined;
  readonly light: number | undefined;
  /** The light that is reached beside the light that is wanted; the first of which both are known. */
  readonly aims: readonly { readonly light: number; readonly asked: number }[];
}

/** Cells of other tables by which the space is bounded. */
const LIMITS = ['lowest_mount', 'highest_mount', 'lift_top', 'tier_gap'];

export class Probe {
  readonly book: Book;
  readonly anatomy: Anatomy;
  readonly asked: Asked;
  /** Places of all checks but verdicts. */
  readonly checks: readonly number[];
  /** Places of verdicts. */
  readonly verdicts: readonly number[];
  readonly parts: readonly Part[];
  /** What the scenario itself says. */
  readonly own: Readonly<Partial<Record<Part, string>>>;
  readonly dims: { readonly low: number; readonly high: number };
  readonly cone: Cone;
  readonly #sweeper: Sweeper;
  readonly #results: readonly Address[];
  readonly #extra: ReadonlyMap<Address, string>;
  readonly #most: number | undefined;

  /** @param extra contents of other givens in which this book is not as the sweeper's */
  constructor(sweeper: Sweeper, book: Book, anatomy: Anatomy, choices: Choices, extra: ReadonlyMap<Address, string>) {
    this.book = book;
    this.anatomy = anatomy;
    this.#sweeper = sweeper;
    this.#extra = extra;
    this.#most = choices.circuits;
    const { parts, table } = anatomy;
    this.parts = PARTS.filter((part) => parts[part]);
    this.own = Object.fromEntries(this.parts.map((part) => [part, ownContent(parts[part], sweeper.values)]));
    const results: Address[] = [];
    const place = (at: At): number => {
      const known = results.indexOf(addressOf(at));
      return known < 0 ? results.push(addressOf(at)) - 1 : known;
    };
    this.checks = anatomy.checks.map(place);
    this.verdicts = anatomy.judged.filter((at) => !anatomy.checks.includes(at)).map(place);
    const row = (id: string): number | undefined => {
      const at = rowOf(table, id);
      return at && place(at);
    };
    const pairs = (choices.dimming === 'none' ? [] : choices.dimming === 'low end' ? [lowEndOf(book, table)] : [aimOf(book, table), lowEndOf(book, table)])
      .filter((found) => found !== undefined)
      .map(({ light, asked }) => ({ light: place(light), asked: place(asked) }));
    const light = (aimOf(book, table) ?? lowEndOf(book, table))?.light;
    this.asked = {
      layout: row('layout'),
      count: row('count'),
      annual: row('annual'),
      evenness: row('evenness'),
      feed: row('feed'),
      circuits: choices.circuits === undefined ? undefined : row('circuits'),
      light: light && place(light),
      aims: pairs,
    };
    for (const name of LIMITS) {
      const at = placeOf(book, name);
      if (at) place(at);
    }
    this.#results = results;
    this.cone = sweeper.cone([...extra.keys(), ...this.parts.map((part) => addressOf(parts[part] as At))], results);
    const dim = parts.dim && rangeOf(parts.dim);
    this.dims = { low: Math.ceil(dim?.low ?? 100), high: Math.floor(dim?.high ?? 100) };
    this.#putContents(this.own);
  }

  put(arrangement: Omit<Arrangement, 'place'>, height: Height, dim: number, fed: Fed): void {
    this.#putContents(contentsOf(arrangement, height, dim, fed));
  }

  #putContents(contents: Readonly<Partial<Record<Part, string>>>): void {
    this.cone.put([...this.#extra.values(), ...this.parts.map((part) => contents[part] ?? '')]);
  }

  address(i: number): Address {
    return this.#results[i] as Address;
  }

  /** Places of all results. */
  get all(): readonly number[] {
    return [...this.#results.keys()];
  }

  /** What is known of a cell as the row that was put has it; of one that was not asked, as the sweeper's own book has it. */
  told(address: Address): Value | undefined {
    const i = this.#results.indexOf(address);
    return i < 0 ? this.#sweeper.values[address] : this.cone.value(i);
  }

  number(i: number | undefined): number {
    const value = i === undefined ? undefined : this.cone.value(i);
    return value?.kind === 'number' ? value.base : Number.NaN;
  }

  /** Whether a check holds, if only by an assumption or nearly. */
  stands(i: number): boolean {
    return i === this.asked.circuits ? this.number(i) <= (this.#most as number) : isGood(this.cone.value(i));
  }

  /** The unit in which a row is shown. */
  unitOf(id: 'annual' | 'evenness' | 'count'): string {
    const i = this.asked[id];
    const value = i === undefined ? undefined : this.cone.value(i);
    return value?.kind === 'number' ? value.unit : '';
  }

  isMains(): boolean {
    const { feed } = this.asked;
    const value = feed === undefined ? undefined : this.cone.value(feed);
    return value?.kind === 'text' && value.text === 'mains';
  }

  /** Lights that overlap or cross a wall can't be put up. */
  isBuilt(): boolean {
    const { layout, count } = this.asked;
    const value = layout === undefined ? undefined : this.cone.value(layout);
    return value ? value.kind !== 'error' : count === undefined || this.cone.value(count).kind === 'number';
  }

  /** Which parts a result hangs on, and whether it does on one of these. */
  hangsOn(i: number, butThrough?: number): ReadonlySet<Part> {
    const first = this.#extra.size;
    return new Set([...this.cone.hangsOn(i, butThrough)].flatMap((given) => this.parts[given - first] ?? []));
  }

  hangs(i: number, parts: readonly Part[]): boolean {
    const found = this.hangsOn(i);
    return parts.some((part) => found.has(part));
  }

  /** As `Cone.entries`, for a part; undefined too where one of the cells hangs on what is chosen later. */
  entries(of: readonly number[], part: Part, later: readonly Part[]): (() => readonly unknown[]) | undefined {
    const first = this.#extra.size;
    const found = this.cone.entries(of, first + this.parts.indexOf(part));
    return found && ![...found.hangsOn].some((given) => later.includes(this.parts[given - first] as Part)) ? found.values : undefined;
  }

  /** Any cells, as a column with these contents in its rows has them. */
  values(cells: Readonly<Record<string, string>>, results: readonly Address[]): readonly Value[] {
    const givens = this.parts.map((part) => this.anatomy.parts[part] as At);
    const cone = this.#sweeper.cone([...this.#extra.keys(), ...givens.map(addressOf)], results);
    cone.put([...this.#extra.values(), ...givens.map(({ row }) => cells[row.id] ?? '')]);
    return results.map((_, i) => cone.value(i));
  }
}

export function contentsOf(
  { fixture, along, across, turned, spreadAlong, spreadAcross }: Omit<Arrangement, 'place'>,
  { content: height }: Height,
  dim: number,
  { supply, fuse }: Fed,
): Readonly<Record<Part, string>> {
  return {
    fixture,
    along: String(along),
    across: String(across),
    turned: turned ? 'TRUE' : 'FALSE',
    spread_along: spreadAlong,
    spread_across: spreadAcross,
    height,
    dim: `${dim} %`,
    supply,
    fuse,
  };
}

export function isGood(value: Value): boolean {
  if (value.kind === 'yes or no') return value.yes;
  const word = value.kind === 'text' ? verdictWord(value.text) : undefined;
  return word === 'holds' || word === 'assumed' || word === 'look';
}

/** What a given says; of one that follows another, what that comes to. */
function ownContent(at: At | undefined, values: Values): string {
  const content = at?.cell?.content ?? '';
  if (!at || !content.startsWith('=')) return content;
  const value = values[addressOf(at)];
  if (value?.kind === 'number') return `${Number(fromBase(value.base, need(value.unit)).toPrecision(14))} ${value.unit}`.trim();
  return value?.kind === 'text' ? value.text : value?.kind === 'yes or no' ? (value.yes ? 'TRUE' : 'FALSE') : '';
}
