/** A store that is full, taken, slow, gone or not to be had: what the page says then is true, and nothing is thrown away unasked. */
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { parseBook } from '../../src/files/book/book-file.ts';
import { goTo, textOf, useBrowser } from './browser.ts';
import { hasHeight, isNotSaved, isSaved, openScenarios, typeHeight } from './heights.ts';
import { holdStore } from './held.ts';

const browser = useBrowser();
let page: Page;

const stands = (value: string, tab = page) => hasHeight(tab, value);
const type = (value: string, tab = page) => typeHeight(tab, value);
const trouble = () => page.locator('main .trouble');
const slip = () => page.getByRole('dialog', { name: 'Not saved' });

async function begin(): Promise<void> {
  page = await openScenarios(await browser.visit());
}

/** Its clock stands, and goes on as it is told to. */
async function beginWithClock(): Promise<void> {
  page = await browser.visit();
  await page.clock.install();
  await page.reload();
  await openScenarios(page);
  await page.clock.pauseAt(Date.now() + 60_000);
}

/** The browser has no room for a save, or has room again: what it throws then is the same, whatever its disk holds. */
const room = (is: boolean): Promise<void> =>
  page.evaluate((hasRoom) => {
    const store = IDBObjectStore.prototype as IDBObjectStore & { whole?: IDBObjectStore['put'] };
    store.whole ??= store.put;
    const { whole } = store;
    store.put = function (...args) {
      if (!hasRoom) throw new DOMException('no room', 'QuotaExceededError');
      return whole.apply(this, args);
    };
  }, is);

async function full(): Promise<void> {
  await begin();
  await room(false);
  await type('0.61');
  await isNotSaved(page);
}

async function conflict(): Promise<void> {
  await begin();
  const other = await page.context().newPage();
  await other.goto(browser.address);
  await goTo(other, 'Scenarios');
  await type('0.45', other);
  await other.locator('.saved', { hasText: 'saving' }).waitFor({ state: 'detached' });
  await isSaved(other);
  await other.close();
  await type('0.61');
  await isNotSaved(page);
}

const toShelf = () => page.getByRole('button', { name: 'Books', exact: true }).click();

describe.each([
  ['a full store', full],
  ['a book saved in another tab', conflict],
])('not saved for %s', (_, make) => {
  it('the way to the shelf and bringing in another book ask first, hand over the file, and keep what is not saved', async () => {
    await make();
    await toShelf();
    await slip().waitFor();
    const [download] = await Promise.all([page.waitForEvent('download'), slip().getByRole('button', { name: 'Send out the book as a file' }).click()]);
    const sent = parseBook(await textOf(download));
    expect(sent.ok && JSON.stringify(sent.book)).toContain('0.61');
    await slip().getByRole('button', { name: 'Stay here' }).click();
    await stands('0.61');

    await toShelf();
    await slip().getByRole('button', { name: 'Go on without saving' }).click();
    const draft = page.getByRole('button', { name: /^Propagation bench.*not saved/ });
    await draft.click();
    await goTo(page, 'Scenarios');
    await stands('0.61');
    await isNotSaved(page);

    const text = await readFile('templates/trade-bench.json', 'utf8');
    const bring = async (): Promise<void> => {
      const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'Bring in' }).click()]);
      await chooser.setFiles({ name: 'another.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    };
    await bring();
    await slip().getByRole('button', { name: 'Stay here' }).click();
    await stands('0.61');
    await bring();
    await slip().getByRole('button', { name: 'Go on without saving' }).click();
    await page.getByRole('heading', { name: 'Trade bench', level: 1 }).waitFor();
    // The tab does not close unasked while it alone has what is not saved.
    let asked = 0;
    page.on('dialog', async (dialog) => {
      if (dialog.type() === 'beforeunload') asked++;
      await dialog.dismiss();
    });
    await page.close({ runBeforeUnload: true });
    await expect.poll(() => asked).toBe(1);
  }, 180_000);
});

it('opening the one that another tab saved asks first, and puts this one on the shelf', async () => {
  await conflict();
  await trouble().getByRole('button', { name: 'Open the one that was saved' }).click();
  await slip().getByRole('button', { name: 'Go on without saving' }).click();
  await stands('0.45');
  await toShelf();
  await page.getByRole('button', { name: /^Propagation bench.*not saved/ }).click();
  await goTo(page, 'Scenarios');
  await stands('0.61');
}, 180_000);

