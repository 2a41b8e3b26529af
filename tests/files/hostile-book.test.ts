/** Book files that are made to be large, deep or strange: each is answered in words and in a time that grows no faster than the file. */
import { describe, expect, it } from 'vitest';
import { BOUNDS } from '../../src/book/bounds.ts';
import { checkBook } from '../../src/book/check.ts';
import { addBlock } from '../../src/book/commands/blocks.ts';
import { addTable } from '../../src/book/commands/tables.ts';
import { isRefused } from '../../src/book/refused.ts';
import { formatBook, parseBook } from '../../src/files/book/book-file.ts';
import { joined } from '../../src/files/store/slices.ts';
import { sample } from '../book/sample.ts';
import { cases, long } from '../cases.ts';

const MILLION = cases(1_000_000);
const start = JSON.stringify(sample).slice(0, -1);
const withPart = (name: string, part: string): string => JSON.stringify({ ...sample, [name]: null }).replace(`"${name}":null`, `"${name}":${part}`);
const many = (n: number, each: (i: number) => string): string => Array.from({ length: n }, (_, i) => each(i)).join(',');

/** Milliseconds of the processor that reading takes; the promise of 3 s is for a machine that does nothing else. */
function reading(text: string) {
  const before = process.cpuUsage();
  const read = parseBook(text);
  const { user } = process.cpuUsage(before);
  if (long) expect(user / 1000).toBeLessThan(3000);
  if (read.ok) throw new Error('it was read');
  return read;
}

describe('a file that is made to be large or deep', () => {
  it.each([
    ['brackets that open and never close', `${start},"x":${'['.repeat(cases(3_000_000))}`, /nested more than 20 deep/],
    ['brackets inside a sound text', `${start},"x":${'['.repeat(cases(200_000))}${']'.repeat(cases(200_000))}}`, /nested more than 20 deep/],
    ['groups in groups', `${start},"x":${'{"a":'.repeat(cases(500_000))}`, /nested more than 20 deep/],
    ['a great many pages', withPart('pages', `[${many(MILLION, (i) => `{"id":"p${i}","title":"","blocks":[]}`)}]`), /Pages must be at most 500/],
    [
      'a great many pieces on a page',
      withPart('pages', `[{"id":"p","title":"","blocks":[${many(MILLION, (i) => `{"id":"b${i}","kind":"prose","text":""}`)}]}]`),
      /The book has [\d,]+ pieces on its pages; at most 20,000 are allowed/,
    ],
    ['a great many tables', withPart('tables', `[${many(MILLION, () => '{}')}]`), /Tables must be at most 500/],
    ['a great many names', withPart('names', `{${many(MILLION, (i) => `"n_${i}_x":"Brief.A1"`)}}`), /[\d,]+ names; at most 5,000/],
    ['more values than any book', withPart('pages', `[${'0,'.repeat(9_000_000)}0]`), /holds more than any book may/],
    ['a string that never ends', `${start},"x":"${'a'.repeat(cases(20_000_000))}`, /stops in the middle/],
    ['a string of escapes that never ends', `${start},"x":"${'\\"'.repeat(cases(8_000_000))}`, /stops in the middle/],
    ['a number that never ends', `${start},"x":${'1'.repeat(cases(8_000_000))}`, /can’t be read|stops in the middle/],
    ['blanks', `${start}${' '.repeat(cases(30_000_000))}`, /stops in the middle/],
    ['brackets that close and never opened', `${start}${'}'.repeat(cases(3_000_000))}`, /damaged/],
    ['a great many ids twice', withPart('tables', twice()), /have the same id/],
    ['a great many cells in no row', withPart('tables', nowhere()), /cells in a row .* that is not there/],
    ['cells that are all wrong', withPart('tables', nowhere('"content":7')), /content must be text, but is 7/],
  ])(
    'is refused in words: %s',
    (_, text, message) => {
      const { message: said, details } = reading(text);
      expect([said, ...details].join(' ')).toMatch(message);
    },
    120_000,
  );

  function twice(): string {
    const rows = many(20_000, (i) => `{"id":"r${i >> 1}"}`);
    return `[${many(cases(20), (t) => `{"id":"t${t}","name":"Table ${t} x","form":"plain","columns":[],"rows":[${rows}],"cells":{}}`)}]`;
  }
  function nowhere(content = '"content":"1"'): string {
    return `[{"id":"t","name":"T x","form":"plain","columns":[],"rows":[],"cells":{${many(cases(200_000), (i) => `"r${i}":{"c":{${content}}}`)}}}]`;
  }

  it('that is larger than any book is refused before any of it is read', () => {
    expect(reading(' '.repeat(200_000_001)).problem).toBe('too large');
  }, 60_000);

  it('is told from a book that is as large as a book may be, which is read', () => {
    const columns = Array.from({ length: 20 }, (_, i) => ({ id: `c${i}` }));
    const rows = Array.from({ length: BOUNDS.filledCells / 20 / 5 }, (_, i) => ({ id: `r${i}` }));
    const cells = Object.fromEntries(rows.map(({ id }, r) => [id, Object.fromEntries(columns.map((column, c) => [column.id, { content: String(r * c) }]))]));
    const book = { ...sample, tables: [...sample.tables, { id: 'large', name: 'Large', form: 'plain' as const, columns, rows, cells }] };
    const read = parseBook(formatBook(book));
    expect(read.ok && Object.keys(read.book.tables.at(-1)?.cells ?? {}).length).toBe(rows.length);
  }, 60_000);
});

