/** Writing on the page: texts with live values, pictures and what they read, pages and pieces that come and go. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { changes, goTo, useBrowser, violations } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

async function command(words: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type(words);
  await page.keyboard.press('Enter');
}

const undo = () => page.keyboard.press('Control+z');
const contents = () => page.locator('ob-contents ol').first().getByRole('button').locator('span').allTextContents();
const pieces = () => page.locator('[data-block]').evaluateAll((all) => all.map((piece) => piece.getAttribute('data-block')));
const field = () => page.getByLabel('The text, in Markdown');
const first = () => page.locator('.of-prose').first();
const written = async (): Promise<string> => ((await first().locator('.prose').textContent()) ?? '').replaceAll(/[\u202f\u00a0]/g, ' ').trim();

describe('a text', () => {
  useDemo(browser, 'Brief', (found) => {
    page = found;
  });

  it('is written by keyboard with a live value, which follows its cell and shows its unit; it is one step of undo', async () => {
    const before = await written();
    // The button of the text is the stop after the menu of the page.
    await first()
      .getByRole('button', { name: /^Write: Invented example/ })
      .focus();
    await page.keyboard.press('F2');
    await field().waitFor();
    await page.keyboard.press('Control+End');
    await page.keyboard.type('\n\nIt is **just** ');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.keyboard.type('bench length');
    await page.getByRole('option', { name: /^Bench length/ }).waitFor();
    expect(await violations(page, { within: '.of-prose' }), 'while a value is looked for').toEqual([]);
    await page.keyboard.press('Enter');
    await expect.poll(() => field().inputValue()).toMatch(/It is \*\*just\*\* \{\{bench_length\}\}$/);
    await page.keyboard.type(' long.');
    await page.getByText('As it will look').waitFor();
    expect(await violations(page, { within: '.of-prose' }), 'while a text is written').toEqual([]);
    await page.keyboard.press('Control+Enter');
    await field().waitFor({ state: 'detached' });
    await expect.poll(written).toMatch(/It is just 3\.60 m.* long\.$/s);
    expect(await first().locator('strong', { hasText: 'just' }).count()).toBe(1);
    await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(/^Write: Invented example/);

    await page.getByRole('gridcell', { name: /^Bench length/ }).click();
    await page.keyboard.type('4.2');
    await page.keyboard.press('Enter');
    await expect.poll(written).toMatch(/It is just 4\.20 m.* long\.$/s);
    await undo();
    await expect.poll(written).toMatch(/It is just 3\.60 m.* long\.$/s);
    await undo();
    await expect.poll(written).toBe(before);
    expect(browser.complaints).toEqual([]);
  });

  it('takes a value by a click on its cell, and goes back to what it was on Escape', async () => {
    await goTo(page, 'Scenarios');
    const before = await written();
    await first().locator('.prose').dblclick();
    await field().waitFor();
    await field().press('Control+Home');
    await page.getByRole('button', { name: 'Put a value in' }).click();
    await page.locator('td[aria-label^="Mount height, B:"]').click();
    await expect.poll(() => field().inputValue()).toMatch(/^\{\{Scenarios\.B7\}\}/);
    await expect.poll(() => page.locator('.as-it-stands .live').first().textContent()).toMatch(/^0\.40/);
    // Inside the field Ctrl Z belongs to the text.
    await field().press('Control+z');
    await expect.poll(() => field().inputValue()).toMatch(/^The bench is/);
    expect(await changes(page)).toBe(0);
    await field().press('Control+Shift+z');
    await field().press('Escape');
    await field().waitFor({ state: 'detached' });
    await expect.poll(written).toBe(before);
  });

  it('is kept when it is left; one that is refused stays with its reason, and outlives a look at another page', async () => {
    await first()
      .getByRole('button', { name: /^Write/ })
      .click();
    await field().fill('Kept by leaving it.');
    await goTo(page, 'Scenarios');
    await goTo(page, 'Brief');
    await expect.poll(written).toBe('Kept by leaving it.');
    await first()
      .getByRole('button', { name: /^Write/ })
      .click();
    const long = 'too long '.repeat(4000);
    await field().fill(long);
    await field().press('Control+Enter');
    await page.locator('.writing').getByText('at most 32,000 are allowed').waitFor();
    await goTo(page, 'Scenarios');
    await goTo(page, 'Brief');
    await field().waitFor();
    expect((await field().inputValue()).length).toBe(long.length);
    await field().press('Escape');
    await expect.poll(written).toBe('Kept by leaving it.');
  });

  it('runs no script, loads no picture, and says which cell it can not find', async () => {
    await first()
      .getByRole('button', { name: /^Write/ })
      .click();
    await field().fill(
      '<script>window.ran = 1</script> <img src=x onerror="window.ran = 2"> [click](javascript:window.ran=3) ![p](https://example.org/p.png) <b onclick="window.ran=4">b</b> {{no_such_cell}} {{"><img src=x onerror="window.ran=5">}}',
    );
    await field().press('Control+Enter');
    await field().waitFor({ state: 'detached' });
    expect(await first().locator('.prose').locator('script, img, b, [onclick], [onerror]').count()).toBe(0);
    // What was to be a picture is a link, which opens beside the book.
    const links = await first()
      .locator('.prose a')
      .evaluateAll((all) => all.map((link) => [link.getAttribute('href'), link.getAttribute('rel')]));
    expect(links).toEqual([['https://example.org/p.png', 'noopener noreferrer']]);
    expect(await page.evaluate(() => (window as { ran?: number }).ran)).toBeUndefined();
    await expect.poll(written).toContain('no cell called no_such_cell');
    expect(await violations(page, { within: '.of-prose' })).toEqual([]);
  });

  it('is begun where one asks for it, and not at all when nothing was written', async () => {
    const before = await pieces();
    await first()
      .getByRole('button', { name: /^Write/ })
      .focus();
    await command('add a text');
    await field().waitFor();
    await field().press('Escape');
    await expect.poll(pieces).toEqual(before);
    await command('add a text');
    await field().fill('A second text.');
    await field().press('Control+Enter');
    await page.getByText('A second text.').waitFor();
    // The words stand on the page before they are kept: while they are written.
    await expect.poll(async () => (await pieces()).length).toBe(before.length + 1);
    const after = await pieces();
    expect([after[0], ...after.slice(2)]).toEqual(before);
    await undo();
    await expect.poll(pieces).toEqual(before);
  });
});

describe('a picture', () => {
  useDemo(browser, 'Brief', (found) => {
    page = found;
  });

  it('is added with its kind, its cells and its caption, moved, changed and taken away, each one step of undo', async () => {
    await goTo(page, 'Costs');
    const before = await pieces();
    await page
      .getByLabel(/^More: /)
      .first()
      .click();
    await page.getByRole('button', { name: 'Add a picture here' }).click();
    const slip = page.getByRole('dialog', { name: 'Add a picture' });
    await slip.waitFor();
    await slip.getByRole('radio', { name: /^Scenario bars/ }).check();
    const value = slip.getByRole('combobox', { name: /^Quantity/ });
    await expect.poll(() => value.inputValue()).toBe('Scenarios.A14');
    // Another quantity by words, and lines that no longer fit left empty.
    await value.fill('all in, by the year');
    await value.fill('mount height');
    await slip.getByRole('option', { name: /^Mount height/ }).click();
    await expect.poll(() => value.inputValue()).toBe('Scenarios.A7');
    expect(await violations(page, { within: 'dialog[open]' }), 'with the slip of a picture').toEqual([]);
    for (const name of ['Value aimed at', 'Least wanted', 'Most wanted']) await slip.getByRole('combobox', { name }).fill('');
    await slip.getByLabel('Caption').fill('How high they hang');
    await slip.getByRole('button', { name: 'Add it' }).click();
    const picture = page.getByRole('img', { name: /^How high they hang: A 0\.3.* m, B 0\.4.* m, C 0\.6.* m$/ });
    await picture.waitFor();
    await expect.poll(pieces).toHaveLength(before.length + 1);
    const added = await pieces();
    await expect.poll(() => picture.locator('.amount').allTextContents()).toHaveLength(3);
    expect(await violations(page, { within: 'ob-picture' }), 'with the bars').toEqual([]);

    // It was given the focus: commands are about it.
    await command('move this piece up');
    await expect.poll(async () => (await pieces()).indexOf(added[1] ?? '')).toBe(0);
    await undo();
    await expect.poll(pieces).toEqual(added);

    await page.getByRole('button', { name: 'Change: How high they hang' }).press('F2');
    const change = page.getByRole('dialog', { name: 'Change this picture' });
    await change.getByLabel('Caption').fill('Heights');
    const height = change.getByRole('combobox', { name: /^Quantity/ });
    await height.fill('Nowhere.A1');
    await height.press('Tab');
    await change.getByText('There is no cell called “Nowhere.A1”.').waitFor();
    await change.getByRole('button', { name: 'Keep' }).click();
    expect(await change.isVisible()).toBe(true);
    await height.fill('Scenarios.A7');
    await height.press('Tab');
    await change.getByRole('button', { name: 'Keep' }).click();
    await page.getByRole('img', { name: /^Heights: A/ }).waitFor();
    await undo();
    await picture.waitFor();

    await command('take this piece away');
    await expect.poll(pieces).toEqual(before);
    await undo();
    await picture.waitFor();
    await undo();
    await expect.poll(pieces).toEqual(before);
  });

  it('says in its place which cell it lacks', async () => {
    await goTo(page, 'Scenarios');
    await page.getByRole('button', { name: /^Change: Maintained mean against/ }).click();
    const slip = page.getByRole('dialog', { name: 'Change this picture' });
    await slip.getByRole('combobox', { name: /^Mount height/ }).fill('Scenarios.A14');
    await slip.getByRole('combobox', { name: /^Mount height/ }).press('Tab');
    await slip
      .getByText('Maintained mean PPFD, A is a light on the leaves (PPFD); the mount height is a length.')
      .or(slip.getByText(/the mount height is a length/))
      .first()
      .waitFor();
    await page.keyboard.press('Escape');
    await slip.waitFor({ state: 'hidden' });
    const cell = page.locator('td[aria-label^="Mount height, A:"]');
    await cell.click();
    await page.keyboard.press('Delete');
    await page.locator('ob-picture').first().scrollIntoViewIfNeeded();
    await page
      .locator('ob-picture .refused')
      .first()
      .getByText(/Not drawn: A: .*(?:Mount height|not answered)/)
      .waitFor();
    await undo();
    await expect.poll(() => page.locator('ob-picture .refused').count()).toBe(0);
  });
});

describe('pages', () => {
  useDemo(browser, 'Brief', (found) => {
    page = found;
  });

  it('are added, named, moved and taken away, by keyboard, each one step of undo', async () => {
    const before = await contents();
    await command('add a page');
    const slip = page.getByRole('dialog', { name: 'Add a page' });
    await slip.waitFor();
    expect(await violations(page, { within: 'dialog[open]' }), 'with the slip of a page').toEqual([]);
    await page.keyboard.type('Visit');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Visit', level: 2 }).waitFor();
    await expect.poll(contents).toEqual([before[0], 'Visit', ...before.slice(1)]);
    await page.getByText('There is nothing on this page yet.').waitFor();
    expect(await violations(page), 'with an empty page').toEqual([]);
    await command('move this page down');
    await expect.poll(contents).toEqual([before[0], before[1], 'Visit', ...before.slice(2)]);
    await command('name this page');
    await page.getByRole('dialog', { name: 'Name this page' }).waitFor();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('Site visit');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Site visit', level: 2 }).waitFor();
    await undo();
    await page.getByRole('heading', { name: 'Visit', level: 2, exact: true }).waitFor();
    await undo();
    await expect.poll(contents).toEqual([before[0], 'Visit', ...before.slice(1)]);
    await undo();
    await expect.poll(contents).toEqual(before);
    // What was shown is gone: the first page is shown in its place.
    await page.getByRole('heading', { name: before[0] ?? '', level: 2 }).waitFor();
  });

  it('are taken away only when one has read what goes with them', async () => {
    const before = await contents();
    await goTo(page, 'Costs');
    await page.getByLabel('This page: Costs', { exact: true }).click();
    expect(await violations(page, { within: '.page-acts' }), 'with a menu open').toEqual([]);
    await page.locator('.page-acts').getByRole('button', { name: 'Take this page away' }).click();
    const slip = page.getByRole('dialog', { name: 'Take the page Costs away?' });
    await slip
      .getByText(
        /^3 pieces are on it\. The table Prices and all that is in it would be gone from the book\. Others read it: \d+ formulas .*would lose a cell\./,
      )
      .waitFor();
    await slip.getByRole('button', { name: 'Leave it as it was' }).click();
    expect(await contents()).toEqual(before);
    await command('take this page away');
    await slip.getByRole('button', { name: 'Take it away' }).click();
    await expect.poll(contents).toEqual(before.filter((title) => title !== 'Costs'));
    await undo();
    await expect.poll(contents).toEqual(before);
  });

  it('take a new table, with a name of its own', async () => {
    await command('add a table');
    const slip = page.getByRole('dialog', { name: 'Add a table' });
    await slip.getByLabel('Its name').fill('Brief');
    await slip.getByRole('button', { name: 'Add it' }).click();
    await slip.getByText('There is already a table called “Brief”.').waitFor();
    await slip.getByLabel('Its name').fill('Readings');
    await slip.getByRole('spinbutton', { name: 'Rows' }).fill('2');
    await slip.getByRole('button', { name: 'Add it' }).click();
    await page.getByRole('heading', { name: 'Readings', level: 3 }).waitFor();
    await command('name this table');
    await page.getByRole('dialog', { name: 'Name this table' }).getByLabel('Its name').fill('Meter readings');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Meter readings', level: 3 }).waitFor();
    await undo();
    await undo();
    await expect.poll(() => page.getByRole('heading', { name: /eadings/, level: 3 }).count()).toBe(0);
  });
});

describe('by touch, 390 px wide', () => {
  useDemo(
    browser,
    'Brief',
    (found) => {
      page = found;
    },
    TOUCH,
  );

  it('writes a text, adds a page and a picture, and hides nothing behind a hover', async () => {
    const write = first().getByRole('button', { name: /^Write/ });
    const box = await write.boundingBox();
    expect(box?.height).toBeGreaterThanOrEqual(44);
    expect(await write.evaluate((button) => getComputedStyle(button.closest('.piece-acts') as Element).opacity)).toBe('1');
    await write.tap();
    await field().waitFor();
    await field().fill('Written with a finger.');
    expect(await violations(page, { within: '.of-prose' }), 'while a text is written').toEqual([]);
    await page.getByRole('button', { name: 'Keep' }).tap();
    await expect.poll(written).toBe('Written with a finger.');
    await page.locator('.page-acts summary').tap();
    await page.locator('.page-acts').getByRole('button', { name: 'Add a page' }).tap();
    await page.getByRole('dialog').getByLabel('Its title').fill('Visit');
    await page.getByRole('dialog').getByRole('button', { name: 'Add it' }).tap();
    await page.getByRole('heading', { name: 'Visit', level: 2 }).waitFor();
    await page.getByRole('button', { name: 'Add a picture here' }).last().tap();
    const slip = page.getByRole('dialog', { name: 'Add a picture' });
    await slip.waitFor();
    expect(await violations(page, { within: 'dialog[open]' }), 'with the slip of a picture').toEqual([]);
    await slip.getByRole('button', { name: 'Add it' }).tap();
    await page.getByRole('img', { name: /^Light map A/ }).waitFor();
    const beyond = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(beyond).toBeLessThanOrEqual(0);
    expect(await violations(page), 'with the picture').toEqual([]);
  });
});
