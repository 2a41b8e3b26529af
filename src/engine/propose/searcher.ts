/**
 * One thread's search through a space of arrangements, on a copy of the book. The space is cut into pieces that are always the same, and a piece comes to the
 * same whoever works it and whatever was worked before, so that the answer does not hang on the number of threads.
 *
 * What is passed over could not have been an answer:
 * - A check that hangs on nothing that is still to be chosen (height, dimming, supply, fuse) is asked before it is chosen, and by the formulas, not by what
 *   the row is called: where it fails for one height it fails for all.
 * - An arrangement that is no better than the best so far by any of the three questions can win none, whatever its other checks say. Its own numbers are
 *   compared, not bounds of them, and ties are broken as they are between answers.
 * - Square lights turned are the same lights, later in the list.
 */

import { type At, cellAt } from '../../book/address.ts';
import { apply } from '../../book/apply.ts';
import type { Book } from '../../book/book.ts';
import { cellEdit } from '../../book/commands/set-cell.ts';
import { addressOf } from '../../book/look-up.ts';
import { Sweeper } from '../cone/index.ts';
import { feeds } from '../relations.ts';
import type { Address, Value } from '../types.ts';
import type { Life } from '../workbook.ts';
import { anatomyOf, type Part } from './anatomy.ts';
import { better, compare } from './better.ts';
import type { Tally } from './counts.ts';
import { placesOf } from './elsewhere.ts';
import { Feeds } from './feeds.ts';
import { contentsOf, type Fed, isGood, type Miss, Probe } from './probe.ts';
import { inTheWay } from './refusal.ts';
import { type Arrangement, arrangementAt, type Height, type Space, spaceOf } from './space.ts';
import { AIMS, type Aim, type Choices, type Elsewhere, type Layout, type PieceDone, type Plan, ROWS } from './types.ts';

/** So many pieces at most: enough for a bar that moves and for threads to share, few enough that each finds something to compare with. */
const PIECES = 64;

/** Checks by what they hang on. */
interface Classes {
  readonly constant: number[];
  /** The fixture alone. */
  readonly fixture: number[];
  /** Anything that is known before supply, fuse, height and dimming. */
  readonly layout: number[];
  readonly supply: number[];
  readonly fuse: number[];
  readonly height: number[];
  readonly dim: number[];
  readonly late: number[];
}

/** As the text of a layout says it: functions/field/layout-text.ts. */
const TURNED = ', turned';
const SQUARE = / ([\d.]+)×\1 m /u;

export class Searcher {
  readonly probe: Probe;
  readonly space: Space;
  readonly choices: Choices;
  readonly sweeper: Sweeper;
  readonly #owns: boolean;
  /** Givens in which the book is not as the sweeper's. */
  readonly #givens: readonly Address[];
  readonly classes: Classes;
  readonly feeds: Feeds;
  readonly #said: readonly string[];
  readonly #lightHangsOnSupply: boolean;
  readonly #evennessIsOfHeight: boolean;
  /** Searches that were made, by their givens: what they found is looked at one by one. */
  readonly #elsewhere = new Map<string, Searcher | string>();
  /** The cells by which it is told whether lights are turned; undefined where that can't be told before the height. */
  readonly #turnedEntries: (() => readonly unknown[]) | undefined;

  /**
   * Refused in a sentence. A sweeper is good for its book as long as that stays the same, and is not closed here; a book gets one of its own.
   * @param as the book as it is meant, where it is not as the sweeper's: in these givens, and in nothing else
   */
  static of(
    from: Book | Sweeper,
    choices: Choices = {},
    life: Life = {},
    as?: { readonly book: Book; readonly givens: readonly Address[] },
  ): Searcher | string {
    const owns = !(from instanceof Sweeper);
    const book = as?.book ?? (owns ? from : from.book);
    const anatomy = anatomyOf(book);
    if (typeof anatomy === 'string') return anatomy;
    const sweeper = owns ? new Sweeper(from, life) : from;
    const parts = new Set(Object.values(anatomy.parts).map(addressOf));
    const givens = (as?.givens ?? []).filter((address) => !parts.has(address));
    const extra = new Map(givens.map((address) => [address, cellAt(book, address)?.cell?.content ?? '']));
    const probe = new Probe(sweeper, book, anatomy, choices, extra);
    const told = (address: Address): Value | undefined => probe.told(address);
    const { workbook } = sweeper;
    const following = (address: Address): readonly Address[] => feeds(workbook, workbook.at(address)).all;
    const space = inTheWay(book, anatomy, told, following) ?? spaceOf(book, anatomy, told, choices);
    if (typeof space !== 'string') return new Searcher(sweeper, owns, probe, space, choices, givens);
    if (owns) sweeper.close();
    return space;
  }

