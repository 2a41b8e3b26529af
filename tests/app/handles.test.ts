/** The handles of the chosen row and column: where they stand, and that they hide nothing. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { goTo, resize, useBrowser } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

describe.each([
  ['a pointer', {}, [1440, 1024], 24],
  ['touch', TOUCH, [390, 1024], 44],
] as const)('the handles of the chosen row and column, by %s', (_, how, widths, size) => {
  useDemo(
    browser,
    'Scenarios',
    (found) => {
      page = found;
    },
    how,
  );

  it.each(widths)('cover no letter of a label, a heading or a cell, and are large enough to press, %i px wide', async (width) => {
    await resize(page, { width, height: 844 });
    for (const [title, spot] of [
      ['Scenarios', '3,0'],
      ['Fixtures', '2,0'],
      ['Fixtures', '2,1'],
    ] as const) {
      await goTo(page, title);
      await page.locator(`ob-table td[data-spot="${spot}"]`).first().click();
      await page.locator('.handle.of-row:not([hidden])').waitFor();
      await page.locator('.handle.of-column:not([hidden])').waitFor();
      const found = await page.evaluate(() => {
        const handles = [...document.querySelectorAll<HTMLElement>('.handle:not([hidden])')];
        const walk = document.createTreeWalker(document.querySelector('main') as HTMLElement, NodeFilter.SHOW_TEXT);
        const covered: string[] = [];
        for (let node = walk.nextNode(); node; node = walk.nextNode()) {
          if (node.parentElement?.closest('.handle') || node.textContent?.trim() === '') continue;
          const range = document.createRange();
          range.selectNodeContents(node);
          for (const text of range.getClientRects())
            for (const handle of handles) {
              const seen = (handle.firstElementChild as HTMLElement).getBoundingClientRect();
              // The line of a text is higher than its letters.
              const inset = text.height * 0.2;
              if (text.left < seen.right && text.right > seen.left && text.top + inset < seen.bottom && text.bottom - inset > seen.top && text.width > 1)
                covered.push(`${handle.ariaLabel}: ${node.textContent}`);
            }
        }
        return { covered, sizes: handles.map((handle) => Math.min(handle.offsetWidth, handle.offsetHeight)) };
      });
      expect(found, `${title} ${spot}`).toEqual({ covered: [], sizes: [size, size] });
    }
  });
});
