/** Tables where room is scarce: beside long labels on a narrow page, in rows of one height, on paper. */
import type { Page } from 'playwright-core';
import { beforeEach, describe, expect, it } from 'vitest';
import { readPdf } from '../handover/pdf.ts';
import { goTo, openFile, resize, settled, useBrowser } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

const LONG = 'A label that is much too long for the one line that it has';
const rowsOf = (count: number) =>
  Array.from({ length: count }, (_, i) => ({ id: `r${i}`, label: i === 3 ? LONG : `Lot ${i + 1}`, parted: i === 4, strong: i === 5 }));

function table(id: string, form: string, count: number): unknown {
  const rows = rowsOf(count);
  const columns = ['First', 'Second'].map((label, i) => ({ id: `c${i}`, label }));
  const cells = Object.fromEntries(rows.map((row) => [row.id, { c0: { content: 'ash' }, c1: { content: 'birch' } }]));
  return { id, name: id, form, columns, rows, cells };
}

/** Fifteen columns, of which the last three hold sentences. */
function wideTable(): unknown {
  const columns = Array.from({ length: 15 }, (_, i) => ({ id: `c${i}`, label: i === 1 ? 'Second' : `Part ${i + 1}` }));
  const long = 'A sentence of several words that says who found it, where and when, and what it rests on';
  const words = ['lettuce', 'seedling', 'indoor', 'mains', 'birch'];
  const rows = words.map((_, r) => ({ id: `r${r}`, label: `Lot ${r + 1}` }));
  const text = (r: number, c: number) => (c > 11 ? long : c === 1 && r === 0 ? 'birch' : (words[(r + c) % words.length] ?? ''));
  const cells = Object.fromEntries(rows.map(({ id }, r) => [id, Object.fromEntries(columns.map((column, c) => [column.id, { content: text(r, c) }]))]));
  return { id: 'wide', name: 'wide', form: 'list', columns, rows, cells };
}

/** Tables by the page on which they stand. */
const TABLES: Readonly<Record<string, readonly unknown[]>> = {
  'A list': [table('lots', 'list', 8)],
  Plans: [table('plans', 'scenarios', 8)],
  'Two lists': [table('large', 'list', 260), table('small', 'list', 8)],
  'Many plans': [table('many', 'scenarios', 260)],
  'A wide list': [wideTable()],
};

/** One visit to a book of these tables, on the page with this title. */
function useTables(title: string): void {
  useDemo(
    browser,
    title,
    (found) => {
      page = found;
    },
    { open: openTables },
  );
  beforeEach(() => page.locator('[role=gridcell][aria-label^="Lot 1, Second: birch"]').first().waitFor());
}

async function openTables(visitor: Page): Promise<void> {
  const pages = Object.entries(TABLES).map(([title, tables], i) => {
    const blocks = (tables as { id: string }[]).map(({ id }) => ({ id: `b-${id}`, kind: 'table', table: id }));
    return { id: `p${i}`, title, blocks };
  });
  await openFile(visitor, {
    format: 'overbench book',
    version: 1,
    id: 'looks',
    title: 'Lots',
    client: 'Nobody',
    currency: 'EUR',
    measures: 'metric',
    pages,
    tables: Object.values(TABLES).flat(),
    names: {},
  });
}

/** px from where the heading of the second column begins to where the text under it does. */
const indent = (page: Page, name: string) =>
  page.getByRole('grid', { name }).evaluate((grid) => {
    const begin = (of: Element | null | undefined) => {
      const range = document.createRange();
      range.selectNodeContents(of as Element);
      return range.getBoundingClientRect().left;
    };
    const text = grid.querySelector('[aria-label^="Lot 1, Second"]');
    return begin(text?.querySelector('.x') ?? text) - begin(grid.querySelectorAll('thead .h')[1]);
  });

describe('a list', () => {
  useTables('A list');

  it('has columns that only grow while it is on the page, and fits them anew in a window of another width', async () => {
    const cell = page.locator('[role=gridcell][aria-label^="Lot 2, Second"]');
    const width = () => cell.evaluate((one) => one.getBoundingClientRect().width);
    await cell.click();
    await page.keyboard.type('sycamore, and as long as no other entry is');
    await page.keyboard.press('Enter');
    await page.locator('[aria-label^="Lot 2, Second: sycamore"]').waitFor();
    await settled(page);
    const wide = await width();
    await page.keyboard.press('Control+z');
    await page.locator('[aria-label^="Lot 2, Second: birch"]').waitFor();
    await settled(page);
    expect(await width()).toBe(wide);
    await resize(page, { width: 1200, height: 800 });
    await expect.poll(width).toBeLessThan(wide - 40);
  });
});

