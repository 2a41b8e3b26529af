import { describe, expect, test } from 'vitest';
import type { At } from '../../src/book/address.ts';
import { choicesOf } from '../../src/book/allowed.ts';
import type { Book } from '../../src/book/book.ts';
import { rangeOf, rowHeading, standingOf } from '../../src/book/look-up.ts';
import { cells, openTemplate, slugs, templateBook } from './open-template.ts';
import { dependents } from './references.ts';

/** Other answers that the cell would take: another choice, or the number a little larger or smaller, in the unit it is written in. */
function others(book: Book, at: At): string[] {
  const content = at.cell?.content ?? '';
  const range = rangeOf(at);
  const choices = range && choicesOf(book, at, range);
  if (choices) return choices.filter((choice) => choice !== content).slice(0, 3);
  const written = /^(-?[\d.]+)( .*)?$/.exec(content);
  if (!written) return [`${content}, another`];
  const [, digits = '', unit = ''] = written;
  const x = Number(digits);
  // A count stays whole.
  const candidates = at.row.decimals === 0 && unit === '' ? [x + 1, x - 1] : [x === 0 ? 0.1 : x * 1.07, x * 0.93, x * 0.5, x * 1.5];
  const { low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY } = range ?? {};
  return candidates.filter((y) => y !== x && y >= low && y <= high).map((y) => `${Number(y.toPrecision(12))}${unit}`);
}

describe.each(slugs)('in the template %s', (slug) => {
  const start = templateBook(slug);
  const follows = dependents(start);
  const givens = cells(start).filter(({ at }) => standingOf(at) === 'given');

  test('a change of any given changes nothing that does not depend on it, and something that does', async () => {
    const session = await openTemplate(slug);
    const before = { ...session.values };
    const silent: string[] = [];
    for (const { address, at } of givens) {
      const allowed = follows(address);
      let moved = false;
      for (const other of others(start, at)) {
        const typed = await session.type(address, other);
        expect(typed, `${address} takes ${other}`).toMatchObject({ ok: true });
        await session.settled();
        const changed = Object.keys(before).filter((a) => a !== address && JSON.stringify(session.values[a]) !== JSON.stringify(before[a]));
        const strays = changed.filter((a) => !allowed.has(a));
        expect(strays, `${address} ${rowHeading(at)} ← ${other}`).toEqual([]);
        moved ||= changed.length > 0;
        session.undo();
        await session.settled();
      }
      if (!moved && allowed.size > 0) silent.push(`${address} ${rowHeading(at)}`);
      expect(session.values, `${address} undone`).toEqual(before);
    }
    session.close();
    // Rows of the look-up tables that no scenario has chosen move nothing.
    const chosen = silent.filter((line) => !/^(?:Crops|Fixtures|Supplies)!/.test(line));
    expect(chosen, 'givens that move nothing').toEqual([]);
  });
});
