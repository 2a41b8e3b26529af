/** The engine over messages: answers, the watchdog, stopping, and coming back from the last good book. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { Values } from '../../src/engine/types.ts';
import { createWorkerEngine } from '../../src/engine/worker/client.ts';
import { type Message, type Request, serve } from '../../src/engine/worker/serve.ts';
import type { WorkerLike } from '../../src/engine/worker/start.ts';
import { book, put, short, table } from './helpers.ts';

/** A worker in this thread. `stuck` says for which requests it never answers; ended workers say nothing more. */
function inThread(
  stuck: (request: Request) => boolean = () => false,
  beats = 0,
): { start: () => WorkerLike<Request, Message>; started: () => number; heard: () => number } {
  let count = 0;
  let signs = 0;
  return {
    started: () => count,
    /** Signs of life that came before the worker was ended. */
    heard: () => signs,
    start: () => {
      count++;
      let ended = false;
      let receive: (request: Request) => void = () => {};
      const worker: WorkerLike<Request, Message> = {
        onmessage: null,
        onerror: null,
        terminate: () => {
          ended = true;
        },
        postMessage: (request) => {
          if (!stuck(request)) setTimeout(() => !ended && receive(structuredClone(request)));
          else for (let i = 1; i <= beats; i++) setTimeout(() => say({ kind: 'alive', slow: false }), i * 20);
        },
      };
      const say = (data: Message): void => {
        if (ended) return;
        if (data.kind === 'alive') signs++;
        worker.onmessage?.({ data: structuredClone(data) });
      };
      setTimeout(() => serve({ post: say, listen: (f) => (receive = f) }));
      return worker;
    },
  };
}

const LIMITS = { betweenCells: 60, insideSlow: 300, loading: 2_000 };
const small = book([table('T', [['1', '=A1+1', '=BEAM.EXPONENT(UNIT(90,"°"))']])]);
const isHostile = (request: Request): boolean => JSON.stringify(request.args).includes('hostile');
const edited = put(small, 'T', 'r1', 'c1', '5');
const hostile = put(small, 'T', 'r1', 'c1', 'hostile');

