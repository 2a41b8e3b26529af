/** A table of thousands of rows, of which only what is near the view is on the page: moved about in, read aloud and written in like any other. */
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { atRest, openFile, useBrowser } from './browser.ts';

const ROWS = 3000;
const COLUMNS = 30;

/** A row of givens and at its end their sum; the labels of rows and columns say where one is. */
function largeBook(): object {
  const columns = Array.from({ length: COLUMNS }, (_, i) => ({ id: `c${i}`, label: i === COLUMNS - 1 ? 'Sum' : `Part ${i + 1}` }));
  const rows = Array.from({ length: ROWS }, (_, i) => ({ id: `r${i}`, label: `Lot ${i + 1}` }));
  const cells = Object.fromEntries(
    rows.map((row, r) => [
      row.id,
      Object.fromEntries(columns.map((column, c) => [column.id, { content: c === COLUMNS - 1 ? `=SUM(A${r + 1}:AC${r + 1})` : String(r + 1) }])),
    ]),
  );
  return {
    format: 'overbench book',
    version: 1,
    id: 'large',
    title: 'Lots',
    client: 'Nobody',
    currency: 'EUR',
    measures: 'metric',
    pages: [{ id: 'p', title: 'Lots', blocks: [{ id: 'b', kind: 'table', table: 'lots' }] }],
    tables: [{ id: 'lots', name: 'Lots', form: 'list', columns, rows, cells }],
    names: {},
  };
}

const browser = useBrowser();
let page: Page;

beforeAll(async () => {
  page = await browser.stay();
  await openFile(page, largeBook());
  await page.locator('[role=gridcell][aria-label^="Lot 1, Part 1: 1"]').waitFor();
});

const grid = () => page.getByRole('grid', { name: 'Lots' });
const cell = (row: string, column: string) => page.locator(`[role=gridcell][aria-label^="${row}, ${column}:"]`);
/** The cell that the focus points at, with its place in the grid as it is read aloud. */
const active = () =>
  page.locator('ob-table input:focus').evaluate((input) => {
    const found = document.getElementById(input.getAttribute('aria-activedescendant') ?? '');
    const box = found?.getBoundingClientRect();
    const frame = found?.closest('.scroll')?.getBoundingClientRect();
    return {
      name: found?.getAttribute('aria-label')?.replace(/:.*/, ''),
      row: Number(found?.closest('[role=row]')?.getAttribute('aria-rowindex')),
      column: Number(found?.getAttribute('aria-colindex')),
      inView:
        box !== undefined &&
        frame !== undefined &&
        box.top >= frame.top &&
        box.bottom <= frame.bottom + 1 &&
        box.left >= frame.left &&
        box.right <= frame.right + 1,
    };
  });

