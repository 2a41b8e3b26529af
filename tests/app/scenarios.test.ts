/** Scenarios side by side: what is said of those that follow, one formula for all, worked or given, small maps of all, four of them, and the phone. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { resize, settled, useBrowser, violations } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;
const take = (found: Page): void => {
  page = found;
};

const cell = (name: string) => page.locator(`td[aria-label^="${name}"]`);
const told = () => page.locator('.told').textContent();
const maps = () => page.locator('.small-light-maps').getByRole('img', { name: /^Light map/ });

async function type(name: string, text: string): Promise<void> {
  await cell(name).click();
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
  await settled(page);
}

async function command(words: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type(words);
  await page.keyboard.press('Enter');
  await settled(page);
}

/** The whole number with which a cell's name goes on. */
const numberIn = async (name: string): Promise<number> => Math.round(Number(/: ([\d.,]+)/.exec((await cell(name).getAttribute('aria-label')) ?? '')?.[1]));

describe('scenarios side by side', () => {
  useDemo(browser, 'Scenarios', take);

  it('say which others a change also changes, and nothing where none follows', async () => {
    await type('Dimmed to, A:', '90');
    await expect.poll(told).toBe('Dimmed to, A: 90 percent. Also changes B, C.');
    await cell('Dimmed to, A:').click();
    await page.keyboard.press('Delete');
    await expect.poll(told).toBe('Dimmed to, A: 90 % → blank. Also changes B, C.');
    await type('Spread along, A:', '1.05');
    await expect.poll(told).toBe('Spread along, A: 1.05. Also changes B.');
    await type('Fixture, A:', 'Rail 90');
    await expect.poll(told).toMatch(/^Fixture, A: Rail 90\.$/);
  });

  it('take one formula into all of them with one key, after it is typed into a new row', async () => {
    await cell('Fuse of each run, A:').click();
    await command('put a row below');
    // What puts it there is fetched first; what is typed goes to the cell that is chosen.
    await expect.poll(() => page.locator('td[aria-selected=true]').first().getAttribute('aria-label')).not.toMatch(/^Fuse/);
    await page.keyboard.type('=A7*2');
    await page.keyboard.press('Enter');
    await expect.poll(told).toContain('Ctrl Shift F, or the menu of the row, puts the same formula into every scenario.');
    await page.keyboard.press('Control+Shift+f');
    await settled(page);
    const row = page.locator('table.scenarios tbody tr').nth(11).locator('td');
    await expect.poll(() => row.allTextContents()).toEqual([expect.stringContaining('0.6'), expect.stringContaining('0.8'), expect.stringContaining('1.2')]);
  });

  it('have a given that is worked, shown as that, kept as a value, and worked again', async () => {
    await type('Mount height, B:', '=B21');
    await cell('Mount height, B:').and(page.locator('[aria-label*=", worked"]')).waitFor();
    const reached = (await cell('Height that just reaches the low limit, B:').locator('.i').textContent()) ?? '?';
    expect(await cell('Mount height, B:').locator('.v').getAttribute('class')).toMatch(/\bw\b/);
    await cell('Mount height, B:').click();
    await command('keep the value');
    await cell('Mount height, B:').and(page.locator('[aria-label*=", given"]')).waitFor();
    expect(await cell('Mount height, B:').locator('.i').textContent()).toBe(reached);
    await command('work it out again');
    await cell('Mount height, B:').and(page.locator('[aria-label*=", worked"]')).waitFor();
  });

  it('show the light of each in a row of small maps under their verdicts, with the lowest point and the mean that the table has', async () => {
    await expect.poll(() => maps().count()).toBe(3);
    for (const [i, letter] of ['A', 'B', 'C'].entries()) {
      const [, low, mean] = /lowest (\d+), mean (\d+) µmol/.exec((await maps().nth(i).getAttribute('aria-label')) ?? '') ?? [];
      expect(Number(mean)).toBe(await numberIn(`Maintained mean PPFD, ${letter}:`));
      expect(Number(low)).toBe(await numberIn(`Dimmest point, maintained, ${letter}:`));
    }
    const tops = await page.evaluate(() => {
      const top = (selector: string) => document.querySelector(selector)?.getBoundingClientRect().top ?? 9999;
      const tags = [...document.querySelectorAll('ob-prose .live > .tag')].map((tag) => tag.getBoundingClientRect().bottom);
      return [Math.max(...tags), top('.small-light-maps'), top('table.scenarios')];
    });
    expect(tops).toEqual([...tops].sort((a, b) => a - b));
    expect(tops[2]).toBeLessThan(900);
    expect(await violations(page, { within: '.small-light-maps' })).toEqual([]);
  });

  it('are four at 1440 × 900 without scrolling aside, each number clear of its neighbours', async () => {
    await command('add a scenario');
    await expect.poll(() => maps().count()).toBe(4);
    const lies = await page.locator('table.scenarios').evaluate((table) => {
      const scroll = table.closest('.scroll') as HTMLElement;
      const over = [...table.querySelectorAll('.v')].filter((v) => {
        const [unit, difference] = ['.u', '.d'].map((part) => v.querySelector(part));
        const [u, d] = [unit, difference].map((part) => (part?.textContent ? part.getBoundingClientRect() : undefined));
        return u && d && u.right > d.left + 0.5 && u.top < d.bottom && d.top < u.bottom;
      });
      return { wide: scroll.scrollWidth - scroll.clientWidth, over: over.map((v) => v.textContent) };
    });
    expect(lies).toEqual({ wide: 0, over: [] });
    const [first, last] = await Promise.all([maps().first().boundingBox(), maps().last().boundingBox()]);
    expect(last?.y).toBe(first?.y);
  });
});

describe('scenarios on a phone', () => {
  useDemo(browser, 'Scenarios', take, TOUCH);

  it('stand one by one beside the one that they are compared with', async () => {
    await resize(page, { width: 390, height: 844 });
    const lies = await page.locator('table.scenarios').evaluate(async (table) => {
      const scroll = table.closest('.scroll') as HTMLElement;
      const at = (spot: string) => (table.querySelector(`[data-spot="${spot}"]`) as HTMLElement).getBoundingClientRect();
      const found = [];
      for (const column of [1, 2]) {
        scroll.scrollLeft = (column - 1) * 135;
        await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
        found.push({ base: at('13,0').right <= at(`13,${column}`).left + 1, seen: at('13,0').left >= 119 && at(`13,${column}`).right <= 391 });
      }
      return found;
    });
    expect(lies).toEqual([
      { base: true, seen: true },
      { base: true, seen: true },
    ]);
    // No unit lies over the next column.
    const beyond = await page.locator('table.scenarios tbody').evaluate((body) => {
      const units = [...body.querySelectorAll('td .u')].filter((unit) => unit.textContent !== '');
      return units
        .filter((unit) => unit.getBoundingClientRect().right > (unit.closest('td') as Element).getBoundingClientRect().right + 1)
        .map((unit) => unit.textContent);
    });
    expect(beyond).toEqual([]);
    await cell('Mount height, A:').click();
    // What is chosen of the base stays beside the other, and so does the input that lies over it.
    await expect.poll(() => page.locator('table.scenarios').evaluate((table) => (table.closest('.scroll') as HTMLElement).scrollLeft)).toBeGreaterThan(100);
    const [own, over] = await Promise.all([cell('Mount height, A:').boundingBox(), page.locator('.over').first().boundingBox()]);
    expect(Math.abs((over?.x ?? 0) - (own?.x ?? 999))).toBeLessThan(16);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    expect(browser.complaints).toEqual([]);
  });
});
