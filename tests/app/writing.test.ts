/** Writing and moving about by keyboard alone, after the grid pattern of the ARIA Authoring Practices Guide. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { Session } from '../../src/session.ts';
import { changes, goTo, useBrowser, violations } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

/** The name of the chosen cell, as it is read aloud. */
const chosen = (): Promise<string> =>
  page
    .locator('td[aria-selected=true], [role=gridcell][aria-selected=true]')
    .first()
    .getAttribute('aria-label')
    .then((name) => name ?? '');
const cell = (row: string, column: string) => page.locator(`td[aria-label^="${row}, ${column}:"]`).first();

useDemo(browser, 'Scenarios', (found) => {
  page = found;
});

describe('a table', () => {
  it('is one tab stop and is moved about in by arrows, Home, End, Control and Page keys without wrapping', async () => {
    await cell('Mount height', 'B').click();
    await expect.poll(chosen).toMatch(/^Mount height, B: 0\.40 metres, given, differs from A/);
    await page.keyboard.press('ArrowLeft');
    await expect.poll(chosen).toMatch(/^Mount height, A: /);
    await page.keyboard.press('ArrowLeft');
    await expect.poll(chosen).toMatch(/^Mount height, A: /);
    await page.keyboard.press('End');
    await expect.poll(chosen).toMatch(/^Mount height, C: /);
    await page.keyboard.press('Control+Home');
    await expect.poll(chosen).toMatch(/^Fixture, A: Rail 45, given/);
    await page.keyboard.press('PageDown');
    await page.keyboard.press('PageUp');
    await expect.poll(chosen).toMatch(/^Fixture, A: /);
    const input = page.locator('ob-table input:focus');
    await expect.poll(() => input.count()).toBe(1);
    const active = await input.getAttribute('aria-activedescendant');
    await expect.poll(() => page.locator(`[id="${active}"]`).getAttribute('aria-label')).toMatch(/^Fixture, A: /);
  });

  it('takes a change back by a key that is pressed before what was kept is drawn', async () => {
    await cell('Mount height', 'B').click();
    await page.keyboard.type('0.71');
    await page.keyboard.press('Enter');
    await cell('Mount height', 'B').and(page.locator('[aria-label*="0.71 metres"]')).waitFor();
    await cell('Mount height', 'B').click();
    await page.keyboard.type('0.72');
    await page.evaluate(() => {
      const { session } = document.querySelector('ob-app') as unknown as { session: Session };
      const stop = session.subscribe((news) => {
        if (news.kind !== 'book') return;
        stop();
        document.activeElement?.dispatchEvent(new KeyboardEvent('keydown', { key: 'z', ctrlKey: true, bubbles: true, cancelable: true }));
      });
    });
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => (document.querySelector('ob-app') as unknown as { session: Session }).session.history.undone.length === 1, undefined, {
      timeout: 10_000,
    });
    await cell('Mount height', 'B').and(page.locator('[aria-label*="0.71 metres"]')).waitFor();
  });

  it('takes what is typed over a given, goes down on Enter and right on Tab, and takes it back on undo', async () => {
    await cell('Mount height', 'A').click();
    const before = await cell('Full mean PPFD', 'A').getAttribute('aria-label');
    await page.keyboard.type('0.45');
    await expect.poll(() => page.locator('ob-table input:focus').inputValue()).toBe('0.45');
    await page.keyboard.press('Enter');
    await expect.poll(chosen).toMatch(/^Dimmed to, A/);
    await cell('Mount height', 'A').and(page.locator('[aria-label*="0.45 metres"]')).waitFor();
    await expect.poll(() => cell('Full mean PPFD', 'A').getAttribute('aria-label')).not.toBe(before);
    await page.keyboard.press('F2');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('80');
    await page.keyboard.press('Tab');
    await expect.poll(chosen).toMatch(/^Dimmed to, B/);
    await cell('Dimmed to', 'A').and(page.locator('[aria-label*="80 percent"]')).waitFor();
    await page.keyboard.press('Control+z');
    await cell('Dimmed to', 'A').and(page.locator('[aria-label*="100 percent"]')).waitFor();
    await page.keyboard.press('Control+z');
    await cell('Mount height', 'A').and(page.locator('[aria-label*="0.30 metres"]')).waitFor();
    await expect.poll(() => cell('Full mean PPFD', 'A').getAttribute('aria-label')).toBe(before);
    await page.keyboard.press('Control+Shift+z');
    await cell('Mount height', 'A').and(page.locator('[aria-label*="0.45 metres"]')).waitFor();
  });

  it('leaves a cell as it was on Escape', async () => {
    await cell('Mount height', 'A').click();
    await page.keyboard.press('F2');
    await page.keyboard.type('9');
    await page.keyboard.press('Escape');
    await expect.poll(chosen).toMatch(/^Mount height, A: 0\.30 metres/);
  });

  it('keeps what could not be taken, says why, and takes it once it is mended', async () => {
    await cell('Mount height', 'C').click();
    await page.keyboard.type('3 kg');
    await page.keyboard.press('Enter');
    const wrong = page.locator('.slip .wrong');
    await wrong.waitFor();
    await expect.poll(() => wrong.textContent()).toMatch(/length.*mass/);
    await expect.poll(() => page.locator('ob-table input:focus').inputValue()).toBe('3 kg');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('0.5');
    await page.keyboard.press('Enter');
    await cell('Mount height', 'C').and(page.locator('[aria-label*="0.50 metres"]')).waitFor();
  });

  it('clears a given on Delete and refuses a worked cell aloud', async () => {
    await cell('Maintained mean PPFD', 'A').click();
    const before = await chosen();
    await page.keyboard.press('Delete');
    await expect.poll(() => page.locator('.told').textContent()).toMatch(/worked out and locked/);
    await expect.poll(chosen).toBe(before);
    await cell('Mount height', 'C').click();
    await page.keyboard.press('Delete');
    await cell('Mount height', 'C').and(page.locator('[aria-label*="not answered yet"]')).waitFor();
  });

  it('picks a fixture from the list that its cell allows', async () => {
    await cell('Fixture', 'C').click();
    await page.keyboard.type('ra');
    await expect.poll(() => page.getByRole('option').allTextContents()).toEqual(['Rail 45', 'Rail 90']);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await cell('Fixture', 'C').and(page.locator('[aria-label*="Rail 90"]')).waitFor();
  });
});

