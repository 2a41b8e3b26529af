/** The package's entry: `import { openBook, evaluate } from 'overbench'`. What it offers is declared and explained in overbench.d.ts, which ships with it. */
import { fromBase, need, unit } from '../functions/units.ts';
import type { At } from './book/address.ts';
import type { Book } from './book/book.ts';
import { addressOf, placeOf } from './book/look-up.ts';
import { ownAddress } from './book/other-writing.ts';
import { readPlain, unitInBook } from './book/read-plain.ts';
import { Sweeper } from './engine/cone/index.ts';
import { createEngine } from './engine/engine.ts';
import { type Layout, propose } from './engine/propose/index.ts';
import type * as engine from './engine/types.ts';
import { formatBook, parseBook } from './files/book/index.ts';
import { formatTidy, formatWide } from './files/csv/index.ts';
import type * as offered from './overbench.d.ts';
import { openSession, type Session } from './session.ts';

export const openBook: typeof offered.openBook = async (book) => {
  const read = parseBook(typeof book === 'string' ? book : JSON.stringify(book));
  if (!read.ok) throw new Error(read.message);
  const session = openSession(read.book, createEngine());
  await session.settled();
  if (session.trouble !== undefined) throw new Error(session.trouble);
  return new Opened(session, read.said ?? []);
};

let own: engine.Engine | undefined;

export const evaluate: typeof offered.evaluate = async (formula) => {
  own ??= createEngine();
  return shown(await own.evaluate(formula));
};

class Opened implements offered.OpenBook {
  readonly #session: Session;
  #sweeper: Sweeper | undefined;
  readonly said: readonly string[];

  constructor(session: Session, said: readonly string[]) {
    this.#session = session;
    this.said = said;
  }

  get title(): string {
    return this.#session.book.title;
  }

  get client(): string {
    return this.#session.book.client;
  }

  get names(): Readonly<Record<string, string>> {
    return this.#session.book.names;
  }

