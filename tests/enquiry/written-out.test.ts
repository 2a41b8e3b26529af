/** A book's givens written out as a plain list, and read again, are the same givens. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readContent } from '../../functions/quantity-text.ts';
import { toBase, unit } from '../../functions/units.ts';
import { type At, cellAt } from '../../src/book/address.ts';
import type { Book } from '../../src/book/book.ts';
import { plainText } from '../../src/book/content.ts';
import { addressOf, namesOf, placeOf, rangeOf, standingOf, titleOf } from '../../src/book/look-up.ts';
import { answers, type Finding, hear } from '../../src/enquiry/index.ts';
import { runs } from '../cases.ts';
import { cells, slugs, templateBook } from '../templates/open-template.ts';

const books = new Map(slugs.map((slug) => [slug, templateBook(slug)]));

const isWritten = (at: At): boolean => standingOf(at) === 'given' && (at.cell?.content ?? '') !== '' && !at.cell?.content.startsWith('=');

interface Given {
  readonly at: At;
  readonly label: string;
}

/** By its heading where only one given is called so; else by its name or its address. */
function givensOf(book: Book): readonly Given[] {
  const all = cells(book)
    .map(({ at }) => at)
    .filter(isWritten);
  const titles = new Map<string, number>();
  for (const at of cells(book).map((one) => one.at))
    if (['given', 'as'].includes(standingOf(at))) titles.set(titleOf(at).toLowerCase(), (titles.get(titleOf(at).toLowerCase()) ?? 0) + 1);
  return all.map((at) => ({ at, label: titles.get(titleOf(at).toLowerCase()) === 1 ? titleOf(at) : (namesOf(book, at)[0] ?? addressOf(at)) }));
}

const given = new Map([...books].map(([slug, book]) => [slug, givensOf(book)]));

/** Another number that the given allows, so that no answer is the template's own. */
function moved(at: At, share: number): string {
  const content = at.cell?.content ?? '';
  const said = readContent(content);
  const range = rangeOf(at);
  if (said.kind !== 'number' || range?.oneOf || range?.low === undefined || range.high === undefined) return content;
  const value = Number((range.low + (range.high - range.low) * share).toPrecision(4));
  return range.unit === undefined ? String(value) : `${value} ${range.unit}`;
}

const line = fc.record({
  pick: fc.nat(),
  share: fc.double({ min: 0.01, max: 0.99, noNaN: true }),
  sign: fc.constantFrom(': ', ' = ', ' is ', ':\t'),
  bullet: fc.constantFrom('', '- ', '* ', '3. ', '  '),
  capital: fc.boolean(),
});

const same = (book: Book, finding: Finding | undefined, content: string): boolean => {
  const meant = readContent(content);
  if (!finding) return false;
  if (meant.kind === 'yes or no') return finding.value === meant.yes;
  if (meant.kind !== 'number') return finding.value === plainText(content);
  const found =
    finding.unit === ''
      ? Number(finding.value)
      : toBase(
          Number(finding.value),
          unit(finding.unit) ?? { numerator: Number.NaN, denominator: 1, offset: 0, symbol: '', reading: false, dimension: book as never },
        );
  return Math.abs(found - meant.base) <= 1e-9 * Math.max(1e-9, Math.abs(meant.base));
};

/** By the address of what each answers. */
function foundIn(book: Book, findings: readonly Finding[]): ReadonlyMap<string, readonly Finding[]> {
  const found = new Map<string, Finding[]>();
  for (const one of findings) {
    const address = addressOf(placeOf(book, one.given) ?? (cellAt(book, one.given) as At));
    found.set(address, [...(found.get(address) ?? []), one]);
  }
  return found;
}

describe('the givens of a book, written out as a list', () => {
  it.each(slugs)('are all read again from %s as it stands', (slug) => {
    const book = books.get(slug) as Book;
    const all = given.get(slug) ?? [];
    const text = all.map(({ at, label }) => `${label}: ${plainText(at.cell?.content ?? '')}`).join('\n');
    const found = foundIn(book, answers(text, hear(text), book).findings);
    const lost = all.filter(({ at }) => !same(book, found.get(addressOf(at))?.[0], at.cell?.content ?? ''));
    expect(all.length).toBeGreaterThan(50);
    expect(lost.map(({ label, at }) => `${label}: ${at.cell?.content}`)).toEqual([]);
  });

  it('are the same givens, whichever they are, in any order and with other values', () => {
    fc.assert(
      fc.property(fc.constantFrom(...slugs), fc.array(line, { minLength: 1, maxLength: 12 }), (slug, lines) => {
        const book = books.get(slug) as Book;
        const all = given.get(slug) ?? [];
        const written = new Map(
          lines.map(({ pick, share, sign, bullet, capital }) => {
            const { at, label } = all[pick % all.length] as Given;
            const content = moved(at, share);
            return [addressOf(at), { at, content, text: `${bullet}${capital ? label.toUpperCase() : label}${sign}${plainText(content)}` }] as const;
          }),
        );
        const text = [...written.values()].map((one) => one.text).join('\n');
        const { findings } = answers(text, hear(text), book);
        const found = foundIn(book, findings);
        for (const { at, content } of written.values())
          expect(
            found.get(addressOf(at))?.map((one) => same(book, one, content)),
            `${text}\n${content}`,
          ).toEqual([true]);
        expect(findings.length, text).toBe(written.size);
      }),
      runs(2000, 71),
    );
  });
});