describe('what is written in', () => {
  useTables('Plans');

  it('lies over the chosen cell also in a window of another width', async () => {
    const cell = page.locator('[role=gridcell][aria-label^="Lot 2, Second"]');
    await cell.click();
    const apart = () =>
      page.locator('ob-table input:focus').evaluate((input) => {
        const [own, whole] = [input, document.querySelector('td.on')].map((one) => (one as Element).getBoundingClientRect());
        return Math.max(Math.abs((own?.left ?? 0) - (whole?.left ?? 1e9)), Math.abs((own?.right ?? 0) - (whole?.right ?? 1e9)));
      });
    const width = () => cell.evaluate((one) => one.getBoundingClientRect().width);
    await expect.poll(apart).toBeLessThan(12);
    const before = await width();
    await resize(page, { width: 1200, height: 800 });
    await expect.poll(width).toBeLessThan(before - 20);
    await expect.poll(apart).toBeLessThan(12);
  });
});

describe('a narrow page', () => {
  useDemo(
    browser,
    'Assumptions',
    (found) => {
      page = found;
    },
    TOUCH,
  );

  it.each([390, 320])('shows every value beside its label whole, %i px wide', async (width) => {
    await resize(page, { width, height: 844 });
    const shown = await page
      .locator('.plain .scroll')
      .first()
      .evaluate((frame) => {
        frame.scrollLeft = frame.scrollWidth;
        const room = frame.getBoundingClientRect();
        return [...frame.querySelectorAll('tbody tr')].map((row) => {
          const [label, value] = [row.querySelector('th'), row.querySelector('td')].map((cell) => cell?.getBoundingClientRect());
          return label !== undefined && value !== undefined && value.left >= label.right - 1 && value.right <= room.right + 1;
        });
      });
    expect(shown.length).toBeGreaterThan(10);
    expect(shown).not.toContain(false);
  });
});

describe('a text on a narrow page', () => {
  useDemo(
    browser,
    'Scenarios',
    (found) => {
      page = found;
    },
    TOUCH,
  );

  it.each([390, 320])('shows its verdicts whole, %i px wide', async (width) => {
    await resize(page, { width, height: 844 });
    const verdicts = page.locator('ob-prose .live:has(> .tag)');
    await expect.poll(() => verdicts.count()).toBe(3);
    const ends = await verdicts.evaluateAll((found) => found.flatMap((each) => [...each.getClientRects()].map(({ right }) => right)));
    expect(Math.max(...ends)).toBeLessThanOrEqual(width);
  });
});

describe('rows of one height', () => {
  useTables('Two lists');

  it('cut no text, have one line under a strong row, and begin their texts where small tables do', async () => {
    const rows = await page
      .getByRole('grid', { name: 'large' })
      .locator('tbody tr:is(.parted, .strong)')
      .evaluateAll((found) =>
        found.map((row) => {
          const [cell, label] = [row.querySelectorAll('td')[1], row.querySelector('th')] as HTMLElement[];
          const range = document.createRange();
          range.selectNodeContents(cell as HTMLElement);
          const [text, box] = [range.getBoundingClientRect(), row.getBoundingClientRect()];
          const lines = [row, label as HTMLElement].map((of) => getComputedStyle(of).borderBottomWidth);
          return {
            looks: row.className,
            within: text.top >= box.top && text.bottom <= box.bottom,
            gap: getComputedStyle(label as HTMLElement).borderTopWidth,
            lines,
          };
        }),
      );
    expect(rows).toEqual([
      { looks: 'parted', within: true, gap: '0px', lines: ['1px', '0px'] },
      { looks: 'strong', within: true, gap: '0px', lines: ['1px', '0px'] },
    ]);
    expect(await indent(page, 'large')).toBeCloseTo(await indent(page, 'small'), 0);
  });

  it('keep a long label of scenarios on its one line', async () => {
    await goTo(page, 'Many plans');
    const label = page.locator('tbody th', { hasText: LONG });
    const lines = await label.evaluate((th) => {
      const range = document.createRange();
      range.selectNodeContents(th.querySelector('.lab') as Element);
      return { lines: new Set([...range.getClientRects()].map(({ top }) => top)).size, cut: getComputedStyle(th).textOverflow };
    });
    expect(lines).toEqual({ lines: 1, cut: 'ellipsis' });
  });
});

