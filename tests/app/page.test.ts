/** What is on the page, for the eye, the ear, the finger and paper. */
import { readdir, readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { OF_COLOURS, useBrowser, violations } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

/** In the night all is the same but colours. */
async function judge(state: string, within = 'html'): Promise<void> {
  await page.emulateMedia({ colorScheme: 'light' });
  expect(await violations(page, { within }), state).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await violations(page, { within, only: OF_COLOURS }), `${state}, at night`).toEqual([]);
}

// Every page of the demo as it stands is judged by the gallery.
describe('where one begins', () => {
  it('has no violation that axe can find in the looks of day and night', async () => {
    page = await browser.visit();
    await page.getByRole('button', { name: /^Trade bench/ }).waitFor();
    await judge('where one begins');
    expect(browser.complaints).toEqual([]);
  });

  it('is not judged by an axe that sees nothing', async () => {
    page = await browser.visit();
    await page.getByRole('button', { name: /^Trade bench/ }).waitFor();
    await page.evaluate(() => {
      document.querySelector('main')?.insertAdjacentHTML('afterbegin', '<button></button><img src="data:,"><p style="color: #ccc; background: #fff">Faint</p>');
    });
    const found = await violations(page);
    expect(found.map((each) => each.replace(/:.*/s, '')).sort()).toEqual(['button-name', 'color-contrast', 'image-alt']);
  });
});

describe('the page of the scenarios', () => {
  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });

  it('has no violation that axe can find in the looks of day and night, and breaks its own policy nowhere', async () => {
    await page.locator('td[aria-label^="Fixture, B:"]').click();
    await page.keyboard.press('F2');
    await page.getByRole('listbox').waitFor();
    await judge('while a cell is written');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+k');
    await page.getByRole('dialog').waitFor();
    await judge('with the list of commands', 'dialog[open]');
    await page.keyboard.press('Escape');
    await judge('with a chosen cell');
    expect(browser.complaints).toEqual([]);
  });

  it('finds a command by another word for it', async () => {
    await page.keyboard.press('Control+k');
    await page.keyboard.type('history');
    await expect.poll(() => page.getByRole('dialog').getByRole('option').allTextContents()).toEqual(['What changed']);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'What changed', level: 2 }).waitFor();
  });

  it('goes to a value by its name from another page, and what is typed then is written there', async () => {
    await page.locator('td[aria-label^="Hours lit, B:"]').click();
    await page.keyboard.press('Control+k');
    await page.keyboard.type('history');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'What changed', level: 2 }).waitFor();
    await page.keyboard.press('Control+k');
    await page.keyboard.type('height');
    const options = page.getByRole('dialog').getByRole('option');
    await expect.poll(() => options.first().textContent()).toBe('Go to Mount height (Scenarios)');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Scenarios', level: 2, exact: true }).waitFor();
    await page.keyboard.type('0.52');
    await page.keyboard.press('Enter');
    await page.locator('td[aria-label^="Mount height, B: 0.52"]').waitFor();
    // What can't be done now is not unknown.
    await page.keyboard.press('Control+k');
    await page.keyboard.type('redo');
    await expect.poll(() => page.getByRole('dialog').getByRole('status').textContent()).toBe('');
    await page.getByRole('combobox', { name: 'Find a command' }).fill('goal');
    await expect.poll(() => page.getByRole('dialog').getByRole('status').textContent()).toBe('Not possible here and now: Work back from this value.');
    await page.keyboard.press('Escape');
    expect(browser.complaints).toEqual([]);
  });

  it('draws the light map with the extremes that the table gives', async () => {
    const spoken = async (row: string): Promise<number> =>
      Number(/: (\d+)/.exec((await page.locator(`td[aria-label^="${row}, A:"]`).getAttribute('aria-label')) ?? '')?.[1]);
    await page.locator('td[aria-label^="Dimmest point, maintained, A: "]').waitFor();
    const low = await spoken('Dimmest point, maintained');
    const large = page.locator('ob-picture:has(figure.light-map)');
    await page.locator('ob-picture').nth(1).scrollIntoViewIfNeeded();
    const map = large.locator('svg[aria-label^="Light map A"]');
    await map.waitFor();
    expect(await map.locator('text', { hasText: /^low/ }).textContent()).toBe(`low ${low}`);
    expect(await map.locator('.fixture').count()).toBe(18);
    expect(await map.locator('path[fill^="var(--map"]').count()).toBeGreaterThan(2);
    await expect.poll(() => large.locator('.mini').count()).toBe(2);
  });

  it('does not scroll aside for the thread to the margin, and keeps the words of what is put away in sight', async () => {
    await page.locator('td[aria-label^="Mount height, C:"]').click();
    for (const letter of ['D', 'E']) {
      await page.getByRole('button', { name: 'Add a scenario' }).click();
      await page.locator(`td[aria-label^="Mount height, ${letter}:"]`).click();
    }
    await page.locator('.tie').first().waitFor();
    const main = page.locator('main.page');
    expect(await main.evaluate((found) => found.scrollWidth - found.clientWidth)).toBe(0);
    const table = page.locator('ob-table .scroll').first();
    expect(await table.evaluate((found) => found.scrollWidth - found.clientWidth), 'five scenarios are wider than the page').toBeGreaterThan(50);
    await table.evaluate((found) => found.scrollTo(found.scrollWidth, 0));
    const words = page.locator('.fold button').first();
    const [box, room] = [await words.boundingBox(), await table.boundingBox()];
    expect(box?.x).toBeGreaterThanOrEqual(room?.x ?? Number.POSITIVE_INFINITY);
  });

  it('prints the page without the tool round it', async () => {
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.cover').isVisible()).toBe(false);
    expect(await page.locator('ob-working').isVisible()).toBe(false);
    expect(await page.locator('table.scenarios').isVisible()).toBe(true);
    expect(await page.getByText('a licensed electrician').last().isVisible()).toBe(true);
    const beyond = await page.evaluate(
      () => [...document.querySelectorAll('table.scenarios td')].filter((cell) => cell.getBoundingClientRect().right > innerWidth + 1).length,
    );
    expect(beyond).toBe(0);
  });
});

