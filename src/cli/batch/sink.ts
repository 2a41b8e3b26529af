/**
 * Where results go. To a file they go under another name first (`RESULTS.csv.part`), with a journal beside it (`RESULTS.csv.progress`) of how many
 * clients are done and how long both files were then. A run that was killed goes on from the journal's last whole line: what was written after it is
 * cut off and worked out once more, so nothing is lost or doubled. A file under its own name is whole.
 */
import {
  closeSync,
  existsSync,
  fsyncSync,
  ftruncateSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { print } from '../output.ts';
import { Failure } from '../wrong-use.ts';

/** How far a run has come. */
export interface Mark {
  readonly clients: number;
  readonly rejected: number;
  /** Of all records up to there, so that a run goes on with the same file only. */
  readonly digest: string;
}

export interface Sink {
  /** Where to go on. */
  readonly from: Mark | undefined;
  write(results: string, rejected: string, mark: Mark): Promise<void>;
  finish(): void;
}

export class PrintSink implements Sink {
  readonly from = undefined;
  private readonly rejected: Part | undefined;

  constructor(rejected: string | undefined) {
    this.rejected = rejected === undefined ? undefined : new Part(rejected, 0);
  }

  async write(results: string, rejected: string): Promise<void> {
    this.rejected?.write(rejected);
    if (results !== '') await print(results);
  }

  finish(): void {
    this.rejected?.sync();
    this.rejected?.rename();
  }
}

/** A file that gets its name when it is whole. */
class Part {
  length: number;
  private readonly handle: number;
  private readonly file: string;

  /** @param length how much of what is there stays */
  constructor(file: string, length: number) {
    this.file = file;
    this.length = length;
    try {
      this.handle = openSync(`${file}.part`, length === 0 ? 'w' : 'r+');
      if (length > 0 && statSync(`${file}.part`).size < length) throw new Error(`${file}.part is shorter than its journal says`);
      ftruncateSync(this.handle, length);
    } catch (error) {
      throw new Failure(`can't write ${file}: ${(error as Error).message}`);
    }
  }

  write(text: string): void {
    const bytes = Buffer.from(text);
    for (let at = 0; at < bytes.length; ) at += writeSync(this.handle, bytes, at, bytes.length - at, this.length + at);
    this.length += bytes.length;
  }

  sync(): void {
    fsyncSync(this.handle);
  }

  rename(): void {
    closeSync(this.handle);
    renameSync(`${this.file}.part`, this.file);
  }
}

interface Line extends Mark {
  readonly results: number;
  readonly rejectedLength: number;
  readonly finished?: boolean;
}

interface Journal {
  readonly run: string;
  readonly last: Line | undefined;
  /** Bytes up to the end of the last whole line. */
  readonly whole: number;
}

/** Between two lines of the journal, in ms: so much work may have to be done again. */
const BETWEEN = 1000;

export class FileSink implements Sink {
  readonly from: Mark | undefined;
  private readonly journal: string;
  private readonly results: Part;
  private readonly rejected: Part | undefined;
  private written = Date.now();
  private last: Mark | undefined;

  /** @param run tells runs apart: template, headings and options */
  constructor(file: string, rejected: string | undefined, run: string, resume: boolean) {
    this.journal = journalOf(file);
    const known = resume ? readJournal(this.journal) : undefined;
    if (known && known.run !== run) {
      throw new Failure(`${file} was begun with another template, other columns or other options; leave --resume out to begin anew`);
    }
    this.from = known?.last;
    this.last = this.from;
    this.results = new Part(file, known?.last?.results ?? 0);
    this.rejected = rejected === undefined ? undefined : new Part(rejected, known?.last?.rejectedLength ?? 0);
    if (known?.last) truncateSync(this.journal, known.whole);
    else writeFileSync(this.journal, `${JSON.stringify({ run })}\n`);
  }

  async write(results: string, rejected: string, mark: Mark): Promise<void> {
    this.results.write(results);
    this.rejected?.write(rejected);
    this.last = mark;
    if (mark.clients > 0 && Date.now() - this.written >= BETWEEN) this.note(false);
  }

  finish(): void {
    this.note(true);
    this.rejected?.rename();
    this.results.rename();
    rmSync(this.journal);
  }

  /** The files are on the disk before the journal says so. */
  private note(finished: boolean): void {
    if (!this.last) return;
    this.results.sync();
    this.rejected?.sync();
    const line: Line = { ...this.last, results: this.results.length, rejectedLength: this.rejected?.length ?? 0, ...(finished && { finished }) };
    const handle = openSync(this.journal, 'a');
    writeSync(handle, `${JSON.stringify(line)}\n`);
    fsyncSync(handle);
    closeSync(handle);
    this.written = Date.now();
  }
}

const journalOf = (file: string): string => `${file}.progress`;

/** A line that was being written when the run was killed does not count. */
function readJournal(journal: string): Journal | undefined {
  if (!existsSync(journal)) return undefined;
  const written = readFileSync(journal, 'utf8');
  const sound = written.slice(0, written.lastIndexOf('\n') + 1);
  const [first, ...lines] = sound.split('\n').slice(0, -1);
  if (first === undefined) return undefined;
  const { run } = JSON.parse(first) as { run: string };
  const last = lines.at(-1);
  return { run, last: last === undefined ? undefined : (JSON.parse(last) as Line), whole: Buffer.byteLength(sound) };
}

/** Ends a run that was killed between its last line and the naming of its files. Gives the number of rejected clients; undefined where there is more to do. */
export function alreadyFinished(file: string, rejected: string | undefined): number | undefined {
  const known = readJournal(journalOf(file));
  if (!known) return existsSync(file) ? 0 : undefined;
  if (!known.last?.finished) return undefined;
  for (const one of [rejected, file]) if (one !== undefined && existsSync(`${one}.part`)) renameSync(`${one}.part`, one);
  rmSync(journalOf(file));
  return known.last.rejected;
}
