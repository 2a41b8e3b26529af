/** Working back on the page: what is said, put in and taken back, by keyboard, mouse and touch. */
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { Session } from '../../src/session.ts';
import { changes, nextFrame, settled, useBrowser, violations } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

const cell = (row: string, column: string): Locator => page.locator(`td[aria-label^="${row}, ${column}:"]`).first();
const slipOf = (title: string): Locator => page.getByRole('dialog', { name: `Work back from ${title}` });

describe('working back', () => {
  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });

  it('by the keyboard alone: a command, what it should come to, what may move, and the answer put in as one step', async () => {
    const running = cell('Running cost', 'A');
    await running.click();
    const before = await running.getAttribute('aria-label');
    await page.keyboard.press('Control+k');
    await page.keyboard.type('work back');
    await page.keyboard.press('Enter');
    const slip = slipOf('Running cost, A');
    await slip.waitFor();
    const wanted = slip.getByLabel('It should come to', { exact: true });
    expect(await wanted.evaluate((input) => input === document.activeElement)).toBe(true);
    await slip.getByRole('checkbox').first().waitFor();
    await slip.getByRole('button', { name: /^Show all/ }).click();
    for (const box of await slip.getByRole('checkbox').all()) await box.setChecked(false);
    await slip.getByRole('checkbox', { name: /^Electricity price/ }).check();
    await wanted.fill('300 kg');
    await page.keyboard.press('Enter');
    const status = slip.getByRole('status');
    await expect.poll(() => status.textContent()).toMatch(/300 kg is a mass/);
    await wanted.fill('300');
    await page.keyboard.press('Enter');
    // Said aloud: the given and its answer, as its cell shows it.
    await expect.poll(() => status.textContent()).toMatch(/^Electricity price: 0\.\d{3}.EUR\/kWh\.$/);
    const found = slip.getByRole('region', { name: 'Electricity price' });
    expect(await found.textContent()).toMatch(/0\.0\d{5,} EUR\/kWh gives 300 EUR\/year/);
    // Prices by the hour come in beside it.
    expect(await found.textContent()).toContain('It can’t be made to stay so by a formula.');
    expect(await violations(page, { within: 'dialog[open]' })).toEqual([]);
    // Nothing has been touched until here.
    expect(await changes(page)).toBe(0);
    await found
      .getByRole('button', { name: /^Put .* in$/ })
      .first()
      .focus();
    await page.keyboard.press('Enter');
    await slip.waitFor({ state: 'hidden' });
    expect(await changes(page)).toBe(1);
    await expect.poll(() => running.getAttribute('aria-label')).toMatch(/: 300/);
    await page.keyboard.press('Control+z');
    await expect.poll(() => running.getAttribute('aria-label')).toBe(before);
  });

  it('is refused in words while a mistake of units stands in its way', async () => {
    await page.evaluate(async () => {
      const { session } = document.querySelector('ob-app') as unknown as { readonly session: Session };
      const table = session.book.tables.find((one) => one.form === 'scenarios');
      const column = table?.columns[0]?.id;
      if (!table || !column) throw new Error('nothing is compared');
      const before = table.cells.run?.[column] ?? null;
      session.dispatch({ label: 'test', edits: [{ at: 'cell', table: table.id, row: 'run', column, before, after: { content: '=A49+UNIT(1,"kg")' } }] });
      await session.settled();
    });
    await cell('Cost a year, all in', 'A').click();
    await page.locator('ob-working').getByRole('button', { name: 'Work back from this value' }).click();
    const slip = slipOf('Cost a year, all in, A');
    await expect.poll(() => slip.getByRole('status').textContent()).toMatch(/^A mistake of units stands in the way\. .*mass/);
    expect(await slip.getByRole('button', { name: 'Work it back' }).isDisabled()).toBe(true);
  });

  it('shows how far it is where it takes longer, and is stopped', async () => {
    await cell('Verdict', 'A').click();
    await page.locator('ob-working').getByRole('button', { name: 'Work back from this value' }).click();
    const slip = slipOf('Verdict, A');
    await slip.getByRole('checkbox').first().waitFor();
    await slip.getByRole('button', { name: /^Show all/ }).click();
    // What a check should come to is put forward.
    expect(await slip.getByLabel('It should come to', { exact: true }).inputValue()).toBe('holds');
    // The verdict follows from nearly all that is given: one after the other that takes seconds.
    await slip.evaluate((dialog) => {
      for (const box of dialog.querySelectorAll<HTMLInputElement>('[name=given]')) box.checked = true;
    });
    await slip.getByRole('button', { name: 'Work it back' }).click();
    await slip.getByRole('progressbar', { name: 'Worked back' }).waitFor();
    await slip.getByRole('button', { name: 'Stop' }).click();
    await expect.poll(() => slip.getByRole('status').textContent()).toBe('Stopped. The book is as it was.');
    await expect.poll(() => slip.getByRole('button', { name: 'Work it back' }).isEnabled()).toBe(true);
    expect(await changes(page)).toBe(0);
  });

  it('by the mouse, from the margin: several givens, checks that turn, and a formula by which it stays', async () => {
    const mean = cell('Maintained mean PPFD', 'A');
    await mean.click();
    await page.locator('ob-working').getByRole('button', { name: 'Work back from this value' }).click();
    const slip = slipOf('Maintained mean PPFD, A');
    await slip.getByRole('checkbox').first().waitFor();
    await slip.getByRole('button', { name: /^Show all/ }).click();
    for (const box of await slip.getByRole('checkbox').all()) await box.setChecked(false);
    for (const given of ['Mount height, A', 'Along the bench, A']) await slip.getByRole('checkbox', { name: new RegExp(`^${given}`) }).click();
    await slip.getByLabel('It should come to', { exact: true }).fill('220 µmol/m²/s');
    await slip.getByRole('button', { name: 'Work it back' }).click();
    await expect
      .poll(() => slip.getByRole('status').textContent())
      .toMatch(/^(Mount height, A: .* or .*\.|Along the bench, A: between 2 and 3\.) (Mount height|Along the bench)/);
    const height = slip.getByRole('region', { name: 'Mount height, A' });
    await height.getByText('Height, A: holds → fails').waitFor();
    expect(await height.locator('code').textContent()).toMatch(/^=MOUNT\.HEIGHT\(/);
    await height.getByRole('button', { name: 'Make it stay' }).click();
    await slip.waitFor({ state: 'hidden' });
    await settled(page);
    await expect.poll(() => mean.getAttribute('aria-label')).toMatch(/: 220\.0/);
    // Whatever else changes: dimmed, the lights hang lower, and the bench has as much.
    const hung = await cell('Mount height', 'A').getAttribute('aria-label');
    await cell('Dimmed to', 'A').click();
    await page.keyboard.type('96');
    await page.keyboard.press('Enter');
    await settled(page);
    expect(await changes(page)).toBe(2);
    await expect.poll(() => cell('Mount height', 'A').getAttribute('aria-label')).not.toBe(hung);
    expect(await mean.getAttribute('aria-label')).toMatch(/: 220\.0/);
  });
});

