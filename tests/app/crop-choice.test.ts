/** A crop and its stage are one choice, found by any word: in the cell and in the brief's own slip, by keys, by touch, and for whoever hears the page. */
import type { Locator, Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import { useBrowser, violations } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

afterEach(() => {
  expect(browser.complaints.splice(0)).toEqual([]);
});

const given = (label: string) => page.locator(`[role=gridcell][aria-label^="${label}:"]`);
const stands = (label: string, value: string): Locator => page.locator(`[role=gridcell][aria-label^="${label}: ${value}"]`);
const slip = () => page.locator('dialog.brief-slip');
const field = () => slip().locator('[name=answer]');
const told = (text: string | RegExp) => page.locator('.told', { hasText: text });
const active = async (within: Locator): Promise<string> => {
  const id = await within.getAttribute('aria-activedescendant');
  return id === null ? '' : ((await page.locator(`#${id}`).textContent()) ?? '');
};

describe('in the demo', () => {
  useDemo(browser, 'Brief', (found) => {
    page = found;
  });

  it('the first line that is offered in the cell has every word that was typed, sets both as one step, and both are said', async () => {
    await given('Crop').click();
    await page.keyboard.type('tomato seedlings');
    const list = page.locator('.slip [role=option]');
    // Found by what it says, then by what is meant too; each with the light that it asks for.
    await expect
      .poll(() => list.allTextContents())
      .toEqual(
        expect.arrayContaining(['tomato, plug seedlings indoor DLI 10.8 to 12.96 mol/m²/d', 'vegetable seedlings, before transplant DLI 8 to 14 mol/m²/d']),
      );
    expect(await list.first().textContent()).toContain('tomato, plug seedlings indoor');
    const input = page.getByRole('combobox', { name: /^Write Crop/ });
    expect(await input.getAttribute('aria-expanded')).toBe('true');
    expect(await active(input)).toBe('tomato, plug seedlings indoor DLI 10.8 to 12.96 mol/m²/d');
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Enter');
    await stands('Crop', 'tomato').waitFor();
    await stands('Stage of the crop', 'plug seedlings indoor').waitFor();
    await told(/Stage of the crop: indoor → plug seedlings indoor/).waitFor();
    // Horticulturae 2024 10(7):730: from 10.8 to 12.96.
    await stands('DLI wanted, at least', '10.8').waitFor();
    await page.keyboard.press('Control+z');
    await stands('Crop', 'sweet basil').waitFor();
    await stands('Stage of the crop', 'indoor').waitFor();
  });

  it('a crop of several stages means itself when it is written out, and what does not go with it is said', async () => {
    await given('Crop').click();
    await page.keyboard.type('tomato');
    expect(await active(page.getByRole('combobox', { name: /^Write Crop/ }))).toBe('');
    await page.keyboard.press('Enter');
    await told('Stage of the crop: “indoor” does not go with tomato. Pick plug seedlings indoor or fruiting.').waitFor();
    await stands('Stage of the crop', 'indoor').waitFor();
    // The keys go through the list, and the one that they stand at is in sight.
    await given('Crop').click();
    await page.keyboard.press('F2');
    for (let i = 0; i < 30; i++) await page.keyboard.press('ArrowDown');
    const [option, list] = [page.locator('.slip [aria-selected=true]'), page.locator('.slip .pick')];
    await expect
      .poll(async () => {
        const [inner, outer] = [await option.boundingBox(), await list.boundingBox()];
        return inner && outer && inner.y >= outer.y - 1 && inner.y + inner.height <= outer.y + outer.height + 1;
      })
      .toBe(true);
    await page.keyboard.press('Escape');
  });

  it('in the slip of the brief the line is taken with Enter, which goes on, and both are the client’s', async () => {
    await given('Crop')
      .getByRole('button', { name: /who said so/ })
      .click();
    await slip().waitFor();
    const box = slip().getByRole('combobox');
    expect(await box.inputValue()).toBe('sweet basil, indoor');
    expect(await box.getAttribute('aria-expanded')).toBe('false');
    await page.keyboard.type('seedling tomato');
    await expect.poll(() => active(box)).toBe('tomato, plug seedlings indoor DLI 10.8 to 12.96 mol/m²/d');
    await slip()
      .locator('[role=status]', { hasText: /^[2-9] to pick from/ })
      .waitFor({ state: 'attached' });
    expect(await violations(page, { within: 'dialog[open]' })).toEqual([]);
    await page.keyboard.press('Enter');
    await expect.poll(() => slip().locator('label.q').textContent()).not.toBe('Crop');
    await slip()
      .locator('.cleared', { hasText: /tomato, plug seedlings indoor: the first of \d that “seedling tomato” may mean/ })
      .waitFor();
    await page.keyboard.press('Escape');
    await slip().waitFor({ state: 'hidden' });
    await stands('Stage of the crop', 'plug seedlings indoor').and(page.locator('[aria-label*="client"]')).waitFor();
    await page.keyboard.press('Control+z');
    await stands('Stage of the crop', 'indoor').and(page.locator('[aria-label*="default"]')).waitFor();
    await stands('Crop', 'sweet basil').waitFor();
  });

  it('in the slip the list opens with ↓ at what stands there, and Escape closes the list before the slip', async () => {
    await given('Crop')
      .getByRole('button', { name: /who said so/ })
      .click();
    await slip().waitFor();
    await page.keyboard.press('ArrowDown');
    await expect.poll(() => active(field())).toBe('sweet basil, indoor DLI 12.9 to 17.8 mol/m²/d');
    await page.keyboard.press('Escape');
    await expect.poll(() => slip().locator('[role=option]').count()).toBe(0);
    expect(await slip().isVisible()).toBe(true);
    await field().fill('tomato');
    await page.keyboard.press('Enter');
    await slip().locator('.wrong', { hasText: 'Stage of the crop: “indoor” does not go with tomato. Pick plug seedlings indoor or fruiting' }).waitFor();
    expect(await slip().locator('label.q').textContent(), 'nothing is kept that can’t be worked out').toBe('Crop');
    await expect.poll(() => active(field())).toMatch(/^tomato, plug seedlings indoor/);
    await page.keyboard.press('Enter');
    await expect.poll(() => slip().locator('label.q').textContent()).not.toBe('Crop');
    await page.keyboard.press('Escape');
    await slip().waitFor({ state: 'hidden' });
    await stands('Crop', 'tomato').waitFor();
    await stands('Stage of the crop', 'plug seedlings indoor').waitFor();
  });
});

describe('on a narrow screen, by touch', () => {
  useDemo(
    browser,
    'Brief',
    (found) => {
      page = found;
    },
    TOUCH,
  );

  it('a line is found and tapped, in boxes that a finger hits, and nothing lies beyond the edge', async () => {
    await given('Crop')
      .getByRole('button', { name: /who said so/ })
      .tap();
    await slip().waitFor();
    await field().tap();
    await field().fill('poinsettia');
    const options = slip().locator('[role=option]');
    await expect
      .poll(() => options.allTextContents())
      .toEqual(['poinsettia, flowering DLI 10 to 14 mol/m²/d', 'poinsettia, long days before flowering DLI 10 to 14 mol/m²/d']);
    for (const option of await options.all()) expect((await option.boundingBox())?.height).toBeGreaterThanOrEqual(44);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    const box = await slip().boundingBox();
    expect(box && box.x >= 0 && box.x + box.width <= 390).toBe(true);
    await options.first().tap();
    await expect.poll(() => field().inputValue()).toBe('poinsettia, flowering');
    expect(await options.count()).toBe(0);
    await slip().getByRole('button', { name: 'Keep, and next' }).tap();
    await slip().getByRole('button', { name: 'Done for now' }).tap();
    await stands('Crop', 'poinsettia').waitFor();
    await stands('Stage of the crop', 'flowering').waitFor();
  });
});
