/** Scenarios proposed on the page: by one key, taken back, looked through, taken one at a time, stopped, and refused in words. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book/book.ts';
import type { Session } from '../../src/session.ts';
import { templateBook } from '../templates/open-template.ts';
import { changes, goTo, openFile, settled, useBrowser, violations } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;
const use = (found: Page): void => {
  page = found;
};

/** The trade bench with two lights in its list and three rows of them at most: enough to choose among, and soon tried. */
function small(): Book {
  const book = templateBook('trade-bench');
  const lights = ['Rail 90', 'Bay 320'];
  return {
    ...book,
    tables: book.tables.map((table) => {
      if (table.form === 'scenarios')
        return { ...table, rows: table.rows.map((row) => (row.id === 'along' || row.id === 'across' ? { ...row, range: { low: 1, high: 3 } } : row)) };
      if (table.name !== 'Fixtures') return table;
      const first = table.columns[0]?.id ?? '';
      const kept = Object.entries(table.cells).filter(
        ([row, line]) => table.rows.find(({ id }) => id === row)?.head || lights.includes(line[first]?.content ?? ''),
      );
      return { ...table, cells: Object.fromEntries(kept) };
    }),
  };
}

const slip = () => page.getByRole('dialog', { name: /Propose scenarios|Try layouts/ });
const says = (text: RegExp) => slip().getByRole('status').filter({ hasText: text }).first().waitFor();
const cell = (row: string, scenario: string) => page.locator(`td[aria-label^="${row}, ${scenario}:"]`);
const label = async (row: string, scenario: string): Promise<string> => (await cell(row, scenario).getAttribute('aria-label')) ?? '';
async function open(visitor: Page): Promise<void> {
  await openFile(visitor, small());
  await visitor.locator('ob-contents li').first().waitFor({ state: 'attached' });
}

