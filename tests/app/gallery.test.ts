/**
 * Pictures of every page of the demo and of where one begins, in both looks and at three widths, in `dist/gallery` to be looked at (open its
 * index.html), and what can be judged without looking: nothing is wider than the window, axe finds nothing, the page complains of nothing.
 */
import { readFileSync } from 'node:fs';
import { mkdir, rm, writeFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { isRefused } from '../../src/book/refused.ts';
import { goTo, openDemo, openFile, settled, useBrowser, violations } from './browser.ts';

const FOLDER = 'dist/gallery';
const SIZES = [
  [1440, 900],
  [1024, 768],
  [390, 844],
] as const;
const LOOKS = ['dark', 'light'] as const;

const browser = useBrowser();
const shots: string[] = [];

beforeAll(async () => {
  await rm(FOLDER, { recursive: true, force: true });
  await mkdir(FOLDER, { recursive: true });
});
afterAll(async () => {
  const figures = shots.map((name) => `<figure><img src="${name}" alt=""><figcaption>${name}</figcaption></figure>`);
  await writeFile(`${FOLDER}/index.html`, `<!doctype html><meta charset="utf-8"><title>Overbench, page by page</title>${figures.join('\n')}\n`);
});

/** What is seen, in both looks. */
async function shoot(page: Page, title: string, width: number): Promise<void> {
  for (const look of LOOKS) {
    const name = `${title.toLowerCase().replaceAll(/[^a-z]+/g, '-')}-${width}-${look}`;
    await page.emulateMedia({ colorScheme: look });
    shots.push(`${name}.jpeg`);
    await page.screenshot({ path: `${FOLDER}/${name}.jpeg`, type: 'jpeg', quality: 85 });
    const wider = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(wider, `${name} is wider than its window`).toBeLessThanOrEqual(0);
  }
}

/** The contents stand in a drawer on a narrow page. */
async function open(page: Page, title: string): Promise<void> {
  const drawer = page.getByRole('button', { name: 'Contents', exact: true });
  if (await drawer.isVisible()) await drawer.click();
  await goTo(page, title);
  await page.waitForFunction(() => document.querySelectorAll('[aria-busy=true]').length === 0);
}

describe('the gallery', () => {
  it.each(SIZES)('at %i × %i, light and dark', async (width, height) => {
    const page = await browser.visit({ viewport: { width, height }, hasTouch: width < 500 });
    await page.getByRole('button', { name: /^Trade bench/ }).waitFor();
    await shoot(page, 'start', width);
    await openDemo(page, width > 500);
    const titles = await page.locator('ob-contents button > span').allTextContents();
    expect(titles.length).toBeGreaterThan(8);
    for (const title of titles) {
      await open(page, title);
      await shoot(page, title, width);
      // Other widths, states and the night look are judged by the tests of what stands there.
      if (width < 1440 || title === 'The functions') continue;
      await page.emulateMedia({ colorScheme: 'light' });
      expect(await violations(page), title).toEqual([]);
    }
    expect(browser.complaints).toEqual([]);
  });

  it.each(SIZES)('of a book in US customary at %i × %i', async (width, height) => {
    const page = await browser.visit({ viewport: { width, height }, hasTouch: width < 500 });
    await openFile(page, inCustomary());
    await page.locator('ob-contents i', { hasText: /hold/ }).waitFor({ state: 'attached' });
    await settled(page);
    for (const title of ['Brief', 'Scenarios', 'Supply', 'Fixtures', 'Hand-over sheet']) {
      await open(page, title);
      await shoot(page, `US customary ${title}`, width);
    }
    await expect.poll(() => page.locator('ob-handover').textContent()).toMatch(/′\s\d/);
    expect(browser.complaints).toEqual([]);
  });
});

/** The demo as somebody has it who measures in feet. */
function inCustomary(): Book {
  const book = JSON.parse(readFileSync(new URL('../../templates/trade-bench.json', import.meta.url), 'utf8')) as Book;
  const change = setMeasures(book, { measures: 'US customary' });
  if (isRefused(change)) throw new Error(change.message);
  return apply(book, change);
}