describe('over messages', () => {
  it('gives what the engine gives', async () => {
    const engine = createWorkerEngine(inThread().start, LIMITS);
    expect(Object.values(await engine.load(small)).map(short)).toEqual([1, 2, 2]);
    expect(await engine.apply([edited.change], edited.book)).toEqual({
      'T.A1': { kind: 'number', base: 5, unit: '' },
      'T.B1': { kind: 'number', base: 6, unit: '' },
    });
    expect((await engine.trace('T.B1')).from[0]?.address).toBe('T.A1');
    expect(short(await engine.evaluate('T.A1*2'))).toBe(10);
    engine.close();
  });

  it('works back, says how far it is, and is stopped by whoever asked, without a new worker', async () => {
    const worker = inThread();
    const engine = createWorkerEngine(worker.start, { ...LIMITS, betweenCells: 5_000 });
    // Long enough for several steps: each row is a field of its own.
    const fields = Array.from({ length: 30 }, (_, i) => [
      `=BENCH.MEAN(LAYOUT(UNIT(156,"µmol/s"),UNIT(1.2,"m"),UNIT(0.1,"m"),UNIT(120,"°"),9,${i + 2},UNIT(20,"m"),UNIT(5,"m")),A1,90,90)`,
    ]);
    await engine.load(
      book([table('T', [['0.5 m'], ...fields, ['=SUM(A2:A31)'], ['=A1*3']], [{ kind: 'given', unit: 'm', range: { low: 0.2, high: 5, unit: 'm' } }])]),
    );
    expect(await engine.givensOf('T.A33')).toEqual(['T.A1']);
    expect(await engine.back({ cell: 'T.A33', wanted: '6', given: 'T.A1' })).toMatchObject({ ways: [{ exact: { content: '2 m' } }] });
    const stop = new AbortController();
    const shares: number[] = [];
    const share = (done: number): void => {
      shares.push(done);
      if (shares.length === 2) stop.abort();
    };
    expect(await engine.back({ cell: 'T.A32', wanted: '6000', given: 'T.A1' }, { share, signal: stop.signal })).toEqual({
      ok: false,
      message: 'This was stopped.',
    });
    expect(shares.every((done) => done >= 0 && done < 1)).toBe(true);
    expect(worker.started()).toBe(1);
    expect(short(await engine.evaluate('T.A33'))).toBe(1.5);
    engine.close();
  });

  it('gives many values in parts, which together are all of them', async () => {
    const rows = 4500;
    const long = book([table('T', [['1'], ...Array.from({ length: rows }, (_, i) => [`=A1+${i}`])])]);
    const engine = createWorkerEngine(inThread().start, { ...LIMITS, betweenCells: 5_000, insideSlow: 5_000 });
    await engine.load(long);
    const five = put(long, 'T', 'r1', 'c1', '5');
    const parts: Values[] = [];
    const rest = await engine.apply([five.change], five.book, (part) => parts.push(part));
    expect(parts.length).toBeGreaterThan(1);
    expect(Math.max(...[...parts, rest].map((part) => Object.keys(part).length))).toBeLessThan(rows / 2);
    const all = Object.assign({}, ...parts, rest) as Values;
    expect(Object.keys(all).length).toBe(rows + 1);
    expect(all[`T.A${rows + 1}`]).toEqual({ kind: 'number', base: 5 + rows - 1, unit: '' });

    // Who takes no parts gets all of them in the answer.
    const six = put(five.book, 'T', 'r1', 'c1', '6');
    const whole = await engine.apply([six.change], six.book);
    expect(Object.keys(whole).length).toBe(rows + 1);
    expect(whole['T.A2']).toEqual({ kind: 'number', base: 6, unit: '' });
    engine.close();
  });

  it('sends the next part only when the one before was taken in', async () => {
    const long = book([
      table(
        'T',
        Array.from({ length: 5000 }, (_, i) => [String(i)]),
      ),
    ]);
    const said: Message[] = [];
    let receive: (request: Request) => void = () => {};
    serve({ post: (message) => said.push(message), listen: (f) => (receive = f) });
    receive({ id: 1, method: 'load', args: [long] });
    const parts = () => said.filter(({ kind }) => kind === 'part').length;
    const settled = async (): Promise<void> => {
      for (let i = 0; i < 20; i++) await new Promise((resolve) => setTimeout(resolve));
    };
    await vi.waitFor(() => expect(parts()).toBe(1));
    await settled();
    expect(parts()).toBe(1);
    receive({ id: 1, method: 'taken', args: [] });
    await settled();
    expect(parts()).toBe(2);
    expect(said.some(({ kind }) => kind === 'answer')).toBe(false);
    receive({ id: 1, method: 'taken', args: [] });
    await settled();
    const last = said.at(-1);
    expect(last?.kind === 'answer' && Object.keys(last.result as Values).length).toBe(1000);
  });

  it('asks for the longer time while a book is built: on a busy machine its first cell takes a while, and it must open all the same', async () => {
    const said: Message[] = [];
    let receive: (request: Request) => void = () => {};
    serve({ post: (message) => said.push(message), listen: (f) => (receive = f) });
    receive({ id: 1, method: 'load', args: [book([table('T', [['1', '=A1+1']])])] });
    await vi.waitFor(() => expect(said.at(-1)?.kind).toBe('answer'));
    expect(said.slice(0, 2)).toEqual([{ kind: 'ready' }, { kind: 'alive', slow: true }]);
  });

  it('turns what goes wrong on the far side into a refused promise, and goes on', async () => {
    const engine = createWorkerEngine(inThread().start, LIMITS);
    await engine.load(small);
    await expect(engine.trace('Nowhere.A1')).rejects.toThrow('There is no cell Nowhere.A1 in this book.');
    expect(short(await engine.evaluate('1+1'))).toBe(2);
    engine.close();
  });

  it('has patience with a book that is built also after the first sign of life', async () => {
    const engine = createWorkerEngine(() => {
      const worker: WorkerLike<Request, Message> = {
        onmessage: null,
        onerror: null,
        terminate: () => {},
        postMessage: ({ id }) => {
          for (const data of [{ kind: 'ready' }, { kind: 'alive', slow: false }] as const) worker.onmessage?.({ data });
          setTimeout(() => worker.onmessage?.({ data: { kind: 'answer', id, result: {} } as Message }), 2.5 * LIMITS.betweenCells);
        },
      };
      return worker;
    }, LIMITS);
    expect(await engine.load(small)).toEqual({});
    // An edit has no such patience.
    await expect(engine.apply([edited.change], edited.book)).rejects.toThrow('This took longer than 0.06 seconds');
    engine.close();
  });

  it('ends no worker whose answer waits behind what keeps the page itself', async () => {
    const { port1, port2 } = new MessageChannel();
    let started = 0;
    const engine = createWorkerEngine(() => {
      started++;
      const worker: WorkerLike<Request, Message> = {
        onmessage: null,
        onerror: null,
        postMessage: (request) => port1.postMessage(request),
        terminate: () => {},
      };
      port1.onmessage = (event) => worker.onmessage?.({ data: event.data as Message });
      serve({ post: (message) => port2.postMessage(message), listen: (receive) => (port2.onmessage = (event) => receive(event.data as Request)) });
      return worker;
    }, LIMITS);
    await engine.load(small);
    const answer = engine.evaluate('T.B1*10');
    const free = performance.now() + 3 * LIMITS.betweenCells;
    while (performance.now() < free);
    expect(short(await answer)).toBe(20);
    expect(started).toBe(1);
    engine.close();
    port1.close();
  });

  it('ends a worker that gives no sign of life, and works on from the last good book', async () => {
    const { start, started } = inThread(isHostile);
    const engine = createWorkerEngine(start, LIMITS);
    await engine.load(small);
    await engine.apply([edited.change], edited.book);
    const stuck = engine.apply([hostile.change], hostile.book);
    const behind = engine.evaluate('T.B1*10');
    await expect(stuck).rejects.toThrow(/took longer than 0.06 seconds and was stopped\. The last values stay/);
    expect(short(await behind)).toBe(60);
    expect(started()).toBe(2);
    engine.close();
  });

  it('is sent changes alone while it is in step, and a whole book after what it missed', async () => {
    const sent: [string, number][] = [];
    const { start } = inThread(isHostile);
    const engine = createWorkerEngine(() => {
      const worker = start();
      const post = worker.postMessage;
      worker.postMessage = (request) => {
        if (request.method === 'apply') sent.push([JSON.stringify(request.args[0]).includes('hostile') ? 'hostile' : 'plain', request.args.length]);
        post(request);
      };
      return worker;
    }, LIMITS);
    await engine.load(small);
    await engine.apply([edited.change], edited.book);
    await expect(engine.apply([hostile.change], hostile.book)).rejects.toThrow('stopped');
    const then = put(edited.book, 'T', 'r1', 'c1', '7');
    expect((await engine.apply([then.change], then.book))['T.B1']).toMatchObject({ base: 8 });
    const last = put(then.book, 'T', 'r1', 'c1', '9');
    expect((await engine.apply([last.change], last.book))['T.B1']).toMatchObject({ base: 10 });
    expect(sent).toEqual([
      ['plain', 1],
      ['hostile', 1],
      ['plain', 2],
      ['plain', 1],
    ]);
    engine.close();
  });

  it('waits as long as signs of life come', async () => {
    const { start, started, heard } = inThread(isHostile, 15);
    const engine = createWorkerEngine(start, LIMITS);
    await engine.load(small);
    const before = heard();
    await expect(engine.evaluate('"hostile"')).rejects.toThrow('stopped');
    expect(heard() - before).toBe(15);
    expect(started()).toBe(2);
    engine.close();
  });

  it('can be stopped by hand', async () => {
    const engine = createWorkerEngine(inThread(isHostile).start, { ...LIMITS, betweenCells: 60_000 });
    await engine.load(small);
    const stuck = engine.evaluate('"hostile"');
    engine.stop();
    await expect(stuck).rejects.toThrow('This was stopped.');
    expect(short(await engine.evaluate('T.A1'))).toBe(1);
    engine.stop();
    engine.close();
  });

  it('refuses what is asked after it was closed, and what was still waiting', async () => {
    const engine = createWorkerEngine(inThread(isHostile).start, LIMITS);
    const waiting = engine.load(small);
    engine.close();
    await expect(waiting).rejects.toThrow('closed');
    await expect(engine.evaluate('1')).rejects.toThrow('closed');
  });
});

