/** The handles of the chosen row and column: where they stand, and that they hide nothing. */
import { describe, expect, it } from 'vitest';
import { goTo, openDemo, useBrowser } from './browser.ts';

const browser = useBrowser();

describe('the handles of the chosen row and column', () => {
  it.each([
    [1440, false],
    [1024, false],
    [1024, true],
    [390, true],
  ])('cover no letter of a label, a heading or a cell, and are large enough to press, %i px wide, by touch: %s', async (width, hasTouch) => {
    const page = await browser.visit({ viewport: { width, height: 844 }, hasTouch, isMobile: hasTouch });
    await openDemo(page, width > 640);
    for (const [title, spot] of [
      ['Scenarios', '3,0'],
      ['Fixtures', '2,0'],
      ['Fixtures', '2,1'],
    ] as const) {
      if (width <= 640) await page.locator('.drawer-button').tap();
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
      expect(found, `${title} ${spot}`).toEqual({ covered: [], sizes: hasTouch ? [44, 44] : [24, 24] });
    }
  });
});
