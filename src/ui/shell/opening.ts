/** Where books come from: the shelf, a template, a file. Fetched only when one is opened. */
import demo from '../../../templates/demo/trade-bench.json';
import { begin } from '../../book/begin.ts';
import type { Book } from '../../book/book.ts';
import { type History, NO_HISTORY } from '../../book/history.ts';
import { isRefused, type Refused } from '../../book/refused.ts';
import type { Engine } from '../../engine/types.ts';
import { type BookRead, MOST_CHARACTERS, parseBook, TOO_LARGE } from '../../files/book/index.ts';
import { openSession, type Session } from '../../session.ts';
import { fetchRenewing } from '../commands/index.ts';
import { type Wishes, whenIdle } from '../parts/index.ts';
import type { Found, Unopened } from './found.ts';
import type { Keeping } from './keeping.ts';
import type { Standing } from './saving.ts';
import type { TemplateCard } from './start.ts';

const NEVER_SAVED: Standing = { revision: 0 };
const DEMO = 'trade-bench';
// Templates are books, fetched as they stand when one is wished for; of the others only what the list of them says.
const urls = bySlug(import.meta.glob<string>('../../../templates/*.json', { eager: true, query: '?url', import: 'default' }));
const titles = bySlug(import.meta.glob<string>('../../../templates/*.json', { eager: true, import: 'title' }));
/** Which edition each template is. */
const editions = bySlug(import.meta.glob<Book['template']>('../../../templates/*.json', { eager: true, import: 'template' }));
const purposes = bySlug(import.meta.glob<string>('../../../templates/*.json', { eager: true, import: 'purpose' }));

function bySlug<T>(found: Record<string, T>): ReadonlyMap<string, T> {
  return new Map(Object.entries(found).map(([path, value]) => [path.replace(/^.*\/|\.json$/g, ''), value]));
}

/** A file that holds no book but a table, to be brought into a book. */
interface Tabular {
  readonly table: File;
}

const TABLE_FILES = '.csv,.tsv,.txt,text/csv,text/plain';

/** The one for most clients first. */
export const templateCards: readonly TemplateCard[] = [...titles]
  .sort(([a], [b]) => Number(b === DEMO) - Number(a === DEMO))
  .map(([slug, title]) => ({ slug, title, purpose: purposes.get(slug) ?? '' }));

/** The book that is wished for; undefined where nobody picked one after all. */
export async function fetchBook(wish: Wishes['open'], keeping: Keeping): Promise<Found | Unopened | Tabular | undefined> {
  switch (wish.what) {
    case 'book':
      return saysLacks(await keeping.fetch(wish.id));
    case 'demo':
      return fromTemplate(DEMO, asDemo);
    case 'template':
      return fromTemplate(wish.slug, (template) => begin(template, wish));
    case 'enquiry':
      return fromEnquiry(wish);
    case 'file':
      return saysLacks(await fromFile(keeping));
  }
}

/** A book that is opened says what its template checks and it does not. */
async function saysLacks<T extends Found | Unopened | Tabular | undefined>(found: T): Promise<T> {
  const origin = found && 'book' in found ? found.book.template : undefined;
  if (!found || !('book' in found) || !origin || origin.edition >= (editions.get(origin.slug)?.edition ?? 0)) return found;
  const { opened } = await fetchRenewing();
  return { ...found, book: await opened(found.book) };
}

async function fromTemplate(slug: string, made: (template: Book) => Book | Refused): Promise<Found | Unopened> {
  const url = urls.get(slug);
  if (url === undefined) return { problem: `There is no template called ${slug}.` };
  const response = await fetch(url);
  if (!response.ok) return { problem: `The template ${slug} could not be fetched: load the page again and try once more.` };
  const read = parseBook(await response.text());
  if (!read.ok) return { problem: `The template ${slug} can't be opened: ${read.message}` };
  const book = made(read.book);
  if (isRefused(book)) return { problem: book.message };
  return { book: { ...book, id: crypto.randomUUID() }, history: NO_HISTORY, standing: NEVER_SAVED };
}

/** The template as it is, to read an enquiry for; undefined where it can't be fetched. */
export async function fetchTemplate(slug: string): Promise<Book | undefined> {
  const found = await fromTemplate(slug, (template) => template);
  return 'book' in found ? found.book : undefined;
}