describe('in a thread of its own', () => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'worker-'));
    await build({
      configFile: false,
      logLevel: 'error',
      build: {
        ssr: resolve('src/engine/worker/worker.ts'),
        outDir: folder,
        target: 'es2022',
        minify: false,
        emptyOutDir: false,
        rolldownOptions: { output: { entryFileNames: 'worker.mjs' } },
      },
      ssr: { noExternal: true },
    });
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  /** A thread, with the few names of a browser's worker that worker.ts uses. */
  const start = (): WorkerLike<Request, Message> => {
    const thread = new Worker(
      `const { parentPort } = require('node:worker_threads');
       globalThis.self = { postMessage: (m) => parentPort.postMessage(m) };
       import(${JSON.stringify(join(folder, 'worker.mjs'))}).then(() => parentPort.on('message', (data) => self.onmessage({ data })));`,
      { eval: true },
    );
    const worker: WorkerLike<Request, Message> = {
      onmessage: null,
      onerror: null,
      postMessage: (request) => thread.postMessage(request),
      terminate: () => thread.terminate(),
    };
    thread.on('message', (data: Message) => worker.onmessage?.({ data }));
    thread.on('error', (error) => worker.onerror?.({ message: error.message }));
    return worker;
  };

  it('works, and ends a formula that would run for many seconds', async () => {
    const heavy = book([
      table(
        'Big',
        Array.from({ length: 4_000 }, (_, i) => [`${i}`, `=SUMIF(A$1:A$4000,">${i}",A$1:A$4000)`]),
      ),
    ]);
    const engine = createWorkerEngine(start, { betweenCells: 60_000, insideSlow: 60_000, loading: 60_000 });
    expect(short((await engine.load(small))['T.B1'] ?? { kind: 'blank' })).toBe(2);
    const long = engine.load(heavy);
    setTimeout(() => engine.stop(), 500);
    await expect(long).rejects.toThrow('stopped');
    expect(short(await engine.evaluate('T.B1+1'))).toBe(3);
    engine.close();
  });
});
