/** How what is given is shown: in which unit, in which measures; and what is said of how it was read. */
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { changes, resize, settled, useBrowser, violations } from './browser.ts';
import { useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

useDemo(browser, 'Scenarios', (found) => {
  page = found;
});

const cell = (name: string) => page.locator(`td[aria-label^="${name}"]`);

async function command(words: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type(words);
  await page.keyboard.press('Enter');
}

describe('another unit', () => {
  it('is picked for one cell, whose value stays, and is taken back', async () => {
    await cell('Mount height, B:').click();
    await command('another unit');
    const slip = page.getByRole('dialog', { name: 'Show Mount height, B in another unit' });
    expect(await violations(page, { within: 'dialog[open]' })).toEqual([]);
    const before = await cell('Full mean PPFD, B:').getAttribute('aria-label');
    await slip.getByRole('button', { name: 'cm', exact: true }).click();
    await cell('Mount height, B: 40').and(page.locator('[aria-label*="centimetres"]')).waitFor();
    await cell('Mount height, A: 0.30 metres').waitFor();
    await settled(page);
    expect(await cell('Full mean PPFD, B:').getAttribute('aria-label')).toBe(before);
    await page.keyboard.press('Control+z');
    await cell('Mount height, B: 0.40 metres').waitFor();
  });

  it('is typed for the whole row; what is of another kind is refused in words and kept', async () => {
    await cell('Mount height, B:').click();
    await command('the row in another');
    const slip = page.getByRole('dialog', { name: 'Show the row Mount height in another unit' });
    await slip.getByLabel('Or write one').fill('kg');
    await page.keyboard.press('Enter');
    await expect.poll(() => slip.getByRole('status').textContent()).toBe('Mount height, B is a length; kg is for a mass.');
    await expect.poll(() => slip.getByLabel('Or write one').inputValue()).toBe('kg');
    await slip.getByLabel('Or write one').fill('mm');
    await page.keyboard.press('Enter');
    await cell('Mount height, A: 300').and(page.locator('[aria-label*="millimetres"]')).waitFor();
    await cell('Mount height, B: 400').and(page.locator('[aria-label*="millimetres"]')).waitFor();
  });
});

/** What the style of the page says of paper, the last word first. */
const printedOn = (): Promise<string> =>
  page.evaluate(() => {
    const rules = document.adoptedStyleSheets.flatMap((sheet) => [...sheet.cssRules].map((rule) => rule.cssText));
    return rules.findLast((text) => text.startsWith('@page {') && text.includes('size')) ?? '';
  });

describe('measures', () => {
  it('go to US customary and back without a changed value', async () => {
    await command('us customary');
    // 0.40 m / 0.0254 m/in = 15.75 in: the inch of NIST SP 811, 2008, appendix B.8.
    await cell('Mount height, B: 1 foot 3 3/4 inches').waitFor();
    expect(await printedOn()).toMatch(/letter/);
    await command('metric');
    await cell('Mount height, B: 0.40 metres').waitFor();
    expect(await printedOn()).toMatch(/a4/i);
  });
});

describe('what was typed', () => {
  it('is told as it was read, aloud and on the page, where a unit was put to a bare number', async () => {
    await cell('Mount height, B:').click();
    await page.keyboard.type('=IF(DLI(200, 16) > 5, 0.5 m, 0.4 m)');
    await page.keyboard.press('Enter');
    const told = page.locator('.told');
    await expect.poll(() => told.textContent()).toMatch(/200 read as 200 µmol\/m²\/s/);
    await expect.poll(() => told.getAttribute('aria-live')).toBe('polite');
    await expect.poll(() => told.evaluate((element) => getComputedStyle(element).opacity)).toBe('1');
  });
});

describe('a block of text', () => {
  const paste = (text: string): Promise<void> =>
    page.evaluate((plain) => {
      const clipboardData = new DataTransfer();
      clipboardData.setData('text/plain', plain);
      document.activeElement?.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
    }, text);

  it('fills cells from the chosen one on, as one change', async () => {
    await cell('Mount height, A:').click();
    await paste('0.31\t42 cm\n90 %\t\n');
    // A unit of its own is other than what the cell shows: it is looked at first, and until then nothing has changed.
    const slip = page.getByRole('dialog', { name: 'How it will be read' });
    await slip.getByText('Mount height, B: “42 cm”, shown in cm, until now in m').waitFor();
    await cell('Mount height, A: 0.30 metres').waitFor();
    await slip.getByRole('button', { name: 'Put it down so' }).click();
    await cell('Mount height, A: 0.31 metres').waitFor();
    await cell('Mount height, B: 42').waitFor();
    await cell('Dimmed to, A: 90 percent').waitFor();
    await page.keyboard.press('Control+z');
    await cell('Mount height, A: 0.30 metres').waitFor();
    await cell('Mount height, B: 0.40 metres').waitFor();
    await cell('Dimmed to, A: 100 percent').waitFor();
  });

  it('is left out whole where one piece can not be taken', async () => {
    await cell('Mount height, A:').click();
    await paste('0.31\t3 kg');
    const slip = page.getByRole('dialog', { name: 'How it will be read' });
    await slip.getByText('One cell does not take what is pasted:').waitFor();
    await slip.getByText('Nothing is put in until that is mended').waitFor();
    await slip
      .getByRole('listitem')
      .filter({ hasText: /^Mount height, B: “3 kg” is not taken\. .*mass/ })
      .waitFor();
    await expect.poll(() => slip.getByRole('button', { name: 'Put it down so' }).isDisabled()).toBe(true);
    // Enter in the slip lands nothing either.
    await page.keyboard.press('Enter');
    await slip.getByRole('button', { name: 'Leave it' }).click();
    await slip.waitFor({ state: 'hidden' });
    await cell('Mount height, A: 0.30 metres').waitFor();
    await cell('Mount height, B: 0.40 metres').waitFor();
    expect(await changes(page)).toBe(0);
  });

  it('of which several pieces can not be taken names each place once, and says at the button why nothing is put in', async () => {
    await cell('Mount height, A:').click();
    await paste('900 m\tsoon\n8 cm\t');
    const slip = page.getByRole('dialog', { name: 'How it will be read' });
    await slip.getByText('Nothing is put in until those are mended').waitFor();
    const lines = await slip.getByRole('listitem').allTextContents();
    expect(lines).toHaveLength(3);
    for (const line of lines) expect(line.match(/(Mount height|Dimmed to), [AB]/g), line).toHaveLength(1);
    expect(lines.filter((line) => line.includes('→'))).toEqual([]);
  });
});

describe('the difference from the scenario that all are compared with', () => {
  it.each([1440, 1024, 700])('is seen beside or under its unit, %i px wide', async (width) => {
    await resize(page, { width, height: 768 });
    await cell('Full mean PPFD, B:').scrollIntoViewIfNeeded();
    const boxes = await page.locator('table.scenarios tbody td').evaluateAll((cells) =>
      cells.flatMap((each) => {
        const [whole, difference, unit, part] = [each, ...['.d', '.u', '.f'].map((name) => each.querySelector(name))].map((part) => {
          const range = document.createRange();
          if (part) range.selectNodeContents(part);
          return part === each ? each.getBoundingClientRect() : range.getBoundingClientRect();
        });
        return difference && whole && unit && part && each.querySelector('.d')?.textContent
          ? [{ whole: whole.toJSON(), difference: difference.toJSON(), others: [unit.toJSON(), part.toJSON()] }]
          : [];
      }),
    );
    expect(boxes.length).toBeGreaterThan(30);
    for (const { whole, difference, others } of boxes) {
      expect(difference.width).toBeGreaterThan(0);
      expect(difference.right).toBeLessThanOrEqual(whole.right);
      expect(difference.bottom).toBeLessThanOrEqual(whole.bottom + 1);
      // Letters may reach out of their line by a hair.
      for (const other of others) expect(Math.min(other.right - difference.left, other.bottom - 3 - difference.top)).toBeLessThanOrEqual(0);
    }
  });
});
