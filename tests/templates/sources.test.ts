/** Whoever reads where something is from can look it up, or is told that they can't: no bare default, no file of ours, no standard without its year. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import crops from '../../functions/data/crops.json' with { type: 'json' };
import { functions } from '../../functions/index.ts';
import { sourceOf, standingOf } from '../../src/book/look-up.ts';
import { cells, slugs, templateBook } from './open-template.ts';

/** Amounts that are ours and nobody's habit: they are paid, or take somebody's time. */
const MADE_UP = /_(?:price|rate|time|work|disposal|goods)$|^(?:tariff|interest|labour_each|plan_years)$/;
const NONE = /^default: none/;

/** A file of this program says nothing to whoever has none of its files. */
const OWN_FILE = /\.(?:ts|md|json)\b|the file’s/;

/** Standards that are changed from edition to edition. */
const STANDARD = /\b(?:NFPA \d+|IEC \d{4,}(?:-\d+)*|BS \d{3,}|ISO \d{3,}|ASTM [A-Z]\d+|ANSI\/\w+ [\w-]+)/g;
const withoutYear = (text: string): string[] =>
  [...text.matchAll(STANDARD)].flatMap(({ 0: name, index }) =>
    /\b(?:19|20)\d\d\b|-\d\d\b/.test(text.slice(index, index + 110).split(';')[0] ?? '') ? [] : [name],
  );

/** Of what somebody published: who and when. What is not known of that is said to be from memory. */
const PUBLISHED = /\p{Lu}[\p{L}'-]+(?: et al\.| and \p{Lu}| & \p{Lu}|, \p{Lu}[\p{L}'-]+|(?= \d{4}\b)).*\b(?:19|20)\d\d\b/u;
const JOURNALS = /^(?:Scientific Reports|Plants|Agronomy|Horticulturae|Front\. Plant Sci\.|Appl\. Sci\.|HortScience|Acta)\b/;
const named = (source: string): boolean => /from memory|common practice/.test(source) || (PUBLISHED.test(source) && !JOURNALS.test(source));

describe.each(slugs)('the givens of %s', (slug) => {
  const givens = cells(templateBook(slug)).flatMap(({ address, at }) =>
    standingOf(at) === 'given' && sourceOf(at) ? [{ address, at, source: sourceOf(at) ?? '' }] : [],
  );

  test('are never a bare default, and what is ours alone is said to be invented', () => {
    expect(givens.length).toBeGreaterThan(40);
    expect(givens.filter(({ source }) => /^default\W*$/.test(source)).map(({ address }) => address)).toEqual([]);
    const priced = givens.filter(({ at, source }) => MADE_UP.test(at.row.id) && !NONE.test(source));
    expect(priced.length).toBeGreaterThan(2);
    expect(priced.filter(({ source }) => !/\binvented\b/.test(source)).map(({ at }) => at.row.id)).toEqual([]);
  });

  test('name no file of this program, and no standard without its year', () => {
    for (const { address, source } of givens) {
      expect(source, address).not.toMatch(OWN_FILE);
      expect(withoutYear(source), `${address}: ${source}`).toEqual([]);
    }
  });

  test('the crops say who found it and when, or that this is from memory', () => {
    const table = templateBook(slug).tables.find(({ id }) => id === 'crops');
    const rows = (table?.rows ?? []).slice(1).flatMap(({ id }) => {
      const cell = table?.cells[id];
      return cell?.a ? [`${cell.l?.content ?? ''}; ${cell.m?.content ?? ''}`] : [];
    });
    expect(rows.length).toBeGreaterThan(40);
    expect(rows.filter((source) => !named(source))).toEqual([]);
  });
});

test('the functions name no file of this program, and no standard without its year', () => {
  expect(functions.length).toBeGreaterThan(100);
  for (const { name, source } of functions) {
    expect(source, name).not.toMatch(OWN_FILE);
    expect(withoutYear(source), `${name}: ${source}`).toEqual([]);
  }
});

test('the crops that the look-ups know say who found it and when, or that this is from memory', () => {
  expect(crops.rows.length).toBeGreaterThan(40);
  expect(crops.rows.map(({ source, sure }) => `${source}; ${sure}`).filter((source) => !named(source))).toEqual([]);
});

test('of what is sold or quoted, a check value says that it was read in a copy', () => {
  const here = new URL('../references/cases/', import.meta.url);
  const cases = readdirSync(here).flatMap(
    (file) => JSON.parse(readFileSync(new URL(file, here), 'utf8')) as { id: string; source: object; confidence: string }[],
  );
  const copied = cases.filter(({ source }) => /"author":"(?:NFPA|IEC|BSI|IESNA)\b|transcription|quoted in/.test(JSON.stringify(source)));
  expect(copied.length).toBeGreaterThan(20);
  expect(copied.filter(({ confidence }) => /read in the source/.test(confidence)).map(({ id }) => id)).toEqual([]);
});

test.each([
  ['Horticulturae 2024 10(7):730; best at 12.96; read in the source', false],
  ['Gomez, University of Florida: most need no more than 12; read in the source', false],
  ['root-development DLI study: about 5 for 7 days; read in the source', false],
  ['Dou et al. 2018 HortScience 53(4):496; read in the source', true],
  ['Craver, Boldt, Lopez 2019 HortScience 54(1):52; read in the source', true],
])('a source that is %s is told apart', (source, good) => {
  expect(named(source)).toBe(good);
});

test('a standard is told apart by its year', () => {
  expect(withoutYear('NFPA 70 (NEC), 210.20(A): 125 percent')).toEqual(['NFPA 70']);
  expect(withoutYear('IEC 60228:2004, tables 1 to 3; temperature: IEC 60028')).toEqual(['IEC 60028']);
  expect(withoutYear('NFPA 70, National Electrical Code, 2020 (edition from memory), table 310.15(B)(1)')).toEqual([]);
});