describe('by touch, 390 px wide', () => {
  it('shows the title and the purpose of every template, none cut off', async () => {
    const folder = new URL('../../templates/', import.meta.url);
    const files = (await readdir(folder)).filter((name) => name.endsWith('.json'));
    const books = await Promise.all(files.map(async (name) => JSON.parse(await readFile(new URL(name, folder), 'utf8'))));
    page = await browser.visit(TOUCH);
    await page.locator('.template').first().waitFor();
    const shown = await page.locator('.template').evaluateAll((items) =>
      items.map((item) => {
        const [title, purpose] = [...item.querySelectorAll<HTMLElement>('b, span')];
        const whole = [title, purpose].every((e) => {
          const range = document.createRange();
          range.selectNodeContents(e as HTMLElement);
          const box = range.getBoundingClientRect();
          const room = item.getBoundingClientRect();
          return box.width > 0 && box.left >= room.left && box.right <= Math.min(room.right, innerWidth) && box.top >= room.top && box.bottom <= room.bottom;
        });
        return { title: title?.textContent, purpose: purpose?.textContent, whole };
      }),
    );
    type Titled = { readonly title: string | undefined };
    const by = (a: Titled, b: Titled): number => (a.title ?? '').localeCompare(b.title ?? '');
    expect(shown.sort(by)).toEqual(books.map(({ title, purpose }) => ({ title, purpose, whole: true })).sort(by));
    expect(shown.length).toBeGreaterThan(1);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  });
});

describe('a book by touch, 390 px wide', () => {
  useDemo(
    browser,
    'Brief',
    (found) => {
      page = found;
    },
    TOUCH,
  );

  it('opens pages from the drawer, writes into a cell by tapping it twice, and raises the working from the foot', async () => {
    await page.getByRole('button', { name: 'Contents' }).tap();
    await page
      .locator('ob-contents')
      .getByRole('button', { name: /^Scenarios/ })
      .tap();
    await page.getByRole('heading', { name: 'Scenarios', level: 2, exact: true }).waitFor();
    const height = page.locator('td[aria-label^="Mount height, A:"]');
    await height.tap();
    await height.tap();
    await page.locator('.over.writing').waitFor();
    await page.keyboard.type('0.5');
    await page.keyboard.press('Enter');
    await page.locator('td[aria-label^="Mount height, A: 0.50"]').waitFor();
    const foot = page.locator('.working');
    const low = (await foot.boundingBox())?.height ?? 0;
    await page.getByRole('button', { name: /The working, raise it/ }).tap();
    await expect.poll(async () => (await foot.boundingBox())?.height ?? 0).toBeGreaterThan(low + 100);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    expect(await violations(page)).toEqual([]);
  });
});
