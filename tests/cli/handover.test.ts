import { writeFileSync } from 'node:fs';
import { afterAll, expect, test } from 'vitest';
import { alone, desk, overbench } from './run.ts';

const files = desk();
const book = files.path('b.json');
afterAll(() => files.clear());

test('writes the hand-over sheet as one file, of the scenario and for the paper that are asked for', async () => {
  expect(await overbench(['new', 'trade-bench', '-o', book])).toMatchObject({ status: 0, err: '' });
  const out = files.path('sheet.html');
  expect(await overbench(['handover', book, '-o', out])).toEqual({ status: 0, out: '', err: '' });
  const sheet = files.read('sheet.html');
  expect(sheet).toMatch(/^<!doctype html>/);
  expect(sheet).toContain('Scenario B.');
  expect(sheet).toContain('size: A4;');
  expect(sheet).toContain('url(data:font/woff2;base64,');
  expect(sheet).toContain('.handover');
  expect(sheet).not.toMatch(/https?:|<script|<link|<img/);

  const other = await overbench(['handover', book, '--scenario', 'c', '--paper', 'letter']);
  expect(other).toMatchObject({ status: 0, err: '' });
  expect(other.out).toContain('This plan fails');
  expect(other.out).toContain('size: letter;');
});

test('a book is printed on the paper that goes with its measures, unless it names one or another is asked for', async () => {
  const read = JSON.parse(files.read('b.json')) as Record<string, unknown>;
  const us = (more: object) => {
    const { checksum: _, ...rest } = read;
    writeFileSync(files.path('us.json'), JSON.stringify({ ...rest, measures: 'US customary', ...more }));
    return files.path('us.json');
  };
  expect((await overbench(['handover', us({})])).out).toContain('size: letter;');
  expect((await overbench(['handover', us({ paper: 'A4' })])).out).toContain('size: A4;');
  expect((await overbench(['handover', us({}), '--paper', 'A4'])).out).toContain('size: A4;');
});

test('the same book gives the same sheet, to the byte, in another process too', async () => {
  expect((await overbench(['handover', book])).out).toBe(alone(['handover', book]).out);
});

test('says which scenarios and papers there are where another is asked for', async () => {
  expect(await overbench(['handover', book, '--scenario', 'Q'])).toMatchObject({
    status: 1,
    out: '',
    err: expect.stringMatching(/no scenario Q; there are: A, B, C/),
  });
  expect(await overbench(['handover', book, '--paper', 'A5'])).toMatchObject({
    status: 2,
    out: '',
    err: expect.stringMatching(/paper is A4 or letter, not A5/),
  });
  expect(await overbench(['handover'])).toMatchObject({ status: 2, err: expect.stringMatching(/a book is missing/) });
});
