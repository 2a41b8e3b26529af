/** A book from beginning to end: opened, kept, opened again, sent out and brought in. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { parseBook } from '../../src/files/book/book-file.ts';
import { parseCsv } from '../../src/files/csv/csv.ts';
import { goTo, openDemo, textOf, useBrowser } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

const saved = (): Promise<void> => page.getByText(/^saved \d\d:\d\d$/).waitFor();

async function sentOut(label: string): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    (async () => {
      await page.getByText('Send out', { exact: true }).click();
      await page.getByRole('button', { name: label }).click();
    })(),
  ]);
  return textOf(download);
}

describe('a book', () => {
  it('opens again on the page, at the cell and with the changes where it was left', async () => {
    page = await browser.visit();
    await openDemo(page);
    await goTo(page, 'Scenarios');
    await page.locator('td[aria-label^="Mount height, B:"]').click();
    await page.keyboard.type('0.55');
    await page.keyboard.press('Enter');
    await page.locator('td[aria-label^="Mount height, B: 0.55"]').waitFor();
    await saved();
    await page.reload();
    await page.getByRole('heading', { name: 'Scenarios', level: 2, exact: true }).waitFor();
    await page.locator('td[aria-label^="Mount height, B: 0.55"]').waitFor();
    await expect.poll(() => page.locator('td[aria-selected=true]').first().getAttribute('aria-label')).toMatch(/^Dimmed to, B/);
    await goTo(page, 'What changed');
    await expect.poll(() => page.locator('.changes li').allTextContents()).toEqual([expect.stringMatching(/^Mount height, B: .* → 0\.55/)]);
    await page.keyboard.press('Control+z');
    await goTo(page, 'Scenarios');
    await page.locator('td[aria-label^="Mount height, B: 0.40"]').waitFor();
  });

  it('is begun from a template for a client and stands on the shelf', async () => {
    page = await browser.visit();
    await page.getByRole('button', { name: /^Trade bench/ }).waitFor();
    expect(await page.locator('.template b').first().textContent(), 'the one for most clients comes first').toBe('Trade bench');
    await page.getByRole('button', { name: /^Trade bench/ }).click();
    const begin = async (): Promise<void> => {
      await page.getByLabel('Client').fill('The night school');
      await page.getByLabel('Plan').fill('Cellar bench');
      await page.getByRole('button', { name: 'Begin', exact: true }).click();
      await page.getByRole('heading', { name: 'Cellar bench', level: 1 }).waitFor();
      await saved();
    };
    await begin();
    await page.getByRole('button', { name: 'Books', exact: true }).click();
    await page.getByRole('button', { name: /Cellar bench The night school/ }).click();
    await page.getByRole('heading', { name: 'Cellar bench', level: 1 }).waitFor();
    // Another of the same name is told from it by the version, the date and when it was saved.
    await page.keyboard.press('Control+k');
    await page.keyboard.type('version');
    await page.keyboard.press('Enter');
    await page.keyboard.type('2');
    await page.keyboard.press('Enter');
    await saved();
    await page.getByRole('button', { name: 'Books', exact: true }).click();
    await page.getByRole('button', { name: /^Trade bench/ }).click();
    await begin();
    await page.getByRole('button', { name: 'Books', exact: true }).click();
    const version = (n: number) => expect.stringMatching(new RegExp(`^version ${n} of \\d{4}-\\d\\d-\\d\\d, saved \\d\\d:\\d\\d$`));
    await expect.poll(() => page.locator('.shelf .spine i').allTextContents()).toEqual([version(1), version(2)]);
    await page.getByRole('button', { name: /^Throw away Cellar bench, version 2 of/ }).waitFor();
  });
});

describe('what stands in a book', () => {
  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });

  it('goes out as CSV with three scenarios side by side', async () => {
    const { records } = parseCsv(await sentOut('Send out the scenarios as CSV, side by side'));
    const heading = records.find((record) => record.includes('A') && record.includes('B'));
    expect(heading?.slice(-3)).toEqual(['A', 'B', 'C']);
    const mean = records.find((record) => record[0] === 'Maintained mean PPFD');
    expect(mean?.slice(-3).every((value) => Number(value) > 100 && Number(value) < 500)).toBe(true);
  });

  // What is left of the file that is cut short is opened in the place of the book: this comes last.
  it('goes out as a file that is whole and comes in again', async () => {
    const text = await sentOut('Send out the book as a file');
    const read = parseBook(text);
    expect(read.ok && read.book.title).toBe('Propagation bench');
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'Bring in' }).click()]);
    await chooser.setFiles({ name: 'plan.json', mimeType: 'application/json', buffer: Buffer.from(text.slice(0, text.length / 2)) });
    await expect.poll(() => page.locator('.told').textContent()).toMatch(/stops in the middle/);
  });
});
