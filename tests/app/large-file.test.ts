/** Files of 60 MB, whatever is in them, are seen to be read, and refused or rescued in words. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { formatBook } from '../../src/files/book/book-file.ts';
import { sample } from '../book/sample.ts';
import { long } from '../cases.ts';
import { useBrowser } from './browser.ts';

const folder = mkdtempSync(join(tmpdir(), 'overbench-large-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const opened = useBrowser();
const SIZE = 60_000_000;
const start = JSON.stringify(sample).slice(0, -1);

it.each<[name: string, text: [head: string, piece: string, tail: string], message: RegExp]>([
  ['brackets', [`${start},"x":`, '[', ''], /nested more than 20 deep/],
  ['groups', [`${start},"x":[`, '{},', '{}]}'], /holds more than any book may/],
  ['letters', [`${start},"x":"`, 'a', ''], /stops in the middle/],
  ['something else', ['', 'Dear sir, ', ''], /not a book that Overbench has made/],
])(
  '60 MB of %s is said to be read, and then what came of it',
  async (name, [head, piece, tail], message) => {
    const page = await opened.visit();
    const picking = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Open a book file' }).click();
    // Seen by the page itself, whose thread is taken while the file is read.
    await page.evaluate(() => {
      const seen = { at: 0, said: '' };
      Object.assign(window, { seen, began: performance.now() });
      new MutationObserver(() => {
        const slip = document.querySelector('dialog[aria-label="Reading"]');
        if (slip && seen.at === 0) Object.assign(seen, { at: performance.now(), said: slip.textContent });
      }).observe(document.body, { childList: true });
    });
    // Made where it is read: on its way there such a file takes longer than all else.
    await (await picking).element().evaluate(
      (input, made) => {
        const files = new DataTransfer();
        files.items.add(new File([made.head, made.piece.repeat(Math.ceil(made.size / made.piece.length)), made.tail], made.name));
        (input as HTMLInputElement).files = files.files;
        input.dispatchEvent(new Event('change', { bubbles: true }));
      },
      { head, piece, tail, size: SIZE, name: `${name}.json` },
    );
    // What is cut short is rescued and told; what is no book is refused.
    await page.locator('[role=alert], .told').filter({ hasText: message }).waitFor({ timeout: 100_000 });
    const { at, said, began } = await page.evaluate(() => {
      const { seen, began } = window as unknown as { seen: { at: number; said: string }; began: number };
      return { ...seen, began };
    });
    expect(said).toMatch(new RegExp(`^Reading ${name}\\.json, 6\\d MB …$`));
    expect(at).toBeGreaterThan(began);
    if (long) expect(at - began).toBeLessThan(3000);
    expect(await page.locator('dialog[aria-label="Reading"]').count()).toBe(0);
  },
  120_000,
);

it('a small file opens as ever', async () => {
  const page = await opened.visit();
  const small = join(folder, 'small.json');
  writeFileSync(small, formatBook(sample));
  const picking = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open a book file' }).click();
  await (await picking).setFiles(small);
  await page.locator('ob-table').first().waitFor();
  expect(opened.complaints).toEqual([]);
});
