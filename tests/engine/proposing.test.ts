/** A search for layouts over messages: what the workers answer together, how it is stopped, and what becomes of a worker that breaks off. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { type Book, CURRENT_VERSION, type Row } from '../../src/book/book.ts';
import { type Choices, type Layout, propose } from '../../src/engine/propose/index.ts';
import { createProposers, type Heard, type Proposers } from '../../src/engine/proposing/index.ts';
import { type Ask, type Said, serveProposals } from '../../src/engine/worker/serve-proposals.ts';
import type { WorkerLike } from '../../src/engine/worker/start.ts';

const row = (id: string, content: string, more: Partial<Row> = {}): readonly [Row, string] => [{ id, label: id, ...more }, content];
const ROWS = [
  row('fixture', 'Small', { kind: 'given', range: { oneOf: ['Small', 'Large'] } }),
  row('along', '2', { kind: 'given', range: { low: 1, high: 3 } }),
  row('height', '0.3 m', { kind: 'given', unit: 'm', range: { low: 0.2, high: 0.5, unit: 'm' } }),
  row('count', '=A2*IF(A1="Large",2,3)'),
  row('annual', '=A4*UNIT(10,"EUR/year")', { unit: 'EUR/year' }),
  row('evenness', '=A3/(A2*UNIT(1,"m"))'),
  row('fits', '=CHECK.AT.LEAST(A4,4)', { kind: 'check' }),
  row('hangs', '=CHECK.AT.MOST(A3,UNIT(0.4,"m"))', { kind: 'check' }),
] as const;
/** Just enough to search in. */
const book: Book = {
  format: 'overbench book',
  version: CURRENT_VERSION,
  id: 'small',
  title: 'Small',
  client: '',
  currency: 'EUR',
  measures: 'metric',
  pages: [],
  tables: [
    {
      id: 'scenarios',
      name: 'Scenarios',
      form: 'scenarios',
      columns: [{ id: 'a', label: 'A' }],
      rows: ROWS.map(([one]) => one),
      cells: Object.fromEntries(ROWS.map(([{ id }, content]) => [id, { a: { content } }])),
    },
  ],
  names: {},
};
const CHOICES: Choices = { all: true };
const PLAN = { table: 's', pieces: 3, layouts: 30, said: [] };
const COUNTS = { layouts: 10, built: 10, worked: 10, cut: 0, hold: 1 };

interface Started {
  readonly asked: Ask['what'][];
  readonly worker: WorkerLike<Ask, Said>;
  ended: boolean;
}

/** Workers in this thread, each answered by what `serve` makes for it. */
function inThread(serve: (post: (said: Said) => void, nth: number) => (asked: Ask) => void): {
  readonly start: () => WorkerLike<Ask, Said>;
  readonly all: Started[];
} {
  const all: Started[] = [];
  const start = (): WorkerLike<Ask, Said> => {
    const receive = serve((data) => !made.ended && made.worker.onmessage?.({ data: structuredClone(data) }), all.length);
    const made: Started = {
      asked: [],
      ended: false,
      worker: {
        onmessage: null,
        onerror: null,
        terminate: () => {
          made.ended = true;
        },
        postMessage: (asked) => {
          made.asked.push(asked.what);
          const sent = structuredClone(asked);
          setTimeout(() => !made.ended && receive(sent));
        },
      },
    };
    all.push(made);
    return made.worker;
  };
  return { start, all };
}

/** Answers at once with what is given, or with nothing. */
const canned =
  (answers: Partial<Record<Ask['what']['ask'], unknown>>) =>
  (post: (said: Said) => void) =>
  ({ id, what }: Ask) => {
    const result = answers[what.ask];
    if (result === undefined) return;
    post({
      kind: 'answer',
      id,
      result: what.ask === 'piece' ? { ...(result as object), piece: what.piece } : what.ask === 'conclude' ? { done: what.done } : result,
    });
  };
const ANSWERS = { plan: { plan: PLAN }, piece: { counts: COUNTS, best: {}, all: [] }, conclude: true };

let made: Proposers | undefined;
const proposers = (...args: Parameters<typeof createProposers>): Proposers => {
  made = createProposers(...args);
  return made;
};
afterEach(() => made?.close());