  value(cell: string): offered.Value {
    return shown(this.#session.values[this.#address(cell)] ?? { kind: 'blank' });
  }

  values(): Readonly<Record<string, offered.Value>> {
    return Object.fromEntries(Object.entries(this.#session.values).map(([address, value]) => [address, shown(value)]));
  }

  async set(cell: string, typed: string | number): Promise<offered.SetResult> {
    const answer = await this.#session.type(this.#address(cell), String(typed));
    if (!answer.ok) return { ok: false, message: answer.message };
    await this.#session.settled();
    if (this.#session.trouble !== undefined) throw new Error(this.#session.trouble);
    return { ok: true, ...(answer.said !== undefined && { said: answer.said }) };
  }

  async sweep(
    givens: readonly string[],
    rows: readonly (readonly (string | number)[])[],
    results: readonly string[],
  ): Promise<readonly (readonly offered.Value[])[]> {
    const { book } = this.#session;
    const sweeper = this.#ownSweeper();
    const places = givens.map((cell) => this.#place(cell));
    const read = places.map((at) => reading(book, at, this.#session.values));
    const contents = rows.map((row) => row.map((typed, i) => read[i]?.(typed) ?? ''));
    const asked = results.map((cell) => this.#address(cell));
    return sweeper.sweep(places.map(addressOf), contents, asked).map((row) => row.map(shown));
  }

  async propose(choices: offered.Choices = {}): Promise<offered.Proposed> {
    const found = propose(this.#ownSweeper(), choices);
    if (typeof found === 'string') throw new Error(found);
    const { proposals, counts, said, all, binds } = found;
    const { currency } = this.#session.book;
    const told = (layout: Layout): offered.Layout => toldLayout(layout, currency);
    return {
      proposals: proposals.map((one) => ({
        ...one,
        layout: told(one.layout),
        values: Object.fromEntries(Object.entries(one.values).map(([id, value]) => [id, shown(value)])),
      })),
      counts,
      said,
      all: all.map(told),
      ...(binds && { binds: { ...binds, changes: binds.changes.map((one) => ({ ...one, layout: told(one.layout) })) } }),
    };
  }

  /** A copy of the book as it is now. */
  #ownSweeper(): Sweeper {
    const { book } = this.#session;
    if (this.#sweeper?.book === book) return this.#sweeper;
    this.#sweeper?.close();
    this.#sweeper = new Sweeper(book);
    return this.#sweeper;
  }

  async back(cell: string, wanted: string | number, givens: readonly string[]): Promise<readonly offered.WorkedBack[]> {
    const address = this.#address(cell);
    const worked: offered.WorkedBack[] = [];
    for (const given of givens.map((one) => this.#address(one)))
      worked.push(workedBack(await this.#session.ask((asked) => asked.back({ cell: address, wanted: String(wanted), given }))));
    return worked;
  }

  async working(cell: string): Promise<offered.Working> {
    const address = this.#address(cell);
    return working(await this.#session.ask((asked) => asked.trace(address)));
  }

  csv(form: 'tidy' | 'wide', tables?: readonly string[]): string {
    const { book, values } = this.#session;
    return (form === 'tidy' ? formatTidy : formatWide)(book, values, tables === undefined ? {} : { tables });
  }

  json(): string {
    return formatBook(this.#session.book);
  }

  close(): void {
    this.#sweeper?.close();
    this.#session.close();
  }

  #place(cell: string): At {
    const at = placeOf(this.#session.book, ownAddress(cell));
    if (!at) throw new RangeError(`There is no cell ${cell} in this book.`);
    return at;
  }

  #address(cell: string): string {
    return addressOf(this.#place(cell));
  }
}

/** With no number that is in a unit of ours. */
function toldLayout({ light: _, place: __, annual, ...layout }: Layout, currency: string): offered.Layout {
  return { ...layout, annual: fromBase(annual, need(`${currency}/year`)) };
}

/** What is typed becomes in a given, as `set` would read it; each text is read once. */
function reading(book: Book, at: At, values: engine.Values): (typed: string | number) => string {
  const value = values[addressOf(at)];
  const symbol = value?.kind === 'number' ? value.unit : (unitInBook(book, at) ?? '');
  const known = new Map<string | number, string>();
  return (typed) => {
    const found = known.get(typed);
    if (found !== undefined) return found;
    const read = readPlain(book, at, String(typed), symbol);
    if (!read.ok) throw new RangeError(read.message);
    known.set(typed, read.content);
    return read.content;
  };
}

function shown(value: engine.Value): offered.Value {
  if (value.kind === 'number') {
    const symbol = unit(value.unit);
    return { kind: 'number', value: symbol ? fromBase(value.base, symbol) : value.base, unit: value.unit };
  }
  if (value.kind !== 'error') return value;
  const { word, message, from } = value;
  return { kind: 'error', word, message, ...(from !== undefined && { from }) };
}

function working(node: engine.TraceNode): offered.Working {
  const { address, row, column, kind, formula, source, note, again } = node;
  return {
    row,
    column,
    kind,
    value: shown(node.value),
    steps: node.steps.map(step),
    from: node.from.map(working),
    ...(address !== undefined && { address }),
    ...(formula !== undefined && { formula }),
    ...(source !== undefined && { source }),
    ...(note !== undefined && { note }),
    ...(again !== undefined && { again }),
  };
}

function workedBack(worked: engine.WorkedBack): offered.WorkedBack {
  if (!worked.ok) return worked;
  const { ok, given, moves, searched, ways, more, untold, stay, lowest, highest, apart } = worked;
  return {
    ok,
    given,
    moves,
    more,
    searched: 'choices' in searched ? searched : { from: shown(searched.from), to: shown(searched.to) },
    ways: ways.map(wayBack),
    ...(untold !== undefined && { untold }),
    ...(stay && { stay: 'why' in stay ? stay : { ...stay, tried: tried(stay.tried) } }),
    ...(lowest && { lowest: tried(lowest) }),
    ...(highest && { highest: tried(highest) }),
    ...(apart && { apart: shown(apart) }),
  };
}

function wayBack(way: engine.WayBack): offered.WayBack {
  switch (way.kind) {
    case 'exact':
      return { kind: 'exact', exact: tried(way.exact), ...(way.rounded && { rounded: tried(way.rounded) }) };
    case 'nearest':
      return { kind: 'nearest', ...(way.below && { below: tried(way.below) }), ...(way.above && { above: tried(way.above) }) };
    default:
      return { kind: way.kind, from: tried(way.from), to: tried(way.to) };
  }
}

function tried({ content, value, gives, against, others }: engine.Tried): offered.Tried {
  return {
    content,
    value: shown(value),
    gives: shown(gives),
    ...(against && { against: shown(against) }),
    others: others.map(({ address, before, after }) => ({ address, before: shown(before), after: shown(after) })),
  };
}

function step({ kind, label, value, expression, terms }: engine.TraceStep): offered.Step {
  return { kind, label, ...(value && { value: shown(value) }), ...(expression !== undefined && { expression }), ...(terms && { terms }) };
}
