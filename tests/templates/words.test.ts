/** What a grower or an electrician reads: the words of the trade stand in it, and none that have to be guessed. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { functions } from '../../functions/index.ts';
import { slugs, templateBook } from './open-template.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** Each with the word of the trade, for whoever meets the failure. */
const ODD: readonly (readonly [RegExp, string])[] = [
  [/\bkept (?:light|mean|share|day)\b|, kept\b|\bkept for\b/iu, 'maintained'],
  [/\bday light\b/iu, 'DLI, or daily light'],
  [/\breckon/iu, 'calculated'],
  [/\b(?:lamps?|lights?|they) burn|\bburn(?:s|ed|ing)? (?:them|they|on|no|just|long)\b/iu, 'are on'],
  [/takes day length/iu, 'day-length response'],
  [/told (?:one by one|apart)/iu, 'described, shown separately'],
  [/like benches|benches beside it/iu, 'neighbouring benches'],
  [/says who says/iu, 'names the source'],
  [/what it hangs from carry/iu, 'working load of a hanger and its fixing'],
  [/true light for what/iu, 'calibration factor of the meter'],
  [/hours run by then/iu, 'hours run in the years it must last'],
  [/type plate/iu, 'rating plate'],
  [/volts in the wet|in the wet\b|wet hands may touch/iu, 'voltage in wet places'],
  [/stands? nowhere/iu, 'not found'],
  [/\blook,|\bwants? a look\b|deserves? a look|to look at\b/u, 'close to limit'],
  [/points no wider apart|points apart by/iu, 'spacing of points'],
  [/after the local codes/iu, 'to the local codes'],
  [/that is\b\s*$/iu, 'what it is'],
  [/\bput in its place\b/iu, 'replaced'],
  [/\bcapitals count\b/iu, 'capital and small letters differ'],
  [/^\W*the one before\W*$/iu, 'previous'],
  [/\bit stands at this\b/iu, 'the value now comes from'],
  [/\bsaid of it\b/iu, 'note'],
  [/\bapply the mend\b/iu, 'make the suggested correction'],
  [/\bcarry what the readings\b/iu, 'use the result of the readings'],
  [/\bare parted by commas\b/iu, 'are separated by commas'],
  [/\bhave? no sum\b|\bhas no sum\b/iu, 'can’t be added'],
  [/\bno book that was sent out\b/iu, 'not a book of this program'],
  [/\bto be worked again by hand\b/iu, 'to check by hand'],
];

const found = (text: string): readonly string[] => ODD.flatMap(([odd, word]) => (odd.test(text) ? [`“${text.slice(0, 120)}” (${word})`] : []));

/** All texts of a record, with the texts that stand in its formulas; ids and names are no texts. */
function texts(of: unknown, key = ''): readonly string[] {
  if (typeof of === 'string') {
    if (key === 'id' || key === 'name' || key === 'table' || key === 'reads') return [];
    return of.startsWith('=') ? [...of.matchAll(/"((?:[^"]|"")*)"/gu)].map((match) => match[1] ?? '') : [of];
  }
  if (Array.isArray(of)) return of.flatMap((each) => texts(each, key));
  if (typeof of === 'object' && of !== null) return Object.entries(of).flatMap(([k, value]) => (k === 'names' ? [] : texts(value, k)));
  return [];
}

/** What stands between quotation marks in a module, its comments left out: near enough for words that should not be there. */
const spoken = (source: string): readonly string[] =>
  source
    .replace(/\/\*[\s\S]*?\*\//gu, '')
    .replace(/(^|\s)\/\/.*$/gmu, '$1')
    .match(/'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`/gu) ?? [];

const modules = (folder: string): readonly string[] =>
  readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.d.ts'))
    .map((name) => `${folder}/${name}`);

describe('words that have to be guessed', () => {
  test.each(slugs)('stand nowhere in the template %s', (slug) => {
    const book = templateBook(slug);
    expect(book.tables.flatMap((table) => table.rows).length).toBeGreaterThan(50);
    expect(texts(book).flatMap(found)).toEqual([]);
  });

  test('stand in nothing that is told of a function', () => {
    expect(functions.length).toBeGreaterThan(100);
    expect(functions.flatMap((f) => texts(f).flatMap(found))).toEqual([]);
  });

  test('stand in no message of a function', () => {
    const said = modules('functions').flatMap((name) => spoken(readFileSync(root + name, 'utf8')));
    expect(said.length).toBeGreaterThan(1000);
    expect(said.flatMap(found)).toEqual([]);
  });
});

// The page, its commands, the sheet, pictures, files, the command line, and what the book and the engine say.
test.each(['ui', 'book', 'handover', 'pictures', 'files', 'cli', 'engine'])('words that have to be guessed stand in nothing that src/%s says', (folder) => {
  const said = modules(`src/${folder}`).flatMap((name) => spoken(readFileSync(root + name, 'utf8')).map((text) => ({ name, text })));
  expect(said.length).toBeGreaterThan(50);
  expect(said.flatMap(({ name, text }) => found(text).map((odd) => `${name}: ${odd}`))).toEqual([]);
});

test('words that have to be guessed stand neither in README nor in the guide to templates', () => {
  for (const name of ['README.md', 'templates/README.md'])
    expect(
      readFileSync(root + name, 'utf8')
        .split('\n')
        .flatMap(found),
      name,
    ).toEqual([]);
});

describe('the choice among scenarios', () => {
  test.each(slugs)('in %s is said by the letter of the cheapest, under the words for it', (slug) => {
    const book = templateBook(slug);
    const choice = book.tables.find((table) => table.name === 'Choice');
    expect(choice?.rows.find((row) => row.label === 'Cheapest that works, by the year')?.id).toBe('cheapest');
    expect(book.names.cheapest).toBe('Choice.$A$2');
  });
});
