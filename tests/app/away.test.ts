/** What is half written when the page closes, and parts of the page that can't be fetched. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { goTo, openDemo, useBrowser } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

const told = (text: RegExp) => page.locator('.told', { hasText: text }).waitFor();
/** From a change on that is seen until it is saved, the page says that it is being saved. */
const saved = (tab = page) => tab.locator('.saved', { hasText: /^saved \d/ }).waitFor();
const height = () => page.locator('td[aria-label^="Mount height, B:"]');

describe('the page closes while something is half written', () => {
  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });

  it('a cell is gone on with where it stood, and is neither kept nor lost unasked', async () => {
    await height().click();
    await page.keyboard.type('0.4');
    await page.locator('.saved', { hasText: 'saved' }).waitFor();
    await page.reload();
    await told(/You were writing this when the page closed/);
    await expect.poll(() => page.locator('ob-table input:focus').inputValue()).toBe('0.4');
    await page.keyboard.type('5');
    await page.keyboard.press('Enter');
    await height().and(page.locator('[aria-label*="0.45 metres"]')).waitFor();
    await saved();
    await page.reload();
    await height().and(page.locator('[aria-label*="0.45 metres"]')).waitFor();
    await expect.poll(() => page.locator('ob-table .over.writing').count()).toBe(0);
  });

  it('a formula comes back in its editor, from the page where it stands', async () => {
    await height().click();
    await page.keyboard.type('=SUM(1 m, 2');
    await page.locator('.formula-here .cm-content').waitFor();
    await page.reload();
    await expect.poll(() => page.locator('.formula-here .cm-content').textContent()).toBe('=SUM(1 m, 2');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await height().and(page.locator('[aria-label*="0.40 metres"]')).waitFor();
  });

  it('a text is gone on with, an old one and a new one', async () => {
    await goTo(page, 'Brief');
    await page
      .getByRole('button', { name: /^Write:/ })
      .first()
      .click();
    const field = page.locator('ob-prose-writing textarea');
    await field.fill('Half a sentence');
    await page.reload();
    await told(/You were writing this when the page closed/);
    await expect.poll(() => field.inputValue()).toBe('Half a sentence');
    await page.locator('ob-prose-writing').getByRole('button', { name: 'Leave it as it was' }).click();
    await field.waitFor({ state: 'detached' });

    await page.keyboard.press('Control+k');
    await page.keyboard.type('add a text');
    await page.keyboard.press('Enter');
    await field.fill('Quite new');
    await page.reload();
    await expect.poll(() => field.inputValue()).toBe('Quite new');
    await field.press('Control+Enter');
    await page.locator('.prose', { hasText: 'Quite new' }).waitFor();
    await saved();
    await page.reload();
    await page.locator('.prose', { hasText: 'Quite new' }).waitFor();
    await expect.poll(() => field.count()).toBe(0);
  });
});

describe('another tab', () => {
  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });

  it('is not spoken of any more when it is gone', async () => {
    await saved();
    const other = await page.context().newPage();
    await other.goto(browser.address);
    await other.locator('main .trouble', { hasText: 'open in another tab too' }).waitFor();
    const word = page.locator('main .trouble', { hasText: 'open in another tab too' });
    await word.waitFor();
    await other.close({ runBeforeUnload: false });
    await word.waitFor({ state: 'detached' });
    // One that ends without a word is gone as well.
    const killed = await page.context().newPage();
    await killed.goto(browser.address);
    await word.waitFor();
    const asks = await page.context().newCDPSession(killed);
    // A page that has crashed answers nothing.
    asks.send('Page.crash').catch(() => {});
    await word.waitFor({ state: 'detached' });
    await killed.close();
  });
});

it('a book that another tab saved first goes on as another one, which is said, and the shelf tells them apart', async () => {
  page = await browser.visit();
  await openDemo(page);
  await saved();
  const title = (await page.title()).replace(/ · Overbench$/, '');
  const other = await page.context().newPage();
  await other.goto(browser.address);
  for (const [tab, typed] of [
    [other, '0.45'],
    [page, '0.5'],
  ] as const) {
    await goTo(tab, 'Scenarios');
    await tab.locator('td[aria-label^="Mount height, B:"]').click();
    await tab.keyboard.type(typed);
    await tab.keyboard.press('Enter');
    await tab.locator(`td[aria-label^="Mount height, B: ${typed}"]`).waitFor();
    if (tab === other) await saved(tab);
  }
  const trouble = page.locator('main .trouble', { hasText: 'Not saved. This book was saved in another tab' });
  await trouble.getByRole('button', { name: 'Keep this one as another book' }).click();
  await told(new RegExp(`This is now another book, “${title}, second copy”`));
  await expect.poll(() => page.title()).toBe(`${title}, second copy · Overbench`);
  await saved();
  await goTo(page, 'Scenarios');
  await height().and(page.locator('[aria-label*="0.50 metres"]')).waitFor();
  await page.evaluate(() => localStorage.clear());
  await page.reload();
  for (const name of [title, `${title}, second copy`]) await page.locator('main').getByText(name, { exact: true }).first().waitFor();
});

describe('the server is gone', () => {
  useDemo(browser, 'Brief', (found) => {
    page = found;
  });

  it.each(['Hand-over sheet', 'The functions'])('%s says so in words, and comes when it is there again', async (title) => {
    await page.waitForLoadState('networkidle');
    await page.context().setOffline(true);
    await goTo(page, title);
    const trouble = page.locator('main .trouble', { hasText: 'could not be fetched' });
    await trouble.waitFor();
    await trouble.getByRole('button', { name: 'Load the page again' }).click();
    await page.locator('main .trouble', { hasText: 'It still can not be fetched' }).waitFor();
    await page.context().setOffline(false);
    await page.getByRole('button', { name: 'Load the page again' }).click();
    await page
      .locator(title === 'The functions' ? 'section.function' : '.sheet-board')
      .first()
      .waitFor();
    await expect.poll(() => page.locator('main .trouble').count()).toBe(0);
  });
});

it('opening a book by keyboard puts the focus on its page', async () => {
  page = await browser.visit();
  await page.getByRole('button', { name: 'Open the demo' }).focus();
  await page.keyboard.press('Enter');
  await expect.poll(() => page.evaluate(() => document.activeElement?.closest('main') && document.activeElement.tagName)).toBe('H2');
});

describe('a change that is not saved yet', () => {
  it('is saved at once where one would leave, who is asked first and may stay', async () => {
    page = await browser.visit();
    await openDemo(page);
    await goTo(page, 'Scenarios');
    await saved();
    let asked = 0;
    page.on('dialog', async (dialog) => {
      if (dialog.type() === 'beforeunload') asked++;
      await dialog.dismiss();
    });
    await height().click();
    await page.keyboard.type('0.45');
    // The page's clock stands still, so that what is to be saved after a while is not saved before one would leave.
    await page.clock.install();
    await page.clock.pauseAt(Date.now() + 10_000);
    await page.keyboard.press('Enter');
    await height().and(page.locator('[aria-label*="0.45 metres"]')).waitFor();
    await expect.poll(() => page.locator('.saved').textContent()).toBe('saving …');
    await page.close({ runBeforeUnload: true });
    await expect.poll(() => asked).toBe(1);
    await page.clock.resume();
    await saved();
    // What is saved may be left unasked, and is there again.
    await page.reload();
    await height().and(page.locator('[aria-label*="0.45 metres"]')).waitFor();
    expect(asked).toBe(1);
  });
});