describe('a choice of amounts', () => {
  it('takes a number as it is written, not the larger one that begins alike', async () => {
    await goTo(page, 'Supply');
    await cell('Wire size', '').or(page.locator('td[aria-label^="Wire size:"]')).first().click();
    const before = await chosen();
    expect(before).toMatch(/^Wire\b.*1\.5/);
    await page.keyboard.type('2');
    await expect.poll(() => page.getByRole('option').allTextContents()).toContain('2.5 mm²');
    expect(await page.locator('ob-table ul.pick [aria-selected=true]').allTextContents()).toEqual([]);
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('.slip .wrong').textContent()).toMatch(/Did you mean 1\.5 mm²\?$/);
    await page.keyboard.press('Escape');
    expect(await page.locator('td[aria-label^="Wire"][aria-label*="2.5"]').count()).toBe(0);
  });
});

describe('two tables on a page', () => {
  it('have a cell each that Tab comes back to, with its working', async () => {
    await cell('Full mean PPFD', 'B').click();
    const working = () => page.locator('ob-working').textContent();
    await expect.poll(working).toContain('Full mean PPFD, B');
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
    const tabTo = async (key: string, name: string) => {
      for (let tabs = 0; tabs < 12 && (await focused()) !== name; tabs++) await page.keyboard.press(key);
    };
    await tabTo('Tab', 'Choice, table');
    await expect.poll(working).toContain('Cheapest that works');
    await tabTo('Shift+Tab', 'Scenarios, table');
    await expect.poll(chosen).toMatch(/^Full mean PPFD, B: /);
    await expect.poll(working).toContain('Full mean PPFD, B');
  });
});

describe('a note', () => {
  it('is written on a worked cell and on a blank one, has a mark, is read aloud, printed and found', async () => {
    await cell('Full mean PPFD', 'B').click();
    await page.getByRole('button', { name: 'Write a note on this cell' }).click();
    const slip = page.getByRole('dialog', { name: 'A note on Full mean PPFD, B' });
    await slip.getByRole('textbox').fill('as the club’s meter has it');
    await page.keyboard.press('Enter');
    const noted = cell('Full mean PPFD', 'B').and(page.locator('[aria-label$="note: as the club’s meter has it"]'));
    await noted.waitFor();
    const mark = () => noted.evaluate((element) => getComputedStyle(element, '::after').content);
    expect(await mark()).toBe('"*"');
    await page.locator('ob-working').getByText('as the club’s meter has it').waitFor();
    await page.emulateMedia({ media: 'print' });
    await expect.poll(mark).toContain('as the club’s meter has it');
    await page.emulateMedia({ media: null });
    await goTo(page, 'Fixtures');
    const last = page.locator('ob-table').first().locator('tbody tr').last().locator('[role=gridcell]').last();
    await last.click();
    const shown = await last.textContent();
    await page.keyboard.press('Control+k');
    await page.keyboard.type('note');
    await page.getByRole('option', { name: 'Write a note on this cell' }).waitFor();
    await page.keyboard.press('Enter');
    // What asks for it is fetched first.
    await page
      .getByRole('dialog', { name: /^A note on / })
      .getByRole('textbox')
      .and(page.locator(':focus'))
      .waitFor();
    await page.keyboard.type('ask for the data sheet');
    await page.keyboard.press('Enter');
    await last.and(page.locator('[data-note="ask for the data sheet"]')).waitFor();
    expect(await last.textContent()).toBe(shown);
    expect(await violations(page, { within: 'ob-table' })).toEqual([]);
    await page.keyboard.press('Control+f');
    const finding = page.getByRole('dialog', { name: 'Find and replace' });
    await finding.getByLabel('Find', { exact: true }).fill('as the club’s meter has it');
    await expect.poll(() => finding.getByRole('status').textContent()).toMatch(/^Found once/);
    expect(browser.complaints).toEqual([]);
  });
});

