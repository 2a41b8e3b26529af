import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Cell } from '../../src/book/book.ts';
import { canonicalText } from '../../src/book/canonical.ts';
import { insertLines } from '../../src/book/commands/insert-lines.ts';
import { addPage } from '../../src/book/commands/pages.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { isRefused } from '../../src/book/refused.ts';
import { type News, openSession } from '../../src/session.ts';
import { runs } from '../cases.ts';
import { command } from './arbitrary.ts';
import { FakeEngine, freshValues } from './fake-engine.ts';
import { sample } from './sample.ts';

const set = (address: string, content: string) => (book: typeof sample) => setCell(book, { address, content });
const text = (words: string) => ({ kind: 'text', text: words });

/** A book of one cell. */
const first = (cell: Cell): Book => ({
  ...sample,
  pages: [],
  names: {},
  tables: [{ id: 't', name: 'T', form: 'plain', columns: [{ id: 'c' }], rows: [{ id: 'r', label: 'Row' }], cells: { r: { c: cell } } }],
});

async function opened() {
  const engine = new FakeEngine();
  const session = openSession(sample, engine);
  await session.settled();
  const news: News[] = [];
  session.subscribe((item) => news.push(item));
  return { engine, session, news };
}

/** Holds an engine back until it is let go. */
function held(engine: FakeEngine): () => void {
  let go = (): void => {};
  engine.gate = new Promise((resolve) => {
    go = resolve;
  });
  return go;
}

