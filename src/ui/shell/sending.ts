/** Files that go out: the book itself, and CSV for people and for other programs. */
import type { Book } from '../../book/book.ts';
import type { Values } from '../../engine/types.ts';
import { formatBook } from '../../files/book/index.ts';
import type { SentOut } from '../commands/index.ts';
import { fileName, handOver, whenIdle } from '../parts/index.ts';

/** Hands the browser a file to save; gives its name. */
export async function sendOut(what: SentOut, book: Book, values: Values): Promise<string> {
  const name = `${fileName(book)}${ENDINGS[what]}`;
  handOver(name, await textOf(what, book, values), what === 'book' ? 'application/json' : 'text/csv;charset=utf-8');
  return name;
}

const ENDINGS: Readonly<Record<SentOut, string>> = { book: '.json', wide: ' scenarios.csv', tidy: ' cells.csv', 'not placed': ' not placed.csv' };

const fetchCsv = () => import('../../files/csv/index.ts');
/** Fetched while nothing else is to be done: what is not saved is sent out also where the server is gone by then. */
whenIdle(() => void fetchCsv().catch(() => {}));

async function textOf(what: SentOut, book: Book, values: Values): Promise<string> {
  if (what === 'book') return formatBook(book);
  const { formatNotPlaced, formatTidy, formatWide, holdsNotPlaced } = await fetchCsv();
  if (what === 'tidy') return formatTidy(book, values);
  if (what === 'not placed') return book.tables.filter(holdsNotPlaced).map(formatNotPlaced).join('');
  const scenarios = book.tables.filter((table) => table.form === 'scenarios').map((table) => table.name);
  return formatWide(book, values, scenarios.length > 0 ? { tables: scenarios } : {});
}
