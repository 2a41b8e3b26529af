/** Works a book backwards: which values of a given make a worked cell what it should be. All of it on a copy of the book. */
import { readContent } from '../../../functions/quantity-text.ts';
import { unit } from '../../../functions/units.ts';
import { type At, cellAt } from '../../book/address.ts';
import { addressOf, placeOf, standingOf, titleOf } from '../../book/look-up.ts';
import { ownAddress } from '../../book/other-writing.ts';
import { commit } from '../commit-formula.ts';
import { type Cone, ConeDiffers, type Sweeper } from '../cone/index.ts';
import { UNIT_ERROR } from '../errors.ts';
import { editableContent } from '../formula-text.ts';
import { feeds } from '../relations.ts';
import { sameValue } from '../same-value.ts';
import type { Address, AskedBack, Stay, Tried, Value, WayBack, WorkedBack } from '../types.ts';
import { searchInNoOrder, searchInOrder } from './listed.ts';
import { contentOf, type Movable, movable, rounded } from './movable.ts';
import type { Difference, Sample } from './sample.ts';
import { type Finding, type Searched, search } from './search.ts';
import { turned } from './turned.ts';
import { type Aim, distance, readAim } from './wanted.ts';

/** Ways that are told; of further ones how many there are. */
const MOST_WAYS = 12;

/** Cells that follow from the given and are worked out for each answer, to say which change; of more than these, the checks first. */
const MOST_FOLLOWED = 2_000;

function checksFirst({ book }: Sweeper, addresses: readonly Address[]): readonly Address[] {
  const late = addresses.map((address) => {
    const at = cellAt(book, address);
    return at && standingOf(at) === 'check' ? 0 : 1;
  });
  return addresses
    .map((address, i) => ({ address, late: late[i] ?? 1 }))
    .sort((a, b) => a.late - b.late)
    .map(({ address }) => address);
}

/** A formula that misses what is wanted by no more than this share gives it. */
const AS_GOOD_AS = 1e-9;

/** What adding up large numbers leaves of two differences that are one. */
const ALIKE = 1e-9;

/** One that looks for it over points of its own comes this near. */
const NEAR = 0.02;

const isNear = (a: Value, b: Value): boolean => a.kind === 'number' && b.kind === 'number' && Math.abs(a.base - b.base) <= NEAR * Math.abs(a.base);

/** Significant digits that an exact answer has at least. */
const LEAST_DIGITS = 12;

const BLANK: Value = { kind: 'blank' };

const refused = (message: string): WorkedBack => ({ ok: false, message });

/** Yields now and then how much is done, so that whoever runs it can stop. */
export function* workBack(sweeper: Sweeper, asked: AskedBack): Generator<number, WorkedBack> {
  const { book, values, workbook } = sweeper;
  const [at, by] = [asked.cell, asked.given].map((cell) => placeOf(book, ownAddress(cell)));
  if (!at || !by) return refused(`There is no cell ${at ? asked.given : asked.cell} in this book.`);
  // Whoever asked before left other values in it.
  sweeper.claim(asked);
  const address = addressOf(at);
  const now = values[address];
  const standing = standingOf(at);
  if (standing !== 'worked' && standing !== 'check') return refused(`${titleOf(at)} (${address}) is not worked out: say there what it should be.`);
  if (now?.kind === 'error' && now.word === UNIT_ERROR) return refused(`A mistake of units stands in the way. ${now.message}`);
  const aim = readAim(workbook, at, now, asked.wanted);
  if ('refused' in aim) return refused(aim.refused);
  const given = movable(workbook, book, by, values[addressOf(by)], asked.from, asked.to);
  if ('refused' in given) return refused(given.refused);
  const followers = feeds(workbook, workbook.at(given.address)).all;
  const moves = (one: Address): boolean => one === given.address || followers.includes(one);
  if (!followers.includes(address) && !(aim.kind === 'cell' && moves(aim.address)))
    return refused(`${titleOf(at)} does not hang on ${titleOf(by)} (${given.address}): whatever is given there, it stays as it is.`);
  try {
    return yield* new Back(sweeper, given, at, aim, followers).work();
  } catch (error) {
    if (error instanceof ConeDiffers) return refused(error.message);
    throw error;
  }
}

class Back {
  readonly #sweeper: Sweeper;
  readonly #given: Movable;
  readonly #title: string;
  readonly #address: Address;
  readonly #aim: Aim;
  readonly #results: readonly Address[];
  readonly #cone: Cone;
  readonly #untold: number;
  /** Why the last value that gave nothing did so. */
  #trouble = '';