describe('a search in workers', () => {
  it('comes to what one thread comes to, tells how far it is, and looks at one layout in full', async () => {
    const { start, all } = inThread(serveProposals);
    const searching = proposers(start);
    const heard: Heard[] = [];
    const found = await searching.search(book, CHOICES, { heard: (one) => heard.push(one) });
    expect(found).toEqual(propose(book, CHOICES));
    // By hand: two rows or three of either light are 4 lights at least, and of seven heights five are low enough.
    expect(found.counts).toMatchObject({ layouts: 42, hold: 20 });
    expect(all).toHaveLength(2);
    // Both had a hand in it.
    for (const { asked } of all) expect(asked.some(({ ask }) => ask === 'piece')).toBe(true);
    expect(heard.at(-1)).toMatchObject({ tried: found.counts.layouts, of: found.counts.layouts, hold: found.counts.hold });
    expect(heard.flatMap((one) => one.found)).toHaveLength(found.all.length);
    const [layout] = found.all;
    const looked = await searching.look(layout as Layout);
    expect(looked.cells).toEqual({ fixture: layout?.fixture, along: String(layout?.along), height: layout?.height });
    // The same book is not sent again, and another is.
    await searching.search(book, { ...CHOICES, heights: { low: 0.3, high: 0.3 } });
    expect(all.map(({ asked }) => asked.filter((what) => what.ask === 'plan' && what.book).length)).toEqual([1, 1]);
    await searching.search({ ...book, title: 'Another' }, { ...CHOICES, heights: { low: 0.3, high: 0.3 } });
    expect(all.map(({ asked }) => asked.filter((what) => what.ask === 'plan' && what.book).length)).toEqual([2, 2]);
    expect(all).toHaveLength(2);
    // One that was made ready is there when it is searched, and a layout found before is looked at in it.
    const next = { ...book, title: 'The next' };
    searching.prepare(next);
    expect(await searching.look(layout as Layout)).toEqual(looked);
    await searching.search(next, { ...CHOICES, heights: { low: 0.3, high: 0.3 } });
    expect(all.map(({ asked }) => asked.filter((what) => what.ask === 'plan' && what.book).length)).toEqual([3, 3]);
  });

  it('says why where nothing can be proposed, and goes on with another book', async () => {
    const { start } = inThread(serveProposals);
    const searching = proposers(start);
    const none: Book = { ...book, tables: book.tables.filter(({ form }) => form !== 'scenarios') };
    await expect(searching.search(none, {})).rejects.toThrow(/no scenarios/);
    expect((await searching.search(book, CHOICES)).counts.layouts).toBeGreaterThan(0);
  });

  it('stops after the pieces that are being tried, with what was found until then', async () => {
    const { start, all } = inThread(canned({ ...ANSWERS, plan: { plan: { ...PLAN, pieces: 100 } } }));
    const stop = new AbortController();
    const found = await proposers(start).search(book, {}, { signal: stop.signal, heard: () => stop.abort() });
    const tried = all.flatMap(({ asked }) => asked).filter(({ ask }) => ask === 'piece');
    expect(tried.length).toBeLessThanOrEqual(2);
    expect(found).toEqual({ done: tried.map((_, piece) => ({ piece, counts: COUNTS, best: {}, all: [] })) });
  });

  it('is stopped too while a worker looks for what stands in the way: another answers without, and the next search has new ones', async () => {
    const [answer, busy] = [canned(ANSWERS), canned({ plan: ANSWERS.plan, piece: ANSWERS.piece })];
    const { start, all } = inThread((post, nth) => (nth === 0 ? busy : answer)(post));
    const searching = proposers(start);
    const stop = new AbortController();
    const going = searching.search(book, {}, { signal: stop.signal });
    await vi.waitFor(() => expect(all[0]?.asked.at(-1)).toMatchObject({ ask: 'conclude', stopped: false }));
    stop.abort();
    expect(((await going) as unknown as { readonly done: readonly unknown[] }).done).toHaveLength(PLAN.pieces);
    expect(all[1]?.asked.at(-1)).toMatchObject({ ask: 'conclude', stopped: true });
    expect(all.map(({ ended }) => ended)).toEqual([true, false]);
    await searching.search(book, {});
    expect(all).toHaveLength(4);
  });

  it('gives the pieces on in their order, whichever came first', async () => {
    const late = canned(ANSWERS);
    const { start } = inThread((post, nth) => {
      const receive = late(post);
      return (asked) => setTimeout(() => receive(asked), nth === 0 && asked.what.ask === 'piece' ? 30 : 0);
    });
    const found = (await proposers(start).search(book, {})) as unknown as { readonly done: readonly { readonly piece: number }[] };
    expect(found.done.map(({ piece }) => piece)).toEqual([0, 1, 2]);
  });

  it('is refused in words where a worker breaks off, and the next search has new ones', async () => {
    const { start, all } = inThread(canned(ANSWERS));
    const searching = proposers(start);
    const first = searching.search(book, {});
    all[1]?.worker.onerror?.({ message: 'out of memory' });
    await expect(first).rejects.toThrow('The search broke off: out of memory. The book is as it was.');
    await searching.search(book, {});
    expect(all).toHaveLength(4);
    expect(all.map(({ ended }) => ended)).toEqual([true, true, false, false]);
  });

  it('is given up where a worker gives no sign of life, and not while it gives one', async () => {
    vi.useFakeTimers();
    try {
      const silent = inThread(canned({ plan: ANSWERS.plan }));
      const given = proposers(silent.start, 2, 1_000).search(book, {});
      const refused = expect(given).rejects.toThrow('The search gave no sign of life and was stopped. The book is as it was.');
      await vi.advanceTimersByTimeAsync(1_100);
      await refused;
      const answer = canned(ANSWERS);
      const slow = inThread((post) => {
        const receive = answer(post);
        return (asked) => {
          for (let ms = 500; ms <= 2_000; ms += 500) setTimeout(() => post({ kind: 'alive' }), ms);
          setTimeout(() => receive(asked), 2_400);
        };
      });
      const going = proposers(slow.start, 2, 1_000).search(book, {});
      await vi.advanceTimersByTimeAsync(20_000);
      await expect(going).resolves.toBeDefined();
    } finally {
      vi.useRealTimers();
    }
  });

  it('ends with the book: the workers are ended, and whoever waits is told', async () => {
    const { start, all } = inThread(canned({}));
    const searching = proposers(start);
    const waiting = searching.search(book, {});
    searching.close();
    await expect(waiting).rejects.toThrow('This book is closed.');
    expect(all.every(({ ended }) => ended)).toBe(true);
    await expect(searching.search(book, {})).rejects.toThrow('This book is closed.');
  });
});