describe('a wide list', () => {
  useTables('A wide list');

  it('shows at its right edge that there is more, until all has been scrolled to', async () => {
    await resize(page, { width: 1440, height: 900 });
    const mark = () => page.evaluate(() => getComputedStyle(document.querySelector('.frame') as Element, '::after').content);
    await expect.poll(mark).toBe('"›"');
    await page.locator('.frame > .scroll').evaluate((scroll) => {
      scroll.scrollLeft = scroll.scrollWidth;
    });
    await expect.poll(mark).toBe('none');
    await page.locator('.frame > .scroll').evaluate((scroll) => {
      scroll.scrollLeft = 0;
    });
    await expect.poll(mark).toBe('"›"');
    await page.emulateMedia({ media: 'print' });
    expect(await mark()).toBe('none');
    await page.emulateMedia({ media: 'screen' });
  });

  it('has on paper the short words of fifteen columns whole', async () => {
    await page.emulateMedia({ media: 'print' });
    // A4 across, less the margins: 269 mm.
    await resize(page, { width: 1017, height: 700 });
    const broken = await page.locator('.list :is(th, td)').evaluateAll((all) =>
      all.flatMap((one) => {
        const walk = document.createTreeWalker(one, NodeFilter.SHOW_TEXT);
        const found: string[] = [];
        for (let node = walk.nextNode(); node; node = walk.nextNode()) {
          for (const { 0: word, index } of (node.textContent ?? '').matchAll(/\S+/g)) {
            const range = document.createRange();
            range.setStart(node, index);
            range.setEnd(node, index + word.length);
            if (new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size > 1) found.push(word);
          }
        }
        return found;
      }),
    );
    expect(broken).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
  });
});

describe('on paper', () => {
  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });

  it('what is said of a scenario is wrapped, not cut', async () => {
    // A4 upright, less the margins, and many scenarios on it.
    for (const added of [false, true]) {
      if (added) {
        await page.getByRole('button', { name: 'Add a scenario' }).click();
        await page.locator('td[aria-label^="Mount height, D:"]').waitFor();
      }
      await page.emulateMedia({ media: 'print' });
      await resize(page, { width: 688, height: 1000 });
      const texts = await page.locator('.scenarios :is(.x, .ck, .m)').evaluateAll((all) =>
        all.map((one) => {
          const range = document.createRange();
          range.selectNodeContents(one);
          const [text, cell] = [range.getBoundingClientRect(), one.closest('td')?.getBoundingClientRect() as DOMRect];
          const style = getComputedStyle(one);
          const cut = style.overflow !== 'visible' && (one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1);
          return { text: one.textContent, cut: cut || text.right > cell.right + 1 || text.bottom > cell.bottom + 1 };
        }),
      );
      expect(texts.length).toBeGreaterThan(40);
      expect(texts.filter(({ cut }) => cut)).toEqual([]);
      await page.emulateMedia({ media: 'screen' });
      await resize(page, { width: 1440, height: 900 });
    }
  });

  it('every column of a wide list stands within the sheet, which lies across', async () => {
    await goTo(page, 'Crops');
    const pdf = readPdf(await page.pdf({ format: 'A4', preferCSSPageSize: true }));
    for (const [width, height] of pdf.sizes) expect(width).toBeGreaterThan(height);
    await page.emulateMedia({ media: 'print' });
    // A4 upright, less the margins: 182 mm at 96 px to the inch.
    await resize(page, { width: 688, height: 1000 });
    for (const title of ['Crops', 'Assumptions', 'Fixtures', 'Supplies']) {
      await page.emulateMedia({ media: 'screen' });
      await goTo(page, title);
      await page.emulateMedia({ media: 'print' });
      const cut = await page
        .locator('.list :is(th, td, .v, .x)')
        .evaluateAll((all) =>
          all.filter((one) => one.getBoundingClientRect().right > innerWidth || one.scrollWidth > one.clientWidth + 1).map((one) => one.textContent),
        );
      expect(cut, title).toEqual([]);
      const broken = await page.locator('.list .v.r').evaluateAll(
        (all) =>
          all.filter((one) => {
            const digits = [...one.childNodes].filter((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim());
            const lines = digits.flatMap((node) => {
              const range = document.createRange();
              range.selectNode(node);
              return [...range.getClientRects()].map(({ top }) => top);
            });
            return new Set(lines).size !== 1;
          }).length,
      );
      expect(broken, `numbers of ${title} on two lines`).toBe(0);
    }
  });
});