describe('a row of a list', () => {
  it('is filled in with Tab, over cells that stay blank too, and nothing that is typed is lost', async () => {
    await goTo(page, 'Fixtures');
    const blank = page.locator('ob-table').first().locator('tbody tr').last().locator('[role=gridcell]');
    await blank.first().click();
    await page.keyboard.type('Own bar');
    for (const key of ['Tab', 'Tab']) await page.keyboard.press(key);
    await page.keyboard.type('0.05');
    await page.keyboard.press('Tab');
    await page.keyboard.type('230');
    for (const key of ['Tab', 'Shift+Tab', 'Shift+Tab', 'Shift+Tab']) await page.keyboard.press(key);
    await page.keyboard.type('1.12');
    await page.keyboard.press('Tab');
    await expect
      .poll(() => blank.evaluateAll((all) => all.slice(0, 4).map((each) => each.textContent?.trim())))
      .toEqual(['Own bar', '1.12 m', '0.05 m', '230 W']);
    expect(await changes(page)).toBe(4);
    // From a blank cell that was only chosen, too, and out of the table at the end of its row.
    await blank.last().click();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Tab');
    await expect.poll(() => blank.last().getAttribute('class')).toContain('on');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.closest('ob-table'))).toBe(null);
  });
});

describe('a yes or no', () => {
  it('opens in the word that its cell shows, and kept as it is changes nothing', async () => {
    const turned = cell('Turned, long side across', 'A');
    await turned.click();
    const before = await chosen();
    expect(before).toMatch(/: no, given/);
    await page.keyboard.press('F2');
    await expect.poll(() => page.locator('ob-table input:focus').inputValue()).toBe('no');
    await expect.poll(() => page.getByRole('option').allTextContents()).toEqual(['yes', 'no']);
    await page.keyboard.press('Enter');
    await turned.click();
    await expect.poll(chosen).toBe(before);
    expect(await changes(page)).toBe(0);
    await page.keyboard.type('yes');
    await page.keyboard.press('Enter');
    await turned.and(page.locator('[aria-label*=": yes, given"]')).waitFor();
  });
});

describe('scenarios', () => {
  it('are added as the base, changed, put back to the same as A, and dropped', async () => {
    await cell('Mount height', 'C').click();
    await page.getByRole('button', { name: 'Add a scenario' }).click();
    await cell('Mount height', 'D').and(page.locator('[aria-label*="0.30 metres, same as A"]')).waitFor();
    await cell('Mount height', 'D').click();
    await page.keyboard.type('0.7');
    await page.keyboard.press('Enter');
    await cell('Mount height', 'D').and(page.locator('[aria-label*="0.70 metres, given, differs from A"]')).waitFor();
    await cell('Mount height', 'D').click();
    await page.getByRole('button', { name: 'Same as A again' }).click();
    await cell('Mount height', 'D').and(page.locator('[aria-label*="same as A"]')).waitFor();
    await page.getByRole('button', { name: 'Drop scenario D' }).click();
    await expect.poll(() => cell('Mount height', 'D').count()).toBe(0);
    // What is written next goes where it is seen to go: into the cell that stands there now.
    await expect.poll(chosen).toMatch(/^Mount height, C: /);
    // And the keyboard stays where it was.
    await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('BUTTON');
  });
});

describe('the working', () => {
  it('is followed from the mean down to a given and back again', async () => {
    await cell('Maintained mean PPFD', 'B').click();
    const working = page.locator('ob-working');
    for (const name of ['Day-one mean PPFD', 'Full mean PPFD', 'Mount height'])
      await working.locator('.from').getByRole('button', { name, exact: true }).first().click();
    await working.getByText('given, differs from A').waitFor();
    await expect.poll(chosen).toMatch(/^Mount height, B: /);
    await working.getByRole('button', { name: /back/ }).click();
    await expect.poll(chosen).toMatch(/^Full mean PPFD, B: /);
  });

  it('is reached, followed and left by keys', async () => {
    const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.closest('aside, ob-table')?.tagName ?? '');
    await cell('Maintained mean PPFD', 'B').click();
    await page.keyboard.press('F6');
    await expect.poll(focused).toBe('ASIDE');
    const next = page.locator('ob-working .from').getByRole('button', { name: 'Day-one mean PPFD', exact: true });
    for (let tabs = 0; tabs < 12 && !(await next.evaluate((it) => it === document.activeElement)); tabs++) await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expect.poll(chosen).toMatch(/^Day-one mean PPFD, B: /);
    await expect.poll(focused).toBe('ASIDE');
    await page.keyboard.press('F6');
    await expect.poll(focused).toBe('OB-TABLE');
    await page.keyboard.press('ArrowUp');
    await expect.poll(chosen).not.toMatch(/^Day-one mean PPFD, B: /);
  });
});
