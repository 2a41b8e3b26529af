/** The functions: looked up, tried, and put into a cell. */
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { goTo, useBrowser, violations } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

useDemo(browser, 'Brief', (found) => {
  page = found;
});

const entry = (name: string): Locator => page.getByRole('region', { name, exact: true });

async function lookUp(words: string): Promise<void> {
  await goTo(page, 'The functions');
  await page.getByLabel('Look for a word, a unit or a family').fill(words);
}

describe('the page of functions', () => {
  it('works out what is tried on Enter and on the button, with its unit, and keeps what is refused', async () => {
    await lookUp('dli');
    const dli = entry('DLI');
    const input = dli.getByLabel('Try DLI');
    await expect.poll(() => input.inputValue()).toMatch(/^=DLI\(/);
    await input.fill('=DLI(200, 16)');
    await input.press('Enter');
    // 200 µmol/m²/s × 16 h × 3600 s/h = 11.52 mol/m²: arithmetic.
    await expect.poll(() => dli.getByRole('status').textContent()).toMatch(/^Gives 11\.5\d*\smol\/m²\/d$/);
    await input.fill('DLI(200 kg, 16)');
    await expect.poll(() => dli.getByRole('status').textContent()).toBe('');
    await dli.getByRole('button', { name: 'Work it out' }).click();
    await expect.poll(() => dli.getByRole('status').textContent()).toMatch(/mass/);
    await expect.poll(() => input.inputValue()).toBe('DLI(200 kg, 16)');
  });

  it('has an answer to every example', async () => {
    await goTo(page, 'The functions');
    await page.getByLabel('Look for a word, a unit or a family').fill('');
    const said = page.locator('.count', { hasText: /^\d+ functions$/ });
    const count = Number.parseInt((await said.textContent()) ?? '', 10);
    await expect.poll(() => page.locator('ob-try').count()).toBe(count);
    expect(count).toBeGreaterThan(0);
    await page.evaluate(() => {
      for (const form of document.querySelectorAll<HTMLFormElement>('form.try')) form.requestSubmit();
    });
    await expect.poll(() => page.locator('form.try p:not(:empty)').count()).toBe(count);
    const others = await page.locator('form.try p').evaluateAll((all) => all.map((p) => p.textContent ?? '').filter((text) => !text.startsWith('Gives ')));
    expect(others).toEqual([]);
  });

  it('puts an example into the chosen cell, on its page, to be kept only on Enter', async () => {
    await lookUp('dli');
    await expect.poll(() => entry('DLI').getByRole('button', { name: 'Put into the chosen cell' }).isDisabled()).toBe(true);
    await goTo(page, 'Scenarios');
    await page.locator('td[aria-label^="Mount height, B:"]').click();
    await lookUp('max');
    const max = page.locator('ob-try').first();
    await max.locator('input').fill('=0.2 m + 25 cm');
    await max.getByRole('button', { name: 'Put into Mount height, B' }).click();
    await page.getByRole('heading', { name: 'Scenarios', level: 2, exact: true }).waitFor();
    const writing = page.getByRole('textbox', { name: /^Formula for Mount height, B/ });
    await expect.poll(() => writing.textContent()).toBe('=0.2 m + 25 cm');
    await expect.poll(() => page.locator('td[aria-label^="Mount height, B: 0.40 metres"]').count()).toBe(1);
    await page.keyboard.press('Enter');
    await page.locator('td[aria-label^="Mount height, B: 0.45 metres"]').waitFor();
  });

  it('has no violation that axe can find', async () => {
    await goTo(page, 'Scenarios');
    await page.locator('td[aria-label^="Mount height, B:"]').click();
    await lookUp('bench');
    await page.locator('ob-try').first().waitFor();
    expect(await violations(page)).toEqual([]);
    expect(browser.complaints).toEqual([]);
  });
});
