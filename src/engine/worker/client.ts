/**
 * The engine behind a worker, with a watchdog. A worker that gives no sign of life for too long is ended and a new one is
 * built from the last book that worked; the run that was stuck is refused in plain words, the others are asked again.
 * Nothing else can stop a formula that never ends.
 */
import type { Book } from '../../book/book.ts';
import type { Engine, Values, Waiting } from '../types.ts';
import { WORKING_OUT } from './in-page.ts';
import { unpacked } from './packed.ts';
import type { Message, Method, Request } from './serve.ts';
import { hasWorkers, startWorker, type WorkerLike } from './start.ts';

/** A worker that is an engine. */
type EngineWorker = WorkerLike<Request, Message>;

export interface Limits {
  /** Silence allowed between cells, ms. */
  readonly betweenCells: number;
  /** Silence allowed inside a function over a field, ms. */
  readonly insideSlow: number;
  /** Time allowed for the worker to load, ms. */
  readonly loading: number;
}

/** For what came while the page was kept busy, ms: it is heard before a worker is ended. */
const UNHEARD = 50;

const LIMITS: Limits = { betweenCells: 2_000, insideSlow: 10_000, loading: 30_000 };

export interface WorkerEngine extends Engine {
  /** Ends what runs now, as the watchdog would: the run is refused, the last values stay. Does nothing when idle. */
  stop(): void;
}

interface Pending {
  readonly request: Request;
  /** Takes the parts of a long answer, in order. */
  readonly part: ((values: Values) => void) | undefined;
  readonly waiting: Waiting | undefined;
  readonly resolve: (result: unknown) => void;
  readonly reject: (error: Error) => void;
}

const start = (): EngineWorker => startWorker(WORKING_OUT);

/** As long as a timer can be. */
const ENDLESS = 2 ** 31 - 1;
/** In the page nothing could be ended. */
const USUAL: Limits = hasWorkers ? LIMITS : { betweenCells: ENDLESS, insideSlow: ENDLESS, loading: ENDLESS };

export function createWorkerEngine(begin: () => EngineWorker = start, limits: Limits = USUAL): WorkerEngine {
  const client = new Client(begin, limits);
  const ask =
    <M extends Method>(method: M) =>
    (...args: Parameters<Engine[M]>): ReturnType<Engine[M]> =>
      client.ask(method, args) as ReturnType<Engine[M]>;
  /** Whoever takes no parts of a long answer gets it whole. */
  const long = async (method: Method, args: readonly unknown[], part: ((values: Values) => void) | undefined): Promise<Values> => {
    const whole: Values = {};
    const rest = (await client.ask(method, args, part ?? ((values) => Object.assign(whole, values)))) as Values;
    return part ? rest : Object.assign(whole, rest);
  };
  return {
    load: (book, part) => long('load', [book], part),
    apply: (changes, book, part) => long('apply', [changes, book], part),
    read: ask('read'),
    editable: ask('editable'),
    trace: ask('trace'),
    feeds: ask('feeds'),
    evaluate: ask('evaluate'),
    evaluateWithSteps: ask('evaluateWithSteps'),
    preview: ask('preview'),
    functions: ask('functions'),
    signatures: ask('signatures'),
    field: ask('field'),
    givensOf: ask('givensOf'),
    back: (asked, waiting) => client.ask('back', [asked], undefined, waiting) as ReturnType<Engine['back']>,
    stop: () => client.giveUp('This was stopped. The last values stay as they were.'),
    close: () => client.close(),
  };
}

class Client {
  private readonly start: () => EngineWorker;
  private readonly limits: Limits;
  private worker: EngineWorker;
  /** In the order in which they were asked; the first is the one at work. */
  private pending: Pending[] = [];
  private next = 1;
  private ready = false;
  private slow = false;
  private closed = false;
  private timer: ReturnType<typeof setTimeout> | undefined;
  /** The last book that was worked out whole. */
  private lastGood: Book | undefined;
  /** The worker's book is not the one that the next changes were made on: it must be given whole. */
  private behind = true;

  constructor(start: () => EngineWorker, limits: Limits) {
    this.start = start;
    this.limits = limits;
    this.worker = this.begin();
  }

  ask(method: Method, args: readonly unknown[], part?: (values: Values) => void, waiting?: Waiting): Promise<unknown> {
    if (this.closed) return Promise.reject(new Error('This book is closed.'));
    return new Promise((resolve, reject) => {
      const request = { id: this.next++, method, args };
      this.pending.push({ request, part, waiting, resolve, reject });
      this.post(request);
      waiting?.signal?.addEventListener('abort', () => this.tellStop(request.id));
      if (waiting?.signal?.aborted) this.tellStop(request.id);
      if (this.pending.length === 1) this.watch();
    });
  }

