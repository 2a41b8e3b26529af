/**
 * One thread's search through a space of arrangements, on a copy of the book. The space is cut into pieces that are always the same, and a piece comes to the
 * same whoever works it and whatever was worked before, so that the answer does not hang on the number of threads.
 */
import { verdictWord } from '../../../functions/check/verdict.ts';
import { fromBase, need } from '../../../functions/units.ts';
import type { At } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, rangeOf } from '../../book/look-up.ts';
import type { Cone } from '../cone/index.ts';
import { Sweeper } from '../cone/index.ts';
import type { Address, Value, Values } from '../types.ts';
import type { Life } from '../workbook.ts';
import { type Anatomy, aimOf, anatomyOf, lowEndOf, PARTS, type Part, rowOf } from './anatomy.ts';
import { better } from './better.ts';
import { inTheWay } from './refusal.ts';
import { type Arrangement, arrangementAt, type Height, type Space, spaceOf } from './space.ts';
import { AIMS, type Aim, type Choices, type Layout, type PieceDone, type Plan } from './types.ts';

/** So many pieces at most: enough for a bar that moves and for threads to share, few enough that each begins with something to compare with. */
const PIECES = 64;

/** A supply and a fuse. */
interface Fed {
  readonly supply: string;
  readonly fuse: string;
  /** What a proposal says of it: nothing where the light has its own driver. */
  readonly named: { readonly supply: string; readonly fuse: string };
}

/** The places of results that are asked besides checks; undefined where the book has no such row. */
interface Asked {
  readonly layout: number | undefined;
  readonly count: number | undefined;
  readonly annual: number | undefined;
  readonly evenness: number | undefined;
  readonly feed: number | undefined;
  readonly circuits: number | undefined;
  readonly light: number | undefined;
  readonly aims: readonly { readonly light: number; readonly asked: number }[];
}

/** Checks by what they hang on, so that each is asked once for all of which it knows nothing. */
interface Classes {
  readonly constant: readonly number[];
  readonly fixture: readonly number[];
  readonly layout: readonly number[];
  readonly supply: readonly number[];
  readonly fed: readonly number[];
  readonly height: number[];
  readonly dimmed: number[];
  readonly all: number[];
}

export class Searcher {
  readonly book: Book;
  readonly anatomy: Anatomy;
  readonly space: Space;
  readonly choices: Choices;
  readonly sweeper: Sweeper;
  readonly cone: Cone;
  readonly checks: readonly Address[];
  readonly asked: Asked;
  readonly #parts: readonly Part[];
  readonly #own: Readonly<Record<string, string>>;
  readonly #classes: Classes;
  readonly #dims: { readonly low: number; readonly high: number };
  readonly #lightHangsOnSupply: boolean;

  /** Refused in a sentence. */
  static of(book: Book, choices: Choices = {}, life: Life = {}): Searcher | string {
    const anatomy = anatomyOf(book);
    if (typeof anatomy === 'string') return anatomy;
    const sweeper = new Sweeper(book, life);
    const refused = inTheWay(anatomy, sweeper.values);
    const space = refused ?? spaceOf(book, anatomy, sweeper.values, choices);
    if (typeof space !== 'string') return new Searcher(book, anatomy, space, choices, sweeper);
    sweeper.close();
    return space;
  }

