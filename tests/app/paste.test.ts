/** What is pasted from elsewhere: how it is read, where it lands and what it needs. */
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { goTo, settled, useBrowser, violations } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;
useDemo(browser, 'Scenarios', (found) => {
  page = found;
});

const cell = (row: string, column: string): Locator => page.locator(`td[aria-label^="${row}, ${column}:"]`).first();
const spoken = async (row: string, column: string): Promise<string> => (await cell(row, column).getAttribute('aria-label')) ?? '';

/** Puts a text down as if another program had copied it. */
const paste = (text: string): Promise<void> =>
  page.evaluate((copied) => {
    const data = new DataTransfer();
    data.setData('text/plain', copied);
    document.activeElement?.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
  }, text);

describe('a paste from elsewhere', () => {
  it('is shown as it will be read, with a decimal comma, before it lands', async () => {
    await cell('Mount height', 'A').click();
    await paste('0,45\t50 cm\t0,55');
    const slip = page.getByRole('dialog', { name: 'How it will be read' });
    await slip.waitFor();
    await expect
      .poll(() => slip.getByRole('listitem').allTextContents())
      .toEqual(['Mount height, A: “0,45” → 0.45 m', 'Mount height, C: “0,55” → 0.55 m', 'Mount height, B: “50 cm”, shown in cm, until now in m']);
    expect(await violations(page, { within: 'dialog[open]' })).toEqual([]);
    await slip.getByRole('button', { name: 'Put it down so' }).click();
    await cell('Mount height', 'B').and(page.locator('[aria-label*="50.00 centimetres"]')).waitFor();
    await page.keyboard.press('Control+z');
    await cell('Mount height', 'B').and(page.locator('[aria-label*="0.40 metres"]')).waitFor();
  });

  it('that goes beyond the edge offers the rows that it needs, and nothing is cut off', async () => {
    await goTo(page, 'Fixtures');
    const rows = page.locator('ob-table').first().locator('tbody tr');
    const before = await rows.count();
    const last = rows.last().locator('[role=gridcell]').first();
    await last.click();
    await paste('Rail 300\nRail 310\nRail 320');
    const slip = page.getByRole('dialog', { name: 'How it will be read' });
    await slip.getByText('2 rows beyond the edge').waitFor();
    await slip.getByRole('button', { name: 'Put it down and add 2 rows' }).click();
    await expect.poll(() => rows.count()).toBe(before + 2);
    await expect.poll(() => rows.last().locator('[role=gridcell]').first().textContent()).toBe('Rail 320');
    await page.keyboard.press('Control+z');
    await expect.poll(() => rows.count()).toBe(before);
  });
});

describe('a paste into a chosen block', () => {
  it('begins at its first cell, wherever the choice ended, and one value fills it', async () => {
    const below = await spoken('Supply', 'C');
    await cell('Mount height', 'B').click();
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowDown');
    await paste('0.45\t0.46\n90 %\t80 %');
    await cell('Mount height', 'B').and(page.locator('[aria-label*="0.45 metres"]')).waitFor();
    await cell('Mount height', 'C').and(page.locator('[aria-label*="0.46 metres"]')).waitFor();
    await cell('Dimmed to', 'B').and(page.locator('[aria-label*="90"]')).waitFor();
    await cell('Dimmed to', 'C').and(page.locator('[aria-label*="80"]')).waitFor();
    await settled(page);
    expect(await spoken('Supply', 'C')).toBe(below);

    await cell('Mount height', 'B').click();
    await page.keyboard.press('Shift+ArrowRight');
    await paste('0.52');
    await cell('Mount height', 'B').and(page.locator('[aria-label*="0.52 metres"]')).waitFor();
    await cell('Mount height', 'C').and(page.locator('[aria-label*="0.52 metres"]')).waitFor();
  });
});
