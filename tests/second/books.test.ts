/**
 * Whole books, worked out a second time by an evaluator that shares nothing with the product but the names of functions: it reads the tidy CSV, and has a parser,
 * units, functions and a field of its own (quadrature over each face). Sources stand beside its functions. Every number must be the same to a thousandth, every check
 * begin with the same state, every verdict name the same causes, and what one side can't answer the other must refuse too.
 */
import { describe, expect, test } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { formatTidy } from '../../src/files/csv/tidy.ts';
import { openSession, type Session } from '../../src/session.ts';
import { long } from '../cases.ts';
import { slugs, templateBook } from '../templates/open-template.ts';
import { chance, changesOf } from './changes.ts';
import { compare } from './compare.ts';
import { readTidy } from './tidy.ts';

/** Random changes of each book; a failure tells them. SEED=… takes others. */
const CHANGES = long ? 200 : 10;
const SEED = Number(process.env.SEED ?? 2611);

const csvOf = (session: Session): string => formatTidy(session.book, session.values);

async function opened(slug: string): Promise<Session> {
  const session = openSession(templateBook(slug), createEngine());
  await session.settled();
  return session;
}

describe.each(slugs)('%s', (slug) => {
  test(
    'comes to the same a second time, as it stands and after random changes, and every verdict names its causes',
    async () => {
      const session = await opened(slug);
      const start = session.book;
      const cells = readTidy(csvOf(session));
      for (let i = 0; i <= CHANGES; i++) {
        const changes = i === 0 ? [] : changesOf(cells, chance(SEED + 1000 * i + slug.length));
        for (const { address, typed } of changes) expect(await session.type(address, typed), `${address} takes ${typed}`).toMatchObject({ ok: true });
        await session.settled();
        const { differences, causeless, numbers, refusals, texts } = compare(csvOf(session));
        const told = `change ${i}: ${changes.map(({ address, typed }) => `${address} = ${typed === '' ? 'blank' : typed}`).join(', ')}`;
        expect(differences, told).toEqual([]);
        expect(causeless, told).toEqual([]);
        // 180 numbers and 70 texts are the least that a book works out as it stands.
        expect(numbers + refusals, told).toBeGreaterThan(180);
        expect(texts + refusals, told).toBeGreaterThan(50);
        while (session.book !== start && session.undo());
        await session.settled();
      }
      session.close();
    },
    long ? 1_800_000 : 120_000,
  );
});

test('a number that is off by a fifth of a hundredth, another state, another cause and a value for a refusal are seen', async () => {
  const session = await opened('single-shelf');
  await session.type('Scenarios.A6', '30 A');
  await session.type('Scenarios.B2', '');
  await session.settled();
  const csv = csvOf(session);
  expect(compare(csv).differences).toEqual([]);
  /** The CSV with another value in one cell, whatever stands there. */
  const told = (address: string, change: (value: string) => string): readonly string[] =>
    compare(
      csv
        .split('\r\n')
        .map((line) => {
          const [, before = '', value = '', after = ''] =
            new RegExp(`^(.*,${address},[^,]*,(?:"[^"]*"|[^",]*),[^,]*,[^,]*,)("[^"]*"|[^",]*)(,.*)$`).exec(line) ?? [];
          return before === '' ? line : `${before}${change(value)}${after}`;
        })
        .join('\r\n'),
    ).differences;
  const addressOf = (row: string, scenario: string): string =>
    readTidy(csv).find((cell) => cell.row === row && cell.scenario === scenario && /^(worked|check)$/.test(cell.kind))?.address ?? '';
  const verdict = addressOf('Verdict', 'A');
  expect(readTidy(csv).find(({ address }) => address === verdict)?.value).toMatch(/^fails .*Fuse of each run/);
  for (const [row, scenario, change] of [
    ['Maintained mean PPFD', 'A', (value: string) => String(Number(value) * 1.002)],
    ['Fuse of each run', 'A', () => '"holds, 30 A"'],
    ['Verdict', 'A', (value: string) => value.replace('Fuse of each run', 'Height')],
    ['Maintained mean PPFD', 'B', () => '200'],
  ] as const) {
    const address = addressOf(row, scenario);
    expect(address, row).not.toBe('');
    expect(told(address, change), row).toHaveLength(1);
  }
  session.close();
});