describe('a save that failed', () => {
  it('is tried again by itself once there is room', async () => {
    await full();
    await room(true);
    await isSaved(page);
    expect(await trouble().filter({ hasText: 'Not saved' }).count()).toBe(0);
    await page.reload();
    await stands('0.61');
  }, 180_000);

  it('is tried again by a button', async () => {
    await beginWithClock();
    await room(false);
    await type('0.61');
    await page.clock.runFor(1_000);
    await isNotSaved(page);
    await room(true);
    // The clock stands: by itself it is never tried again.
    await trouble().getByRole('button', { name: 'Try again' }).click();
    await isSaved(page);
  }, 180_000);

  it('is said within ten seconds where the store does not answer, and is saved once it does', async () => {
    await beginWithClock();
    const letGo = await holdStore(page);
    await type('0.61');
    await page.clock.runFor(1_000);
    await page.locator('.saved', { hasText: 'saving …' }).waitFor();
    await page.clock.runFor(9_000);
    await isNotSaved(page);
    await trouble().filter({ hasText: 'doesn’t answer' }).waitFor();
    await letGo();
    await page.clock.resume();
    await isSaved(page);
    await page.reload();
    await stands('0.61');
  }, 180_000);

  it('is none where the part that saves could not be fetched at first: it is fetched anew', async () => {
    page = await browser.visit();
    await page.getByRole('button', { name: 'Open the demo' }).waitFor();
    await page.waitForLoadState('networkidle');
    await page.route(/assets\/keeping-/, (route) => route.abort());
    await page.reload();
    await page.getByRole('button', { name: 'Open the demo' }).click();
    await trouble().filter({ hasText: 'could not be' }).waitFor();
    await page.unroute(/assets\/keeping-/);
    await openScenarios(page);
    await type('0.61');
    await page.locator('.saved', { hasText: 'saving' }).waitFor({ state: 'detached' });
    await isSaved(page);
    await page.reload();
    await stands('0.61');
  }, 180_000);
});

it('a change is on its way into the store within a second, however fast others follow', async () => {
  await beginWithClock();
  const revision = (): Promise<number> =>
    page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          const opening = indexedDB.open('overbench');
          opening.onsuccess = () => {
            const asked = opening.result.transaction('entries').objectStore('entries').getAll();
            asked.onsuccess = () => {
              opening.result.close();
              resolve(asked.result[0].revision);
            };
          };
        }),
    );
  for (let second = 0; second < 3; second++) {
    const before = await revision();
    for (let fifth = 0; fifth < 5; fifth++) {
      await page.evaluate(
        ([typed]) =>
          (document.querySelector('ob-app') as unknown as { session: { type(address: string, typed: string): Promise<unknown> } }).session.type(
            'Scenarios.B7',
            typed,
          ),
        [`0.${60 + 5 * second + fifth}`] as const,
      );
      await page.clock.runFor(200);
    }
    await expect.poll(revision).toBeGreaterThan(before);
  }
}, 180_000);

describe('the server is gone and the store is full', () => {
  it('everything is sent out all the same, and a part that can’t be fetched is not taken for a book that is kept', async () => {
    await full();
    // The numbers stand on the page before the server goes.
    await page.locator('ob-contents i', { hasText: /hold|assumed|look/ }).waitFor();
    await page.context().setOffline(true);
    for (const what of ['the book as a file', 'the scenarios as CSV, side by side', 'every cell as CSV, one a line']) {
      await page.getByText('Send out', { exact: true }).click();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page
          .getByRole('button', { name: `Send out ${what}` })
          .first()
          .click(),
      ]);
      expect(await textOf(download), what).toContain('0.61');
    }

    await goTo(page, 'The functions');
    const words = trouble().filter({ hasText: 'could not be fetched' });
    await words.waitFor();
    expect(await words.textContent()).not.toContain('is kept in this browser');
    expect(await words.textContent()).toContain('not saved');
  }, 180_000);
});

describe('a browser that lacks something', () => {
  it.each(['Worker', 'BroadcastChannel', 'locks'])(
    'opens, works out and saves a book without %s',
    async (name) => {
      page = await browser.visit();
      await page.addInitScript((what) => {
        if (what === 'locks') Object.defineProperty(navigator, 'locks', { value: undefined });
        else Reflect.deleteProperty(window, what);
      }, name);
      await page.reload();
      expect(await page.evaluate((what) => what in window && window[what as 'Worker'] !== undefined, name)).toBe(false);
      await openScenarios(page);
      await type('0.61');
      // It is worked out too.
      await page.locator('td[aria-label^="Mount height, B:"][aria-label*="0.61 metres"]').waitFor();
      await page.locator('ob-contents i', { hasText: /hold|assumed|look/ }).waitFor();
      await page.locator('.saved', { hasText: 'saving' }).waitFor({ state: 'detached' });
      await isSaved(page);
      await page.reload();
      await stands('0.61');
      await toShelf();
      // A second book gets an engine too.
      await page.getByRole('button', { name: 'Open the demo' }).click();
      await page.locator('ob-contents i', { hasText: /hold|assumed|look/ }).waitFor();
    },
    180_000,
  );
});

it('a store that was deleted is not called a newer version, nor its book thrown away in another tab', async () => {
  await begin();
  const other = await page.context().newPage();
  // A page of the same origin that has not the program in it.
  await other.goto(`${browser.address}nothing-here`);
  await other.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const deleting = indexedDB.deleteDatabase('overbench');
        deleting.onsuccess = () => resolve();
        deleting.onerror = () => resolve();
      }),
  );
  // What was saved is saved no longer, and that is said at once.
  await isNotSaved(page);
  await type('0.61');
  const not = trouble().filter({ hasText: 'Not saved.' });
  await not.filter({ hasText: 'the store was emptied or deleted' }).waitFor();
  expect(await not.textContent()).not.toMatch(/removed in another tab|newer version/);
  await not.getByRole('button', { name: 'Keep this one as another book' }).click();
  await isSaved(page);
  await page.reload();
  await stands('0.61');
}, 180_000);
