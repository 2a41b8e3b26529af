/** What comes in from a CSV file, looked at first; and a unit mistake mended with one key. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { templateBook } from '../templates/open-template.ts';
import { changes, goTo, openFile, resize, textOf, useBrowser, violations } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

useDemo(browser, 'Brief', (found) => {
  page = found;
});

const slip = () => page.getByRole('dialog', { name: 'Bring in a table' });

async function command(words: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type(words);
  await page.keyboard.press('Enter');
}

async function bring(name: string, text: string): Promise<void> {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), command('a table (CSV)')]);
  await chooser.setFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
  await slip().waitFor();
}

describe('a CSV file', () => {
  it('is shown as it will be read, converts its units, says what finds no place, and is one step of undo', async () => {
    await bring('answers.csv', ';unit;Answer\r\nBench length;ft;12,5\r\nBench width;;150 cm\r\nMoon;;3\r\n');
    await expect.poll(() => slip().getByLabel('Fields separated by').inputValue()).toBe(';');
    await expect.poll(() => slip().getByLabel('Decimal mark').inputValue()).toBe(',');
    await slip().getByText('7 fields read: 5 find their place, 2 find none.').waitFor();
    await expect.poll(() => slip().locator('.wrong').allTextContents()).toContainEqual(expect.stringContaining('Brief has no row “Moon”'));
    expect(
      await slip()
        .getByText(/^Line 2: Brief\.A1 becomes 12\.5 ft$/)
        .count(),
    ).toBe(1);
    await slip().getByRole('button', { name: 'Bring it in' }).click();
    await goTo(page, 'Brief');
    await page.locator('[role=gridcell][aria-label^="Bench length: 3.81 metres"]').waitFor();
    await goTo(page, 'Not placed');
    await page.getByText('Moon;;3').or(page.getByText('Moon,,3')).first().waitFor();
    const [download] = await Promise.all([page.waitForEvent('download'), command('found no place')]);
    expect(await textOf(download)).toMatch(/^,unit,Answer,not placed because\r\nMoon,,3,/);
    await page.keyboard.press('Control+z');
    await goTo(page, 'Brief');
    await page.locator('[role=gridcell][aria-label^="Bench length: 3.60 metres"]').waitFor();
    await expect.poll(() => page.locator('ob-contents').getByRole('button', { name: 'Not placed' }).count()).toBe(0);
  });

  it('goes where it is told, by another reading and another use of its columns', async () => {
    await bring('heights.csv', 'what,h\nlow,40\nhigh,60\n');
    await expect.poll(() => slip().getByLabel('It goes to').inputValue()).toBe('new');
    await slip().getByLabel('Its name').fill('Heights');
    await slip().getByLabel('Its name').press('Tab');
    const units = slip().getByLabel('numbers in');
    await units.nth(1).fill('cmm');
    await units.nth(1).press('Tab');
    await slip().getByText('“cmm” is no unit.').waitFor();
    await units.nth(1).fill('cm');
    await units.nth(1).press('Tab');
    await slip()
      .getByText(/Line 2: Heights\.B2 becomes 40 cm/)
      .waitFor();
    await slip().getByLabel('What what is for').selectOption('left out');
    await slip().getByText('4 fields read: 2 find their place, 2 are left out or worked out here.').waitFor();
    await slip().getByText('Left out: what.').waitFor();
    await slip().getByRole('button', { name: 'Bring it in' }).click();
    // Its page opens by itself.
    await page.getByRole('heading', { name: 'Heights', level: 2 }).waitFor();
    await page.locator('td[aria-label*="40"][aria-label*="centimetres"]').waitFor();
  });

  it('of a list shows what becomes of each row, and is one change that says so', async () => {
    await bring('colleague.csv', 'Fixture,Power,Price\nRail 45,45 W,79\nRail 90,92 W,139\nBar 230,230 W,310\n');
    await slip().getByText('Fixtures: 1 row changed, 1 added, 1 as before;').waitFor();
    await slip()
      .getByText(/^Rail 90 is changed: Power 90 W → 92 W/)
      .waitFor();
    await slip().getByText('Bar 230 is added: Power 230 W; Price 310 EUR').waitFor();
    expect(await violations(page, { within: 'ob-bring-in' })).toEqual([]);
    await slip().getByRole('button', { name: 'Bring it in' }).click();
    await expect.poll(() => changes(page)).toBe(1);
    await goTo(page, 'What changed');
    await page
      .getByText(/colleague\.csv: Fixtures: 1 row changed, 1 added, 1 as before/)
      .first()
      .waitFor();
  });

  it('picked where a book is asked for opens its slip; with no book open the page says to begin a plan', async () => {
    const file = { name: 'heights.csv', mimeType: 'text/csv', buffer: Buffer.from('what,h\nlow,40\n') };
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Control+o')]);
    await chooser.setFiles(file);
    await slip()
      .getByText(/Line 2: heights\.B2 becomes 40/)
      .waitFor();
    await page.keyboard.press('Escape');
    const start = await browser.visit();
    const [first] = await Promise.all([start.waitForEvent('filechooser'), start.keyboard.press('Control+o')]);
    await first.setFiles(file);
    await start.getByText('heights.csv holds a table, not a book. Begin a plan or open one first').waitFor();
    await expect.poll(() => start.locator('ob-bring-in dialog[open]').count()).toBe(0);
  });

  it('of readings says what becomes of those that are there, and takes over the blank places', async () => {
    page = await browser.visit();
    await openFile(page, templateBook('meter-check'));
    await page.locator('ob-table').first().waitFor();
    await bring('readings.csv', 'Place 1,Place 2,Place 3\n118,142,150\n150,,196\n116,140,147\n');
    await expect.poll(() => slip().getByLabel('Its records go').inputValue()).toBe('start');
    await slip().getByText('a blank field empties its cell').waitFor();
    await slip().getByText('Line 3: Readings.C3 is emptied').waitFor();
    await slip().getByLabel('Its records go').selectOption('end');
    await slip().getByText('will not see what comes after it').waitFor();
  });

  it('says how many more cells it fills, and in which unit bare numbers beside others are read', async () => {
    await bring('walk.csv', 'Place;PPFD\nA;187,5 µmol/m²/s\nB;231,2\nC;198,4\nD;176\n');
    await slip().getByText('PPFD: 1 has its own unit, 3 have none. Those without are read in µmol/m²/s.').waitFor();
    await slip().getByText('Line 3: walk.B3 becomes 231.2 µmol/m²/s').waitFor();
    await slip().getByText('… and 2 more', { exact: true }).waitFor();
  });

  it('leaves the book as it is on Escape', async () => {
    await bring('heights.csv', 'what,h\nlow,40\n');
    await page.keyboard.press('Escape');
    await expect.poll(() => slip().count()).toBe(0);
    expect(await changes(page)).toBe(0);
  });
});

describe('a unit mistake', () => {
  it('shows its sentence and no number, here and in all that reads it, and is mended with one key', async () => {
    await goTo(page, 'Scenarios');
    const cell = page.locator('td[aria-label^="Spread along, B"]');
    await cell.click();
    await page.keyboard.type('=1+ROUND(A7,2)');
    await page.keyboard.press('Enter');
    await page.locator('td[aria-label^="Spread along, B"][aria-label*="unit error"]').waitFor();
    await page.locator('td[aria-label^="Maintained mean PPFD, B"][aria-label*="unit error"]').waitFor();
    await cell.click();
    const mend = page.locator('ob-working .trouble button.first');
    await mend.waitFor();
    await expect.poll(() => mend.textContent()).toContain('NUMBER.IN(A7,"m")');
    expect(await page.locator('ob-working .big').textContent()).not.toMatch(/\d/);
    await page.keyboard.press('Control+m');
    await page.locator('td[aria-label^="Spread along, B: 1.30"]').waitFor();
    await page.locator('td[aria-label^="Maintained mean PPFD, B: "][aria-label*="micromoles"]').waitFor();
  });
});

describe('a fixture from its data sheet', () => {
  const sheet = () => page.getByRole('dialog', { name: /^Add a fixture from its data sheet$/ });

  it('is written field by field with the keys alone, says what is missing and what that stops, and is there to be chosen', async () => {
    await command('fixture from its data');
    await sheet().waitFor();
    await sheet().getByText('Beam is missing: without it Layout, Fixtures, Maintained mean PPFD and').waitFor();
    for (const [field, typed] of [
      ['Fixture', 'Bar'],
      ['Face length, m', '1120 mm'],
      ['Face width, m', '0.05'],
      ['Power, W', '230'],
      ['Output, µmol/s', '640'],
      ['Beam, °', '200'],
    ] as const) {
      expect(await page.evaluate(() => document.activeElement?.closest('label')?.textContent?.trim())).toBe(field);
      await page.keyboard.type(typed);
      await page.keyboard.press('Enter');
    }
    await sheet().getByText('Bar, Beam: 200 ° is above what is allowed, from 1 to 179 °.').waitFor();
    await sheet().getByLabel('Beam, °').fill('110');
    await sheet().getByLabel('Feed').selectOption('DC');
    await sheet().getByLabel('Volts, V').fill('48');
    await sheet().getByLabel('Price, EUR').fill('310');
    await expect.poll(() => sheet().locator('.wrong').count()).toBe(0);
    expect(await sheet().getByRole('status', { name: 'Still missing' }).getByRole('listitem').allTextContents()).toEqual([
      expect.stringMatching(/^Mass is missing: without it Load on one hanger, .* can’t be worked out\.$/),
      'Depth is missing.',
      expect.stringMatching(/^L90 is missing: without it Maintained mean PPFD/),
      expect.stringMatching(
        /^Blank too: Power factor, IP, Ambient to, .*\. Without them may be unknown: .*Circuits free, .*IP of the fixture, .*Air at the lights/,
      ),
    ]);
    expect(await violations(page, { within: 'ob-entry-slip' })).toEqual([]);
    await resize(page, { width: 390, height: 844 });
    expect(await sheet().evaluate((box) => box.scrollWidth - box.clientWidth)).toBe(0);
    await sheet().getByRole('button', { name: 'Add it with 3 missing' }).click();
    await resize(page, { width: 1440, height: 900 });
    await page.locator('[role=gridcell][aria-selected=true]', { hasText: 'Bar' }).waitFor();
    expect(await changes(page)).toBe(1);
  });

  it('added from a scenario’s own cell is chosen there with the same change', async () => {
    await goTo(page, 'Scenarios');
    await page.locator('[role=gridcell][aria-label^="Fixture, C:"]').click();
    await command('Add a fixture');
    await sheet().waitFor();
    await sheet().getByLabel('Fixture', { exact: true }).fill('Own bar');
    await sheet()
      .getByRole('button', { name: /^Add it with/ })
      .click();
    await page.locator('[role=gridcell][aria-label^="Fixture, C: Own bar"]').waitFor();
    expect(await changes(page)).toBe(1);
    expect(browser.complaints).toEqual([]);
  });
});
