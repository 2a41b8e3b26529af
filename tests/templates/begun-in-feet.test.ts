/** A book that is begun in feet and inches begins with lengths that go together, as the metric one does. */
import { expect, test } from 'vitest';
import { begin } from '../../src/book/begin.ts';
import { isRefused } from '../../src/book/refused.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { openSession } from '../../src/session.ts';
import { slugs, templateBook } from './open-template.ts';

async function refusedIn(slug: string, measures: 'metric' | 'US customary'): Promise<readonly string[]> {
  const book = begin(templateBook(slug), { client: 'Somebody', habits: { measures } });
  if (isRefused(book)) throw new Error(book.message);
  const session = openSession(book, createEngine());
  try {
    await session.settled();
    return Object.entries(session.values).flatMap(([address, value]) => (value?.kind === 'error' ? address : []));
  } finally {
    session.close();
  }
}

test.each(slugs)('%s begun in feet and inches refuses nothing that it does not refuse in metres', async (slug) => {
  expect(await refusedIn(slug, 'US customary')).toEqual(await refusedIn(slug, 'metric'));
});