/** A plan that begins with what the client wrote says what is left of its questions. */
async function fromEnquiry(wish: Extract<Wishes['open'], { what: 'enquiry' }>): Promise<Found | Unopened> {
  const { begunWith } = await import('../../enquiry/index.ts');
  let troubles: readonly string[] = [];
  const found = await fromTemplate(wish.slug, (template) => {
    const made = begunWith(template, wish);
    if (isRefused(made)) return made;
    troubles = made.troubles;
    return made.book;
  });
  if (!('book' in found)) return found;
  const kept = wish.kept.length - troubles.length;
  const said = `${kept === 1 ? 'One answer' : `${kept} answers`} of what the client wrote ${kept === 1 ? 'is' : 'are'} in the plan. “Ask one question at a time” asks what is left, and “Propose scenarios” goes on from there.`;
  return { ...found, notice: [said, ...troubles].join(' ') };
}

/** The template with its example's answers as they are, and the story that goes with them. */
function asDemo(template: Book): Book {
  const { title, client } = demo;
  const texts: Readonly<Record<string, string>> = demo.texts;
  const pages = template.pages.map((page) => ({
    ...page,
    blocks: page.blocks.map((block) => (block.kind === 'prose' ? { ...block, text: texts[block.id] ?? block.text } : block)),
  }));
  return { ...template, title, client, pages };
}

/** Asks for a file. What can be rescued of a damaged one is opened as a new book, and said. */
async function fromFile(keeping: Keeping): Promise<Found | Unopened | Tabular | undefined> {
  const file = await pickFile(`.json,.overbench,application/json,${TABLE_FILES}`);
  if (!file) return undefined;
  if (/\.(csv|tsv|txt)$/iu.test(file.name)) return { table: file };
  const read = await readFile(file);
  if (read.ok) {
    const known = await keeping.has(read.book.id);
    const book = known ? { ...read.book, id: crypto.randomUUID() } : read.book;
    const told = [...(read.said ?? []), ...(known ? ['A book that began as this one is on the shelf already: this one is put beside it.'] : [])];
    return { book, history: NO_HISTORY, standing: NEVER_SAVED, ...(told.length > 0 && { notice: told.join(' ') }) };
  }
  if (!read.rescued) return { problem: `${file.name}: ${read.message}` };
  return { book: { ...read.rescued, id: crypto.randomUUID() }, history: NO_HISTORY, standing: NEVER_SAVED, notice: `${file.name}: ${read.message}` };
}

/** Bytes from which on the reading is seen to take its time. */
const LARGE = 2_000_000;

/** A large one is said to be read before it is: nothing else is seen until that is done. */
async function readFile(file: File): Promise<BookRead> {
  if (file.size > MOST_CHARACTERS) return { ok: false, problem: 'too large', message: TOO_LARGE, details: [] };
  if (file.size < LARGE) return parseBook(await file.text());
  const slip = document.createElement('dialog');
  slip.className = 'slip-box';
  slip.setAttribute('aria-label', 'Reading');
  slip.textContent = `Reading ${file.name}, ${Math.round(file.size / 1e6)} MB …`;
  document.body.append(slip);
  slip.showModal();
  try {
    const text = await file.text();
    // Two frames: what stands on the page is painted after the first.
    for (let frame = 0; frame < 2; frame++) await new Promise((next) => requestAnimationFrame(next));
    return parseBook(text);
  } finally {
    slip.remove();
  }
}

function pickFile(accept: string): Promise<File | undefined> {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = accept;
  return new Promise((resolve) => {
    input.addEventListener('change', () => resolve(input.files?.[0]));
    input.addEventListener('cancel', () => resolve(undefined));
    input.click();
  });
}

let spare: Promise<Engine> | undefined;

/** Has an engine loaded and waiting, so that the first book opens the sooner. */
export function warmUp(): Promise<Engine> {
  spare ??= import('../../engine/worker/index.ts').then(({ createWorkerEngine }) => createWorkerEngine());
  // What could not be had is asked for anew the next time.
  spare.catch(() => {
    spare = undefined;
  });
  return spare;
}

export async function startSession(book: Book, history: History): Promise<Session> {
  const engine = await warmUp();
  spare = undefined;
  const session = openSession(book, engine, { history });
  session.subscribe((news) => {
    if (news.kind === 'busy' && !news.busy) whenIdle(() => session.makeReady());
  });
  return session;
}
