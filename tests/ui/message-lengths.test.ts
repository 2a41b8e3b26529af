/**
 * Messages that stand in a cell or in the one line that the page has for them fit a phone: at most ninety letters. What functions say of their arguments, and the
 * calculator's sentences, stand in the margin, where there is room; in the cell only a word stands for them. Troubles of files and of the store (src/files) have a
 * bar of their own with lines enough.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, test } from 'vitest';
import { standingOf } from '../../src/book/look-up.ts';
import { explain } from '../../src/engine/errors.ts';
import { whyOf } from '../../src/shown.ts';
import { cells, openTemplate, slugs } from '../templates/open-template.ts';
import { fill, has } from '../templates/rows.ts';

const MOST = 90;
const src = fileURLToPath(new URL('../../src/', import.meta.url));

/** What a module says where it refuses, says or tells something: a text that is put in counts as a short word. */
function messagesIn(source: string): readonly string[] {
  const found = source.matchAll(/(?:refused\(|\btext:|\btell\(|\bwrong =|message:)\s*(?:'((?:[^'\\\n]|\\.)*)'|`((?:[^`\\]|\\.)*)`)/gu);
  return [...found].map(([, plain, made]) => plain ?? made?.replace(/\$\{(?:[^{}]|\{[^{}]*\})*\}/gu, 'put in') ?? '');
}

const modules = (folder: string): readonly string[] =>
  readdirSync(src + folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${folder}/${name}`);

describe('a message of the page', () => {
  it.each(['book', 'ui'])('in src/%s is short enough for its line', (folder) => {
    const all = modules(folder).flatMap((name) => messagesIn(readFileSync(src + name, 'utf8')).map((text) => ({ name, text })));
    expect(all.length).toBeGreaterThan(30);
    expect(all.filter(({ text }) => text.length > MOST).map(({ name, text }) => `${name}: ${text}`)).toEqual([]);
  });

  it('of the calculator begins with the words of its row', () => {
    for (const [type, said] of [
      ['DIV_BY_ZERO', 'Mount height, A: this divides by zero, or by a cell that is blank.'],
      ['NA', 'Mount height, A: the look-up found nothing that matches.'],
      ['NUM', /^Mount height, A: there is no number that answers this/],
      ['VALUE', /^Mount height, A: a number was needed here/],
      ['REF', 'Mount height, A: this reads a cell or a table that is not there.'],
    ] as const) {
      const why = whyOf(explain(type, undefined).message, 'Mount height, A');
      if (typeof said === 'string') expect(why).toBe(said);
      else expect(why).toMatch(said);
    }
    // What names its cell already says it once.
    expect(whyOf('Crop: “x” is not one of the choices: y.', 'Crop')).toBe('Crop: “x” is not one of the choices: y.');
  });
});

test.each(slugs)('what a check of %s says fits its cell', async (slug) => {
  const session = await openTemplate(slug);
  try {
    const checks = cells(session.book).filter(({ at }) => standingOf(at) === 'check' && !at.row.strong);
    expect(checks.length).toBeGreaterThan(20);
    const long = (when: string): readonly string[] =>
      checks.flatMap(({ address }) => {
        const value = session.values[address];
        return value?.kind === 'text' && value.text.length > MOST ? [`${address}, ${when}: ${value.text}`] : [];
      });
    expect(long('as it stands')).toEqual([]);
    await fill(session, ['fixture', 'Bay 320']);
    if (session.book.names.breaker) await fill(session, ['breaker', ''], ['breaker_assumed', '15 A'], ['circuits_free', '']);
    if (session.book.names.mains_volts) await fill(session, ['mains_volts', '120 V']);
    expect(long('mains at the light, 120 V')).toEqual([]);
    if (has(session, 'supply')) await fill(session, ['fixture', 'Rail 90'], ['crop', 'tomato cucumber pepper'], ['stage', 'transplants']);
    expect(long('a low end alone')).toEqual([]);
    await fill(session, ['crop', 'cucumber'], ['stage', 'plug seedlings indoor']);
    expect(long('known from trials')).toEqual([]);
  } finally {
    session.close();
  }
});
