/** Rows that are put away, and what stands open again when a book is opened as it was left. */
import type { Page } from 'playwright-core';
import { afterEach, expect, it } from 'vitest';
import { goTo, openDemo, useBrowser } from './browser.ts';

const browser = useBrowser();
let page: Page;

afterEach(() => {
  expect(browser.complaints.splice(0)).toEqual([]);
});

const row = (label: string) => page.locator(`ob-table td[aria-label^="${label}, A:"]`);
const inSight = (label: string): Promise<number> => row(label).count();

/** Leaves the book and comes back to it as it was left. */
async function comeBack(): Promise<void> {
  await page
    .getByText(/^saved( \d\d:\d\d)?$/)
    .first()
    .waitFor();
  await page.reload();
  await page.getByRole('heading', { name: 'Scenarios', level: 2, exact: true }).waitFor();
  await row('Mount height').waitFor();
}

async function toScenarios(): Promise<void> {
  page = await browser.visit();
  await openDemo(page);
  await goTo(page, 'Scenarios');
  await row('Mount height').waitFor();
}

it('a group that was taken out stands open again on the next visit, and one that was put away again does not', async () => {
  await toScenarios();
  await expect.poll(() => inSight('Maintained as a share of full')).toBe(0);
  await page.getByRole('button', { name: /^\d+ more: day-one DLI/ }).click();
  await row('Maintained as a share of full').waitFor();
  await goTo(page, 'Costs');
  await goTo(page, 'Scenarios');
  await row('Maintained as a share of full').waitFor();
  await comeBack();
  await row('Maintained as a share of full').waitFor();
  await page.getByRole('button', { name: /^Put away: \d+ more: day-one DLI/ }).click();
  await expect.poll(() => inSight('Maintained as a share of full')).toBe(0);
  await comeBack();
  await expect.poll(() => inSight('Maintained as a share of full')).toBe(0);
});

it('a group that somebody makes longer than eight rows does not put itself away', async () => {
  await toScenarios();
  const rows = page.locator('ob-table table.scenarios').getByRole('row');
  const before = await rows.count();
  for (let i = 0; i < 3; i++) {
    await row('Cost of light').click();
    await page.keyboard.press('Control+k');
    await page.keyboard.type('put a row below');
    await page.keyboard.press('Enter');
    await expect.poll(() => rows.count()).toBeGreaterThanOrEqual(before + i + 1);
  }
  const shown = ['Cost to buy, all', 'Energy', 'Running cost', 'Cost a year, all in', 'Cost of light'];
  await row('Mount height').click();
  for (const label of shown) expect(await inSight(label), label).toBe(1);
  await comeBack();
  for (const label of shown) expect(await inSight(label), `${label}, on the next visit`).toBe(1);
});