  private constructor(book: Book, anatomy: Anatomy, space: Space, choices: Choices, sweeper: Sweeper) {
    this.book = book;
    this.anatomy = anatomy;
    this.space = space;
    this.choices = choices;
    this.sweeper = sweeper;
    const { parts, table } = anatomy;
    this.#parts = PARTS.filter((part) => parts[part]);
    this.#own = Object.fromEntries(this.#parts.map((part) => [part, ownContent(parts[part], sweeper.values)]));
    this.checks = anatomy.checks.map(addressOf);
    const results = [...this.checks];
    const place = (address: Address | undefined): number | undefined => {
      if (address === undefined) return undefined;
      const known = results.indexOf(address);
      return known < 0 ? results.push(address) - 1 : known;
    };
    const row = (id: string): number | undefined => {
      const at = rowOf(table, id);
      return place(at && addressOf(at));
    };
    const aims = (choices.dimming === 'none' ? [] : choices.dimming === 'low end' ? [lowEndOf(book, table)] : [aimOf(book, table), lowEndOf(book, table)])
      .filter((found) => found !== undefined)
      .map(({ light, asked }) => ({ light: place(light) as number, asked: place(asked) as number }));
    this.asked = {
      layout: row('layout'),
      count: row('count'),
      annual: row('annual'),
      evenness: row('evenness'),
      feed: row('feed'),
      circuits: choices.circuits === undefined ? undefined : row('circuits'),
      light: place((aimOf(book, table) ?? lowEndOf(book, table))?.light),
      aims,
    };
    this.cone = sweeper.cone(
      this.#parts.map((part) => addressOf(parts[part] as NonNullable<(typeof parts)[Part]>)),
      results,
    );
    const dim = parts.dim && rangeOf(parts.dim);
    this.#dims = { low: Math.ceil(dim?.low ?? 100), high: Math.floor(dim?.high ?? 100) };
    const [first] = space.heights;
    this.#put(arrangementAt(space, 0), first as Height, this.#dims.high, this.#fed(space.supplies[0] as string, space.fuses[0] as string));
    this.#classes = this.#classed();
    this.#lightHangsOnSupply = aims.some(({ light, asked }) => [light, asked].some((i) => this.#hangs(i, ['supply', 'fuse'])));
  }

  get plan(): Plan {
    const { arrangements, layouts } = this.space;
    return { table: this.anatomy.table.id, pieces: Math.min(PIECES, arrangements), layouts, said: [] };
  }

  close(): void {
    this.sweeper.close();
  }

  /** Whether the book has the row by which that is told. */
  answers(aim: Aim): boolean {
    const { annual, evenness, count } = this.asked;
    return { cheapest: annual, 'most even': evenness, 'fewest lights': count }[aim] !== undefined;
  }

  /** The unit in which a row is shown. */
  unitOf(id: 'annual' | 'evenness' | 'count'): string {
    const i = this.asked[id];
    const value = i === undefined ? undefined : this.cone.value(i);
    return value?.kind === 'number' ? value.unit : '';
  }

  /** Any results of the column as these contents make it. */
  values(cells: Readonly<Record<string, string>>, results: readonly Address[]): readonly Value[] {
    const givens = this.#parts.map((part) => this.anatomy.parts[part] as At);
    const cone = this.sweeper.cone(givens.map(addressOf), results);
    cone.put(givens.map(({ row }) => cells[row.id] ?? ''));
    return results.map((_, i) => cone.value(i));
  }

