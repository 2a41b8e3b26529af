/** What is asked of the page is done in the order in which it was asked, however long a part of it takes. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { Session } from '../../src/session.ts';
import { goTo, openDemo, useBrowser } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

useDemo(browser, 'Scenarios', (found) => {
  page = found;
});

const cell = (name: string) => page.locator(`td[aria-label^="${name}"]`);

/** The engine hears nothing from now on, as where it is at work on something long; resolves with what lets it hear all of it. */
async function holdEngine(): Promise<() => Promise<void>> {
  await page.evaluate(() => {
    const held: (() => void)[] = [];
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (this: Worker, ...args: Parameters<typeof post>) {
      held.push(() => post.apply(this, args));
    } as typeof post;
    addEventListener(
      'engine hears again',
      () => {
        Worker.prototype.postMessage = post;
        for (const each of held) each();
      },
      { once: true },
    );
  });
  return () => page.evaluate(() => void dispatchEvent(new Event('engine hears again')));
}

async function command(words: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type(words);
  await page.keyboard.press('Enter');
}

const told = (): Promise<string | null> => page.locator('.told').textContent();

interface OpenApp extends HTMLElement {
  readonly session: Session;
}

/** The labels of what was done and of what was taken back. */
const history = () =>
  page.evaluate(() => {
    const { done, undone } = (document.querySelector('ob-app') as OpenApp).session.history;
    return { done: done.map(({ label }) => label), undone: undone.map(({ label }) => label) };
  });

async function typeInto(name: string, text: string): Promise<void> {
  await cell(name).click();
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

describe('taking back', () => {
  it('waits for what was typed before and is still being read, and takes that back, not an older change', async () => {
    await typeInto('Mount height, B:', '0.5 m');
    await cell('Mount height, B: 0.5').waitFor();
    const before = await cell('Mount height, C:').getAttribute('aria-label');
    const hearAgain = await holdEngine();
    await typeInto('Mount height, C:', '=0.2 m + 0.41 m');
    await page.keyboard.press('Control+z');
    await expect.poll(() => cell('Mount height, C:').textContent()).toContain('=0.2 m + 0.41 m');
    await cell('Mount height, B: 0.5').waitFor();
    await hearAgain();
    await expect.poll(() => told()).toMatch(/^Taken back: mount height, C/i);
    await cell(before ?? '').waitFor();
    await cell('Mount height, B: 0.5').waitFor();
    // The older change is the next to be taken back.
    await page.keyboard.press('Control+z');
    await cell('Mount height, B: 0.40').waitFor();
  });

  it('waits for a change whose part of the program is still being fetched, and so does what is typed meanwhile', async () => {
    page = await browser.visit();
    let goOn = (): void => {};
    const held = new Promise<void>((resolve) => {
      goOn = resolve;
    });
    await page.route(/reshaping-[^/]*\.js/, async (route) => {
      await held;
      await route.continue();
    });
    await openDemo(page);
    await goTo(page, 'Scenarios');
    const wait = page.waitForRequest(/reshaping-[^/]*\.js/);
    await typeInto('Mount height, B:', '0.5 m');
    await cell('Mount height, B: 0.5').waitFor();
    await cell('Mount height, B:').click();
    await command('same as A');
    await wait;
    await typeInto('Mount height, B:', '0.6 m');
    await page.keyboard.press('Control+z');
    goOn();
    await expect.poll(history).toEqual({ done: [expect.stringContaining('0.5 m'), expect.stringContaining('A')], undone: [expect.stringContaining('0.6 m')] });
    await cell('Mount height, B: 0.30').waitFor();
    await page.keyboard.press('Control+z');
    await cell('Mount height, B: 0.5').waitFor();
  });

  it('holds nobody up in the next book where its own is put away before what was typed is read', async () => {
    page = await browser.visit();
    await openDemo(page);
    await goTo(page, 'Scenarios');
    const hearAgain = await holdEngine();
    await typeInto('Mount height, C:', '=0.2 m + 0.41 m');
    await page.keyboard.press('Control+z');
    await command('other books');
    await page.getByRole('button', { name: 'Open the demo' }).waitFor();
    await hearAgain();
    await openDemo(page);
    await goTo(page, 'Scenarios');
    await cell('Mount height, B:').click();
    await command('put a row above');
    await expect.poll(told).toMatch(/put into Scenarios/);
    await page.keyboard.press('Control+z');
    await expect.poll(told).toMatch(/^Taken back: .*put into Scenarios/);
  });
});
