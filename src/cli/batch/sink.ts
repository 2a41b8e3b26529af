/**
 * Where results go. To a file they go under another name first (`RESULTS.csv.part`), with a journal beside it (`RESULTS.csv.progress`) of how many
 * clients are done and how long both files were then. A run that was killed goes on from the journal's last whole line: what was written after it is
 * cut off and worked out once more, so nothing is lost or doubled. A file under its own name is whole.
 */
import { closeSync, existsSync, fsyncSync, ftruncateSync, openSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync, writeSync } from 'node:fs';
import { nameIt, print } from '../output.ts';
import { fileMeant } from '../same-file.ts';
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
    this.rejected?.write(rejected, '');
    if (results !== '') await print(results);
  }

  finish(): void {
    this.rejected?.sync('');
    this.rejected?.rename('');
  }
}

/** A file that gets its name when it is whole. Of a link it is the file that the link leads to. */
class Part {
  length: number;
  private readonly handle: number;
  private readonly file: string;
  private readonly meant: string;
  private readonly half: string;

  /** @param length how much of what is there stays */
  constructor(file: string, length: number) {
    this.file = file;
    this.length = length;
    this.meant = fileMeant(file);
    this.half = partOf(file);
    this.handle = writing(file, '', () => {
      if (!(statSync(this.meant, { throwIfNoEntry: false })?.isFile() ?? true))
        throw new Error('it is no plain file; without -o results go to standard output');
      const handle = openSync(this.half, length === 0 ? 'w' : 'r+');
      if (length > 0 && statSync(this.half).size < length) throw new Error(`${this.half} is shorter than its journal says`);
      ftruncateSync(handle, length);
      return handle;
    });
  }

  /** @param advice for whoever is told that it can't be written */
  write(text: string, advice: string): void {
    const bytes = Buffer.from(text);
    writing(this.file, advice, () => {
      for (let at = 0; at < bytes.length; ) at += writeSync(this.handle, bytes, at, bytes.length - at, this.length + at);
    });
    this.length += bytes.length;
  }

  sync(advice: string): void {
    writing(this.file, advice, () => fsyncSync(this.handle));
  }

  rename(advice: string): void {
    writing(this.file, advice, () => {
      closeSync(this.handle);
      nameIt(this.half, this.meant);
    });
  }
}

function writing<T>(file: string, advice: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw new Failure(`can't write ${file}: ${(error as Error).message}${advice}`);
  }
}

const GOES_ON = '; once there is room, the same command with --resume goes on';
const partOf = (file: string): string => `${fileMeant(file)}.part`;

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
  private readonly file: string;
  private readonly journal: string;
  private readonly results: Part;
  private readonly rejected: Part | undefined;
  private written = Date.now();
  private last: Mark | undefined;

  /** @param run tells runs apart: template, headings and options */
  constructor(file: string, rejected: string | undefined, run: string, resume: boolean) {
    this.file = file;
    this.journal = journalOf(file);
    const known = resume ? readJournal(this.journal) : undefined;
    if (known && known.run !== run) {
      throw new Failure(`${file} was begun with another template, other columns or other options; leave --resume out to begin anew`);
    }
    this.from = known?.last;
    this.last = this.from;
    this.results = new Part(file, known?.last?.results ?? 0);
    this.rejected = rejected === undefined ? undefined : new Part(rejected, known?.last?.rejectedLength ?? 0);
    writing(this.journal, '', () => {
      if (known?.last) truncateSync(this.journal, known.whole);
      else writeFileSync(this.journal, `${JSON.stringify({ run })}\n`);
    });
  }

  async write(results: string, rejected: string, mark: Mark): Promise<void> {
    this.results.write(results, GOES_ON);
    this.rejected?.write(rejected, GOES_ON);
    this.last = mark;
    if (mark.clients > 0 && Date.now() - this.written >= BETWEEN) this.note(false);
  }

  finish(): void {
    this.note(true);
    this.rejected?.rename(GOES_ON);
    this.results.rename(GOES_ON);
    rmSync(this.journal);
  }

  /** The files are on the disk before the journal says so. */
  private note(finished: boolean): void {
    if (!this.last) return;
    this.results.sync(GOES_ON);
    this.rejected?.sync(GOES_ON);
    const line: Line = { ...this.last, results: this.results.length, rejectedLength: this.rejected?.length ?? 0, ...(finished && { finished }) };
    writing(this.file, GOES_ON, () => {
      const handle = openSync(this.journal, 'a');
      try {
        writeFileSync(handle, `${JSON.stringify(line)}\n`);
        fsyncSync(handle);
      } finally {
        closeSync(handle);
      }
    });
    this.written = Date.now();
  }
}

export const journalOf = (file: string): string => `${fileMeant(file)}.progress`;

/** A line that was being written when the run was killed does not count, nor does what comes after one that was spoilt. */
function readJournal(journal: string): Journal | undefined {
  if (!existsSync(journal)) return undefined;
  const [first, ...lines] = readFileSync(journal, 'utf8').split('\n').slice(0, -1);
  if (first === undefined) return undefined;
  const run = (parsed(first) as { run?: unknown } | null)?.run;
  if (typeof run !== 'string') throw new Failure(`${journal} is damaged; leave --resume out to begin anew`);
  const marks = lines.map(parsed);
  const spoilt = marks.findIndex((mark) => !isLine(mark));
  const sound = spoilt < 0 ? lines.length : spoilt;
  const whole = [first, ...lines.slice(0, sound)].reduce((bytes, line) => bytes + Buffer.byteLength(line) + 1, 0);
  return { run, last: marks[sound - 1] as Line | undefined, whole };
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}

function isLine(found: unknown): found is Line {
  if (typeof found !== 'object' || found === null) return false;
  const { clients, rejected, digest, results, rejectedLength } = found as Partial<Line>;
  return typeof digest === 'string' && [clients, rejected, results, rejectedLength].every((n) => Number.isSafeInteger(n) && Number(n) >= 0);
}

/** Ends a run that was killed between its last line and the naming of its files. Gives the number of rejected clients; undefined where there is more to do. */
export function alreadyFinished(file: string, rejected: string | undefined): number | undefined {
  const known = readJournal(journalOf(file));
  if (!known) return existsSync(file) ? 0 : undefined;
  if (!known.last?.finished) return undefined;
  for (const one of [rejected, file]) if (one !== undefined && existsSync(partOf(one))) writing(one, '', () => nameIt(partOf(one), fileMeant(one)));
  rmSync(journalOf(file));
  return known.last.rejected;
}