  close(): void {
    this.closed = true;
    this.end();
    for (const { reject } of this.pending.splice(0)) reject(new Error('This book is closed.'));
  }

  /** Ends the run at the head of the queue and starts anew without it. */
  giveUp(message: string): void {
    const [stuck, ...rest] = this.pending;
    if (!stuck || this.closed) return;
    this.end();
    this.pending = [...rest];
    this.worker = this.begin();
    // A load that is waiting brings its own book; else the last good one comes back first.
    if (this.lastGood && rest[0]?.request.method !== 'load') this.restore(this.lastGood);
    // What was stuck may have been a change, which the worker's book then lacks.
    this.behind = true;
    for (const { request, waiting } of rest) {
      this.post(request);
      if (waiting?.signal?.aborted) this.tellStop(request.id);
    }
    this.watch();
    stuck.reject(new Error(message));
  }

  private tellStop(id: number): void {
    if (!this.closed && this.pending.some(({ request }) => request.id === id)) this.worker.postMessage({ id, method: 'stop', args: [] });
  }

  private restore(book: Book): void {
    const request: Request = { id: this.next++, method: 'load', args: [book] };
    this.pending.unshift({ request, part: undefined, waiting: undefined, resolve: () => {}, reject: () => {} });
    this.post(request);
  }

  /** Changes go without their book where the worker can make it of the one it has: copying a book takes longer than an edit. */
  private post(request: Request): void {
    const { method, args } = request;
    if (method === 'apply' && !this.behind) this.worker.postMessage({ ...request, args: args.slice(0, 1) });
    else this.worker.postMessage(request);
    if (method === 'load' || method === 'apply') this.behind = false;
  }

  private begin(): EngineWorker {
    this.ready = false;
    this.slow = false;
    const worker = this.start();
    worker.onmessage = ({ data }) => this.receive(data);
    worker.onerror = ({ message }) => this.giveUp(`The calculation broke off${message ? `: ${message}` : ''}. The last values stay as they were.`);
    return worker;
  }

  private end(): void {
    clearTimeout(this.timer);
    this.worker.onmessage = null;
    this.worker.onerror = null;
    this.worker.terminate();
  }

  private receive(message: Message): void {
    if (message.kind === 'ready') this.ready = true;
    else if (message.kind === 'alive') this.slow = message.slow;
    else if (message.kind === 'part') this.takePart(message);
    else if (message.kind === 'share') this.pending.find(({ request }) => request.id === message.id)?.waiting?.share?.(message.done);
    else this.settle(message);
    this.watch();
  }

  private takePart({ id, values }: Extract<Message, { kind: 'part' }>): void {
    this.pending.find(({ request }) => request.id === id)?.part?.(unpacked(values));
    this.worker.postMessage({ id, method: 'taken', args: [] });
  }

  private settle(message: Extract<Message, { kind: 'answer' | 'failure' }>): void {
    const at = this.pending.findIndex(({ request }) => request.id === message.id);
    const [found] = at < 0 ? [] : this.pending.splice(at, 1);
    if (!found) return;
    this.slow = false;
    const { method, args } = found.request;
    if (message.kind === 'failure') {
      this.behind = true;
      found.reject(new Error(message.message));
      return;
    }
    if (method === 'load') this.lastGood = args[0] as Book;
    if (method === 'apply') this.lastGood = args[1] as Book;
    found.resolve(message.result);
  }

  /** Starts the time allowed for the next sign of life. */
  private watch(): void {
    clearTimeout(this.timer);
    if (this.pending.length === 0 || this.closed) return;
    const { loading, insideSlow, betweenCells } = this.limits;
    // A book that is built is cold, all of it at once, and nothing stands on the page without it: on a busy machine any part of that takes long.
    const patient = this.slow || this.pending[0]?.request.method === 'load';
    const allowed = !this.ready ? loading : patient ? insideSlow : betweenCells;
    const stop = (): void => {
      const seconds = allowed / 1000;
      this.giveUp(
        `This took longer than ${seconds} ${seconds === 1 ? 'second' : 'seconds'} and was stopped. The last values stay as they were: undo the last change, or make it smaller.`,
      );
    };
    // Where the page itself was kept busy for so long, a sign of life may have come that nobody could hear.
    this.timer = setTimeout(() => {
      this.timer = setTimeout(stop, UNHEARD);
    }, allowed);
  }
}
