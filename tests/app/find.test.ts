/** Find and replace, and where what is found stands. */
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { resize, useBrowser, violations } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

const cell = (row: string, column: string): Locator => page.locator(`td[aria-label^="${row}, ${column}:"]`).first();

describe('find and replace', () => {
  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });

  it('counts, steps through and replaces everywhere as one step', async () => {
    await cell('Mount height', 'A').click();
    await page.keyboard.press('Control+f');
    const slip = page.getByRole('dialog', { name: 'Find and replace' });
    await slip.getByLabel('Find', { exact: true }).fill('Mount height');
    const status = slip.getByRole('status');
    await expect.poll(() => status.textContent()).toMatch(/^Found \d+ times in \d+ places|^Found once/);
    await page.keyboard.press('Enter');
    await expect.poll(() => status.textContent()).toMatch(/Place 1 of \d+/);
    await slip.getByLabel('New text').fill('Hanging height');
    expect(await violations(page, { within: 'dialog[open]' })).toEqual([]);
    await slip.getByRole('button', { name: 'Replace everywhere' }).click();
    await cell('Hanging height', 'A').waitFor();
    await page.keyboard.press('Escape');
    await slip.waitFor({ state: 'hidden' });
    await cell('Hanging height', 'A').waitFor();
    await page.keyboard.press('Control+z');
    await cell('Mount height', 'A').waitFor();
  });
});

describe('what is found', () => {
  useDemo(browser, 'Brief', (found) => {
    page = found;
  });

  it.each([1440, 1024, 390])('stands clear of the slip, and the keys stay in it, %i px wide', async (width) => {
    await resize(page, { width, height: width > 1024 ? 900 : 768 });
    await page.keyboard.press('Control+f');
    const slip = page.getByRole('dialog', { name: 'Find and replace' });
    // In a text of the first page, in a heading and in cells far down on another, and in a text there.
    await slip.getByLabel('Find', { exact: true }).fill('height');
    const seen: string[] = [];
    for (let place = 1; place <= 9; place++) {
      await page.keyboard.press('Enter');
      await expect.poll(() => slip.getByRole('status').textContent()).toContain(`Place ${place} of 9: `);
      await expect.poll(() => slip.getByRole('button', { name: 'Next' }).evaluate((button) => button === document.activeElement)).toBe(true);
      const said = (await slip.getByRole('status').textContent()) ?? '';
      seen.push(said.includes('a text on') ? 'text' : 'cell');
      if (said.includes('a text on')) continue;
      await expect
        .poll(() =>
          page.evaluate(() => {
            const [cell, slip, page] = ['.c.on', 'dialog[open]', 'main'].map((each) => document.querySelector(each)?.getBoundingClientRect() as DOMRect);
            const label = document.querySelector('tr.sel > th')?.getBoundingClientRect();
            return cell && slip && page && cell.top >= page.top && cell.bottom <= slip.top && cell.left >= (label?.right ?? 0) - 1;
          }),
        )
        .toBe(true);
    }
    expect(seen).toContain('text');
    expect(seen.filter((each) => each === 'cell').length).toBeGreaterThan(5);
  });
});
