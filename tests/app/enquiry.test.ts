/** A plan begun from what the client wrote: from the paste to three proposals and the hand-over, three ways; what is read again; what is said to the ear. Entries are counted: a click, a chord of keys, a paste. */
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { Session } from '../../src/session.ts';
import { settled, useBrowser, violations } from './browser.ts';
import { TOUCH } from './demo.ts';

const browser = useBrowser();

const MOST_ENTRIES = 15;
const TEXT = `Hello, one bench, 3.6 m by 1.5 m, for basil, 16 hours a day. The lights can hang up to 0.9 m above the leaf tops.
Mains is 230 V, two free circuits of 16 A, and we pay 0.28 €/kWh. Can you deliver before May? Budget 3000 €.`;

const finding = (page: Page, title: string): Locator => page.locator('.finding').filter({ has: page.getByLabel(title, { exact: true }) });
const content = (page: Page, table: string, row: string): Promise<readonly (string | undefined)[]> =>
  page.evaluate(
    ([id, line]) => {
      const { session } = document.querySelector('ob-app') as unknown as { readonly session: Session };
      const cell = session.book.tables.find((one) => one.id === id)?.cells[line ?? '']?.a;
      return [cell?.content, cell?.source];
    },
    [table, row],
  );

/** Puts a text into the field that has the focus, as a paste does. */
const paste = (page: Page, text: string): Promise<void> => page.keyboard.insertText(text);

async function toSheet(page: Page, press: (what: Locator) => Promise<void>, wide: boolean): Promise<void> {
  await page.getByRole('button', { name: 'Begin from what the client wrote' }).waitFor();
  await press(page.getByRole('button', { name: 'Begin from what the client wrote' }));
  const field = page.getByLabel('What the client wrote, in English');
  await expect.poll(() => field.evaluate((one) => one === document.activeElement)).toBe(true);
  await paste(page, TEXT);
  await press(page.getByRole('button', { name: 'Read it' }));
  await page.locator('.findings li').first().waitFor();
  // The circuits and the breaker are asked, and the sides of the bench.
  expect(await page.locator('.finding.asked').count()).toBe(4);
  await press(page.getByRole('button', { name: 'Keep all that are said once' }));
  expect(await page.locator('.finding.asked').count()).toBe(0);
  await press(page.getByRole('button', { name: 'Begin the plan' }));
  await page
    .locator('ob-contents i', { hasText: /left|hold/ })
    .first()
    .waitFor({ state: wide ? 'visible' : 'attached' });
  await press(page.getByRole('button', { name: 'Propose scenarios' }).first());
  await page.locator('.propose .reasons li').nth(2).waitFor();
  await press(
    page
      .locator('.propose')
      .getByRole('button', { name: /Put away|Close|Done/ })
      .first(),
  );
  if (!wide) await press(page.locator('.drawer-button'));
  await press(page.locator('ob-contents').getByRole('button', { name: 'Hand-over sheet' }));
  await page.getByRole('button', { name: 'Send out as a file' }).waitFor();
}

