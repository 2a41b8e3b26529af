/**
 * The whole of a book's life, at random: written, reshaped, undone, saved and opened again, the engine killed in between. After each step the
 * live values are those of a build from the book alone; at the end all is undone to the first byte and redone to the last.
 *
 * A calculator is made anew where the engine was killed and for every 25th sequence; for the rest the same one is emptied and fed the whole book
 * again, which takes a tenth of the time.
 */
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { textOf } from '../../src/book/address.ts';
import type { Book } from '../../src/book/book.ts';
import type { Change } from '../../src/book/change.ts';
import { addScenario, copyScenario } from '../../src/book/commands/add-scenario.ts';
import { clearCells } from '../../src/book/commands/clear-cells.ts';
import { deleteLines } from '../../src/book/commands/delete-lines.ts';
import { dropScenario } from '../../src/book/commands/drop-scenario.ts';
import { insertLines } from '../../src/book/commands/insert-lines.ts';
import { moveLines } from '../../src/book/commands/move-lines.ts';
import { putCells, repeatCells } from '../../src/book/commands/put-cells.ts';
import { renameName, renameTable, setHeading } from '../../src/book/commands/rename.ts';
import { replaceText } from '../../src/book/commands/replace-text.ts';
import { sortRows } from '../../src/book/commands/sort-rows.ts';
import type { Axis } from '../../src/book/lines.ts';
import type { Answer } from '../../src/book/refused.ts';
import { createEngine } from '../../src/engine/engine.ts';
import type { Engine, Value, Values } from '../../src/engine/types.ts';
import { formatBook, parseBook } from '../../src/files/book/book-file.ts';
import { openSession, type Session } from '../../src/session.ts';
import { cases, runs } from '../cases.ts';
import { isThere, meanings } from './meanings.ts';
import { sample } from './sample.ts';

/** Each seed runs its part of them. The seeds are such that a tenth, too, has each kind of step do something: few have something redone. */
const SEQUENCES = 2000;
const SEEDS = [52, 53, 63, 183];

/** One engine that lives through many sessions, and can be killed: the next call finds it dead, and the one after that gets another. */
class Mortal implements Engine {
  #engine = createEngine();
  #loaded = false;
  #values: Record<string, Value> = {};
  #killed = false;

  kill(): void {
    this.#killed = true;
  }

  /** The next book is built from nothing, not made of the one before. */
  forget(): void {
    this.#loaded = false;
  }

