/** A plan that was begun from the first edition of the trade bench: what it lacks now, and that it is judged like a new one once it has that. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { takeIn } from '../../src/book/commands/take-in.ts';
import type { Edition } from '../../src/book/edition/frame.ts';
import { withLacks } from '../../src/book/edition/lacks.ts';
import { wentSaid } from '../../src/book/edition/said.ts';
import { isRefused } from '../../src/book/refused.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { parseBook } from '../../src/files/book/book-file.ts';
import { openSession } from '../../src/session.ts';
import { openTemplate, slugs, templateBook } from './open-template.ts';
import { fill, row } from './rows.ts';

const read = (path: string): string => readFileSync(new URL(path, import.meta.url), 'utf8');

test('every template is of the third edition, and says what took the place of names of the ones before', () => {
  for (const slug of slugs) {
    const book = templateBook(slug);
    const past = [1, 2].map((edition) => JSON.parse(read(`../../templates/editions/${slug}.${edition}.json`)) as Edition);
    expect(book.template).toEqual({ slug, edition: 3 });
    const gone = new Set(past.flatMap(({ names }) => Object.keys(names)).filter((name) => book.names[name] === undefined));
    expect(Object.keys(book.went ?? {}).sort()).toEqual([...gone].sort());
    for (const name of gone) expect(wentSaid(book, name)).toMatch(/^\S.{40,}\.$/);
  }
});

test('an older plan says that no fuse and no life is checked and which checks are older, and takes them in as one step', async () => {
  const first = parseBook(read('old/trade-bench.1.json'));
  if (!first.ok) throw new Error(first.message);
  const template = templateBook('trade-bench');
  const past = JSON.parse(read('../../templates/editions/trade-bench.1.json')) as Edition;
  const session = openSession(withLacks(first.book, template, past), createEngine());
  try {
    await session.settled();
    expect(session.book.template?.lacks?.checks).toEqual(['Fuse of each run', 'Life of the lights']);
    expect(session.book.template?.lacks?.older).toEqual(expect.arrayContaining(['Target band', 'Limited circuit', 'Wire current', 'Circuits free', 'Hours']));
    expect(row(session, 'verdict')).toMatch(/^holds, 2 checks lacking/);
    const before = session.book;
    const answer = session.run((book) => takeIn(book, template, past));
    if (isRefused(answer)) throw new Error(answer.message);
    await session.settled();
    // Which fuse there is in a plan that named none, its owner must say.
    expect(row(session, 'c_fuse')).toMatch(/^unknown/);
    await fill(session, ['fuse', '6.3 A']);
    const fresh = await openTemplate('trade-bench');
    // Labels stay as the older book has them.
    for (const letter of ['A', 'B', 'C'])
      expect(row(session, 'verdict', '', letter)).toBe(String(row(fresh, 'verdict', '', letter)).replace('Voltage in wet places', 'Volts in the wet'));
    for (const letter of ['A', 'B', 'C'])
      for (const id of ['c_fuse', 'c_wire', 'c_limited', 'c_target', 'c_ceiling', 'buy', 'energy'])
        expect(row(session, id, id === 'buy' ? 'EUR' : id === 'energy' ? 'kWh/year' : '', letter), `${id}, ${letter}`).toBe(
          row(fresh, id, id === 'buy' ? 'EUR' : id === 'energy' ? 'kWh/year' : '', letter),
        );
    fresh.close();
    session.undo();
    session.undo();
    await session.settled();
    expect(session.book).toEqual(before);
  } finally {
    session.close();
  }
});