  /** @param beat called often; what it throws ends the search. */
  piece(piece: number, beat: () => void = () => {}): PieceDone {
    const { arrangements, heights } = this.space;
    const { pieces } = this.plan;
    const from = Math.floor((piece * arrangements) / pieces);
    const to = Math.floor(((piece + 1) * arrangements) / pieces);
    const best: Partial<Record<Aim, Layout>> = {};
    const all: Layout[] = [];
    let [built, worked, hold] = [0, 0, 0];
    const classes = this.#classes;
    const never = !classes.constant.every((i) => this.#stands(i));
    let fixture: string | undefined;
    let fixtureHolds = false;
    let supplies: readonly string[] = [];
    for (let place = from; place < to; place++) {
      beat();
      const arrangement = arrangementAt(this.space, place);
      this.#begin(arrangement);
      if (arrangement.fixture !== fixture) {
        fixture = arrangement.fixture;
        fixtureHolds = !never && classes.fixture.every((i) => this.#stands(i));
        supplies = this.#isMains() ? [this.#own.supply ?? ''] : this.space.supplies;
      }
      if (!this.#isBuilt()) continue;
      built += heights.length;
      if (!fixtureHolds || !classes.layout.every((i) => this.#stands(i))) continue;
      const feds = this.#feds(arrangement, supplies);
      if (feds.length === 0) continue;
      worked += heights.length;
      for (const [h, height] of heights.entries()) {
        const found = this.#layout(arrangement, height, place * heights.length + h, feds);
        if (!found) continue;
        hold++;
        if (this.choices.all) all.push(found);
        for (const aim of AIMS) best[aim] = better(aim, best[aim], found) as Layout;
      }
    }
    return { piece, counts: { layouts: (to - from) * heights.length, built, worked, cut: built - worked, hold }, best, all };
  }

  /** The rest of an arrangement where its lights hang so high, with the cheapest supply and fuse; undefined where something fails. */
  #layout(arrangement: Arrangement, height: Height, place: number, feds: readonly Fed[]): Layout | undefined {
    if (!this.#lightHangsOnSupply) return this.#lit(arrangement, height, place, feds);
    let best: Layout | undefined;
    for (const fed of feds) best = better('cheapest', best, this.#lit(arrangement, height, place, [fed]));
    return best;
  }

  #lit(arrangement: Arrangement, height: Height, place: number, feds: readonly Fed[]): Layout | undefined {
    const [first] = feds as [Fed];
    this.#put(arrangement, height, this.#dims.high, first);
    if (!this.#hold(this.#classes.height)) return undefined;
    const dim = this.#dim(arrangement, height, first);
    this.#put(arrangement, height, dim, first);
    if (!this.#hold(this.#classes.dimmed)) return undefined;
    const { annual } = this.asked;
    const priced = feds.map((fed) => {
      if (feds.length > 1) this.#put(arrangement, height, dim, fed);
      return { fed, annual: annual === undefined ? 0 : this.#number(annual) };
    });
    priced.sort((a, b) => a.annual - b.annual);
    for (const { fed, annual: cost } of priced) {
      if (feds.length > 1) this.#put(arrangement, height, dim, fed);
      if (!this.#hold(this.#classes.all)) continue;
      const { count, evenness, light } = this.asked;
      const number = (i: number | undefined): number => (i === undefined ? Number.NaN : this.#number(i));
      const { fixture, along, across, turned, spreadAlong, spreadAcross } = arrangement;
      return {
        ...{ fixture, along, across, turned, spreadAlong, spreadAcross },
        height: height.content,
        metres: height.metres,
        dim,
        ...fed.named,
        count: number(count),
        annual: annual === undefined ? Number.NaN : cost,
        evenness: number(evenness),
        light: number(light),
        place,
      };
    }
    return undefined;
  }

  /** The least whole per cent with which the light is what is asked; undimmed where there is no such. More light is taken to come of less dimming. */
  #dim(arrangement: Arrangement, height: Height, fed: Fed): number {
    const { low, high } = this.#dims;
    const { aims } = this.asked;
    const aim = aims.find(({ light, asked }) => this.cone.value(light).kind === 'number' && this.cone.value(asked).kind === 'number');
    if (!aim || low >= high) return high;
    const reaches = (dim: number): boolean => {
      this.#put(arrangement, height, dim, fed);
      return this.#number(aim.light) >= this.#number(aim.asked);
    };
    const [full, asked] = [this.#number(aim.light), this.#number(aim.asked)];
    if (full < asked) return high;
    let dim = Math.min(high, Math.max(low, Math.ceil((high * asked) / full)));
    while (dim > low && reaches(dim - 1)) dim--;
    while (dim < high && !reaches(dim)) dim++;
    return dim;
  }

  /** The supplies and fuses with which nothing fails that does not hang on height and dimming. */
  #feds(arrangement: Arrangement, supplies: readonly string[]): readonly Fed[] {
    const [height] = this.space.heights as readonly [Height];
    const found: Fed[] = [];
    const mains = this.#isMains();
    for (const supply of supplies) {
      let suits: boolean | undefined;
      for (const fuse of mains ? [this.#own.fuse ?? ''] : this.space.fuses) {
        const fed = this.#fed(supply, fuse, mains);
        this.#put(arrangement, height, this.#dims.high, fed);
        suits ??= this.#hold(this.#classes.supply);
        if (!suits) break;
        if (this.#hold(this.#classes.fed)) found.push(fed);
      }
    }
    return found;
  }

  #fed(supply: string, fuse: string, mains = false): Fed {
    return { supply, fuse, named: mains ? { supply: '', fuse: '' } : { supply, fuse } };
  }

  #begin(arrangement: Arrangement): void {
    const { heights, supplies, fuses } = this.space;
    this.#put(arrangement, heights[0] as Height, this.#dims.high, this.#fed(supplies[0] as string, fuses[0] as string));
  }

  #isMains(): boolean {
    const { feed } = this.asked;
    const value = feed === undefined ? undefined : this.cone.value(feed);
    return value?.kind === 'text' && value.text === 'mains';
  }

  /** Lights that overlap or cross a wall can't be put up. */
  #isBuilt(): boolean {
    const { layout, count } = this.asked;
    const value = layout === undefined ? undefined : this.cone.value(layout);
    return value ? value.kind !== 'error' : count === undefined || this.cone.value(count).kind === 'number';
  }

  #number(i: number): number {
    const value = this.cone.value(i);
    return value.kind === 'number' ? value.base : Number.NaN;
  }

  /** Whether a check holds, if only by an assumption or nearly. */
  #stands(i: number): boolean {
    const { circuits } = this.asked;
    if (i === circuits) return this.#number(i) <= (this.choices.circuits as number);
    return isGood(this.cone.value(i));
  }

  /** The one that failed last is asked first: it is likely to fail again. */
  #hold(places: readonly number[]): boolean {
    const failed = places.findIndex((i) => !this.#stands(i));
    if (failed > 0) (places as number[]).unshift(...(places as number[]).splice(failed, 1));
    return failed < 0;
  }

  #hangs(i: number, parts: readonly Part[]): boolean {
    return this.cone.hangsOn(i).some((given) => parts.includes(this.#parts[given] as Part));
  }

  #classed(): Classes {
    const classes = { constant: [], fixture: [], layout: [], supply: [], fed: [], height: [], dimmed: [], all: [] } as Record<keyof Classes, number[]>;
    const places = [...this.checks.keys(), ...(this.asked.circuits === undefined ? [] : [this.asked.circuits])];
    for (const i of places) {
      const [hung, fed] = [this.#hangs(i, ['height', 'dim']), this.#hangs(i, ['supply', 'fuse'])];
      if (hung && fed) classes.all.push(i);
      else if (hung) classes[this.#hangs(i, ['dim']) ? 'dimmed' : 'height'].push(i);
      else if (fed) classes[this.#hangs(i, ['fuse']) ? 'fed' : 'supply'].push(i);
      else if (this.cone.hangsOn(i).length === 0) classes.constant.push(i);
      else
        classes[
          this.#hangs(
            i,
            this.#parts.filter((part) => part !== 'fixture'),
          )
            ? 'layout'
            : 'fixture'
        ].push(i);
    }
    return classes;
  }

  /** What goes into the rows of a column for a layout that was found. */
  cellsOf(layout: Layout): Readonly<Record<string, string>> {
    const mains = layout.supply === '' && layout.fuse === '';
    const fed = this.#fed(mains ? (this.#own.supply ?? '') : layout.supply, mains ? (this.#own.fuse ?? '') : layout.fuse);
    const contents = this.#contents(layout, { content: layout.height, metres: layout.metres }, layout.dim, fed);
    return Object.fromEntries(this.#parts.map((part) => [this.anatomy.parts[part]?.row.id, contents[part]]));
  }

  /** The same arrangement at other heights: those in which all holds. */
  atHeights(layout: Layout, heights: readonly Height[]): readonly Layout[] {
    const arrangement = arrangementAt(this.space, Math.floor(layout.place / this.space.heights.length));
    this.#begin(arrangement);
    const feds = this.#feds(arrangement, this.#isMains() ? [this.#own.supply ?? ''] : this.space.supplies);
    return feds.length === 0 ? [] : heights.flatMap((height) => this.#layout(arrangement, height, layout.place, feds) ?? []);
  }

  #put(arrangement: Arrangement, height: Height, dim: number, fed: Fed): void {
    const contents = this.#contents(arrangement, height, dim, fed);
    this.cone.put(this.#parts.map((part) => contents[part]));
  }

  #contents(
    { fixture, along, across, turned, spreadAlong, spreadAcross }: Omit<Arrangement, 'place'>,
    height: Height,
    dim: number,
    { supply, fuse }: Omit<Fed, 'named'>,
  ): Readonly<Record<Part, string>> {
    return {
      fixture,
      along: String(along),
      across: String(across),
      turned: turned ? 'TRUE' : 'FALSE',
      spread_along: spreadAlong,
      spread_across: spreadAcross,
      height: height.content,
      dim: `${dim} %`,
      supply,
      fuse,
    };
  }
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
