/** The words explained: opened by a key, by the list, and from the margin at one of them. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { goTo, useBrowser, violations } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

useDemo(browser, 'Scenarios', (found) => {
  page = found;
});

const title = (): Promise<string | null> => page.locator('main h2.title').textContent();

describe('the page of words', () => {
  it('opens on F1, explains two dozen words, and breaks no rule for those who can’t see', async () => {
    await page.locator('td[aria-label^="Mount height, B:"]').click();
    await page.keyboard.press('F1');
    await expect.poll(title).toBe('Words');
    await expect.poll(() => page.locator('dl.glossary dt').count()).toBeGreaterThanOrEqual(24);
    expect(await page.locator('dl.glossary svg').count()).toBeGreaterThanOrEqual(6);
    expect(await violations(page)).toEqual([]);
    await page.locator('ob-glossary').getByRole('button', { name: 'Voltage drop', exact: true }).press('Enter');
    await expect.poll(() => page.locator('#word-drop').evaluate((dt) => document.activeElement === dt)).toBe(true);
  });

  it('is opened from the margin at the word that was asked for', async () => {
    await goTo(page, 'Scenarios');
    await page.locator('td[aria-label^="Maintained DLI, B:"]').click();
    await page.locator('ob-working').getByRole('button', { name: 'Maintained light', exact: true }).click();
    await expect.poll(title).toBe('Words');
    const here = page.locator('#word-maintained');
    await expect.poll(() => here.evaluate((dt) => document.activeElement === dt)).toBe(true);
    await expect
      .poll(() =>
        here.evaluate((dt) => {
          const { top, bottom } = dt.getBoundingClientRect();
          return top >= 0 && bottom <= innerHeight;
        }),
      )
      .toBe(true);
  });

  it('is no wider than a phone', async () => {
    const before = page.viewportSize();
    await page.keyboard.press('F1');
    await page.setViewportSize({ width: 390, height: 800 });
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    expect(await page.locator('dl.glossary').evaluate((dl) => dl.scrollWidth <= dl.clientWidth)).toBe(true);
    if (before) await page.setViewportSize(before);
  });
});
