/**
 * The formulas between some givens and some results, worked out for one row of values after another. What they come to is what the engine gives, to the
 * last digit and word, and a row that they can't be asked for goes through the engine itself: whoever asks need not know which.
 *
 * The first row, one in some hundreds and each with which kinds change go both ways, and a difference is an error of its own.
 */
import type { Position } from '../addresses.ts';
import { beyond } from '../feeding.ts';
import { FORMULA_BOUNDS } from '../formula-bounds.ts';
import type { Hyper, Inner } from '../hyper.ts';
import type { Kind } from '../quantities/index.ts';
import { sameValue } from '../same-value.ts';
import type { Address, Value } from '../types.ts';
import type { Workbook } from '../workbook.ts';
import { Compiler } from './compile.ts';
import { Given, type Put, type Taken } from './given.ts';
import { reach } from './reach.ts';
import { refusal } from './refusal.ts';

/** One row in so many is held against the engine. */
export const HELD = 500;

/** What the compiled formulas and the engine say of one cell is not the same: nothing of a cone that does so can be relied on. */
export class ConeDiffers extends Error {}

/** What asks for values of a book that it may change as it likes. */
interface Held {
  readonly workbook: Workbook;
  /** Lets the workbook hold these contents, and what the book says everywhere else. */
  move(wanted: ReadonlyMap<Address, string>): void;
  /** Gives the workbook to whoever asks, as the book says it where somebody else had it before. */
  claim(by: object): void;
}

/** How each result is told for givens of certain kinds; undefined for a mistake of quantities, which speaks of the values themselves. */
type Told = readonly ({ readonly kind: Kind; readonly unit: string } | undefined)[];

interface Result {
  readonly at: Position;
  /** The places of what must be worked out for it, in order, itself the last; none where it does not vary. */
  readonly needs: readonly number[];
  /** The value as it was last told. */
  value: Value | undefined;
  /** The row for which that was, and for which kinds. */
  row: number;
  told: Told | undefined;
}

interface Slot {
  readonly at: Position;
  readonly reads: readonly number[];
  readonly work: (() => Inner) | undefined;
  /** A given that a formula answers has limits to be kept to. */
  readonly limited: boolean;
  /** The last row for which it is right, and the last in which it became another. */
  right: number;
  changed: number;
}

/** Compiled for one calculator. */
interface Compiled {
  readonly hyper: Hyper;
  readonly slots: readonly Slot[];
  readonly values: Inner[];
  readonly results: readonly Result[];
  readonly told: Map<string, Told>;
}

/** Kinds of givens for which it is known how the results are told. */
const KINDS_KEPT = 200;

export class Cone {
  /** Why every row goes through the engine; undefined where the formulas are compiled. */
  readonly refused: string | undefined;
  readonly #held: Held;
  readonly #givens: readonly Given[];
  readonly #results: readonly Position[];
  #compiled: Compiled | undefined;
  readonly #addresses: readonly Address[];
  #taken: readonly Taken[] = [];
  #contents: ReadonlyMap<Address, string> | undefined;
  #byEngine: string | undefined = 'nothing was put into the givens yet';
  #checks = false;
  #told: Told = [];
  /** Rows so far. */
  #row = 0;

