/** What was typed last, where the page ends in a way that asks nobody: closed, loaded anew, ended by the system, or with the whole browser. */
import type { Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import { goTo } from './browser.ts';
import { hasHeight, heightIn, isNotSaved, isSaved, openScenarios, typeHeight } from './heights.ts';
import { holdStore } from './held.ts';
import { RUNS, useKillable } from './killable.ts';

const browser = useKillable();
const SEED = 7;

/** Heights that differ from run to run and from the demo's own. */
const metres = (run: number): string => `0.${51 + ((run * SEED) % 40)}`;

/** A demo of its own, saved, with its scenarios on the page. */
async function begin(): Promise<Page> {
  const page = await browser.visit('nothing-here');
  await page.evaluate(() => localStorage.removeItem('overbench open'));
  await page.goto(browser.address);
  return openScenarios(page);
}

/** Where the book opens again that was open last. */
async function again(id?: string): Promise<Page> {
  const page = await browser.visit('nothing-here');
  // Which book was open last is no work of anybody's: a browser that is killed may not have it on its disk yet.
  if (id !== undefined) await page.evaluate((book) => localStorage.setItem('overbench open', book), id);
  await page.goto(browser.address);
  await page.locator('ob-contents').waitFor();
  return page;
}

async function lostOf(runs: number, end: (page: Page) => Promise<void>): Promise<string[]> {
  const lost: string[] = [];
  let page = await begin();
  const id = await page.evaluate(() => localStorage.getItem('overbench open') ?? undefined);
  for (let run = 0; run < runs; run++) {
    await goTo(page, 'Scenarios');
    await typeHeight(page, metres(run));
    await end(page);
    page = await again(id);
    const found = await heightIn(page);
    if (!found?.includes(metres(run))) lost.push(`run ${run}: ${metres(run)}, but ${found}`);
  }
  await page.close();
  console.log(`${expect.getState().currentTestName}: ${runs} runs, ${lost.length} lost`);
  return lost;
}

afterEach(() => browser.closePages());

describe('what stands on the page is there again', () => {
  const LONG = 60_000 + RUNS * 30_000;

  it(
    'where the tab is closed at once, without a question',
    async () => {
      expect(await lostOf(RUNS, (page) => page.close({ runBeforeUnload: false }))).toEqual([]);
    },
    LONG,
  );

  it(
    'where the page is loaded anew at once',
    async () => {
      expect(
        await lostOf(RUNS, async (page) => {
          page.on('dialog', (dialog) => dialog.accept());
          await page.reload();
          await page.close();
        }),
      ).toEqual([]);
    },
    LONG,
  );

  it(
    'where the system ends the tab at once',
    async () => {
      expect(await lostOf(RUNS, () => browser.killTabs())).toEqual([]);
    },
    LONG,
  );

  it(
    'where the whole browser is killed a tenth of a second later',
    async () => {
      expect(
        await lostOf(RUNS, async (page) => {
          await page.waitForTimeout(100);
          await browser.killAll();
        }),
      ).toEqual([]);
    },
    LONG,
  );

  it(
    'where it was said to be saved, and the whole browser is killed at that moment',
    async () => {
      expect(
        await lostOf(RUNS, async (page) => {
          await page.waitForFunction(() => /^saved \d/.test(document.querySelector('.saved')?.textContent ?? ''), undefined, { polling: 5 });
          await browser.killAll();
        }),
      ).toEqual([]);
    },
    LONG,
  );

  it('every one of a run of changes, steps of undo among them, and it says that they are in again', async () => {
    const first = await begin();
    // Nothing is saved meanwhile, however slow the machine.
    await holdStore(first);
    await typeHeight(first, '0.71');
    await typeHeight(first, '0.72');
    await first.keyboard.press('Control+z');
    await hasHeight(first, '0.71');
    await browser.killTabs();
    const page = await again();
    await page.locator('.told', { hasText: /3 changes made before this page closed/ }).waitFor();
    await hasHeight(page, '0.71');
    // What was undone can be made again, what was done taken back.
    await page.keyboard.press('Control+y');
    await hasHeight(page, '0.72');
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await hasHeight(page, '0.4');
    await isSaved(page);
  }, 180_000);

  it('and is no other tab’s while the page that it was typed into lives', async () => {
    const first = await begin();
    // Another tab saves first, so that what is typed here stays unsaved.
    const second = await again();
    await goTo(second, 'Scenarios');
    await typeHeight(second, '0.81');
    await second.locator('.saved', { hasText: 'saving' }).waitFor({ state: 'detached' });
    await isSaved(second);
    await second.close();
    await first.bringToFront();
    await typeHeight(first, '0.82');
    await isNotSaved(first);
    const third = await again();
    expect(await heightIn(third)).toContain('0.81');
    expect(await third.locator('.told').textContent()).not.toMatch(/in again|on the shelf/);
    // With its page gone it is a book of its own, and nothing of either is lost.
    await browser.killTabs();
    const last = await again();
    await last.locator('.told', { hasText: /on the shelf now, as “Propagation bench, \w+ copy”/ }).waitFor();
    expect(await heightIn(last)).toContain('0.81');
    await last.getByRole('button', { name: 'Books', exact: true }).click();
    await last
      .getByRole('button', { name: /Propagation bench, \w+ copy/ })
      .first()
      .click();
    await hasHeight(last, '0.82');
  }, 180_000);
});