  constructor(sweeper: Sweeper, given: Movable, at: At, aim: Aim, followers: readonly Address[]) {
    this.#sweeper = sweeper;
    this.#given = given;
    this.#title = titleOf(at);
    this.#address = addressOf(at);
    this.#aim = aim;
    const asked = aim.kind === 'cell' ? [this.#address, aim.address] : [this.#address];
    const others = followers.filter((one) => !asked.includes(one));
    this.#results = [...asked, ...(others.length > MOST_FOLLOWED ? checksFirst(sweeper, others).slice(0, MOST_FOLLOWED) : others)];
    this.#untold = Math.max(0, others.length - MOST_FOLLOWED);
    this.#cone = sweeper.cone([given.address], this.#results);
  }

  *work(): Generator<number, WorkedBack> {
    const given = this.#given;
    if (given.moves === 'over a list') return yield* this.#overList(given.contents, given.ordered);
    const whole = given.moves === 'by whole numbers';
    const at = (i: number): number => (whole ? given.low + i : i);
    const searched = whole
      ? yield* searchInOrder(this.#difference(at), given.high - given.low + 1, given.now === undefined ? undefined : given.now - given.low)
      : yield* search(this.#difference(at), given.low, given.high, given.now);
    const content = (x: number): string => contentOf(at(x), given.unit);
    const between = { from: this.#value(contentOf(given.low, given.unit)), to: this.#value(contentOf(given.high, given.unit)) };
    const told = this.#told(searched, between, content, (one) => (whole ? this.#listedWay(one, content) : this.#freeWay(one)));
    if (whole || !told.ok || !told.ways.some(({ kind }) => kind === 'exact')) return told;
    return { ...told, stay: this.#stay(told.ways) };
  }

  *#overList(contents: readonly string[], ordered: boolean): Generator<number, WorkedBack> {
    const content = (i: number): string => contents[i] as string;
    const difference: Difference = (i) => ({ ...this.#sample(content(i)), x: i });
    const searched = { choices: contents.length };
    if (ordered) {
      const found = yield* searchInOrder(difference, contents.length, undefined);
      return this.#told(found, searched, content, (one) => this.#listedWay(one, content));
    }
    const { exact, below, above, lowest, highest } = yield* searchInNoOrder(difference, contents.length);
    const nearest = { ...(below !== undefined && { below: this.#try(content(below)) }), ...(above !== undefined && { above: this.#try(content(above)) }) };
    // Of words only whether it is that is known, and one side of a list lies beyond what is wanted.
    const both = nearest.below && nearest.above;
    const ways: WayBack[] = both ? [{ kind: 'nearest', ...nearest }] : exact.map((i) => ({ kind: 'exact', exact: this.#try(content(i)) }));
    return this.#ended(ways, { lowest, highest }, searched, content);
  }

  #difference(at: (i: number) => number): Difference {
    const { unit } = this.#given;
    return (i) => ({ ...this.#sample(contentOf(at(i), unit)), x: i });
  }

  #sample(content: string): Sample {
    this.#cone.put([content]);
    const value = this.#cone.value(0);
    if (value.kind === 'error') this.#trouble = value.message;
    const other = this.#aim.kind === 'cell' ? this.#cone.value(1) : undefined;
    return distance(0, this.#aim, value, other);
  }

  #told(found: Searched, searched: Extract<WorkedBack, { ok: true }>['searched'], content: (x: number) => string, way: (one: Finding) => WayBack): WorkedBack {
    return this.#ended(found.findings.slice(0, MOST_WAYS).map(way), found, searched, content, Math.max(0, found.findings.length - MOST_WAYS));
  }

  #ended(
    ways: readonly WayBack[],
    { lowest, highest }: Pick<Searched, 'lowest' | 'highest'>,
    searched: Extract<WorkedBack, { ok: true }>['searched'],
    content: (x: number) => string,
    more = 0,
  ): WorkedBack {
    if (ways.length === 0 && !lowest) return refused(`${this.#title} can’t be worked out for any value that was tried. ${this.#trouble}`.trimEnd());
    const apart = this.#alwaysApart(lowest, highest);
    const ends = ways.length === 0 && apart === undefined && lowest && highest;
    return {
      ok: true,
      given: this.#given.address,
      moves: this.#given.moves,
      searched,
      ways,
      more,
      ...(this.#untold > 0 && { untold: this.#untold }),
      ...(ends && { lowest: this.#try(content(lowest.x)), highest: this.#try(content(highest.x)) }),
      ...(ways.length === 0 && apart && { apart }),
    };
  }

  /** Of two cells that what moves leaves just as far from one another nothing comes nearest. */
  #alwaysApart(lowest: Sample | undefined, highest: Sample | undefined): Value | undefined {
    const is = this.#aim.kind === 'cell' ? this.#sweeper.values[this.#address] : undefined;
    // A difference of thermometer readings is no reading.
    if (!lowest || !highest || is?.kind !== 'number' || unit(is.unit)?.reading || highest.f - lowest.f > ALIKE * Math.max(lowest.size, highest.size))
      return undefined;
    return { ...is, base: Math.abs(lowest.f) };
  }

  #listedWay(one: Finding, content: (i: number) => string): WayBack {
    if (one.kind === 'exact') return { kind: 'exact', exact: this.#try(content(one.x)) };
    return { kind: one.kind, from: this.#try(content(one.from)), to: this.#try(content(one.to)) };
  }

  #freeWay(one: Finding): WayBack {
    const { unit } = this.#given;
    if (one.kind === 'exact') {
      const [x, short] = [this.#tidied(one.x), rounded(this.#given, one.x)];
      const isShort = short === x || !this.#isAllowed(short);
      return { kind: 'exact', exact: this.#try(contentOf(x, unit)), ...(isShort ? {} : { rounded: this.#try(contentOf(short, unit)) }) };
    }
    // As short as the given shows, where that says the same: a stretch is cut short a little, the two sides of a step go a little apart.
    const [from, to] =
      one.kind === 'stretch'
        ? [this.#shorter(one.from, 'more', one.to), this.#shorter(one.to, 'less', one.from)]
        : [this.#shorter(one.from, 'less'), this.#shorter(one.to, 'more')];
    return { kind: one.kind, from: this.#try(contentOf(from, unit)), to: this.#try(contentOf(to, unit)) };
  }

  /** Without digits that make no difference: 6 where 5.999999999999485 was found. */
  #tidied(x: number): number {
    const { unit } = this.#given;
    const off = Math.abs(this.#sample(contentOf(x, unit)).f);
    for (let digits = LEAST_DIGITS; digits <= 16; digits++) {
      const short = Number(x.toPrecision(digits));
      if (this.#isAllowed(short) && Math.abs(this.#sample(contentOf(short, unit)).f) <= off) return short;
    }
    return x;
  }

  #isAllowed(x: number): boolean {
    const given = this.#given;
    return given.moves !== 'over a list' && x >= given.low && x <= given.high;
  }

  #shorter(x: number, towards: 'less' | 'more', end?: number): number {
    const short = rounded(this.#given, x, towards);
    const past = end !== undefined && (towards === 'more' ? short > end : short < end);
    if (past || !this.#isAllowed(short)) return x;
    const { unit } = this.#given;
    const [exact, tried] = [this.#sample(contentOf(x, unit)).f, this.#sample(contentOf(short, unit)).f];
    return Math.sign(exact) === Math.sign(tried) ? short : x;
  }

  #stay(ways: readonly WayBack[]): Stay {
    const { workbook } = this.#sweeper;
    const [aim, given] = [this.#aim, this.#given];
    // What was tried last is not how the book stands.
    this.#sweeper.claim(this);
    if (aim.kind === 'words') return { why: 'A word can’t be turned round into a number.' };
    const follows = new Set([given.address, ...feeds(workbook, workbook.at(given.address)).all]);
    if (aim.kind === 'cell' && follows.has(aim.address)) return { why: 'Both cells follow from it.' };
    const [cell, at] = [workbook.at(this.#address), workbook.at(given.address)];
    const target = aim.kind === 'cell' ? aim.address : aim.written;
    const found = turned(workbook, cell, at, target, (one) => follows.has(workbook.sheets.address(one)));
    if ('why' in found) return { why: `No formula for it is known: ${found.why}.` };
    const read = commit(workbook, at, found.formula);
    if (!('content' in read)) return { why: `No formula for it is known: ${read.message}` };
    const tried = this.#try(read.content);
    const value = workbook.valueAt(at);
    const off = Math.abs(this.#sample(read.content).f);
    const way = ways.findIndex((one) => one.kind === 'exact' && isNear(one.exact.value, value));
    if (way < 0 || Number.isNaN(off)) return { why: 'The formula that is known for it gives another value.' };
    const exact = tried.gives.kind === 'number' && off <= AS_GOOD_AS * Math.abs(tried.gives.base);
    return { formula: editableContent(read.content, workbook.currency), way, exact, tried: { ...tried, value } };
  }

  #value(content: string): Value {
    const { book } = this.#sweeper;
    const read = readContent(content, book.currency);
    if (read.kind === 'number') return { kind: 'number', base: read.base, unit: this.#given.unit.symbol };
    if (read.kind === 'yes or no') return { kind: 'yes or no', yes: read.yes };
    return read.kind === 'text' ? { kind: 'text', text: read.text } : BLANK;
  }

  #try(content: string): Tried {
    this.#cone.put([content]);
    const { values } = this.#sweeper;
    const [gives, ...rest] = this.#results.map((_, i) => this.#cone.value(i)) as [Value, ...Value[]];
    const others = this.#results.slice(1).flatMap((address, i) => {
      const [before, after] = [values[address] ?? BLANK, rest[i] as Value];
      return sameValue(before, after) ? [] : [{ address, before, after }];
    });
    const against = this.#aim.kind === 'cell' ? rest[0] : undefined;
    return { content, value: this.#value(content), gives, ...(against && { against }), others };
  }
}
