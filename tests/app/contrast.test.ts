/** The page in the system's own few colours, where whatever is told by a background or a shadow alone is not seen. */
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { resize, useBrowser } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

useDemo(
  browser,
  'Scenarios',
  (found) => {
    page = found;
  },
  { forcedColors: 'active' },
);

it('shows the chosen cells, gaps between rows and whole tags', async () => {
  await page.locator('td[aria-label^="Along the bench, A:"]').click();
  await page.locator('td[aria-label^="Spread along, B:"]').click({ modifiers: ['Shift'] });
  const outlines = () => page.locator('.c.among:not(.on)').evaluateAll((cells) => cells.map((cell) => getComputedStyle(cell).outlineStyle));
  // Four rows of two scenarios, less the one the choice ends at, which has an outline of its own.
  await expect.poll(outlines).toEqual(Array(7).fill('dashed'));
  const drawn = await page.evaluate(() => {
    const canvas = getComputedStyle(document.body.appendChild(Object.assign(document.createElement('i'), { style: 'color: Canvas' }))).color;
    const gaps = [...document.querySelectorAll('tr.parted > *')].map((cell) => getComputedStyle(cell).borderTopColor === canvas);
    const tags = [...document.querySelectorAll('.prose .tag')].map((tag) => [getComputedStyle(tag).outlineStyle, getComputedStyle(tag).clipPath].join());
    return { gaps: [...new Set(gaps)], tags: [...new Set(tags)] };
  });
  expect(drawn).toEqual({ gaps: [true], tags: ['solid,none'] });
});

it('shows the button of the contents and the grip of the working on a narrow page', async () => {
  await resize(page, { width: 390, height: 844 });
  await page.locator('.drawer-button').waitFor();
  const drawn = await page.evaluate(() => {
    const fill = (of: string, part?: string) => getComputedStyle(document.querySelector(of) as Element, part).backgroundColor;
    return [fill('.drawer-button i'), fill('.grab', '::before')].map(
      (colour) => colour !== fill('body') && colour !== fill('.page') && !colour.startsWith('rgba'),
    );
  });
  expect(drawn).toEqual([true, true]);
});
