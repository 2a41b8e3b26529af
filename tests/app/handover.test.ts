/** The hand-over sheet on the page: what is chosen for it, how it is printed, and how it goes out as a file. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { readPdf } from '../handover/pdf.ts';
import { goTo, resize, textOf, useBrowser, violations } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

/** Each time anew, as it is made where nothing is chosen for it yet. */
async function openSheet(): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type('hand-over sheet');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Light plan: Propagation bench' }).waitFor();
}

/** How each element of the sheet is dressed in print. */
async function looks(of: Page): Promise<readonly string[]> {
  await of.emulateMedia({ media: 'print' });
  return of.evaluate(() =>
    [...document.querySelectorAll('.handover, .handover *')].map((one) => {
      const style = getComputedStyle(one);
      const of = [
        'display',
        'fontSize',
        'fontFamily',
        'fontWeight',
        'lineHeight',
        'color',
        'fill',
        'stroke',
        'marginTop',
        'marginLeft',
        'paddingTop',
        'paddingLeft',
        'borderBottomWidth',
      ] as const;
      return `${one.tagName} ${one.getAttribute('class')}: ${of.map((name) => `${name} ${style[name]}`).join(', ')}`;
    }),
  );
}

describe('the hand-over sheet on the page', () => {
  useDemo(browser, 'Brief', (found) => {
    page = found;
  });

  // The sheet as it stands is judged by the gallery, with the page around it.
  it('is reached by its command, and follows a change of the book', async () => {
    await openSheet();
    const client = page.locator('.handover header');
    await expect.poll(() => client.textContent()).toContain('A school garden club');
    await goTo(page, 'Brief');
    await page.locator('td[aria-label^="Bench length:"], [aria-label^="Bench length:"]').first().click();
    await page.keyboard.type('4 m');
    await page.keyboard.press('Enter');
    await goTo(page, 'Hand-over sheet');
    await page.locator('.handover .plan tspan[data-cell]', { hasText: '4.00' }).waitFor();
    expect(browser.complaints).toEqual([]);
  });

  it('says first what fails in the scenario that is chosen', async () => {
    await openSheet();
    expect(await page.locator('.handover .verdict').textContent()).not.toContain('This plan fails');
    await page.getByLabel('Scenario').selectOption('C');
    await page.locator('.handover .verdict', { hasText: 'This plan fails' }).waitFor();
    await expect.poll(() => page.locator('.handover .verdict').textContent()).toContain('Evenness: fails, 56 % below the least');
  });

  it.each([
    ['A4', 595, 842],
    ['letter', 612, 792],
  ] as const)('prints on %s, without the rest of the page and without pictures made of dots', async (paper, width, height) => {
    await openSheet();
    await page.getByLabel('Paper').selectOption(paper);
    const pdf = readPdf(await page.pdf({ preferCSSPageSize: true }));
    expect(pdf.images).toBe(0);
    expect(pdf.texts).toBeGreaterThan(300);
    expect(pdf.pages).toBeGreaterThanOrEqual(5);
    // Letter is 6 % shorter between its margins than A4.
    expect(pdf.pages).toBeLessThanOrEqual(paper === 'A4' ? 9 : 10);
    for (const [w, h] of pdf.sizes) expect([Math.round(w), Math.round(h)]).toEqual([width, height]);
    await page.emulateMedia({ media: 'print' });
    for (const name of ['.cover', '.contents', '.working', '.sheet-acts', 'main > h2.title', '.print-foot'])
      await expect.poll(() => page.locator(name).first().isVisible(), { message: name }).toBe(false);
  });

  it('goes out as one file that says the same', async () => {
    await openSheet();
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Send out as a file' }).click()]);
    expect(download.suggestedFilename()).toMatch(/hand-over sheet\.html$/);
    const file = await textOf(download);
    expect(file).not.toMatch(/https?:|<script|<link/);
    const onPage = (await page.locator('.handover').textContent())?.replace(/\s+/g, ' ');
    const other = await page.context().newPage();
    await other.setContent(file);
    expect((await other.locator('.handover').textContent())?.replace(/\s+/g, ' ')).toBe(onPage);
    expect(await violations(other)).toEqual([]);
    // And on paper looks the same: no rule of the page around it reaches into the sheet.
    const [here, there] = await Promise.all([looks(page), looks(other)]);
    expect(here.length).toBeGreaterThan(1000);
    expect(here.filter((look, i) => look !== there[i])).toEqual([]);
    expect(here.length).toBe(there.length);
    await other.close();
  });

  it.each([1024, 390])('fits a window of %i px', async (width) => {
    await resize(page, { width, height: 844 });
    await openSheet();
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(width);
    const board = await page.locator('.sheet-board').evaluate((of) => of.scrollWidth - of.clientWidth);
    expect(board).toBe(0);
  });
});