  private constructor(sweeper: Sweeper, owns: boolean, probe: Probe, space: Space, choices: Choices, givens: readonly Address[]) {
    this.#givens = givens;
    this.sweeper = sweeper;
    this.#owns = owns;
    this.probe = probe;
    this.space = space;
    this.choices = choices;
    this.#said = notAsked(probe, choices);
    this.classes = classed(probe);
    const { supply, fuse, late } = this.classes;
    this.feeds = new Feeds(probe, space, { supply, fuse, late });
    this.#lightHangsOnSupply = probe.asked.aims.some(({ light, asked }) => [light, asked].some((i) => probe.hangs(i, ['supply', 'fuse'])));
    const { evenness, count } = probe.asked;
    this.#evennessIsOfHeight = [evenness, count].every((i) => i === undefined || !probe.hangs(i, ['dim', 'supply', 'fuse']));
    this.#turnedEntries = probe.parts.includes('turned') ? probe.entries(probe.all, 'turned', ['height', 'dim', 'supply', 'fuse']) : undefined;
  }

  /** A search of the same book with one given changed. */
  with(address: Address, content: string, choices: Choices): Searcher | string {
    const at = cellAt(this.probe.book, address);
    if (!at) return `There is no cell ${address} in this book.`;
    const book = apply(this.probe.book, { label: '', edits: cellEdit(at, { ...at.cell, content }) });
    return Searcher.of(this.sweeper, choices, {}, { book, givens: [...new Set([...this.#givens, address])] });
  }

  /** A search of the same space with givens of another scenario. */
  elsewhere(other: Elsewhere): Searcher | string {
    const key = JSON.stringify(other.givens);
    let found: Searcher | string = this.#elsewhere.get(key) ?? this;
    if (found !== this) return found;
    for (const [address, content] of placesOf(this.probe.anatomy, other)) if (typeof found !== 'string') found = found.with(address, content, this.choices);
    this.#elsewhere.set(key, found);
    return found;
  }

  get plan(): Plan {
    const { arrangements, layouts } = this.space;
    return { table: this.probe.anatomy.table.id, pieces: Math.min(PIECES, arrangements), layouts, said: this.#said };
  }

  close(): void {
    if (this.#owns) this.sweeper.close();
  }

  /** Whether the book has the row by which that is told. */
  answers(aim: Aim): boolean {
    return this.probe.asked[ROWS[aim]] !== undefined;
  }

  /** @param beat called often; what it throws ends the search. */
  piece(piece: number, beat: () => void = () => {}): PieceDone {
    const { arrangements, heights } = this.space;
    const { pieces } = this.plan;
    const from = Math.floor((piece * arrangements) / pieces);
    const to = Math.floor(((piece + 1) * arrangements) / pieces);
    const best: Partial<Record<Aim, Layout>> = {};
    const all: Layout[] = [];
    const counts: Tally = { layouts: (to - from) * heights.length, built: 0, worked: 0, cut: 0, hold: 0 };
    const { constant, fixture, layout } = this.classes;
    const never = !this.#hold(constant);
    let [name, suits] = ['', false];
    for (let place = from; place < to; place++) {
      beat();
      const arrangement = arrangementAt(this.space, place);
      this.begin(arrangement);
      if (arrangement.fixture !== name || place === from) [name, suits] = [arrangement.fixture, !never && this.#hold(fixture)];
      if (!this.probe.isBuilt()) continue;
      counts.built += heights.length;
      if (!suits || !this.#hold(layout) || this.#isAsUnturned(arrangement)) continue;
      const feds = this.feeds.of(arrangement, heights[0] as Height);
      if (feds.length === 0) continue;
      counts.worked += heights.length;
      for (const [h, height] of heights.entries()) {
        const found = this.#layout(arrangement, height, place * heights.length + h, feds, this.choices.all ? undefined : best);
        if (!found) continue;
        counts.hold++;
        if (this.choices.all) all.push(found);
        for (const aim of AIMS) best[aim] = better(aim, best[aim], found) as Layout;
      }
    }
    counts.cut = counts.built - counts.worked;
    return { piece, counts, best, all };
  }

  /** What goes into the rows of a column for a layout that was found. */
  cellsOf(layout: Layout): Readonly<Record<string, string>> {
    const { own, parts, anatomy } = this.probe;
    const mains = layout.supply === '' && layout.fuse === '';
    const fed = mains ? { supply: own.supply ?? '', fuse: own.fuse ?? '' } : layout;
    const contents = contentsOf(layout, { content: layout.height, metres: layout.metres }, layout.dim, fed);
    return { ...Object.fromEntries(parts.map((part) => [anatomy.parts[part]?.row.id, contents[part]])), ...layout.elsewhere?.givens };
  }

  /** The same arrangement at other heights: those in which all holds. */
  atHeights(layout: Layout, heights: readonly Height[]): readonly Layout[] {
    const arrangement = arrangementAt(this.space, Math.floor(layout.place / this.space.heights.length));
    this.begin(arrangement);
    const feds = this.feeds.of(arrangement, this.space.heights[0] as Height);
    return feds.length === 0 ? [] : heights.flatMap((height) => this.#layout(arrangement, height, layout.place, feds, undefined) ?? []);
  }

  /** The lowest, or the highest, of all heights at which anything holds. */
  nearest(fromBelow: boolean, beat: () => void): { readonly arrangement: Arrangement; readonly height: Height } | undefined {
    const heights = fromBelow ? this.space.heights : [...this.space.heights].reverse();
    const { constant, fixture, layout } = this.classes;
    let best: { readonly arrangement: Arrangement; readonly height: Height } | undefined;
    let most = heights.length;
    for (let place = 0; place < this.space.arrangements && most > 0; place++) {
      beat();
      const arrangement = arrangementAt(this.space, place);
      this.begin(arrangement);
      if (!this.probe.isBuilt() || !this.#hold([...constant, ...fixture, ...layout]) || this.#isAsUnturned(arrangement)) continue;
      const feds = this.feeds.of(arrangement, heights[0] as Height);
      const found = feds.length === 0 ? -1 : heights.slice(0, most).findIndex((height) => this.#layout(arrangement, height, place, feds, undefined));
      if (found < 0) continue;
      most = found;
      best = { arrangement, height: heights[found] as Height };
    }
    return best;
  }

  /** Tells whether all holds in an arrangement when a given says something else. */
  tried(address: Address): (content: string, miss: Miss) => boolean {
    const { sweeper, probe } = this;
    const inputs = [...this.#givens.filter((given) => given !== address), address];
    const own = inputs.map((given) => cellAt(probe.book, given)?.cell?.content ?? '');
    const checks = probe.checks.map((i) => probe.address(i));
    const cone = sweeper.cone([...inputs, ...probe.parts.map((part) => addressOf(probe.anatomy.parts[part] as At))], checks);
    return (content, { arrangement, height, dim, fed, fails }) => {
      const contents = contentsOf(arrangement, height, dim, fed);
      cone.put([...own.slice(0, -1), content, ...probe.parts.map((part) => contents[part])]);
      return [...fails, ...checks.keys()].every((i) => i >= checks.length || isGood(cone.value(i)));
    };
  }

  /** The rest of an arrangement where its lights hang so high, with the cheapest supply and fuse; undefined where something fails, or where it wins nothing. */
  #layout(arrangement: Arrangement, height: Height, place: number, feds: readonly Fed[], best: Partial<Record<Aim, Layout>> | undefined): Layout | undefined {
    if (!this.#lightHangsOnSupply) return this.#lit(arrangement, height, place, feds, best);
    let found: Layout | undefined;
    for (const fed of feds) found = better('cheapest', found, this.#lit(arrangement, height, place, [fed], undefined));
    return found;
  }

  #lit(arrangement: Arrangement, height: Height, place: number, feds: readonly Fed[], best: Partial<Record<Aim, Layout>> | undefined): Layout | undefined {
    const { probe } = this;
    const [first] = feds as readonly [Fed];
    probe.put(arrangement, height, probe.dims.high, first);
    if (!this.#hold(this.classes.height)) return undefined;
    const dim = this.dim(arrangement, height, first);
    if (!best && !this.#hold(this.classes.dim)) return undefined;
    const { count, evenness, light } = probe.asked;
    const [ofCount, ofEvenness, ofLight] = [probe.number(count), probe.number(evenness), probe.number(light)];
    const fed = this.feeds.cheapest(arrangement, height, dim, feds);
    if (!fed) return undefined;
    const rated = { annual: fed.annual, count: ofCount, evenness: ofEvenness, place, metres: height.metres };
    if (best) {
      if (this.#evennessIsOfHeight && AIMS.every((aim) => best[aim] && compare(aim, best[aim], rated) <= 0)) return undefined;
      probe.put(arrangement, height, dim, first);
      if (!this.#hold(this.classes.dim)) return undefined;
    }
    if (!this.#verdict(arrangement, height, dim, fed)) return undefined;
    const { fixture, along, across, turned, spreadAlong, spreadAcross } = arrangement;
    const named = probe.isMains() ? { supply: '', fuse: '' } : { supply: fed.supply, fuse: fed.fuse };
    return { fixture, along, across, turned, spreadAlong, spreadAcross, height: height.content, dim, ...named, light: ofLight, ...rated };
  }

  /** Verdicts come of checks that hold by now, and of whatever else somebody let them read. */
  #verdict(arrangement: Arrangement, height: Height, dim: number, fed: Fed): boolean {
    const { probe } = this;
    if (probe.verdicts.length === 0) return true;
    probe.put(arrangement, height, dim, fed);
    return this.#hold(probe.verdicts);
  }

  /** The least whole per cent with which the light is what is asked; undimmed where there is no such. More light is taken to come of less dimming. It is put when it is told. */
  dim(arrangement: Arrangement, height: Height, fed: Fed): number {
    const { probe } = this;
    const { low, high } = probe.dims;
    const aim = probe.asked.aims.find(({ light, asked }) => !Number.isNaN(probe.number(light)) && !Number.isNaN(probe.number(asked)));
    if (!aim || low >= high) return high;
    const [full, asked] = [probe.number(aim.light), probe.number(aim.asked)];
    if (full < asked) return high;
    let now = high;
    const reaches = (dim: number): boolean => {
      now = dim;
      probe.put(arrangement, height, dim, fed);
      return probe.number(aim.light) >= probe.number(aim.asked);
    };
    let dim = Math.min(high, Math.max(low, Math.ceil((high * asked) / full)));
    while (dim > low && reaches(dim - 1)) dim--;
    while (dim < high && !reaches(dim)) dim++;
    if (now !== dim) probe.put(arrangement, height, dim, fed);
    return dim;
  }

  begin(arrangement: Arrangement): void {
    const { heights, supplies, fuses } = this.space;
    this.probe.put(arrangement, heights[0] as Height, this.probe.dims.high, { supply: supplies[0] ?? '', fuse: fuses[0] ?? '' });
  }

  #hold(places: readonly number[]): boolean {
    return places.every((i) => this.probe.stands(i));
  }

  /** Square lights that are turned: all that reads it says the same but for the word in the layout's text. They stand later in the list, and so win nothing. */
  #isAsUnturned(arrangement: Arrangement): boolean {
    const entries = this.#turnedEntries;
    if (!entries || !arrangement.turned || !this.space.turned.includes(false)) return false;
    const turned = entries();
    if (!turned.every((value) => typeof value !== 'string' || !value.includes(TURNED) || SQUARE.test(value))) return false;
    this.begin({ ...arrangement, turned: false });
    const unturned = entries();
    this.begin(arrangement);
    return turned.every((value, i) => Object.is(typeof value === 'string' ? value.replace(TURNED, '') : value, unturned[i]));
  }
}

/** By the formulas, for whatever is put. The first to be asked are those that hang on least. */
function classed(probe: Probe): Classes {
  const classes: Classes = { constant: [], fixture: [], layout: [], supply: [], fuse: [], height: [], dim: [], late: [] };
  const places = [...probe.checks, ...(probe.asked.circuits === undefined ? [] : [probe.asked.circuits])];
  const hung = new Map(places.map((i) => [i, probe.hangsOn(i)]));
  const on = (i: number, ...parts: Part[]): boolean => parts.some((part) => hung.get(i)?.has(part));
  for (const i of places) {
    const [high, fed] = [on(i, 'height', 'dim'), on(i, 'supply', 'fuse')];
    if (high && fed) classes.late.push(i);
    else if (high) classes[on(i, 'dim') ? 'dim' : 'height'].push(i);
    else if (fed) classes[on(i, 'fuse') ? 'fuse' : 'supply'].push(i);
    else if (hung.get(i)?.size === 0) classes.constant.push(i);
    else classes[hung.get(i)?.size === 1 && on(i, 'fixture') ? 'fixture' : 'layout'].push(i);
  }
  for (const list of Object.values(classes) as number[][]) list.sort((a, b) => (hung.get(a)?.size ?? 0) - (hung.get(b)?.size ?? 0));
  return classes;
}

const LACKING: Readonly<Record<Aim, string>> = {
  cheapest: 'cost by the year, so none is called the cheapest',
  'most even': 'evenness, so none is called the most even',
  'fewest lights': 'number of lights, so none is called the one with the fewest',
};

/** What can't be asked of this book as it was meant; the scenario's own arrangement is put. */
function notAsked({ asked, parts, cone }: Probe, { dimming, circuits }: Choices): readonly string[] {
  const said: string[] = [];
  const [aim] = asked.aims;
  if (dimming !== 'none' && parts.includes('dim')) {
    if (!aim) said.push('This book does not say what light is aimed at in a way that is known here, so no light is dimmed.');
    else if (asked.aims.length > 1 && cone.value(aim.asked).kind !== 'number')
      said.push('Nothing says what light is aimed at, so lights are dimmed to the least that is wanted.');
  }
  for (const one of AIMS) if (asked[ROWS[one]] === undefined) said.push(`This book has no row for the ${LACKING[one]}.`);
  if (circuits !== undefined && asked.circuits === undefined) said.push('This book does not count circuits, so they are not limited.');
  return said;
}
