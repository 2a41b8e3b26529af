import { createHash, type Hash } from 'node:crypto';
import { mkdirSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { basename, dirname } from 'node:path';
import { begin } from '../book/begin.ts';
import type { Book } from '../book/book.ts';
import { isRefused } from '../book/refused.ts';
import { addCounts, type Counts, NO_COUNTS, type Tally } from '../engine/propose/index.ts';
import { parseBook } from '../files/book/index.ts';
import { type CsvRecord, formatVerbatim, unguard } from '../files/csv/index.ts';
import { type Input, openInput } from './batch/input.ts';
import { type Block, type BlockDone, inOrder } from './batch/pool.ts';
import { Progress } from './batch/progress.ts';
import type { Setup } from './batch/runner.ts';
import { alreadyFinished, FileSink, journalOf, type Mark, PrintSink, type Sink } from './batch/sink.ts';
import { REASON, readTargets, type Target } from './batch/targets.ts';
import { fileMeant, isSameFile, spare } from './same-file.ts';
import { templateText } from './templates.ts';
import type { Verb } from './verb.ts';
import { Failure, WrongUse } from './wrong-use.ts';

interface Asked {
  readonly template: string;
  readonly clients: string;
  readonly output: string | undefined;
  readonly rejected: string | undefined;
  readonly books: string | undefined;
  readonly jobs: number;
  readonly resume: boolean;
  readonly wide: boolean;
  readonly head: boolean;
  readonly carry: readonly string[];
}

export const verb: Verb = {
  usage:
    'TEMPLATE CLIENTS.csv [-o RESULTS.csv] [--rejected FILE] [--books DIR] [--jobs N] [--resume] [--tidy | --wide] [--carry COLUMN]… [--no-head], with - for standard input',
  about:
    'Works a template, or a book of your own, through for every client of a file: a row is a client, a column a given by its name or address. Results begin with the column client, which names the client; where there is none, with a column row, which counts the clients.',
  options: {
    output: { type: 'string', short: 'o', about: 'the file for the results; standard output without it' },
    rejected: { type: 'string', about: 'a file for the clients that have no results, each with the reason' },
    books: { type: 'string', about: 'a folder for the book of each client' },
    jobs: { type: 'string', about: 'how many threads; as many as there are processors unless said' },
    resume: { type: 'boolean', about: 'goes on with a run that was stopped' },
    tidy: { type: 'boolean', about: 'one result a line; so it is unless said' },
    wide: { type: 'boolean', about: 'one scenario a line' },
    carry: { type: 'string', multiple: true, about: 'a column that comes along as it is; as often as is wanted' },
    'no-head': { type: 'boolean', about: 'leaves out the line of headings' },
  },
  run: (operands, options) => overClients(operands, options, 'results'),
};

/** What is worked out of every client of a file, from its first line to its last. */
export async function overClients(operands: readonly string[], options: Readonly<Record<string, unknown>>, work: Setup['work']): Promise<number> {
  const asked = readAsked(operands, options);
  spareInputs(asked);
  if (asked.resume && asked.output !== undefined) {
    const rejected = alreadyFinished(asked.output, asked.rejected);
    if (rejected !== undefined) {
      console.error(`${asked.output} is finished: nothing is left to do`);
      return rejected > 0 ? 1 : 0;
    }
  }
  const book = await templateOf(asked.template);
  const input = await openInput(asked.clients);
  const first = await input.records.next();
  if (first.done) throw new Failure(`${asked.clients} is empty: its first line must hold headings`);
  if (first.value.broken !== undefined) throw new Failure(`${asked.clients}, line ${first.value.line}: ${first.value.broken}`);
  return new Batch(asked, work, book, input, first.value).run();
}

function readAsked(operands: readonly string[], options: Readonly<Record<string, unknown>>): Asked {
  const { output, rejected, books, jobs, resume = false, tidy, wide = false, carry = [] } = options as Record<string, never> & { carry?: string[] };
  const [template, clients, more] = operands;
  if (template === undefined) throw new WrongUse('a template is missing; overbench templates lists them');
  if (clients === undefined) throw new WrongUse('a file of clients is missing; - is standard input');
  if (more !== undefined) throw new WrongUse(`one file of clients at a time, not also ${String(more)}`);
  if (tidy && wide) throw new WrongUse('tidy or wide, not both');
  const file = output === '-' ? undefined : output;
  if (resume && file === undefined) throw new WrongUse('--resume needs -o FILE: only a file can be gone on with');
  if (file !== undefined && rejected !== undefined && isSameFile(file, rejected)) throw new WrongUse('results and rejected clients need a file each');
  const count = jobs === undefined ? availableParallelism() : Number(jobs);
  if (!Number.isInteger(count) || count < 1 || count > 256) throw new WrongUse(`--jobs ${String(jobs)} is not a number from 1 to 256`);
  return { template, clients, output: file, rejected, books, jobs: count, resume, wide, head: !options['no-head'], carry };
}

/** Of a client's book, which begins with its row. */
const BOOK_NAME = /^\d{6,}.*\.json$/u;

const isPath = (template: string): boolean => /[./\\]/u.test(template);

/** Nothing that is read is written over, also not by what is kept beside the results meanwhile or by the book of a client. */
function spareInputs({ template, clients, output, rejected, books }: Asked): void {
  const read = [clients, ...(isPath(template) ? [template] : [])];
  const beside = [output, rejected].flatMap((file) => (file === undefined ? [] : [file, `${fileMeant(file)}.part`]));
  spare(read, [...beside, output === undefined ? undefined : journalOf(output)]);
  const inside = read.find((file) => books !== undefined && BOOK_NAME.test(basename(file)) && isSameFile(dirname(fileMeant(file)), books));
  if (inside !== undefined) throw new WrongUse(`${inside} is read, and stands where the books of clients go; say another folder`);
}

/** A template's name, or the path of a book of one's own. */
async function templateOf(name: string): Promise<Book> {
  let text: string;
  if (!isPath(name)) text = await templateText(name);
  else {
    try {
      text = readFileSync(name, 'utf8');
    } catch (error) {
      throw new Failure(`can't read ${name}: ${(error as Error).message}`);
    }
  }
  const read = parseBook(text);
  if (!read.ok) throw new Failure(`${name}: ${read.message}`);
  for (const sentence of read.said ?? []) console.error(`${name}: ${sentence}`);
  if (isPath(name)) return read.book;
  // Nothing of the example is any client's.
  const begun = begin(read.book, { client: '' });
  if (isRefused(begun)) throw new Failure(`${name}: ${begun.message}`);
  return begun;
}

/** A block is done in a second or less, and its results fit in a message. */
const CLIENTS_A_BLOCK = { results: 20, proposals: 4 } as const;
const MOST_SAID = 5;

interface Piece extends Block {
  readonly records: readonly CsvRecord[];
  readonly mark: Omit<Mark, 'rejected'>;
}

class Batch {
  private readonly asked: Asked;
  private readonly input: Input;
  private readonly headings: CsvRecord;
  private readonly setup: Setup;
  private readonly sink: Sink;
  private rejected: number;
  private said = 0;
  private readonly counts: Tally = { ...NO_COUNTS };

  constructor(asked: Asked, work: Setup['work'], book: Book, input: Input, headings: CsvRecord) {
    this.asked = asked;
    this.input = input;
    this.headings = headings;
    const targets = readTargets(
      book,
      headings.fields.map((field) => unguard(field).trim()),
      asked.carry,
    );
    const { decimalMark } = input;
    this.setup = { work, template: book, targets, decimalMark, form: asked.wide ? 'wide' : 'tidy', books: asked.books };
    if (asked.books !== undefined) makeFolder(asked.books);
    this.sink = asked.output === undefined ? new PrintSink(asked.rejected) : new FileSink(asked.output, asked.rejected, this.fingerprint(), asked.resume);
    this.rejected = this.sink.from?.rejected ?? 0;
  }

  async run(): Promise<number> {
    const { from } = this.sink;
    const progress = new Progress(from?.clients ?? 0);
    let head = from === undefined;
    for await (const { block, done } of inOrder(this.pieces(), this.asked.jobs, this.setup)) {
      const rejected = this.rejectedOf(block, done);
      const mark: Mark = { ...block.mark, rejected: this.rejected };
      await this.sink.write((head && this.asked.head ? done.head : '') + done.text, (head ? this.rejectedHead() : '') + rejected, mark);
      head = false;
      this.say(done.said);
      if (done.counts) addCounts(this.counts, done.counts);
      const { bytes, of } = this.input.read;
      progress.tell(mark.clients, mark.rejected, of === undefined || of === 0 ? undefined : bytes / of);
    }
    this.sink.finish();
    progress.end();
    if (this.setup.work === 'proposals') console.error(countsSaid(this.counts));
    if (this.said > MOST_SAID) console.error(`… and ${this.said - MOST_SAID} more values like these`);
    if (this.rejected > 0)
      console.error(
        `${this.rejected} ${this.rejected === 1 ? 'client' : 'clients'} rejected${this.asked.rejected === undefined ? '' : `: see ${this.asked.rejected}`}`,
      );
    return this.rejected > 0 ? 1 : 0;
  }

  /** The clients that are still to be done, some at a time. The first piece holds none, so that there are headings whatever follows. */
  private async *pieces(): AsyncGenerator<Piece> {
    const hash = createHash('sha256');
    const { from } = this.sink;
    let clients = 0;
    let records: CsvRecord[] = [];
    const piece = (): Piece => ({ records, clients: records.map((record) => this.client(record)), mark: { clients, digest: digestOf(hash) } });
    if (!from) yield piece();
    for await (const record of this.input.records) {
      hash.update(JSON.stringify(record.fields));
      clients++;
      if (from && clients <= from.clients) {
        if (clients === from.clients && digestOf(hash) !== from.digest) throw this.otherFile();
        continue;
      }
      records.push(record);
      if (records.length < CLIENTS_A_BLOCK[this.setup.work]) continue;
      yield piece();
      records = [];
    }
    if (from && clients < from.clients) throw this.otherFile();
    if (records.length > 0) yield piece();
  }

  private otherFile(): Failure {
    return new Failure(`${this.asked.clients} is not the file that ${this.asked.output} was begun with; leave --resume out to begin anew`);
  }

  private client(record: CsvRecord): Block['clients'][number] {
    const reason = this.unfit(record);
    // The first record is the headings: client 1 is the second.
    return { row: record.record - 1, line: record.line, fields: record.fields, ...(reason !== undefined && { reason }) };
  }

  /** Why a record can't be a client, whatever it says. */
  private unfit({ fields, broken }: CsvRecord): string | undefined {
    if (broken !== undefined) return broken;
    const wanted = this.headings.fields.length;
    if (fields.length !== wanted) return `it has ${fields.length} fields, the headings are ${wanted}`;
    if (fields.every((field) => field.trim() === '')) return 'all of its fields are empty';
    return fields.some((field) => field.includes('\uFFFD')) ? 'it holds a letter that is not in the encoding of the file' : undefined;
  }

  private rejectedHead(): string {
    return formatVerbatim([[...this.withoutReason(this.headings.fields), REASON]]);
  }

  /** The rejected records as they came, each with its reason; where no file was asked for them, a line on standard error. */
  private rejectedOf({ records }: Piece, { reasons }: BlockDone): string {
    const rows: string[][] = [];
    for (const [i, record] of records.entries()) {
      const reason = reasons[i];
      if (reason === undefined) continue;
      this.rejected++;
      const whole = `line ${record.line}: ${reason}`;
      if (this.asked.rejected === undefined) console.error(whole);
      rows.push([...this.asItCame(record), whole]);
    }
    return rows.length === 0 ? '' : formatVerbatim(rows);
  }

  /** Under the headings; a record that does not fit under them is one text in the first field. */
  private asItCame({ fields, broken }: CsvRecord): string[] {
    const { length } = this.headings.fields;
    const fits = broken === undefined && fields.length <= length;
    const shown = fits ? fields : [broken === undefined ? formatVerbatim([fields]).trimEnd() : (fields[0] ?? '')];
    return this.withoutReason([...shown, ...Array.from({ length: length - shown.length }, () => '')]);
  }

  private withoutReason(fields: readonly string[]): string[] {
    return fields.filter((_, i) => this.setup.targets[i]?.to !== 'nothing');
  }

  /** Readings that deserve a word, up to a few. */
  private say(said: readonly string[]): void {
    for (const word of said) if (this.said++ < MOST_SAID) console.error(word);
  }

  /** Two runs with the same one write the same results for the same clients. */
  private fingerprint(): string {
    const { work, template, targets, form, books, decimalMark } = this.setup;
    const { rejected, head } = this.asked;
    const told: readonly unknown[] = [
      ...(work === 'results' ? [] : [work]),
      template,
      this.headings.fields,
      targets satisfies readonly Target[],
      form,
      books ?? null,
      decimalMark,
      rejected ?? null,
      head,
    ];
    return createHash('sha256').update(JSON.stringify(told)).digest('hex');
  }
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new Failure(`can't write to ${folder}: ${(error as Error).message}`);
  }
}

function countsSaid({ layouts, built, worked, cut }: Counts): string {
  const [all, could, were, not] = [layouts, built, worked, cut].map((count) => count.toLocaleString('en-GB'));
  return `${all} arrangements: ${could} can be built, of which ${were} were worked out and ${not} passed over unworked`;
}

const digestOf = (hash: Hash): string => hash.copy().digest('hex');
