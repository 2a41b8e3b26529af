/// <reference types="vite/client" />
import type { Book } from '../book/book.ts';
import { columns, left } from './columns.ts';
import type { Verb } from './main.ts';
import { print } from './output.ts';
import { nearest, WrongUse } from './wrong-use.ts';

const files = import.meta.glob<unknown>('../../templates/*.json', { import: 'default' });
const bySlug = new Map(Object.entries(files).map(([path, load]) => [path.replace(/^.*\/|\.json$/g, ''), load]));

/** The book that a template's name stands for, as its file says it. */
export async function templateFile(slug: string): Promise<unknown> {
  const load = bySlug.get(slug);
  if (load) return load();
  const near = nearest(slug, [...bySlug.keys()]);
  throw new WrongUse(`no template ${slug}; ${near.length > 0 ? `nearest: ${near.join(', ')}` : `there are: ${[...bySlug.keys()].join(', ')}`}`);
}

export const verb: Verb = {
  usage: '',
  options: {},
  async run(operands) {
    if (operands.length > 0) throw new WrongUse(`templates takes no ${operands[0]}`);
    const rows = await Promise.all(
      [...bySlug].map(async ([slug, load]) => {
        const { title, purpose } = (await load()) as Book;
        return [left(slug), left(title), left(purpose ?? '')];
      }),
    );
    await print(`${columns(rows).join('\n')}\n`);
    return 0;
  },
};