  async load(book: Book): Promise<Values> {
    this.#live();
    if (this.#loaded) this.#take(await this.#engine.apply([REBUILD], book));
    else this.#values = { ...(await this.#engine.load(book)) };
    this.#loaded = true;
    return { ...this.#values };
  }

  async apply(changes: readonly Change[], book: Book): Promise<Values> {
    this.#live();
    const differ = await this.#engine.apply(changes, book);
    this.#take(differ);
    return differ;
  }

  async read(...args: Parameters<Engine['read']>) {
    this.#live();
    return this.#engine.read(...args);
  }

  #take(differ: Values): void {
    for (const [address, value] of Object.entries(differ)) {
      if (value.kind === 'blank') delete this.#values[address];
      else this.#values[address] = value;
    }
  }

  #live(): void {
    if (!this.#killed) return;
    this.#killed = false;
    this.#loaded = false;
    this.#engine.close();
    this.#engine = createEngine();
    throw new Error('It was killed.');
  }

  /** A session's end is not its end. */
  close(): void {}

  editable = (address: string) => this.#engine.editable(address);
  trace = (address: string) => this.#engine.trace(address);
  feeds = (address: string) => this.#engine.feeds(address);
  evaluate = (formula: string) => this.#engine.evaluate(formula);
  evaluateWithSteps = (formula: string) => this.#engine.evaluateWithSteps(formula);
  functions = () => this.#engine.functions();
  signatures = () => this.#engine.signatures();
  preview = (...args: Parameters<Engine['preview']>) => this.#engine.preview(...args);
  field = (...args: Parameters<Engine['field']>) => this.#engine.field(...args);
  givensOf = (address: string) => this.#engine.givensOf(address);
  back = (...args: Parameters<Engine['back']>) => this.#engine.back(...args);
}

/** A change after which everything is put in again: a row that comes. */
const REBUILD: Change = { label: '', edits: [{ at: 'row', table: 'brief', index: 0, before: null, after: { id: 'any' } }] };

const engine = new Mortal();
const builder = new Mortal();
afterAll(() => engine.close());

const table = fc.constantFrom('brief', 'scenarios', 'fixtures');
const axis = fc.constantFrom<Axis>('row', 'column');
const place = fc.nat({ max: 4 });
const count = fc.integer({ min: 1, max: 2 });
const cell = fc.record({ table, row: place, column: fc.nat({ max: 3 }) });
type CellAt = { readonly table: string; readonly row: number; readonly column: number };
const addressIn = (book: Book, at: CellAt): string => textOf(book.tables.find((each) => each.id === at.table)?.name ?? 'Gone', at.column, at.row);
const typed = fc.constantFrom(
  '12',
  '45 cm',
  '1.2 m',
  'Rail 45',
  '=A1',
  '=B2*2',
  '=SUM(A1:A3)',
  '=A1+B1',
  '=bench_length*2',
  "='Fixture list'.B2*2",
  '=A9',
  '=1/0',
  '',
);

interface Step {
  readonly what: string;
  /** References go on meaning the same cells, where those are still there. */
  readonly keeps?: boolean;
  readonly command?: (book: Book) => Answer;
  readonly type?: readonly [CellAt, string];
}
const step = (what: string, command: (book: Book) => Answer, keeps = false): Step => ({ what, command, keeps });

const steps: fc.Arbitrary<Step> = fc.oneof(
  { weight: 5, arbitrary: fc.tuple(cell, typed).map((type): Step => ({ what: 'set', type })) },
  fc
    .array(cell, { minLength: 1, maxLength: 2 })
    .map((cells) => step('clear', (book) => clearCells(book, { addresses: cells.map((at) => addressIn(book, at)) }))),
  fc
    .tuple(cell, fc.array(fc.array(typed, { minLength: 1, maxLength: 2 }), { minLength: 1, maxLength: 2 }), cell)
    .map(([at, texts, from]) => step('paste', (book) => putCells(book, { ...at, cells: texts.map((line) => line.map((content) => ({ content }))), from }))),
  fc
    .tuple(cell, count, count, axis)
    .map(([at, rows, columns, by]) => step('repeat', (book) => repeatCells(book, { area: { ...at, rows, columns }, axis: by }))),
  {
    weight: 2,
    arbitrary: fc
      .tuple(table, axis, place, count)
      .map(([t, by, at, n]) => step('insert', (book) => insertLines(book, { table: t, axis: by, at, count: n }), true)),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(table, axis, place, count)
      .map(([t, by, at, n]) => step('delete', (book) => deleteLines(book, { table: t, axis: by, at, count: n }), true)),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(table, axis, place, count, place)
      .map(([t, by, at, n, to]) => step('move', (book) => moveLines(book, { table: t, axis: by, at, count: n, to }), true)),
  },
  fc.tuple(place, fc.boolean()).map(([column, downward]) => step('sort', (book) => sortRows(book, { table: 'fixtures', column, downward }), true)),
  fc.constant(step('scenario', (book) => addScenario(book, { table: 'scenarios' }), true)),
  place.map((column) => step('copy scenario', (book) => copyScenario(book, { table: 'scenarios', column }), true)),
  place.map((column) => step('drop scenario', (book) => dropScenario(book, { table: 'scenarios', column }))),
  fc.tuple(table, fc.constantFrom('Plan', "Grower's list", 'Brief')).map(([t, name]) => step('rename', (book) => renameTable(book, { table: t, name }), true)),
  fc
    .constantFrom('long_side', 'bench_length')
    .map((to) => step('rename a name', (book) => renameName(book, { name: Object.keys(book.names)[0] ?? '', to }), true)),
  fc.tuple(table, axis, place).map(([t, by, at]) => step('heading', (book) => setHeading(book, { table: t, axis: by, at, label: 'New' }), true)),
  fc.constantFrom(['A2', 'A3'], ['45', '50']).map(([text = '', other = '']) => step('replace', (book) => replaceText(book, { text, with: other }))),
  { weight: 3, arbitrary: fc.constantFrom('undo', 'undo', 'redo', 'reopen').map((what): Step => ({ what })) },
  fc.constantFrom('wait', 'wait', 'wait', 'wait', 'kill').map((what): Step => ({ what })),
);

/** Saved and opened again: the book as a file, its history as it is kept beside it. */
async function reopened(session: Session): Promise<Session> {
  const read = parseBook(formatBook(session.book));
  if (!read.ok) throw new Error(read.message);
  const history = JSON.parse(JSON.stringify(session.history)) as Session['history'];
  session.close();
  const next = openSession(read.book, engine, { history });
  await next.settled();
  return next;
}

async function done(session: Session, { what, command, type }: Step): Promise<Session> {
  if (what === 'reopen') return reopened(session);
  if (what === 'kill') {
    engine.kill();
    // Whatever comes next finds it dead, and the session builds it again.
    await session.ask((each) => each.read('Brief.A1', '=A1')).catch(() => undefined);
  } else if (type) await session.type(addressIn(session.book, type[0]), type[1]);
  else if (command) session.run(command);
  else if (what === 'undo') session.undo();
  else if (what === 'redo') session.redo();
  return session;
}

const sameValues = async (session: Session, anew: boolean): Promise<void> => {
  await session.settled();
  expect(session.trouble).toBeUndefined();
  if (anew) builder.forget();
  expect(session.values).toEqual(await builder.load(session.book));
};

function keptMeanings(before: Book, after: Book): number {
  const now = meanings(after);
  let checked = 0;
  for (const [where, targets] of meanings(before)) {
    const found = now.get(where);
    // A name that was given another word stands elsewhere, and what was deleted stands nowhere.
    if (!found) continue;
    const kept = targets.filter((target) => target !== undefined && isThere(after, target));
    expect(
      found.filter((target) => target !== undefined),
      where,
    ).toEqual(kept);
    checked += kept.length;
  }
  return checked;
}

describe('a book, after any run of steps', () => {
  let ran = 0;
  let references = 0;
  const whats = new Set<string>();

  it.each(SEEDS)(
    'is what a build of it gives after each of them, undone to the first byte and redone to the last (seed %d)',
    async (seed) => {
      await fc.assert(
        fc.asyncProperty(fc.array(steps, { minLength: 1, maxLength: 4 }), async (run) => {
          const anew = ran++ % 25 === 0;
          let session = openSession(sample, engine);
          for (const each of run) {
            const before = session.book;
            session = await done(session, each);
            if (session.book !== before) whats.add(each.what);
            if (each.keeps) references += keptMeanings(before, session.book);
            // Where nothing changed there is nothing new to compare.
            if (session.book !== before || ['kill', 'reopen'].includes(each.what)) await sameValues(session, false);
          }
          while (session.redo());
          const end = formatBook(session.book);
          while (session.undo());
          expect(formatBook(session.book)).toBe(formatBook(sample));
          while (session.redo());
          expect(formatBook(session.book)).toBe(end);
          await sameValues(session, anew);
          session.close();
        }),
        runs(SEQUENCES / SEEDS.length, seed),
      );
    },
    120_000,
  );

  it('has met every step and thousands of references in them: nothing of all this was passed over', () => {
    expect(ran).toBe(cases(SEQUENCES));
    expect(references).toBeGreaterThan(cases(20_000));
    expect([...whats].sort()).toEqual(
      [
        'clear',
        'copy scenario',
        'delete',
        'drop scenario',
        'heading',
        'insert',
        'move',
        'paste',
        'redo',
        'rename',
        'rename a name',
        'reopen',
        'repeat',
        'replace',
        'scenario',
        'set',
        'sort',
        'undo',
      ].sort(),
    );
  });
});