describe('a session', () => {
  it('works a book out when it is opened', async () => {
    const { session, engine } = await opened();
    expect(session.values).toEqual(freshValues(sample));
    expect(engine.calls).toEqual(['load']);
    expect(session.busy).toBe(false);
  });

  it('has the change in the book at once, and tells of the values when they are worked out', async () => {
    const { session, news } = await opened();
    session.run(set('Scenarios.A1', '70 cm'));
    expect(session.book.tables[1]?.cells.h?.a?.content).toBe('70 cm');
    expect(news.map((item) => item.kind)).toEqual(['book']);
    await session.settled();
    expect(news.map((item) => item.kind)).toEqual(['book', 'busy', 'values', 'busy']);
    const values = news.find((item) => item.kind === 'values');
    expect(values?.kind === 'values' && [...values.changed].sort()).toEqual(['Scenarios.A1', 'Scenarios.C1']);
    expect(session.values['Scenarios.C1']).toEqual(text('70 cm'));
  });

  it('hands on all changes made during a run as one, in their order', async () => {
    const { session, engine } = await opened();
    const go = held(engine);
    session.run(set('Scenarios.A1', '70 cm'));
    await new Promise((resolve) => setTimeout(resolve));
    for (const height of ['80 cm', '90 cm', '95 cm']) session.run(set('Scenarios.A1', height));
    go();
    await session.settled();
    expect(engine.calls.slice(1)).toEqual([
      'apply Mount height, A: 60 cm → 70 cm',
      'apply Mount height, A: 70 cm → 80 cm | Mount height, A: 80 cm → 90 cm | Mount height, A: 90 cm → 95 cm',
    ]);
    expect(session.values['Scenarios.C1']).toEqual(text('95 cm'));
  });

  it('undoes and redoes, and says which change it was', async () => {
    const { session } = await opened();
    const before = canonicalText(session.book);
    session.run(set('Scenarios.A1', '70 cm'));
    const after = canonicalText(session.book);
    expect(session.undo()?.label).toBe('Mount height, A: 60 cm → 70 cm');
    expect(canonicalText(session.book)).toBe(before);
    expect(session.undo()).toBeUndefined();
    session.redo();
    expect(canonicalText(session.book)).toBe(after);
    await session.settled();
    expect(session.values).toEqual(freshValues(session.book));
  });

  it('goes on undoing where a history was kept', () => {
    const first = openSession(sample, new FakeEngine());
    first.run(set('Scenarios.A1', '70 cm'));
    const second = openSession(first.book, new FakeEngine(), { history: JSON.parse(JSON.stringify(first.history)) });
    second.undo();
    expect(canonicalText(second.book)).toBe(canonicalText(sample));
  });

  it('puts in what was typed as the engine reads it, and says how it was read', async () => {
    const { session } = await opened();
    const typed = await session.type('Brief.A2', '=rail 45');
    expect(typed).toMatchObject({ ok: true, said: 'read as =RAIL 45' });
    expect(session.book.tables[0]?.cells.r2?.c1).toEqual({ content: '=RAIL 45', typed: '=rail 45' });
    expect(session.history.done.length).toBe(1);
  });

  it('gives the engine’s refusal with its mend, and the refusal of a range, and changes nothing', async () => {
    const { session } = await opened();
    expect(await session.type('Brief.A2', '=nonsense')).toEqual({ ok: false, message: 'That is nonsense.', mend: { label: 'Write sense' } });
    expect(await session.type('Brief.A1', '50 m')).toEqual({ ok: false, message: 'Bench length: 50 m is above what is allowed, from 0.3 to 20 m.' });
    expect(await session.type('Brief.Z9', '1')).toEqual({ ok: false, message: 'There is no cell Brief.Z9 in this book.' });
    expect(session.book).toBe(sample);
  });

  it('puts in what is no formula at once, while the engine is at work', async () => {
    const { session, engine } = await opened();
    const go = held(engine);
    session.run(set('Scenarios.A1', '70 cm'));
    const calls = engine.calls.length;
    expect(await session.type('Brief.A1', '2,5')).toMatchObject({ ok: true });
    expect(session.book.tables[0]?.cells.r1?.c1).toMatchObject({ content: '2.5 m', typed: '2,5' });
    expect(engine.calls.slice(calls).filter((call) => call.startsWith('read'))).toEqual([]);
    go();
    await session.settled();
    expect(session.values).toEqual(freshValues(session.book));
  });

  it('never lets a plain text overtake a formula that was typed before it', async () => {
    const { session, engine } = await opened();
    const go = held(engine);
    const first = session.type('Scenarios.B2', '=a1');
    const second = session.type('Scenarios.B2', 'x');
    go();
    expect([(await first).ok, (await second).ok]).toEqual([true, true]);
    expect(engine.calls.slice(1, 3)).toEqual(['read Scenarios.B2 =a1', expect.stringMatching(/^apply/)]);
    expect(session.book.tables[1]?.cells.n?.b?.content).toBe('X');
  });

  it('puts what was typed into the cell it was typed into, though rows came in above it meanwhile', async () => {
    const { session, engine } = await opened();
    const go = held(engine);
    const typing = session.type('Scenarios.B2', '=x');
    await new Promise((resolve) => setTimeout(resolve));
    session.run((book) => insertLines(book, { table: 'scenarios', axis: 'row', at: 0 }));
    go();
    expect((await typing).ok).toBe(true);
    expect(session.book.tables[1]?.cells.n?.b?.content).toBe('=X');
  });

  it('carries the last values along with their cells until the engine has followed', async () => {
    const { session, engine } = await opened();
    const go = held(engine);
    session.run((book) => insertLines(book, { table: 'scenarios', axis: 'row', at: 0 }));
    expect(session.values['Scenarios.A1']).toBeUndefined();
    expect(session.values['Scenarios.A2']).toEqual(text('60 cm'));
    go();
    await session.settled();
    expect(session.values).toEqual(freshValues(session.book));
  });

  it('keeps the last good values and every edit when the engine fails, and builds it anew', async () => {
    const { session, engine, news } = await opened();
    engine.failures = 1;
    session.run(set('Scenarios.A1', '70 cm'));
    const seen: string[] = [];
    session.subscribe((item) => {
      if (item.kind === 'trouble' && item.trouble) seen.push(JSON.stringify(session.values['Scenarios.A1']));
    });
    await session.settled();
    expect(seen).toEqual([JSON.stringify(text('60 cm'))]);
    expect(news.filter((item) => item.kind === 'trouble').map((item) => item.kind === 'trouble' && item.trouble)).toEqual([
      'It ran too long. The book is whole; the values shown are the last good ones.',
      undefined,
    ]);
    expect(engine.calls.at(-1)).toBe('load');
    expect(session.values).toEqual(freshValues(session.book));
    expect(session.book.tables[1]?.cells.h?.a?.content).toBe('70 cm');
  });

  it('stays in trouble while the engine can’t be built, and tries again with the next change', async () => {
    const { session, engine } = await opened();
    engine.failures = 2;
    session.run(set('Scenarios.A1', '70 cm'));
    await session.settled();
    expect(session.trouble).toMatch(/last good ones/);
    expect(session.values['Scenarios.A1']).toEqual(text('60 cm'));
    session.undo();
    await session.settled();
    expect(session.trouble).toBeUndefined();
    expect(session.values).toEqual(freshValues(sample));
  });

  it('does not try again what could not be built until something changes, so that a formula can be mended', async () => {
    const { session, engine } = await opened();
    engine.failures = 2;
    session.run(set('Scenarios.A1', '70 cm'));
    await session.settled();
    const calls = engine.calls.length;
    expect(await session.type('Scenarios.C1', '=A1')).toMatchObject({ ok: true });
    await session.settled();
    expect(engine.calls.slice(calls)).toEqual(['read Scenarios.C1 =A1']);
    expect(await session.type('Scenarios.C1', '=A2')).toMatchObject({ ok: true });
    await session.settled();
    expect(engine.calls.slice(calls)).toEqual(['read Scenarios.C1 =A1', 'read Scenarios.C1 =A2', 'load']);
    expect(session.trouble).toBeUndefined();
    expect(session.values).toEqual(freshValues(session.book));
  });

  it('answers a question about the book as it was when it was asked', async () => {
    const { session } = await opened();
    session.run(set('Scenarios.A1', '70 cm'));
    expect(await session.ask((engine) => engine.editable('Scenarios.C1'))).toBe('70 cm');
  });

  it('fails a question that breaks the engine, and works on', async () => {
    const { session, engine } = await opened();
    engine.failures = 1;
    await expect(session.ask((e) => e.editable('Scenarios.C1'))).rejects.toThrow(/It ran too long/);
    expect(await session.ask((e) => e.editable('Scenarios.C1'))).toBe('60 cm');
  });

  it('hands back what was typed where reading it breaks the engine', async () => {
    const { session, engine } = await opened();
    engine.failures = 1;
    expect(await session.type('Brief.A2', '=rail 45')).toEqual({ ok: false, message: expect.stringMatching(/It ran too long/) });
    expect(await session.type('Brief.A2', '=rail 45')).toMatchObject({ ok: true });
  });

  it('tells nothing more once it is closed', async () => {
    const { session, engine, news } = await opened();
    session.run(set('Scenarios.A1', '70 cm'));
    session.close();
    await session.settled();
    expect(news.map((item) => item.kind)).toEqual(['book']);
    expect(engine.closed).toBe(true);
  });

  it('refuses what is asked of it then, also what was asked before and not yet answered', async () => {
    const { session, engine } = await opened();
    const go = held(engine);
    const asked = session.ask((e) => e.editable('Scenarios.A1'));
    const later = session.ask((e) => e.editable('Scenarios.A1'));
    await new Promise((resolve) => setTimeout(resolve));
    session.close();
    go();
    expect(await asked).toBe('60 cm');
    await expect(later).rejects.toThrow('This book is closed.');
    await expect(session.ask((e) => e.editable('Scenarios.A1'))).rejects.toThrow('This book is closed.');
    await session.settled();
  });

  it('ends with the values of a fresh build, whatever is done and whenever the engine fails', async () => {
    const step = fc.oneof(
      { weight: 6, arbitrary: command.map((run) => ({ run })) },
      fc.constantFrom('undo', 'redo', 'wait', 'fail', 'type').map((what) => ({ what })),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 15 }), async (steps) => {
        const engine = new FakeEngine();
        const session = openSession(sample, engine);
        const pending: Promise<unknown>[] = [];
        for (const each of steps) {
          if ('run' in each) session.run(each.run);
          else if (each.what === 'undo') session.undo();
          else if (each.what === 'redo') session.redo();
          else if (each.what === 'fail') engine.failures = 1;
          else if (each.what === 'type') pending.push(session.type('Scenarios.B2', '=a1'));
          else await new Promise((resolve) => setTimeout(resolve));
        }
        await Promise.all(pending);
        await session.settled();
        engine.failures = 0;
        // Any change at all has the engine built again.
        session.run((book) => addPage(book, { title: 'Last' }));
        await session.settled();
        expect(session.trouble).toBeUndefined();
        expect(session.values).toEqual(freshValues(session.book));
        while (session.undo());
        expect(canonicalText(session.book)).toBe(canonicalText(sample));
        await session.settled();
        expect(session.values).toEqual(freshValues(sample));
      }),
      runs(400, 21),
    );
  });

  it.each<[string, Book]>([
    ['a given', sample],
    ['a locked formula', first({ content: '=1+1' })],
    ['a given that may not be 1', first({ content: '3 m', range: { low: 2, unit: 'm' } })],
    ['words', first({ content: 'Aisle side' })],
    ['nothing', { ...sample, tables: [] }],
  ])('is made ready for the next edit, and nothing shows it, where %s stands in the first cell', async (_, book) => {
    const engine = new FakeEngine();
    const session = openSession(book, engine);
    await session.settled();
    const text = JSON.stringify(book);
    const { values, history } = session;
    const [kept, calls] = [{ ...values }, [...engine.calls]];
    const news: News[] = [];
    session.subscribe((item) => news.push(item));
    session.makeReady();
    session.makeReady();
    await session.settled();
    expect(session.book).toBe(book);
    expect(JSON.stringify(book)).toBe(text);
    expect(session.history).toBe(history);
    expect(session.values).toEqual(kept);
    expect(engine.calls).toEqual(calls);
    expect(news).toEqual([]);
  });

  it('does not dispatch what a command refuses', async () => {
    const { session, news } = await opened();
    expect(isRefused(session.run(set('Brief.A1', '50 m')))).toBe(true);
    session.run(set('Brief.A1', '3.6 m'));
    expect(news).toEqual([]);
    expect(session.history.done).toEqual([]);
  });
});
