/// <reference types="vite/client" />
import type { Book } from '../book/book.ts';
import type { Edition } from '../book/edition/frame.ts';
import { parseBook } from '../files/book/index.ts';
import { columns, left } from './columns.ts';
import { print } from './output.ts';
import type { Verb } from './verb.ts';
import { amongThese, Failure, WrongUse } from './wrong-use.ts';

const files = import.meta.glob<string>('../../templates/*.json', { query: '?raw', import: 'default' });
const bySlug = new Map(
  Object.entries(files)
    .map(([path, load]) => [path.replace(/^.*\/|\.json$/g, ''), load] as const)
    // The one for most clients first.
    .sort(([a], [b]) => Number(b === 'trade-bench') - Number(a === 'trade-bench')),
);

/** The text of the file that a template's name stands for. */
export async function templateText(slug: string): Promise<string> {
  const load = bySlug.get(slug);
  if (load) return load();
  throw new WrongUse(`no template ${slug}; ${amongThese(slug, [...bySlug.keys()])}`);
}

const kept = import.meta.glob<string>('../../templates/editions/*.json', { query: '?raw', import: 'default' });

/** The template that a book was begun from, as it is now, with the edition that the book has of it; undefined where that is the present one, or not known. */
export async function laterEdition({ template: origin }: Book): Promise<{ readonly template: Book; readonly past: Edition } | undefined> {
  const [load, past] = [bySlug.get(origin?.slug ?? ''), kept[`../../templates/editions/${origin?.slug}.${origin?.edition}.json`]];
  if (!load || !past) return undefined;
  const read = parseBook(await load());
  return read.ok ? { template: read.book, past: JSON.parse(await past()) as Edition } : undefined;
}

export const verb: Verb = {
  usage: '',
  about: 'Lists the templates that a book can begin from, and what each is for.',
  options: {},
  async run(operands) {
    if (operands.length > 0) throw new WrongUse(`templates takes no ${operands[0]}`);
    const rows = await Promise.all(
      [...bySlug].map(async ([slug, load]) => {
        const read = parseBook(await load());
        if (!read.ok) throw new Failure(`template ${slug}: ${read.message}`);
        return [left(slug), left(read.book.title), left(read.book.purpose ?? '')];
      }),
    );
    await print(`${columns(rows).join('\n')}\n`);
    return 0;
  },
};
