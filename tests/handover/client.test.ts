/** The client's own page, with which the sheet begins. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { Reader } from '../../src/handover/reader.ts';
import { sheet } from '../../src/handover/sheet.ts';
import { templateText } from '../../src/handover/text.ts';
import { openSession, type Session } from '../../src/session.ts';
import { slugs, templateBook } from '../templates/open-template.ts';
import { fill, row } from '../templates/rows.ts';
import { marked, section, textOf } from './made.ts';

interface Parted {
  readonly reader: Reader;
  /** What stands on the client's page, and what follows. */
  readonly client: string;
  readonly rest: string;
}

/** Without what only the installer's pages need: drawings, workings, and what moves the plan. */
function partedOf({ book, values }: Session, letter?: string): Parted {
  const reader = new Reader(book, values, letter);
  const made = templateText(sheet({ reader, fingerprint: '0', light: undefined, traces: [], swings: new Map() }));
  const [client = '', rest = ''] = made.split('<h1>For the installer</h1>');
  return { reader, client, rest };
}

async function open(slug: string): Promise<Session> {
  const session = openSession(templateBook(slug), createEngine());
  await session.settled();
  return session;
}

const plain = (markup: string): string =>
  textOf(markup)
    .replaceAll(/[\u202f\u00a0]/g, ' ')
    .replaceAll(/\s+/g, ' ');

describe.each(slugs)('the client’s page of the template %s', (slug) => {
  let session: Session;
  beforeAll(async () => {
    session = await open(slug);
  });
  afterAll(() => session.close());

  it('says whose plan it is, what, how many, how high, what it brings and costs, what is to be confirmed and what is taken for granted', () => {
    const { letters } = new Reader(session.book, session.values);
    for (const letter of letters) {
      const { reader, client, rest } = partedOf(session, letter);
      const text = plain(client);
      expect(text).toContain(`Client: ${session.book.client}`);
      expect(text).toContain(`Light plan: ${session.book.title}`);
      expect(text).toMatch(/Version 1 of 2026-11-25, valid until 2027-02-25/);
      const told = new Set(marked(client, 'data-cell').map(({ target }) => target));
      for (const id of ['fixture', 'height', 'buy', 'run', 'annual', 'plan_until', 'crop', 'target_low', 'bench_length'])
        expect(told, `${letter} ${id}`).toContain(reader.line(id)?.address);
      if (reader.row('count')) expect(told).toContain(reader.row('count')?.address);
      expect(plain(section(client, 'confirm'))).toMatch(/Lights and supplies of the list are invented/);
      expect(plain(section(client, 'granted'))).toMatch(/Common practice, no published source: /);
      expect(plain(section(client, 'cautions'))).toMatch(
        /planning estimate.*local codes, and a licensed electrician.*Overhead loads.*do not stare.*Wet places.*foliage.*ladders/,
      );
      // No address of a cell, no formula, no working.
      expect(text).not.toMatch(/\b[A-Z]\w*\.[A-Z]+\d+\b|=\s?[A-Z]/);
      expect(client).not.toMatch(/class="work|<svg/);
      // What is said of the day's light agrees with its numbers.
      const [low = 0, high = Number.POSITIVE_INFINITY] = [reader.number('target_low'), reader.number('target_high')];
      const brought = reader.number('dli') ?? reader.number('dli_mean') ?? reader.number('darkest_light') ?? 0;
      const word = brought < low ? 'less than' : brought > high ? 'more than' : 'as much as';
      expect(plain(section(client, 'brings')), letter).toContain(`, ${word} is wanted.`);
      // A twelfth of the year's.
      const paid = section(client, 'paid');
      const month =
        marked(paid, 'data-from')[0]?.text ?? marked(paid, 'data-cell').find(({ target }) => target === reader.row('run_month')?.address)?.text ?? '';
      expect(Math.abs(Number.parseFloat(month) - Number(row(session, 'run', '', letter)) / 12), `${letter} ${month}`).toBeLessThanOrEqual(0.501);
      // The installer's pages follow.
      for (const name of ['parts', 'checks', 'rests', 'cautions', 'signing']) expect(section(rest, name), name).not.toBe('');
    }
  });

  it('follows the measures of the book', async () => {
    session.run((book) => setMeasures(book, { measures: 'US customary' }));
    await session.settled();
    const { reader, client } = partedOf(session);
    for (const name of ['bench_length', 'height']) {
      const found = reader.line(name);
      expect(found?.text, name).toMatch(/(?:in|ft|[′″])$/);
      expect(
        marked(client, 'data-cell').filter(({ target, text }) => target === found?.address && text === found?.text),
        name,
      ).not.toEqual([]);
    }
    expect(plain(section(client, 'confirm'))).not.toMatch(/\d (?:m|cm|mm|N)\b/);
  });
});

describe('the client’s page', () => {
  it('says at its top which check fails, by how much and what it asks, and praises no cost', async () => {
    const session = await open('trade-bench');
    const { client } = partedOf(session, 'C');
    const text = plain(client);
    expect(text.indexOf('This plan fails')).toBeLessThan(text.indexOf('What it brings'));
    expect(plain(section(client, 'verdict'))).toContain('Evenness: fails, 56 % below the least. The lowest point over the mean, over the whole bench.');
    // Lowest to mean, as the page of the scenarios has it.
    const [, even] = /fails, 56 % below the least: (0\.\d+), and 0\.60 at least is asked/.exec(plain(section(client, 'brings'))) ?? [];
    expect(1 - Number(even) / 0.6).toBeCloseTo(0.56, 2);
    // Each check is named once.
    expect(plain(section(client, 'verdict')).split('Evenness')).toHaveLength(2);
    expect(plain(section(partedOf(session, 'A').client, 'verdict')).split('Day length')).toHaveLength(2);
    expect(plain(section(client, 'paid'))).toContain('of a plan that fails');
    expect(text.replace('is never called the cheapest', '')).not.toMatch(/cheap|\bbest\b|saves/i);
    expect(plain(partedOf(session, 'B').client)).not.toMatch(/This plan fails|of a plan that fails/);
    // A is dimmed, and B with it.
    await fill(session, ['dim', '30 %']);
    expect(plain(section(partedOf(session, 'A').client, 'brings'))).toContain('less than is wanted');
    session.close();
  });

  it('says why a value is refused without the address of a cell', async () => {
    const session = await open('meter-check');
    await fill(session, ['fixture', '']);
    const { client, rest } = partedOf(session, 'A');
    expect(plain(section(client, 'verdict'))).toMatch(/: .*(?:not answered|refused)/);
    expect(plain(client)).not.toMatch(/\b[A-Z]\w*\.[A-Z]+\d+\b/);
    expect(plain(rest)).toMatch(/\(Scenarios\.A1\)/);
    session.close();
  });
});