describe('working back by touch, 390 px wide', () => {
  useDemo(
    browser,
    'Scenarios',
    (found) => {
      page = found;
    },
    TOUCH,
  );

  it('is opened from the working, fits the screen, and puts an answer in', async () => {
    const dli = cell('Maintained DLI', 'A');
    await dli.tap();
    await page.locator('.grab').tap();
    await page.locator('ob-working').getByRole('button', { name: 'Work back from this value' }).tap();
    const slip = slipOf('Maintained DLI, A');
    await slip.getByRole('checkbox').first().waitFor();
    await slip.getByLabel('It should come to', { exact: true }).fill('13');
    await slip.getByRole('button', { name: 'Work it back' }).tap();
    const put = slip.getByRole('button', { name: /^Put .* in$/ }).first();
    await put.waitFor();
    await nextFrame(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    const box = await slip.evaluate((dialog) => [
      dialog.scrollWidth - dialog.clientWidth,
      dialog.getBoundingClientRect().left,
      dialog.getBoundingClientRect().right,
    ]);
    expect(box[0]).toBeLessThanOrEqual(0);
    expect(box[1]).toBeGreaterThanOrEqual(0);
    expect(box[2]).toBeLessThanOrEqual(390);
    for (const button of [put, slip.getByRole('button', { name: 'Work it back' })]) expect((await button.boundingBox())?.height).toBeGreaterThanOrEqual(44);
    await put.tap();
    await slip.waitFor({ state: 'hidden' });
    await settled(page);
    await expect.poll(() => dli.getAttribute('aria-label')).toMatch(/: 13\.0/);
    expect(browser.complaints).toEqual([]);
  });
});