describe('proposals', () => {
  useDemo(browser, 'Scenarios', use, { open });

  it('fill A, B and C by one key, in one step, each with its reason, and are taken back as one', async () => {
    const before = await Promise.all(['A', 'B', 'C'].map((scenario) => label('Fixture', scenario)));
    // While they are searched for the book is as it was, and it is said how far the search is: looked at in the page, which need not wait for a test.
    const going = page.evaluate(async () => {
      const seen = () => document.querySelector('.propose progress[aria-label="Layouts tried"]');
      for (let frames = 0; !seen() && frames < 3_600; frames++) await new Promise((resolve) => requestAnimationFrame(resolve));
      const { history } = (document.querySelector('ob-app') as unknown as { readonly session: Session }).session;
      return { seen: seen() !== null, changes: history.done.length };
    });
    await page.keyboard.press('F8');
    expect(await going).toEqual({ seen: true, changes: 0 });
    await says(/A, B and C are filled\./);
    expect(await slip().locator('.reasons li').count()).toBe(3);
    expect(await slip().locator('.reasons').textContent()).toMatch(/Cheapest by the year.*Most even.*Fewest lights/s);
    expect(await changes(page)).toBe(1);
    expect(await violations(page, { within: '.propose' })).toEqual([]);
    await page.keyboard.press('Escape');
    await slip().waitFor({ state: 'hidden' });
    for (const scenario of ['A', 'B', 'C']) expect(await label('Verdict', scenario), scenario).not.toMatch(/fails|unknown/);
    // They are givens as any: written over, what hangs on them follows, and whoever chooses one reads why it stands there.
    await cell('Fixture', 'A').click();
    await page.locator('ob-working', { hasText: /Proposed: Cheapest by the year/ }).waitFor();
    await page.keyboard.press('Control+z');
    await settled(page);
    expect(await Promise.all(['A', 'B', 'C'].map((scenario) => label('Fixture', scenario)))).toEqual(before);
    expect(await changes(page)).toBe(0);
  });

  it('are found again, and taken back from the slip; stopped, a search leaves the book alone', async () => {
    await page.keyboard.press('F8');
    await says(/are filled\./);
    await slip().getByRole('button', { name: 'Take it back' }).click();
    await says(/Taken back: the scenarios are as they were\./);
    expect(await changes(page)).toBe(0);
    // In the page, where the search is still going: it may be over before the next message of a test comes.
    await slip().evaluate(async (dialog) => {
      const button = (name: string) => [...dialog.querySelectorAll('button')].find(({ textContent }) => textContent?.trim() === name);
      button('Try layouts')?.click();
      for (let frames = 0; !button('Stop') && frames < 600; frames++) await new Promise((resolve) => requestAnimationFrame(resolve));
      button('Stop')?.focus();
      button('Stop')?.click();
    });
    await says(/^Stopped\. /);
    // The button is gone, and the keys are still the slip's.
    expect(await slip().evaluate((dialog) => dialog.contains(document.activeElement))).toBe(true);
    expect(await changes(page)).toBe(0);
  });

  it('are looked through by keyboard: tried by choice, sifted, sorted, one taken', async () => {
    await page.keyboard.press('Control+k');
    await page.getByRole('combobox', { name: 'Find a command' }).fill('try layouts');
    await page.keyboard.press('Enter');
    await says(/layouts tried: .* in \d+ of them no check fails and none is unknown/);
    const lines = slip().locator('.found tbody tr');
    expect(
      await slip()
        .getByRole('img', { name: /^Cost against evenness of \d+ layouts: .* most even: / })
        .count(),
    ).toBe(1);
    const costs = (): Promise<number[]> =>
      lines
        .locator('td:last-of-type')
        .allTextContents()
        .then((texts) => texts.map(Number.parseFloat));
    const cheap = await costs();
    expect(cheap.length).toBeGreaterThan(3);
    expect(cheap).toEqual(cheap.toSorted((a, b) => a - b));
    await slip().getByRole('button', { name: 'Cost', exact: false }).press('Enter');
    await slip().getByRole('columnheader', { name: /^Cost/ }).and(page.locator('[aria-sort=descending]')).waitFor();
    expect(await costs()).toEqual((await costs()).toSorted((a, b) => b - a));
    await slip().getByRole('textbox', { name: 'With these words' }).fill('bay');
    await says(/\d+ of \d+ shown\./);
    expect((await lines.locator('th').allTextContents()).every((text) => text.includes('Bay 320'))).toBe(true);
    // From one to the next by the arrow keys.
    await lines.first().getByRole('radio').focus();
    await page.keyboard.press('ArrowDown');
    const second = await lines.nth(1).getByRole('radio').getAttribute('aria-label');
    expect(second).toMatch(/Bay 320, \d by \d, .*dimmed to \d+ percent, \d+ lights, .* euros per year/);
    await slip().getByRole('region', { name: 'The picked layout' }).locator('dl').waitFor();
    expect(await violations(page, { within: '.propose' })).toEqual([]);
    await slip().getByRole('button', { name: 'Take this as B' }).press('Enter');
    await says(/^B is now Bay 320/);
    await page.keyboard.press('Escape');
    await settled(page);
    expect(await label('Fixture', 'B')).toContain('Bay 320');
    expect(await label('Verdict', 'B')).not.toMatch(/fails|unknown/);
    expect(await changes(page)).toBe(1);
  });

  it('say what stands in the way where nothing holds, and try again with the limit moved', async () => {
    await goTo(page, 'Assumptions');
    await page.locator('td[aria-label^="Evenness asked: lowest to mean"]').click();
    await page.keyboard.type('0.97');
    await page.keyboard.press('Enter');
    await settled(page);
    await page.keyboard.press('F8');
    await slip().locator('.binds').waitFor();
    expect(await slip().locator('.binds').textContent()).toMatch(/Nothing holds\./);
    expect(await changes(page)).toBe(1);
    await slip().getByRole('button', { name: 'Change it and try again' }).first().click();
    await says(/are filled\./);
    expect(await changes(page)).toBe(3);
  });

  it('are searched for in two workers of their own, which end with the book', async () => {
    // The engine has one; the two of searches before are still there.
    await page.keyboard.press('F8');
    await says(/are filled\./);
    await expect.poll(() => page.workers().length).toBe(3);
    await page.keyboard.press('Escape');
    await slip().waitFor({ state: 'hidden' });
    expect(page.workers().length).toBe(3);
    await page.getByRole('button', { name: 'Books', exact: true }).click();
    await page.getByRole('heading', { name: 'Your books' }).waitFor();
    await expect.poll(() => page.workers().length).toBeLessThanOrEqual(1);
    await page.getByRole('button', { name: small().title }).first().click();
    await page.locator('ob-contents li').first().waitFor();
  });

  it('are refused in words while the client has not answered, which stay until they are read and lead to the question', async () => {
    await goTo(page, 'Brief');
    await page.locator('[aria-label^="Bench length"]').first().click();
    await page.keyboard.press('Delete');
    await settled(page);
    expect(await page.getByRole('button', { name: 'Propose scenarios' }).count()).toBe(0);
    await page.keyboard.press('F8');
    await slip().getByRole('alert').filter({ hasText: 'Nothing is proposed before the brief is answered. One answer lacks: Bench length.' }).waitFor();
    expect(await changes(page)).toBe(1);
    expect(await violations(page, { within: '.propose' })).toEqual([]);
    await slip().getByRole('button', { name: 'Answer it: Bench length' }).and(page.locator(':focus')).press('Enter');
    await slip().waitFor({ state: 'hidden' });
    await page.getByRole('dialog').getByText('Bench length').first().waitFor();
    expect(await page.locator('[name=answer]:focus').count()).toBe(1);
    await page.keyboard.press('Escape');
    expect(browser.complaints).toEqual([]);
  });
});

describe('by touch on a narrow screen', () => {
  useDemo(browser, 'Brief', use, { open, ...TOUCH });

  it('layouts are picked in the list and in the picture, and taken; nothing reaches past the edge', async () => {
    await page.getByRole('button', { name: 'Propose scenarios' }).tap();
    await says(/are filled\./);
    await slip().getByRole('button', { name: 'Try layouts' }).tap();
    await says(/no check fails and none is unknown/);
    await slip().getByRole('combobox', { name: 'Order' }).selectOption({ label: 'most even first' });
    await slip().locator('.found tbody tr').first().locator('label').tap();
    const picked = slip().getByRole('region', { name: 'The picked layout' });
    await picked.locator('dl').waitFor();
    const heading = await picked.locator('h3').textContent();
    const picture = slip().getByRole('img', { name: /^Cost against evenness/ });
    const dot = await picture.locator('.named').first().boundingBox();
    if (!dot) throw new Error('the cheapest is drawn');
    await page.touchscreen.tap(dot.x + dot.width / 2, dot.y + dot.height / 2);
    await expect.poll(() => picked.locator('h3').textContent()).not.toBe(heading);
    await picked.locator('dl').waitFor();
    const { wide, inside } = await slip().evaluate((dialog) => ({ wide: dialog.scrollWidth, inside: dialog.clientWidth }));
    expect(wide).toBeLessThanOrEqual(inside);
    const take = picked.getByRole('button', { name: 'Take this as C' });
    expect((await take.boundingBox())?.height).toBeGreaterThanOrEqual(44);
    await take.tap();
    await says(/^C is now /);
    expect(await violations(page, { within: '.propose' })).toEqual([]);
    expect(browser.complaints).toEqual([]);
  });
});