describe('a book', () => {
  it('can be given no more pieces than one that is read may have', () => {
    const blocks = Array.from({ length: BOUNDS.blocks }, (_, i) => ({ id: `b${i}`, kind: 'prose' as const, text: '' }));
    const [page] = sample.pages;
    const full = { ...sample, pages: [{ id: page?.id ?? '', title: 'Full', blocks }] };
    expect(checkBook(full).ok).toBe(true);
    const added = addBlock(full, { page: page?.id ?? '', block: { kind: 'prose', text: 'x' } });
    expect(isRefused(added) && added.message).toBe('A book has at most 20,000 pieces on its pages.');
    expect(isRefused(addTable(full, { page: page?.id ?? '', name: 'One more', form: 'plain', rows: 1, columns: 1 }))).toBe(true);
  });
});

describe('keys that every object has', () => {
  const keys = ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty'];
  it.each(keys)('are refused wherever they stand, and nothing comes of them: %s', (key) => {
    const one = sample.tables[0];
    const [row = ''] = Object.keys(one?.cells ?? {});
    const [column = ''] = Object.keys(one?.cells[row] ?? {});
    const text = JSON.stringify(sample);
    const places = [
      text.replace(`"${row}":{"${column}":`, `"${key}":{"${column}":`),
      text.replace(`"${row}":{"${column}":`, `"${row}":{"${key}":`),
      text.replace(`"${row}":{"${column}":{`, `"${row}":{"${column}":{"${key}":"x",`),
      ...(key === 'prototype' ? [] : [text.replace('"names":{', `"names":{"${key}":"Brief.A1",`)]),
      text.replace('"cells":{', `"cells":{"${key}":{"${key}":7},`),
      text.replace('"cells":{', `"cells":{"${key}":null,`),
      text.replace('{"format"', `{"${key}":{"polluted":true},"format"`),
    ];
    const before = Object.getOwnPropertyNames(Object.prototype);
    for (const place of places) {
      expect(place).not.toBe(text);
      for (const file of [place, place.slice(0, -1)]) {
        const read = parseBook(file);
        expect(read.ok, file.slice(0, 80)).toBe(false);
        if (!read.ok && file === place && key !== 'prototype') expect(read.message).toContain(`“${key}”`);
      }
      expect(checkBook(JSON.parse(place)).ok).toBe(false);
    }
    expect(Object.getOwnPropertyNames(Object.prototype)).toEqual(before);
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });
});

describe('what the browser keeps of a large book', () => {
  it('is put together whatever it is, and then found to be no book: a table, a slice or a row that is another thing', () => {
    const cells = [['r1', { c: { content: '1' } }]];
    for (const tables of [[null], [7], ['x'], [undefined], [[]], [{ id: 't' }], [{ id: null }], [{}]]) {
      for (const slices of [
        { 't rows 0': [{ id: 'r1' }], 't cells 0': cells.flat() },
        { 't rows 0': null },
        { 't rows 0': [null], 't cells 0': 'x' },
        { 't cells 0': [{}, 1] },
      ]) {
        const whole = joined({ ...sample, tables }, new Map(Object.entries(slices)) as never);
        expect(checkBook(whole).ok).toBe(false);
        expect(JSON.stringify(whole)).toContain('"format":"overbench book"');
      }
    }
  });
});