describe('a large table', () => {
  it('says how many rows and columns it has, and has few of them on the page', async () => {
    // The heading is a row, and the rows' labels are a column.
    expect(await grid().getAttribute('aria-rowcount')).toBe(String(ROWS + 1));
    expect(await grid().getAttribute('aria-colcount')).toBe(String(COLUMNS + 1));
    const cells = await page.locator('[role=gridcell]').count();
    expect(cells).toBeGreaterThan(100);
    expect(cells).toBeLessThan(1200);
  });

  it('is gone through to its last row by keyboard, whose place is told truly', async () => {
    await cell('Lot 2', 'Part 1').click();
    await expect.poll(active).toEqual({ name: 'Lot 2, Part 1', row: 3, column: 2, inView: true });
    await page.keyboard.press('Control+End');
    await expect.poll(active).toEqual({ name: `Lot ${ROWS}, Sum`, row: ROWS + 1, column: COLUMNS + 1, inView: true });
    await page.keyboard.press('Home');
    await expect.poll(active).toEqual({ name: `Lot ${ROWS}, Part 1`, row: ROWS + 1, column: 2, inView: true });
    await page.keyboard.press('PageUp');
    await expect.poll(active).toEqual({ name: `Lot ${ROWS - 12}, Part 1`, row: ROWS - 11, column: 2, inView: true });
    await page.keyboard.press('Control+ArrowDown');
    await expect.poll(active).toMatchObject({ name: `Lot ${ROWS}, Part 1`, inView: true });
  });

  it('is written in there, and gives what follows', async () => {
    await page.keyboard.type('5000');
    await page.keyboard.press('Enter');
    await cell(`Lot ${ROWS}`, 'Part 1').and(page.locator('[aria-label*=" 5000"]')).waitFor({ state: 'attached' });
    await page.keyboard.press('End');
    // 29 parts of 3000, of which one is 5000 now.
    // The whole book may still be at work: it has just been opened.
    await expect.poll(() => cell(`Lot ${ROWS}`, 'Sum').getAttribute('aria-label')).toMatch(/: 89000, worked/);
  });

  it('keeps the chosen cell on the page, wherever it is scrolled to, and the headings in sight', async () => {
    await page.locator('.large > .scroll').evaluate((scroll) => scroll.scrollTo({ top: 1200 * 24 }));
    await cell('Lot 1201', 'Part 29').waitFor();
    await expect.poll(active).toMatchObject({ name: `Lot ${ROWS}, Sum`, row: ROWS + 1 });
    const heading = page.getByRole('columnheader', { name: 'Part 29' });
    const [top, frame] = await Promise.all([heading.boundingBox(), page.locator('.large > .scroll').boundingBox()]);
    expect(Math.abs((top?.y ?? 0) - (frame?.y ?? 0))).toBeLessThan(4);
    await page.keyboard.press('ArrowUp');
    await expect.poll(active).toMatchObject({ name: `Lot ${ROWS - 1}, Sum`, inView: true });
  });

  it('keeps a formula that is being written in sight, and its next key brings back its cell', async () => {
    const scroll = page.locator('.large > .scroll');
    const slip = page.locator('.formula-slip');
    // Nothing that hangs on a cell far away makes the page longer.
    const isShort = () => page.locator('main').evaluate((main) => main.scrollHeight < 1000);
    const sight = async () => {
      const [box, frame] = [await slip.boundingBox(), await scroll.boundingBox()];
      return { slip: box !== null && frame !== null && box.y >= frame.y - 3 && box.y + box.height <= frame.y + frame.height, short: await isShort() };
    };
    await scroll.evaluate((element) => element.scrollTo({ top: 1000 * 24, left: 0 }));
    await cell('Lot 1010', 'Part 3').click();
    await page.keyboard.type('=B1');
    await slip.waitFor();
    for (const line of [0, 2500]) {
      await scroll.evaluate((element, top) => element.scrollTo({ top }), line * 24);
      await cell(`Lot ${line + 1}`, 'Part 2').waitFor();
      await expect.poll(sight).toEqual({ slip: true, short: true });
    }
    const home = () =>
      cell('Lot 1010', 'Part 3').evaluate((td) => {
        const [box, frame] = [td.getBoundingClientRect(), td.closest('.scroll')?.getBoundingClientRect() as DOMRect];
        return box.top >= frame.top && box.bottom <= frame.bottom;
      });
    expect(await home()).toBe(false);
    await page.keyboard.type('+1');
    await expect.poll(home).toBe(true);
    await page.keyboard.press('Escape');
    // Left, its cell may be scrolled away again, and what hangs on it is put away with it.
    await expect
      .poll(async () => {
        await scroll.evaluate((element) => element.scrollTo({ top: 0 }));
        return (await cell('Lot 1', 'Part 2').isVisible()) && (await isShort());
      })
      .toBe(true);
  });

  it('shows each number where its row and column are', async () => {
    await page.locator('.large > .scroll').evaluate((scroll) => scroll.scrollTo({ top: 500 * 24, left: 900 }));
    const one = cell('Lot 510', 'Part 10');
    await one.waitFor();
    const [box, head, frame] = await Promise.all([
      one.boundingBox(),
      page.getByRole('columnheader', { name: 'Part 10', exact: true }).boundingBox(),
      page.locator('.large > .scroll').boundingBox(),
    ]);
    // In its column, of which 7 px are free at its left and 3 at its right.
    expect(Math.abs((box?.x ?? 0) - (head?.x ?? 1e9) - 7)).toBeLessThan(1);
    expect(Math.abs((head?.width ?? 0) - (box?.width ?? 0) - 10)).toBeLessThan(1);
    // 34 px of headings, then nine rows of 24 px.
    expect(Math.abs((box?.y ?? 0) - (frame?.y ?? 0) - 34 - 9 * 24)).toBeLessThan(3);
    // Nothing lies over the heading.
    const seen = await page.evaluate(([x, y]) => document.elementFromPoint(x, y)?.closest('th')?.textContent?.trim(), [
      (head?.x ?? 0) + 40,
      (head?.y ?? 0) + 17,
    ] as const);
    expect(seen).toBe('Part 10');
    expect(browser.complaints).toEqual([]);
  });

  it('has its rows in order for whoever reads on from one to the next, once scrolling rests', async () => {
    const places = () =>
      grid()
        .locator('tbody [role=row]')
        .evaluateAll((rows) => rows.map((row) => Number(row.getAttribute('aria-rowindex'))));
    const scroll = page.locator('.large > .scroll');
    // Down, up, and far away: rows come in at the end, at the beginning, and all anew.
    for (const line of [500, 507, 515, 505, 480, 2000, 1990, 20]) {
      await scroll.evaluate((element, top) => element.scrollTo({ top }), line * 24);
      await expect.poll(places).toContain(line + 10);
      await expect
        .poll(async () => {
          const now = await places();
          return now.every((place, i) => i === 0 || place > (now[i - 1] ?? 0));
        })
        .toBe(true);
    }
    expect(browser.complaints).toEqual([]);
  });

  it('has every column in sight in every row while it is moved aside in small steps, and the same columns in all rows once that rests', async () => {
    const scroll = page.locator('.large > .scroll');
    await scroll.evaluate((element) => element.scrollTo({ top: 300 * 24, left: 0 }));
    await cell('Lot 310', 'Part 2').waitFor();
    const missing = await scroll.evaluate(async (element) => {
      const lacks: string[] = [];
      for (const step of [...Array<number>(60).fill(40), ...Array<number>(20).fill(-115)]) {
        element.scrollLeft += step;
        // What a frame shows is drawn by the end of its callbacks.
        await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
        const frame = element.getBoundingClientRect();
        const heads = [...element.querySelectorAll('thead th')].slice(1).flatMap((th, column) => {
          const { left, right } = th.getBoundingClientRect();
          return right > frame.left + 1 && left < frame.right - 1 ? [column] : [];
        });
        for (const row of element.querySelectorAll('tbody tr')) {
          const box = row.getBoundingClientRect();
          if (box.bottom < frame.top || box.top > frame.bottom) continue;
          const drawn = new Set([...row.querySelectorAll('td')].map((td) => Number(td.getAttribute('aria-colindex')) - 2));
          for (const column of heads) if (!drawn.has(column)) lacks.push(`${row.getAttribute('aria-rowindex')} ${column}`);
        }
      }
      return lacks;
    });
    expect(missing).toEqual([]);
    const sets = () =>
      grid()
        .locator('tbody [role=row]')
        .evaluateAll((rows) => new Set(rows.map((row) => [...row.querySelectorAll('td')].map((td) => td.getAttribute('aria-colindex')).join())).size);
    await expect.poll(sets).toBe(1);
  });

  it('draws only the rows that differ after an edit', async () => {
    await page.locator('.large > .scroll').evaluate((element) => element.scrollTo({ top: 0, left: 0 }));
    await cell('Lot 8', 'Part 1').click();
    await page.keyboard.type('77');
    // What the last choice brought with it is over.
    await atRest(page);
    await grid().evaluate((table) => {
      const rows = new Set<string>();
      Object.assign(window, { drawn: rows });
      const of = (node: Node) => (node instanceof Element ? node : node.parentElement)?.closest('tbody [role=row]')?.getAttribute('aria-rowindex');
      new MutationObserver((changes) => {
        for (const { target } of changes) {
          const row = of(target);
          if (row) rows.add(row);
        }
      }).observe(table, { subtree: true, attributes: true, childList: true, characterData: true });
    });
    await page.keyboard.press('Enter');
    await cell('Lot 8', 'Part 1').and(page.locator('[aria-label*=" 77"]')).waitFor();
    await expect.poll(async () => (await active()).name).toBe('Lot 9, Part 1');
    await atRest(page);
    const drawn = await page.evaluate(() => [...(window as unknown as { drawn: Set<string> }).drawn].sort((a, b) => Number(a) - Number(b)));
    // The heading is the first row: these are the lots 8 and 9.
    expect(drawn).toEqual(['9', '10']);
    expect(browser.complaints).toEqual([]);
  });
});

