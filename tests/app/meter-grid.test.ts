/** The places at which a meter reads, set on the page and by a paste. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { templateBook } from '../templates/open-template.ts';
import { changes, openFile, settled, useBrowser, violations } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;
useDemo(
  browser,
  'Readings',
  (found) => {
    page = found;
  },
  {
    open: async (start) => {
      await openFile(start, templateBook('meter-check'));
      await start.locator('ob-table').first().waitFor();
    },
  },
);

const cell = (name: string) => page.locator(`td[aria-label^="${name}:"]`).first();
const paste = (text: string): Promise<void> =>
  page.evaluate((copied) => {
    const data = new DataTransfer();
    data.setData('text/plain', copied);
    document.activeElement?.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
  }, text);
const block = (along: number, across: number): string =>
  Array.from({ length: across }, (_, r) => Array.from({ length: along }, (_x, c) => 12_000 + 100 * r + c).join('\t')).join('\n');
/** A picture is drawn while it is in sight. */
async function pictureShows(places: string): Promise<void> {
  await page.locator('ob-picture').first().scrollIntoViewIfNeeded();
  await page.locator(`ob-picture svg[aria-label*="${places}"]`).first().waitFor();
}

describe('where a meter reads', () => {
  it('is set under the readings: what is lost is told before, all tables and the picture follow, and one undo takes it back', async () => {
    await page.getByRole('button', { name: 'Set how many places the meter reads' }).click();
    const slip = page.getByRole('dialog', { name: 'Where the meter reads' });
    await slip.getByLabel('Places along the bench').fill('5');
    await slip.getByText('6 readings would be taken out, having no place there.').waitFor();
    expect(await violations(page, { within: 'dialog[open]' })).toEqual([]);
    await page.keyboard.press('Enter');
    await slip.waitFor({ state: 'hidden' });
    await settled(page);
    expect(await changes(page)).toBe(1);
    await pictureShows('5 places by 3 rows');
    expect(await page.locator('ob-table').getByText('no such cell').count()).toBe(0);
    expect(await page.locator('ob-table').getByText('Place 6').count()).toBe(0);
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Control+z');
    await pictureShows('6 places by 3 rows');
    expect(browser.complaints).toEqual([]);
  });

  it('goes by a block of readings that is pasted at the first place, where that is wished', async () => {
    await cell('Row 1, Place 1').click();
    await paste(block(5, 3));
    const slip = page.getByRole('dialog', { name: 'How it will be read' });
    await slip.getByText('The meter reads at 5 × 3 places instead of 6 × 3, 6 readings taken out.').waitFor();
    expect(await violations(page, { within: 'dialog[open]' })).toEqual([]);
    await slip.getByRole('button', { name: 'Read at 5 × 3 places, and put it down' }).click();
    await pictureShows('5 places by 3 rows');
    await cell('Row 3, Place 5').and(page.locator('[aria-label*="12,204"], [aria-label*="12204"]')).waitFor();
    expect(await changes(page)).toBe(1);
    // A larger one does not run into the column that says who read it.
    await cell('Row 1, Place 1').click();
    await paste(block(7, 4));
    await slip.getByRole('button', { name: 'Read at 7 × 4 places, and put it down' }).click();
    await cell('Row 4, Place 7').waitFor();
    await settled(page);
    expect(await page.locator('ob-table').first().getByText('measured by the client, lights on').count()).toBe(4);
    // One that is part of the places may stay that.
    await cell('Row 1, Place 1').click();
    await paste('11900\t11901\n11902\t11903');
    await slip.getByRole('button', { name: 'Put it down so' }).click();
    await pictureShows('7 places by 4 rows');
    expect(await changes(page)).toBe(3);
    expect(browser.complaints).toEqual([]);
  });
});
