import { describe, expect, it } from 'vitest';
import { CURRENT_VERSION } from '../../src/book/book.ts';
import { formatBook, parseBook } from '../../src/files/book/book-file.ts';
import { checksum } from '../../src/files/book/checksum.ts';
import { sample } from '../book/sample.ts';

const text = formatBook(sample);

function failing(file: string) {
  const read = parseBook(file);
  if (read.ok) throw new Error('it was read');
  return read;
}

describe('the book file', () => {
  it('gives back the book that was written', () => {
    expect(parseBook(text)).toEqual({ ok: true, book: sample });
  });

  it('is the same text when the book that was read is written again', () => {
    const read = parseBook(text);
    expect(read.ok && formatBook(read.book)).toBe(text);
  });

  it('reads a template, which has no checksum, with a byte order mark or without', () => {
    const template = JSON.stringify(sample);
    expect(parseBook(template).ok).toBe(true);
    expect(parseBook(`\uFEFF${template}`).ok).toBe(true);
  });

  it('does not mind another order of fields or other white space', () => {
    const { title, ...rest } = JSON.parse(text) as Record<string, unknown>;
    expect(parseBook(JSON.stringify({ ...rest, title })).ok).toBe(true);
  });

  it('says that an empty file is empty, and that a letter is no book', () => {
    expect(failing(' \n').problem).toBe('empty');
    expect(failing('Dear sir').problem).toBe('not a book');
    expect(failing('{"format":"something else"}').problem).toBe('not a book');
    expect(failing('[1,2]').problem).toBe('not a book');
  });

  it('says that a file was altered, and hands on what it holds', () => {
    const read = failing(text.replace('45 cm', '55 cm'));
    expect(read.problem).toBe('altered');
    expect(read.message).toMatch(/altered or damaged after it was saved/);
    expect(read.rescued?.tables[1]?.cells.h?.b?.content).toBe('55 cm');
  });

  it('says that a newer version wrote it', () => {
    const read = failing(text.replace(`"version": ${CURRENT_VERSION}`, '"version": 7'));
    expect(read.problem).toBe('newer');
    expect(read.message).toMatch(new RegExp(`version 7; this one reads up to ${CURRENT_VERSION}`));
  });

  it('says of a file cut in half how much of the book could be read', () => {
    const read = failing(text.slice(0, text.indexOf('139 EUR')));
    expect(read.problem).toBe('cut short');
    expect(read.message).toMatch(/^The file stops in the middle.*“Propagation bench”: 3 tables with \d+ cells, 2 pages\.$/s);
    expect(read.rescued?.tables.map((table) => table.name)).toEqual(['Brief', 'Scenarios', 'Fixture list']);
    expect(read.rescued?.tables[2]?.cells.f1?.price?.content).toBe('79 EUR');
  });

  it('never throws and never calls a file whole, wherever it is cut', () => {
    let rescued = 0;
    for (let end = 1; end < text.length - 2; end++) {
      const read = failing(text.slice(0, end));
      expect(read.message.length).toBeGreaterThan(10);
      if (read.rescued) rescued++;
      if (end > 40) expect(read.problem).toBe('cut short');
    }
    expect(rescued).toBeGreaterThan(text.length / 2);
  });

  it('tells damage in the middle from a missing end', () => {
    const at = text.indexOf('"tables"') + 400;
    const read = failing(`${text.slice(0, at)}\u0000\u0000%%%${text.slice(at + 5)}`);
    expect(read.problem).toBe('damaged');
    expect(read.message).toMatch(/from some place on it can’t be read/);
  });

  it('finds any one letter that was changed, or says what is wrong with the file', () => {
    for (let at = 30; at < text.length; at += 7) {
      const letter = text[at] === 'x' ? 'y' : 'x';
      if (/\s/.test(text[at] ?? ' ')) continue;
      const changed = `${text.slice(0, at)}${letter}${text.slice(at + 1)}`;
      expect(parseBook(changed).ok, `letter ${at}`).toBe(false);
    }
  });

  it('has the checksum that the standard gives for its check string', () => {
    // CRC-32, check value for "123456789": Williams, A Painless Guide to CRC Error Detection Algorithms, 1993; from memory.
    expect(checksum('123456789')).toBe('cbf43926');
  });
});