it('tells a difference anew when what is compared with changes out of sight', async () => {
  const other = await browser.visit();
  const columns = Array.from({ length: COLUMNS }, (_, i) => ({ id: `c${i}`, label: `Plan ${i + 1}` }));
  const rows = Array.from({ length: 250 }, (_, i) => ({ id: `r${i}`, label: `Lot ${i + 1}` }));
  // The third plan, with which all are compared, reads the last plan one row below.
  const cells = Object.fromEntries(
    rows.map(({ id }, r) => [
      id,
      Object.fromEntries(columns.map((column, c) => [column.id, { content: c === 2 && r === 0 ? '=AD2' : c === 28 ? '=5+5' : '10' }])),
    ]),
  );
  const lots = { id: 'lots', name: 'Lots', form: 'scenarios', base: 'c2', columns, rows, cells };
  await openFile(other, { ...largeBook(), id: 'compared', tables: [lots] });
  await other.locator('[role=gridcell][aria-label^="Lot 1, Plan 1: 10"]').waitFor();
  await other.locator('.large > .scroll').evaluate((frame) => {
    frame.scrollLeft = frame.scrollWidth;
  });
  const above = other.locator('[role=gridcell][aria-label^="Lot 1, Plan 29:"]');
  await expect.poll(() => above.getAttribute('aria-label')).toContain('the same as Plan 3');
  await other.locator('[role=gridcell][aria-label^="Lot 2, Plan 30:"]').click();
  await other.keyboard.type('20');
  await other.keyboard.press('Enter');
  await expect.poll(() => above.getAttribute('aria-label')).toMatch(/minus 50\s?% against Plan 3/);
  expect(await other.locator('[role=gridcell][aria-label^="Lot 1, Plan 3:"]').count()).toBe(0);
});
