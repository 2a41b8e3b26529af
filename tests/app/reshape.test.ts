/**
 * A plan for a client from nothing to the file that goes out, by keyboard alone and by touch; blocks of cells. All visitors have one clipboard
 * between them, and files are run side by side: whatever copies and cuts by key stands in this file, where one test comes after another.
 */
import type { Locator, Page } from 'playwright-core';
import { beforeEach, describe, expect, it } from 'vitest';
import { parseCsv } from '../../src/files/csv/csv.ts';
import { goTo, openFile, settled, textOf, useBrowser } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

const cell = (row: string, column: string): Locator => page.locator(`td[aria-label^="${row}, ${column}:"]`).first();
const spoken = async (row: string, column: string): Promise<string> => (await cell(row, column).getAttribute('aria-label')) ?? '';
const told = (): Promise<string | null> => page.locator('.told').textContent();
const chosen = async (): Promise<string> => (await page.locator('[role=gridcell].on').first().getAttribute('aria-label')) ?? '';

/** Tab, as often as it takes. */
async function tabTo(goal: Locator): Promise<void> {
  for (let i = 0; i < 80; i++) {
    if (await goal.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error('The Tab key does not lead there.');
}

/** A command, from the list of commands. */
async function command(words: string, label: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type(words);
  await page.getByRole('dialog', { name: 'Find a command' }).getByRole('option', { name: label, exact: false }).first().waitFor();
  await page.keyboard.press('Enter');
}

/** Arrow keys, until the chosen cell is this one. */
async function keyTo(name: string, key: string): Promise<void> {
  for (let i = 0; i < 60; i++) {
    if ((await chosen()).startsWith(name)) return;
    const before = await chosen();
    await page.keyboard.press(key);
    await expect.poll(chosen).not.toBe(before);
  }
  throw new Error(`${key} does not lead to ${name}.`);
}

async function writeIn(text: string, name: string): Promise<void> {
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
  await page.locator(`[role=gridcell][aria-label^="${name}"]`).first().waitFor();
}

describe('a plan by keyboard alone', () => {
  it('is begun, given its brief, a scenario and a verdict, undone and redone, given a row, and sent out', async () => {
    page = await browser.visit();
    await page.getByRole('button', { name: /^Trade bench/ }).waitFor();
    await tabTo(page.getByRole('button', { name: /^Trade bench/ }));
    await page.keyboard.press('Enter');
    await page.getByLabel('Client').waitFor();
    await tabTo(page.getByLabel('Client'));
    await page.keyboard.type('The night school');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Brief', level: 2 }).waitFor();

    await tabTo(page.locator('ob-table input').first());
    expect(await chosen()).toMatch(/^Bench length/);
    await writeIn('4 m', 'Bench length: 4.00 metres');
    await writeIn('2 m', 'Bench width: 2.00 metres');

    await command('go to scenarios', 'Go to Scenarios');
    await page.getByRole('heading', { name: 'Scenarios', level: 2, exact: true }).waitFor();
    await tabTo(page.locator('ob-table input').first());
    await command('add a scenario', 'Add a scenario');
    await cell('Fixture', 'D').waitFor();
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('End');
    await expect.poll(chosen).toMatch(/^Fixture, D: .*same as A/);
    await writeIn('Rail 90', 'Fixture, D: Rail 90, given, differs from A');
    await keyTo('Mount height, D', 'ArrowDown');
    await settled(page);
    const height = await spoken('Mount height', 'D');
    const higher = await spoken('Full mean PPFD', 'D');
    await writeIn('0.5', 'Mount height, D: 0.50 metres, given, differs from A');

    const verdict = async (): Promise<string> => (await page.locator('td[aria-label^="Verdict, D:"]').getAttribute('aria-label')) ?? '';
    await expect.poll(verdict).toMatch(/, D: (holds|close to limit|fails)/);
    await settled(page);
    const mean = await spoken('Full mean PPFD', 'D');
    expect(mean).toMatch(/: [1-9]/);
    expect(mean, 'what stands there is of the new height').not.toBe(higher);

    await page.keyboard.press('Control+z');
    await expect.poll(() => spoken('Mount height', 'D')).toBe(height);
    await page.keyboard.press('Control+z');
    await expect.poll(() => spoken('Fixture', 'D')).toMatch(/same as A/);
    await page.keyboard.press('Control+Shift+z');
    await page.keyboard.press('Control+Shift+z');
    await expect.poll(() => spoken('Mount height', 'D')).toMatch(/0\.50 metres/);
    await expect.poll(() => spoken('Full mean PPFD', 'D')).toBe(mean);

    await page.keyboard.press('Control+Home');
    await keyTo('Mount height, A', 'ArrowDown');
    const place = (): Promise<string | null> =>
      page
        .locator('tr', { has: cell('Mount height', 'A') })
        .locator('.n')
        .textContent();
    const before = Number(await place());
    await command('put a row above', 'Put a row above');
    await expect.poll(async () => Number(await place())).toBe(before + 1);
    // What is typed next belongs into the new row, not over the old one.
    await expect.poll(chosen).toMatch(/^row \d+, A: /);
    await expect.poll(() => spoken('Full mean PPFD', 'D')).toBe(mean);

    const download = page.waitForEvent('download');
    await command('side by side', 'Send out the scenarios as CSV');
    const { records } = parseCsv(await textOf(await download));
    expect(records.find((record) => record[0] === 'Mount height')?.slice(-4)).toEqual(['0.3', '0.4', '0.6', '0.5']);
    expect(browser.complaints).toEqual([]);
  });
});

describe('a block of cells', () => {
  const count = (): Promise<number> => page.locator('[role=gridcell][aria-selected=true]').count();

  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });
  beforeEach(() => page.context().grantPermissions(['clipboard-read', 'clipboard-write']));

  it('grows with Shift, takes whole rows, columns and tables, and is drawn with the pointer', async () => {
    await cell('Mount height', 'A').click();
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowDown');
    await expect.poll(count).toBe(4);
    expect(await spoken('Dimmed to', 'B')).toContain('Dimmed to, B');
    await page.keyboard.press('ArrowUp');
    await expect.poll(count).toBe(1);
    await page.keyboard.press('Shift+Space');
    await expect.poll(count).toBe(3);
    await page.keyboard.press('Control+Space');
    await expect.poll(count).toBeGreaterThan(100);
    await page.keyboard.press('ArrowRight');
    await cell('Mount height', 'A').click();
    await cell('Dimmed to', 'C').click({ modifiers: ['Shift'] });
    await expect.poll(count).toBe(6);
    await cell('Mount height', 'B').hover();
    await page.mouse.down();
    await cell('Dimmed to', 'C').hover();
    await page.mouse.up();
    await expect.poll(count).toBe(4);
  });

  it('is cleared as one step, worked cells staying until they are unlocked', async () => {
    await cell('Mount height', 'B').click();
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Delete');
    await expect.poll(told).toMatch(/^2 cells cleared/);
    await page.keyboard.press('Control+z');
    await cell('Mount height', 'B').and(page.locator('[aria-label*="0.40 metres"]')).waitFor();
    await cell('Full mean PPFD', 'B').click();
    await page.keyboard.press('Delete');
    await expect.poll(told).toMatch(/worked out and locked/);
    await command('unlock', 'Unlock the worked cell');
    await page.keyboard.press('Delete');
    await cell('Full mean PPFD', 'B').and(page.locator('[aria-label*="not answered yet"]')).waitFor();
  });

  it('is copied and pasted with its formulas re-based, and goes out as text', async () => {
    await cell('Mount height', 'B').click();
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Control+c');
    await expect.poll(() => page.evaluate(() => navigator.clipboard.readText())).toBe('0.4 m\n100 %');
    await cell('Mount height', 'C').click();
    await page.keyboard.press('Control+v');
    await cell('Mount height', 'C').and(page.locator('[aria-label*="0.40 metres"]')).waitFor();
  });

  it('is cut and moved as one step, pasted again as a copy; worked cells are refused aloud', async () => {
    await cell('Mount height', 'B').click();
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Control+x');
    await expect.poll(told).toBe('Cut: 2 cells go to where you paste. Until then nothing changes.');
    await expect.poll(() => spoken('Mount height', 'B')).toMatch(/0\.40 metres.*, cut$/);
    // The mark has a shape of its own at the corners, and goes with the cut: given up, or pasted.
    const marked = () => page.locator('td.cut').evaluateAll((cells) => cells.map((each) => getComputedStyle(each, '::after').borderStyle));
    await expect.poll(marked).toEqual(['solid', 'solid']);
    await page.keyboard.press('Escape');
    await expect.poll(told).toBe('What was cut stays where it is.');
    await expect.poll(marked).toEqual([]);
    await cell('Mount height', 'B').click();
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.press('Control+x');
    await expect.poll(marked).toHaveLength(2);
    await cell('Mount height', 'C').click();
    await page.keyboard.press('Control+v');
    await cell('Mount height', 'C').and(page.locator('[aria-label*="0.40 metres"]')).waitFor();
    await cell('Mount height', 'B').and(page.locator('[aria-label*="not answered yet"]')).waitFor();
    await expect.poll(told).toMatch(/^2 cells moved to Scenarios\.C7:C8/);
    await expect.poll(marked).toEqual([]);
    await cell('Mount height', 'A').click();
    await page.keyboard.press('Control+v');
    await cell('Mount height', 'A').and(page.locator('[aria-label*="0.40 metres"]')).waitFor();
    expect(await spoken('Mount height', 'C')).toMatch(/0\.40 metres/);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await cell('Mount height', 'C').and(page.locator('[aria-label*="0.60 metres"]')).waitFor();
    await cell('Mount height', 'B').and(page.locator('[aria-label*="0.40 metres"]')).waitFor();
    await cell('Full mean PPFD', 'B').click();
    await page.keyboard.press('Control+x');
    await expect.poll(told).toMatch(/^Full mean PPFD, B is worked out and locked: .* Nothing was cut\.$/);
  });

  it('that is cut is marked until it is given up, also where the table is large', async () => {
    const visitor = await browser.visit();
    const columns = ['Part 1', 'Part 2'].map((label, i) => ({ id: `c${i}`, label }));
    const rows = Array.from({ length: 3000 }, (_, i) => ({ id: `r${i}`, label: `Lot ${i + 1}` }));
    const cells = Object.fromEntries(rows.map(({ id }, r) => [id, { c0: { content: String(r) }, c1: { content: `=A${r + 1}` } }]));
    const table = { id: 'lots', name: 'Lots', form: 'list', columns, rows, cells };
    const pages = [{ id: 'p', title: 'Lots', blocks: [{ id: 'b', kind: 'table', table: 'lots' }] }];
    const book = { id: 'large', title: 'Lots', client: 'Nobody', currency: 'EUR', measures: 'metric', pages, tables: [table], names: {} };
    await openFile(visitor, { format: 'overbench book', version: 1, ...book });
    await visitor.locator('.large > .scroll').waitFor();
    const lot = visitor.locator('[role=gridcell][aria-label^="Lot 6, Part 1:"]');
    await lot.click();
    await visitor.keyboard.press('Control+x');
    await expect.poll(() => lot.getAttribute('aria-label')).toMatch(/, cut$/);
    await visitor.keyboard.press('Escape');
    await expect.poll(() => lot.getAttribute('aria-label')).not.toMatch(/, cut$/);
  });
});

