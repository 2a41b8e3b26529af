import { randomUUID } from 'node:crypto';
import { createReadStream, readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { text as textOf } from 'node:stream/consumers';
import { begin } from '../book/begin.ts';
import type { Book } from '../book/book.ts';
import { BOUNDS, count } from '../book/bounds.ts';
import { isRefused } from '../book/refused.ts';
import { answers, bookFrom, choose, type Finding, hear, MOST_READ, type Rows, type Unused } from '../enquiry/index.ts';
import { formatBook, parseBook } from '../files/book/index.ts';
import { columns, left } from './columns.ts';
import { deliver, print } from './output.ts';
import { templateText } from './templates.ts';
import type { Verb } from './verb.ts';
import { Failure, WrongUse } from './wrong-use.ts';

export const verb: Verb = {
  usage: 'FILE [--template TEMPLATE] [--json] [--book BOOK], or with --lines one enquiry a line, with - for standard input',
  about:
    'Reads what a client wrote, in English alone, as answers to the givens of a template: a line a finding, with its value, whether it is sure or to be asked, and the words that it comes from. Nothing is guessed: what could mean two things is to be asked.',
  options: {
    template: { type: 'string', about: 'the template to read for; the one that the text speaks of unless said' },
    json: { type: 'boolean', about: 'answers with an object of JSON' },
    book: { type: 'string', about: 'a file for the client’s book, with what is sure in it and the text kept' },
    lines: { type: 'boolean', about: 'reads a JSON string a line and answers each with an object of JSON a line' },
  },
  async run(operands, { template, json, book, lines }) {
    const [file, more] = operands;
    if (file === undefined) throw new WrongUse('a file is missing; - is standard input');
    if (more !== undefined) throw new WrongUse(`one file at a time, not also ${more}`);
    if (lines && (book !== undefined || json)) throw new WrongUse('with --lines each enquiry is answered with JSON and makes no book');
    const slug = template === undefined ? undefined : String(template);
    if (slug !== undefined) await templateText(slug);
    if (lines) return readLines(file, slug);
    const text = await readText(file);
    const read = await readOne(text, slug);
    if (book !== undefined) await makeBook(String(book), text, read);
    if (json) await print(`${JSON.stringify(told(read))}\n`);
    else if (book === undefined || read.findings.length > 0) await print(inLines(read));
    return 0;
  },
};

type Read = Awaited<ReturnType<typeof readOne>>;

const begun = new Map<string, { readonly template: Book; readonly book: Book }>();

/** The template, and the book of a client who has said nothing yet. */
async function templateOf(slug: string): Promise<{ readonly template: Book; readonly book: Book }> {
  const known = begun.get(slug);
  if (known) return known;
  const read = parseBook(await templateText(slug));
  if (!read.ok) throw new Failure(`${slug}: ${read.message}`);
  const book = begin(read.book, { client: '' });
  if (isRefused(book)) throw new Failure(`${slug}: ${book.message}`);
  const made = { template: read.book, book };
  begun.set(slug, made);
  return made;
}

async function readOne(text: string, slug: string | undefined) {
  const heard = hear(text);
  const chosen = slug === undefined ? choose(heard) : { slug, reason: '' };
  const { template, book } = await templateOf(chosen.slug);
  return { ...answers(text, heard, book), chosen, template };
}

/** As other programs read it: a finding's fields in their order. */
const told = ({ chosen, findings, unused, missing }: Read): object => ({
  template: chosen.slug,
  findings: findings.map(({ given, value, unit, sure, words, at, said }) => ({ given, value, unit, sure, words, at, ...(said === undefined ? {} : { said }) })),
  unused: unused.map(({ words, value, unit, said }) => ({ words, value, unit, ...(said === undefined ? {} : { said }) })),
  missing,
});

const quoted = (words: string): string => `“${words.replace(/\s+/gu, ' ')}”`;
const rowsText = (rows: Rows): string => rows.map((row) => row.map((cell) => cell ?? '-').join(' ')).join(' / ');
const valueText = (value: Finding['value']): string => (Array.isArray(value) ? rowsText(value as Rows) : String(value));

function inLines({ chosen, findings, unused, missing }: Read): string {
  const lines = columns(
    findings.map(({ given, value, unit, sure, words, said }: Finding) => [
      left(given),
      left(valueText(value)),
      left(unit),
      left(sure ? 'sure' : 'ask'),
      left(`${quoted(words)}${said === undefined ? '' : `  ${said}`}`),
    ]),
  );
  const rest = unused.map(
    ({ words, value, unit, said }: Unused) =>
      `said and not used: ${quoted(words)}, ${valueText(value)} ${unit}`.trimEnd() + (said === undefined ? '' : `  ${said}`),
  );
  const why = chosen.reason === '' ? '' : ` (${chosen.reason})`;
  return `template: ${chosen.slug}${why}\n${[...lines, ...rest].map((line) => `${line.trimEnd()}\n`).join('')}left to ask: ${missing.join(', ') || 'nothing'}\n`;
}

async function readText(file: string): Promise<string> {
  try {
    const text = (file === '-' ? await textOf(process.stdin) : readFileSync(file, 'utf8')).replace(/^\uFEFF/u, '');
    if (text.length > MOST_READ) console.error(`${file}: only the first ${count(MOST_READ)} characters are read`);
    return text;
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    throw new Failure(code === 'ENOENT' ? `there is no file ${file}` : `can't read ${file}: ${message}`);
  }
}

async function makeBook(file: string, text: string, read: Read): Promise<void> {
  const made = bookFrom(read.template, text, read);
  if (isRefused(made)) throw new Failure(made.message);
  for (const trouble of made.troubles) console.error(trouble);
  if (text.length > BOUNDS.enquiry) console.error(`only the first ${count(BOUNDS.enquiry)} characters of the text are kept in the book`);
  await deliver(formatBook({ ...made.book, id: randomUUID() }), file);
}

async function readLines(file: string, slug: string | undefined): Promise<number> {
  let failed = false;
  const input = file === '-' ? process.stdin : createReadStream(file);
  const broken = new Promise<never>((_, reject) => {
    input.once('error', (error: NodeJS.ErrnoException) =>
      reject(new Failure(error.code === 'ENOENT' ? `there is no file ${file}` : `can't read ${file}: ${error.message}`)),
    );
  });
  const each = async (): Promise<void> => {
    for await (const line of createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY })) {
      if (line.trim() === '') continue;
      const text = stringIn(line);
      failed ||= text === undefined;
      await print(`${JSON.stringify(text === undefined ? { error: 'This line is no JSON string.' } : told(await readOne(text, slug)))}\n`);
    }
  };
  await Promise.race([each(), broken]);
  return failed ? 1 : 0;
}

function stringIn(line: string): string | undefined {
  try {
    const value: unknown = JSON.parse(line);
    return typeof value === 'string' ? value : undefined;
  } catch {
    return undefined;
  }
}