describe('from what the client wrote to three proposals and the hand-over sheet', () => {
  it.each([
    ['mouse', 'click', {}],
    ['touch, 390 px wide', 'tap', TOUCH],
  ] as const)(`by %s it takes no more than ${MOST_ENTRIES} entries`, async (name, way, how) => {
    const page = await browser.visit(way === 'click' ? undefined : how);
    // The paste.
    let entries = 1;
    const press = async (what: Locator): Promise<void> => {
      entries++;
      await what[way]();
    };
    await toSheet(page, press, way === 'click');
    console.log(`${name}: ${entries} entries`);
    expect(entries).toBeLessThanOrEqual(MOST_ENTRIES);
    expect(await page.locator('.handover').textContent()).toMatch(/3[.]60? ?m|3\.6/u);
    expect(browser.complaints.splice(0)).toEqual([]);
  });

  it('the text stands on the left with its findings underlined, each given on the right with its words, to be changed or dropped', async () => {
    const page = await browser.visit();
    await page.getByRole('button', { name: 'Begin from what the client wrote' }).click();
    await page.getByLabel('What the client wrote, in English').fill(TEXT);
    await page.getByRole('button', { name: 'Read it' }).click();
    await page.locator('.findings li').first().waitFor();
    expect(await page.locator('.wrote').textContent()).toBe(TEXT);
    expect(await page.locator('mark.of-asked').first().textContent()).toBe('3.6 m by 1.5 m');
    expect(await page.locator('mark.of-sure').allTextContents()).toContain('16 hours a day');
    // Nothing of the plan asks for a budget: it is said.
    await page.getByText(/Said and not used: .*3000 €/).waitFor();
    // A screen reader hears the words with the given.
    const length = page.getByLabel('Bench length', { exact: true });
    const described = await length.evaluate((one) => document.getElementById(one.getAttribute('aria-describedby') ?? '')?.textContent ?? '');
    expect(described).toContain('“3.6 m by 1.5 m”');
    expect(described).toContain('the longer is taken for the length');
    expect(await violations(page, { within: 'ob-enquiry' })).toEqual([]);
    await length.fill('3.5 m');
    await length.press('Tab');
    await finding(page, 'Hours of light').getByRole('button', { name: 'Drop' }).click();
    await page.getByLabel('Client', { exact: true }).fill('A herb grower');
    await page.getByRole('button', { name: 'Begin the plan' }).click();
    await page.locator('ob-contents i').first().waitFor();
    await settled(page);
    expect(await content(page, 'brief', 'bench_length')).toEqual(['3.5 m', 'client, “3.6 m by 1.5 m”']);
    expect(await content(page, 'brief', 'crop')).toEqual(['sweet basil', 'client, “basil”']);
    // What was not decided and what was dropped is left to ask; the hours are those of the crop meanwhile.
    expect((await content(page, 'brief', 'bench_width'))[1]).toMatch(/^default: to begin with, ask the client/);
    expect((await content(page, 'brief', 'light_hours'))[1]).toMatch(/^default by the crop: sweet basil, indoor, /);

    // Read again with a word changed: only what differs is asked.
    await page.keyboard.press('Control+k');
    await page.keyboard.type('what the client wrote');
    await page.keyboard.press('Enter');
    const slip = page.getByRole('dialog', { name: 'What the client wrote' });
    const field = slip.getByLabel('What the client wrote, in English');
    await field.waitFor();
    expect(await field.inputValue()).toBe(TEXT);
    await field.fill(TEXT.replace('basil', 'lettuce'));
    await slip.getByRole('button', { name: 'Read it' }).click();
    await slip.locator('.findings li').first().waitFor();
    expect(await slip.locator('.finding label').allTextContents()).toEqual(expect.arrayContaining(['Crop', 'Hours of light']));
    expect(await slip.locator('.finding label').allTextContents()).not.toContain('Mains voltage');
    await slip.getByRole('button', { name: 'Put in what is kept' }).click();
    await slip.waitFor({ state: 'hidden' });
    await settled(page);
    expect((await content(page, 'brief', 'crop'))[0]).toBe('lettuce');
    await page.keyboard.press('Control+z');
    await settled(page);
    expect((await content(page, 'brief', 'crop'))[0]).toBe('sweet basil');
    expect(browser.complaints.splice(0)).toEqual([]);
  });

  it(`by keyboard alone it takes no more than ${MOST_ENTRIES} entries beside the steps from one thing to the next`, async () => {
    const page = await browser.visit();
    let entries = 1;
    const press = async (what: Locator): Promise<void> => {
      const there = (): Promise<boolean> => what.evaluate((one) => one === document.activeElement);
      await what.waitFor();
      for (let presses = 0; presses < 60 && !(await there()); presses++) await page.keyboard.press('Tab');
      expect(await there(), `Tab reaches ${what}`).toBe(true);
      entries++;
      await page.keyboard.press('Enter');
    };
    await toSheet(page, press, true);
    console.log(`keyboard: ${entries} entries`);
    expect(entries).toBeLessThanOrEqual(MOST_ENTRIES);
    expect(browser.complaints.splice(0)).toEqual([]);
  });
});
