/** Places on the page: one writing, whichever they are written in. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { openFile, useBrowser } from './browser.ts';

const browser = useBrowser();
let page: Page;

beforeEach(async () => {
  page = await browser.visit();
  await openFile(page, JSON.parse(readFileSync('tests/book/places-3.json', 'utf8')) as object);
  await page.locator('ob-table').first().waitFor();
});
afterEach(async () => {
  await page.close();
  expect(browser.complaints.splice(0)).toEqual([]);
});

const cell = (row: string, column: string) => page.locator(`td[aria-label^="${row}, ${column}:"]`).first();
const editor = () => page.getByRole('textbox', { name: /^Formula for/ });

it('a book of version 3 is opened with its values, and what is called otherwise now is said', async () => {
  await page.locator('[role=alert], .told').filter({ hasText: 'The name rail.v24 is rail_v24_2 now: it reads as cell V24 of a table called rail.' }).waitFor();
  await expect.poll(() => cell('Volts', 'A').getAttribute('aria-label')).toMatch(/: 48/);
  await expect.poll(() => cell('From the map', 'B').getAttribute('aria-label')).toMatch(/: 15/);
});

it('a formula is marked while it is written in any writing, and is kept in ours', async () => {
  for (const [typed, kept] of [
    ["='Light map'!B2*2", "='Light map'.B2*2"],
    ["=[$'Light map'.B2]*2", "='Light map'.B2*2"],
    ['=SUM([.A1];Scenarios!A1)', '=SUM(A1,Scenarios.A1)'],
  ] as const) {
    await cell('Nothing is called so', 'A').click();
    await page.keyboard.type(typed);
    await editor().waitFor();
    await expect.poll(() => page.locator('.formula-slip .ref').count(), { message: typed }).toBeGreaterThan(0);
    await page.keyboard.press('Enter');
    await editor().waitFor({ state: 'detached' });
    await expect.poll(() => cell('Nothing is called so', 'A').getAttribute('aria-label')).toMatch(typed.startsWith('=SUM') ? /: 80/ : /: 16/);
    await cell('Nothing is called so', 'A').click();
    await page.keyboard.press('F2');
    await expect.poll(() => editor().textContent(), { message: typed }).toBe(kept);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
  }
});

it('a value in a text is shown while it is written in any writing, and is kept in ours', async () => {
  await page.locator('ob-prose .prose').first().dblclick();
  const field = () => page.locator('ob-prose-writing textarea');
  await field().fill('{{Scenarios!A2}} and {{[Scenarios.A3]}}');
  await expect.poll(() => page.locator('.as-it-stands .live').allTextContents()).toEqual([expect.stringMatching(/^80/), expect.stringMatching(/^9/)]);
  await field().press('Control+Enter');
  await field().waitFor({ state: 'detached' });
  await page.locator('ob-prose .prose').first().dblclick();
  await expect.poll(() => field().inputValue()).toBe('{{Scenarios.A2}} and {{Scenarios.A3}}');
});