  constructor(held: Held, givens: readonly Address[], results: readonly Address[]) {
    this.#held = held;
    const { workbook } = held;
    held.claim(this);
    this.#results = results.map((address) => workbook.at(address));
    this.#addresses = givens.map((address) => workbook.sheets.address(workbook.at(address)));
    this.#givens = givens.map((address) => {
      const at = workbook.at(address);
      const place = workbook.sheets.inBook(at);
      if (!place) throw new RangeError(`There is no cell ${address} in this book.`);
      return new Given(workbook, at, place);
    });
    this.refused = refusal(workbook, this.#givens) ?? (this.#results.some(beyond) ? 'a result lies beyond what is worked out of a table' : undefined);
  }

  /** Why the row that was put goes through the engine; undefined where it does not. */
  get byEngine(): string | undefined {
    return this.#byEngine;
  }

  /** Why one result of that row does. */
  byEngineFor(i: number): string | undefined {
    if (this.#byEngine !== undefined || this.#told[i] || this.#compiled?.results[i]?.needs.length === 0) return this.#byEngine;
    return 'it is a mistake of quantities, which speaks of the values themselves';
  }

  /**
   * Places of the givens that one result hangs on, as its formulas are written; a row must have been put. Where another result is named, those that it hangs
   * on by other ways than through that one. All of them where they are not compiled.
   */
  hangsOn(i: number, butThrough?: number): ReadonlySet<number> {
    const { slots, results } = this.#compiled ?? {};
    const all = new Set(this.#givens.keys());
    const [from] = results?.[i]?.needs.slice(-1) ?? [];
    if (!slots || !results || this.#byEngine !== undefined) return all;
    if (from === undefined) return new Set();
    const seen = new Set(butThrough === undefined ? [] : (results[butThrough]?.needs.slice(-1) ?? []));
    return this.#under(from, seen);
  }

  #under(from: number, seen: Set<number>): ReadonlySet<number> {
    const { slots } = this.#compiled as Compiled;
    const found = new Set<number>();
    const queue = seen.has(from) ? [] : [from];
    for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
      if (seen.has(next)) continue;
      seen.add(next);
      if (next < this.#givens.length) found.add(next);
      queue.push(...(slots[next]?.reads ?? []));
    }
    return found;
  }

  /**
   * The cells by which a given goes into some results: as long as their values are the same, so are the results, whatever the given says. What else they hang
   * on, and their values for the row that is put. Undefined where that can't be told.
   */
  entries(of: readonly number[], given: number): { readonly hangsOn: ReadonlySet<number>; readonly values: () => readonly unknown[] } | undefined {
    const { slots, values, results } = this.#compiled ?? {};
    if (!slots || !values || !results || this.#byEngine !== undefined) return undefined;
    const needs = new Set(of.flatMap((i) => results[i]?.needs ?? []));
    if (of.some((i) => results[i]?.needs.at(-1) === given)) return undefined;
    const readers = [...needs].filter((place) => slots[place]?.reads.includes(given));
    const before = [...new Set(readers.flatMap((place) => needed(slots, place)))].sort((a, b) => a - b);
    return {
      hangsOn: new Set(before.filter((place) => place < this.#givens.length)),
      values: () => {
        for (const place of before) this.#workOut(slots, values, place);
        return readers.map((place) => values[place]);
      },
    };
  }

  /** Puts one row of values into the givens, in their order. */
  put(row: readonly Put[]): void {
    if (row.length !== this.#givens.length) throw new RangeError(`There are ${this.#givens.length} givens, and ${row.length} values for them.`);
    const taken = this.#givens.map((given, i) => given.take(row[i] as Put));
    this.#held.claim(this);
    this.#held.workbook.life.beat?.();
    this.#row++;
    this.#taken = taken;
    this.#contents = undefined;
    this.#byEngine = this.refused;
    for (const one of taken) if ('byEngine' in one) this.#byEngine ??= one.byEngine;
    this.#checks = false;
    if (this.#byEngine !== undefined) this.#move();
    else this.#putCompiled(taken);
  }

  /** The row that was put, as contents of cells. */
  #wanted(): ReadonlyMap<Address, string> {
    this.#contents ??= new Map(this.#taken.map(({ content }, i) => [this.#addresses[i] as Address, content]));
    return this.#contents;
  }

  /** Gives the engine the row that was put. */
  #move(): void {
    this.#held.move(this.#wanted());
  }

  #putCompiled(taken: readonly Taken[]): void {
    const { workbook } = this.#held;
    if (this.#compiled?.hyper !== workbook.hyper) {
      this.#move();
      this.#compiled = this.#compile();
      this.#checks = true;
    } else if (this.#row % HELD === 0) {
      this.#move();
      this.#checks = true;
    }
    const { slots, values, told } = this.#compiled;
    let kinds = '';
    for (const [i, one] of taken.entries()) {
      if ('byEngine' in one) continue;
      kinds += `${one.kind}\n`;
      const slot = slots[i] as Slot;
      slot.right = this.#row;
      if (values[i] === one.inner) continue;
      values[i] = one.inner;
      slot.changed = this.#row;
    }
    this.#told = told.get(kinds) ?? this.#tell(told, kinds);
  }

  #tell(known: Map<string, Told>, kinds: string): Told {
    const { workbook } = this.#held;
    this.#move();
    this.#checks = true;
    const told = this.#results.map((at) => {
      const kind = workbook.quantities.kindOf(at);
      return kind.is === 'fail' ? undefined : { kind, unit: workbook.shownUnit(at) };
    });
    if (known.size >= KINDS_KEPT) known.clear();
    known.set(kinds, told);
    return told;
  }

  #compile(): Compiled {
    const { workbook } = this.#held;
    const found = reach(
      workbook,
      this.#givens.map(({ at }) => at),
      this.#results,
    );
    const values: Inner[] = found.map(() => undefined);
    const compiler = new Compiler(
      workbook,
      found.map(({ at }) => at),
      values,
    );
    const slots = found.map(
      ({ at, reads }, i): Slot => ({
        at,
        reads,
        work: i < this.#givens.length ? undefined : compiler.formula(at),
        limited: workbook.feeding.limits(at) !== undefined,
        right: -1,
        changed: -1,
      }),
    );
    const results = this.#results.map((at): Result => {
      const slot = compiler.slotOf(at);
      const value = slot === undefined ? workbook.valueAt(at) : undefined;
      return { at, needs: slot === undefined ? [] : needed(slots, slot), value, row: -1, told: undefined };
    });
    return { hyper: workbook.hyper, slots, values, results, told: new Map() };
  }

  /** The value of one result, by its place among them, for the row that was put. Throws `ConeDiffers` where it was checked and is not what the engine gives. */
  value(i: number): Value {
    const at = this.#results[i];
    if (!at) throw new RangeError(`There are ${this.#results.length} results; number ${i} is none of them.`);
    this.#held.claim(this);
    if (this.byEngineFor(i) !== undefined) {
      this.#move();
      return this.#held.workbook.valueAt(at);
    }
    const value = this.#worked(i);
    if (this.#checks) this.#hold(at, value);
    return value;
  }

  #worked(i: number): Value {
    const { slots, values, results, hyper } = this.#compiled as Compiled;
    const result = results[i] as Result;
    for (const place of result.needs) this.#workOut(slots, values, place);
    const last = result.needs.at(-1);
    const told = this.#told[i];
    if (last === undefined || !told) return result.value ?? { kind: 'blank' };
    if (result.value && result.told === this.#told && (slots[last] as Slot).changed <= result.row) return result.value;
    result.value = this.#held.workbook.asValue(hyper.outside(values[last]), told.kind, result.at, () => told.unit);
    result.row = this.#row;
    result.told = this.#told;
    return result.value;
  }

  #workOut(slots: readonly Slot[], values: Inner[], place: number): void {
    const slot = slots[place] as Slot;
    if (slot.right === this.#row) return;
    const { work, right } = slot;
    slot.right = this.#row;
    if (!work || (right >= 0 && slot.reads.every((read) => (slots[read] as Slot).changed <= right))) return;
    const value = this.#allowed(slot, work);
    if (right >= 0 && values[place] === value) return;
    values[place] = value;
    slot.changed = this.#row;
  }

  #allowed({ at, limited }: Slot, work: () => Inner): Inner {
    const { hyper } = this.#held.workbook;
    try {
      const value = work();
      const judged = limited || (typeof value === 'string' && value.length > FORMULA_BOUNDS.text);
      return judged ? hyper.allowed(value, at, hyper.vertex(at)) : value;
    } catch (error) {
      return hyper.thrown(error);
    }
  }

  /** Holds a value against the engine, which was given the same row. */
  #hold(at: Position, value: Value): void {
    const { workbook } = this.#held;
    this.#move();
    const theirs = workbook.valueAt(at);
    if (sameValue(value, theirs)) return;
    const givens = [...this.#wanted()].map(([address, content]) => `${address} ${content}`).join(', ');
    throw new ConeDiffers(
      `${workbook.sheets.address(at)}: compiled, the formulas give ${JSON.stringify(value)}; the engine gives ${JSON.stringify(theirs)}, for ${givens}. Neither can be relied on.`,
    );
  }
}

/** All that must be worked out before a place, and itself; what is read stands earlier in the list. */
function needed(slots: readonly { readonly reads: readonly number[] }[], place: number): readonly number[] {
  const found = new Set<number>([place]);
  const queue = [place];
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    for (const read of slots[next]?.reads ?? []) {
      if (found.has(read)) continue;
      found.add(read);
      queue.push(read);
    }
  }
  return [...found].sort((a, b) => a - b);
}