describe('rows put into another order', () => {
  it('leave the working of the chosen cell complete, though no value differs', async () => {
    page = await browser.visit();
    await page.getByRole('button', { name: /^Greenhouse bench/ }).click();
    await page.getByLabel('Client').fill('The night school');
    await page.getByRole('button', { name: 'Begin', exact: true }).click();
    await page.getByRole('heading', { name: 'Brief', level: 2 }).waitFor();
    await goTo(page, 'Sun by month');
    await cell('January', 'Clearness').click();
    const working = (): Promise<string | null> => page.locator('ob-working').textContent();
    await expect.poll(working).toMatch(/Months, row 2[\s\S]*Feeds[\s\S]*January, Clearness used/);
    await command('greatest first', 'Put the rows in order of this column, greatest first');
    await expect.poll(working).toMatch(/Months, row 12[\s\S]*Feeds[\s\S]*January, Clearness used/);
  });
});

describe('by touch, 390 px wide', () => {
  /** What is to be pressed under the notice that is shown. */
  const underNotice = (): Promise<readonly string[]> =>
    page.evaluate(() => {
      const { left, right, top, bottom } = document.querySelector('.told')?.getBoundingClientRect() ?? new DOMRect();
      const found = new Set<string>();
      for (let x = left; x <= right; x += 6) {
        for (let y = top; y <= bottom; y += 6) {
          const button = document.elementFromPoint(x, y)?.closest('button, summary');
          if (button) found.add(button.textContent ?? '');
        }
      }
      return [...found];
    });
  const drawer = async (): Promise<void> => page.getByRole('button', { name: 'Contents', exact: true }).tap();
  const inDrawer = (name: string): Locator => page.locator('.drawer-acts').getByRole('button', { name });

  /** A given is opened by a second tap, written with the keyboard of the screen and kept by its button. */
  async function writeByTouch(at: Locator, text: string, name: string): Promise<void> {
    await at.tap();
    await at.tap();
    await page.locator('.over.writing').waitFor();
    await page.keyboard.press('Control+a');
    await page.keyboard.type(text);
    await page.getByRole('button', { name: 'Keep', exact: true }).tap();
    await page.locator(`td[aria-label^="${name}"]`).waitFor({ state: 'attached' });
  }

  describe('in the demo', () => {
    useDemo(
      browser,
      'Scenarios',
      (found) => {
        page = found;
      },
      TOUCH,
    );

    it('has the slip under a cell on the page, wherever the cell lies', async () => {
      for (const column of ['A', 'B', 'C']) {
        await cell('Mount height', column).tap();
        await cell('Mount height', column).tap();
        const slip = page.locator('.under > .slip');
        await slip.waitFor();
        const box = await slip.boundingBox();
        expect([column, (box?.x ?? -1) >= 0, (box?.x ?? 0) + (box?.width ?? 400) <= 390]).toEqual([column, true, true]);
        await page.getByRole('button', { name: 'Leave', exact: true }).tap();
      }
    });

    it('copies with formulas, moves what was cut, and says where the browser does not let it', async () => {
      const byHandle = async (row: string, column: string, what: string): Promise<void> => {
        // A tap on the cell that is chosen would open it for writing.
        await cell('Fixture', 'C').tap();
        await cell(row, column).tap();
        await page.getByRole('button', { name: `What can be done with the row ${row}` }).tap();
        await page.getByRole('menuitem', { name: what }).tap();
      };
      await byHandle('Mount height', 'B', 'Copy what is chosen');
      await expect.poll(told).toMatch(/does not let this page put anything/);

      await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
      await writeByTouch(cell('Mount height', 'A'), '=0.2 m+20 cm', 'Mount height, A: 0.40 metres');
      await byHandle('Mount height', 'A', 'Copy what is chosen');
      await expect.poll(told).toMatch(/^Copied\./);
      await byHandle('Mount height', 'B', 'Paste what was copied');
      await expect.poll(() => spoken('Mount height', 'B')).toMatch(/: 0\.40 metres/);
      // The formula came along, not its value alone.
      await expect.poll(() => page.locator('.formula').textContent()).toMatch(/0\.2 m\s*\+\s*20 cm/);

      const spread = await spoken('Spread along', 'A');
      await byHandle('Spread along', 'A', 'Cut what is chosen');
      await expect.poll(told).toMatch(/^Cut: Spread along, A goes/);
      await expect.poll(() => spoken('Spread along', 'A')).toBe(`${spread}, cut`);
      await byHandle('Spread across', 'A', 'Paste what was copied');
      await expect.poll(() => spoken('Spread along', 'A')).toMatch(/not answered yet/);
      await expect.poll(async () => (await spoken('Spread across', 'A')).split(': ')[1]).toBe(spread.split(': ')[1]);
    });
  });

  it('is begun, given its brief, a scenario and a verdict, undone and redone, given a row, and sent out', async () => {
    page = await browser.visit(TOUCH);
    await page.getByRole('button', { name: /^Trade bench/ }).tap();
    await page.getByLabel('Client').tap();
    await page.keyboard.type('The night school');
    await page.getByRole('button', { name: 'Begin', exact: true }).tap();
    await page.getByRole('heading', { name: 'Brief', level: 2 }).waitFor();
    await page.locator('ob-contents i', { hasText: /left/ }).first().waitFor({ state: 'attached' });
    await page.locator('[role=gridcell][aria-label^="Bench length"]').tap();
    for (const [asked, answer] of [
      ['Bench length', '4 m'],
      ['Bench width', '2 m'],
    ] as const) {
      await page.locator('label.q', { hasText: asked }).waitFor();
      await page.locator('#brief-answer').tap();
      await page.keyboard.press('Control+a');
      await page.keyboard.type(answer);
      await page.getByRole('button', { name: 'Keep, and next' }).tap();
    }
    await page.getByRole('button', { name: 'Done for now' }).tap();
    await page.locator('[role=gridcell][aria-label^="Bench length: 4.00 metres"]').waitFor();
    await page.locator('[role=gridcell][aria-label^="Bench width: 2.00 metres"]').waitFor();

    await drawer();
    await page.locator('ob-contents').getByRole('button', { name: 'Scenarios' }).tap();
    await page.getByRole('heading', { name: 'Scenarios', level: 2, exact: true }).waitFor();
    await page.getByRole('button', { name: 'Add a scenario' }).tap();
    await cell('Fixture', 'D').waitFor({ state: 'attached' });
    await expect.poll(() => spoken('Fixture', 'D')).toMatch(/same as A/);
    await cell('Fixture', 'D').tap();
    await cell('Fixture', 'D').tap();
    await page.getByRole('option', { name: 'Rail 90', exact: true }).tap();
    await page.locator('td[aria-label^="Fixture, D: Rail 90, given, differs from A"]').waitFor();
    await settled(page);
    const height = await spoken('Mount height', 'D');
    const higher = await spoken('Full mean PPFD', 'D');
    await writeByTouch(cell('Mount height', 'D'), '0.5', 'Mount height, D: 0.50 metres, given, differs from A');

    const verdict = async (): Promise<string> => (await page.locator('td[aria-label^="Verdict, D:"]').getAttribute('aria-label')) ?? '';
    await expect.poll(verdict).toMatch(/, D: (holds|close to limit|fails)/);
    await settled(page);
    const mean = await spoken('Full mean PPFD', 'D');
    expect(mean).toMatch(/: [1-9]/);
    expect(mean, 'what stands there is of the new height').not.toBe(higher);

    await drawer();
    await inDrawer('Take the last change back').tap();
    await expect.poll(() => spoken('Mount height', 'D')).toBe(height);
    await expect.poll(told).toMatch(/^Taken back: Mount height, D/);
    expect(await underNotice()).toEqual([]);
    await inDrawer('Take the last change back').tap();
    await expect.poll(() => spoken('Fixture', 'D')).toMatch(/same as A/);
    await inDrawer('Make the change again').tap();
    await inDrawer('Make the change again').tap();
    await expect.poll(() => spoken('Mount height', 'D')).toMatch(/0\.50 metres/);
    await expect.poll(() => spoken('Full mean PPFD', 'D')).toBe(mean);
    await page.getByRole('button', { name: 'Close', exact: true }).tap();

    await cell('Mount height', 'A').tap();
    const place = async (): Promise<number> =>
      Number(
        await page
          .locator('tr', { has: cell('Mount height', 'A') })
          .locator('.n')
          .textContent(),
      );
    const before = await place();
    const handle = page.getByRole('button', { name: 'What can be done with the row Mount height' });
    const box = await handle.boundingBox();
    expect([Math.round(box?.width ?? 0), Math.round(box?.height ?? 0)]).toEqual([44, 44]);
    await handle.tap();
    await page.getByRole('menuitem', { name: 'Put a row above' }).tap();
    await expect.poll(place).toBe(before + 1);
    await expect.poll(told).toMatch(/put into Scenarios/);
    expect(await underNotice()).toEqual([]);
    await expect.poll(() => spoken('Full mean PPFD', 'D')).toBe(mean);

    await drawer();
    await page.locator('.drawer-acts summary').tap();
    const download = page.waitForEvent('download');
    await inDrawer('Send out the scenarios as CSV').tap();
    const { records } = parseCsv(await textOf(await download));
    expect(records.find((record) => record[0] === 'Mount height')?.slice(-4)).toEqual(['0.3', '0.4', '0.6', '0.5']);
    await page.getByRole('button', { name: 'Close', exact: true }).tap();
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    expect(browser.complaints).toEqual([]);
  });
});
