/** One given of the demo, typed and read back. No calculation is waited for: what is tested is what happens to it before anything else does. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Session } from '../../src/session.ts';
import { goTo } from './browser.ts';

/** Where a machine has much else to do. */
const PATIENCE = 60_000;

/** What the open book has there; undefined while none is open. */
export const heightIn = (page: Page): Promise<string | undefined> =>
  page.evaluate(() => {
    const { session } = document.querySelector('ob-app') as unknown as { session?: Session };
    const table = session?.book.tables.find(({ name }) => name === 'Scenarios');
    const row = table?.rows.find(({ label }) => label === 'Mount height');
    return row && table?.cells[row.id]?.[table.columns[1]?.id ?? '']?.content;
  });

export const hasHeight = (page: Page, value: string): Promise<void> => expect.poll(() => heightIn(page), { timeout: PATIENCE }).toContain(value);

export async function typeHeight(page: Page, value: string): Promise<void> {
  await page.locator('td[aria-label^="Mount height, B:"]').click();
  await page.keyboard.type(value);
  await page.keyboard.press('Enter');
  await page.waitForFunction(
    (typed) => (document.querySelector('ob-app') as unknown as { session: Session }).session.history.done.at(-1)?.label.includes(typed),
    value,
    { polling: 5 },
  );
}

/** "saved": nothing of it is left to be done. */
export const isSaved = (page: Page): Promise<void> => page.locator('.saved', { hasText: /^saved/ }).waitFor();
export const isNotSaved = (page: Page): Promise<void> => page.locator('.saved', { hasText: 'not saved' }).waitFor();

/** From the first page to the demo's scenarios, saved. */
export async function openScenarios(page: Page): Promise<Page> {
  page.setDefaultTimeout(PATIENCE);
  await page.getByRole('button', { name: 'Open the demo' }).click();
  await isSaved(page);
  await goTo(page, 'Scenarios');
  return page;
}
