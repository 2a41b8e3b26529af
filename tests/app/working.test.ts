/** The working in the margin: what it lists, how it folds, how it goes out as text and on paper. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { nextFrame, settled, useBrowser, violations } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

const cell = (row: string, column: string) => page.locator(`td[aria-label^="${row}, ${column}:"]`).first();

async function command(words: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type(words);
  await page.keyboard.press('Enter');
}

describe('the working of a value', () => {
  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });

  it('unfolds by the keyboard down to the one light that was chosen, stays so while the book changes, and goes out as text and on paper', async () => {
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await cell('Maintained mean PPFD', 'B').click();
    const working = page.locator('ob-working');
    const twig = working.getByRole('button', { name: 'What Day-one mean PPFD comes from', exact: true });
    // In words and in numbers: the two cells that its formula multiplies.
    await expect
      .poll(() => working.locator('.steps li').last().locator('.words').textContent())
      .toBe('Day-one mean PPFD × Light left after the years it must last');
    await twig.focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => twig.getAttribute('aria-expanded')).toBe('true');
    await working.locator('.from.in').getByRole('button', { name: 'Full mean PPFD', exact: true }).waitFor();
    await command('show one decimal more');
    await settled(page);
    expect(await twig.getAttribute('aria-expanded')).toBe('true');

    await working.getByRole('button', { name: 'Unfold to the givens' }).click();
    // Scenario B hangs Rail 90, which stands in the third row of Fixtures.
    await working.getByRole('button', { name: /^Fixtures, Rail 90: Output/ }).waitFor();
    expect(await working.textContent()).not.toMatch(/Rail 45|Tile 150/);
    expect(await violations(page, { within: 'ob-working' })).toEqual([]);

    await command('copy the working');
    const copied = () => page.evaluate(() => navigator.clipboard.readText());
    await expect.poll(copied).toMatch(/^Maintained mean PPFD, B = [\d.]+ µmol\/m²\/s {2}\(Scenarios\.B14, worked\)\n {4}/);
    const text = await copied();
    expect(text).toMatch(/^ +Rail 90, Output\b.* = 243 µmol\/s {2}\(Fixtures\.E3, given\)$/m);
    expect(text).toMatch(/^ +1\. Fixtures, row 2 of 11: Rail 90$/m);
    expect(text).toMatch(/^ +source: client$/m);
    expect(text).not.toMatch(/Fixtures\.E[24-9]/);

    await page.emulateMedia({ media: 'print' });
    expect(await working.isVisible()).toBe(false);
    await page.evaluate(() => {
      window.print = () => {};
    });
    await page.emulateMedia({ media: null });
    await command('put the working on paper');
    await page.emulateMedia({ media: 'print' });
    expect(await working.getByRole('button', { name: /^Fixtures, Rail 90: Output/ }).isVisible()).toBe(true);
    expect(await page.locator('main ob-page').isVisible()).toBe(false);
    expect(await page.locator('.print-foot').isVisible()).toBe(true);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    expect(await working.isVisible()).toBe(false);
    expect(await page.locator('main ob-page').isVisible()).toBe(true);
  });
});

describe('the working by touch, 390 px wide', () => {
  useDemo(
    browser,
    'Scenarios',
    (found) => {
      page = found;
    },
    TOUCH,
  );

  it('unfolds and folds, and nothing is wider than the screen', async () => {
    await cell('Maintained mean PPFD', 'A').tap();
    await page.locator('.grab').tap();
    const working = page.locator('ob-working');
    const twig = working.getByRole('button', { name: 'What Day-one mean PPFD comes from', exact: true });
    await twig.tap();
    await working.locator('.from.in').getByRole('button', { name: 'Full mean PPFD', exact: true }).waitFor();
    await working.getByRole('button', { name: 'Unfold to the givens' }).tap();
    await nextFrame(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    expect(await working.evaluate((it) => it.scrollWidth - it.clientWidth)).toBeLessThanOrEqual(0);
    await working.getByRole('button', { name: 'Fold up' }).tap();
    await expect.poll(() => twig.getAttribute('aria-expanded')).toBe('false');
  });
});
