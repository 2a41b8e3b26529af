/** Whatever comes in is read: nothing throws, nothing takes long, each finding stands where it says, and the time grows with the text alone. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOUNDS } from '../../src/book/bounds.ts';
import { checkBook } from '../../src/book/check.ts';
import { isRefused } from '../../src/book/refused.ts';
import { answers, bookFrom, choose, hear, MOST_READ } from '../../src/enquiry/index.ts';
import { long, runs } from '../cases.ts';
import { templateBook } from '../templates/open-template.ts';
import enquiries from './enquiries.json' with { type: 'json' };

const book = templateBook('rack-of-tiers');
const texts = enquiries.map(({ text }) => text);
const words = [...new Set(texts.flatMap((text) => text.split(/\s+/u)))];

const TROUBLE = [
  ...[
    '\0',
    '\uFEFF',
    '\u202e',
    '\u2066',
    '\u200b',
    '\u2028',
    '\ud800',
    '😀',
    'İ',
    'ﬁ',
    '½',
    '⅜',
    '١٢',
    '１２',
    '²',
    '⁻¹',
    '×',
    '°',
    'µ',
    'μ',
    '″',
    '′',
    '“',
    '\r\n',
    '\n\n',
    '\t',
  ],
  ...[
    '<br>',
    '<p',
    '</div>',
    '<style>p{}',
    '<!--',
    '&nbsp;',
    '&#x202e;',
    '&micro;mol',
    '&amp;lt;',
    '=1+1',
    "'",
    '"',
    '{{x}}',
    '${',
    '__proto__',
    'constructor',
  ],
  ...[
    '1e999',
    '0x10',
    '1,2,3',
    '1.2.3',
    '1/2/3',
    '12:61',
    '99:99',
    '-',
    '--',
    '9'.repeat(40),
    ','.repeat(80),
    '('.repeat(80),
    ' '.repeat(200),
    '4x'.repeat(40),
    "5'".repeat(40),
  ],
  ...['Bench length: ', 'bench_length = ', 'Crop is ', 'Scenarios.A7: ', 'Brief.A1 ='],
];

const piece = fc.oneof(
  fc.constantFrom(...TROUBLE),
  fc.constantFrom(...words),
  fc.string({ unit: 'grapheme', maxLength: 5 }),
  fc.string({ unit: 'binary', maxLength: 3 }),
  fc.double().map(String),
);
const spoilt = fc
  .tuple(fc.constantFrom(...texts), fc.array(fc.tuple(fc.nat(), fc.nat({ max: 12 }), piece), { minLength: 1, maxLength: 5 }))
  .map(([text, cuts]) =>
    cuts.reduce((made, [where, length, put]) => made.slice(0, where % (made.length + 1)) + put + made.slice((where % (made.length + 1)) + length), text),
  );
const mixed = fc.array(piece, { maxLength: 16 }).map((pieces) => pieces.join(' '));

describe('any text', () => {
  it('is read without a throw, and each finding stands where it says', () => {
    fc.assert(
      fc.property(fc.oneof(spoilt, mixed), (text) => {
        const begun = process.cpuUsage();
        const heard = hear(text);
        expect(heard.plain.length).toBe(text.length);
        choose(heard);
        const { findings, unused } = answers(text, heard, book);
        for (const { words: said, at } of [...findings, ...unused]) {
          expect(text.slice(at[0], at[1])).toBe(said);
          expect(said).not.toBe('');
        }
        for (const { value } of findings) if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
        if (long) expect(process.cpuUsage(begun).user / 1000).toBeLessThan(2000);
      }),
      runs(20_000, 73),
    );
  }, 1_800_000);

  it('makes a sound book of what is sure in it', () => {
    fc.assert(
      fc.property(fc.oneof(spoilt, mixed), (text) => {
        const made = bookFrom(book, text, answers(text, hear(text), book));
        if (isRefused(made)) throw new Error(made.message);
        const checked = checkBook(made.book);
        expect(checked.ok ? [] : checked.problems).toEqual([]);
      }),
      runs(1000, 79),
    );
  });

  it('is read as far as a mail goes, and kept as far as a book may hold', () => {
    const text = `Bench 3 m long. ${'Lettuce and more of it. '.repeat(60_000)}`;
    const heard = hear(text);
    expect(heard.plain.length).toBe(MOST_READ);
    const made = bookFrom(book, text, answers(text, heard, book));
    expect(!isRefused(made) && made.book.enquiry?.length).toBe(BOUNDS.enquiry);
  });

  // Each of them a way in which searching could take the square of the length.
  it.each([
    '4x',
    "5'",
    '12, ',
    '12/',
    '$1 ',
    'one ',
    'between ',
    'bench length: ',
    '6:00-',
    '<style ',
    '&#12',
    ' ',
    '\n',
    'a',
    'growing ',
    'lettuce, ',
    '- 5 6 7\n',
  ])('takes a time that grows with its length alone, of “%s” again and again', (unit) => {
    const time = (length: number): number => {
      const text = unit.repeat(Math.ceil(length / unit.length)).slice(0, length);
      const begun = process.cpuUsage();
      answers(text, hear(text), book);
      return process.cpuUsage(begun).user;
    };
    const [short, tall] = long ? [80_000, 960_000] : [4_000, 48_000];
    time(short);
    const least = Math.max(Math.min(time(short), time(short)), 3_000);
    // The square would be 144 times as much each time; what compiles and collects beside the reading is counted with it, and not every time.
    let growth = Number.POSITIVE_INFINITY;
    for (let go = 0; go < 5 && growth >= 48; go++) growth = Math.min(growth, time(tall) / least);
    expect(growth).toBeLessThan(48);
  });
});
