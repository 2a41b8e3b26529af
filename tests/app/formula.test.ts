/** Writing a formula: by keyboard, by clicks on cells and by an input method. */
import type { Page } from 'playwright-core';
import { afterEach, describe, expect, it } from 'vitest';
import { resize, useBrowser, violations } from './browser.ts';
import { TOUCH, useDemo } from './demo.ts';

const browser = useBrowser();
let page: Page;

const cell = (row: string, column: string) => page.locator(`td[aria-label^="${row}, ${column}:"]`).first();
const editor = () => page.getByRole('textbox', { name: /^Formula for/ });
const slip = () => page.locator('.formula-slip');
const offered = () => slip().getByRole('option').locator('code').allTextContents();
const said = () => slip().locator('p[role=status]');

/** Begins a formula in a cell, over what stands there. */
async function begin(row: string, column: string, text: string): Promise<void> {
  await cell(row, column).click();
  await page.keyboard.type(text);
  await editor().waitFor();
}
/** Cells that wear a letter, as `B7 a`. */
const lettered = (): Promise<readonly string[]> =>
  page.locator('[data-spot]:has(.key)').evaluateAll((cells) =>
    cells.map((c) => {
      const [row, column] = ((c as HTMLElement).dataset.spot ?? '').split(',').map(Number);
      return `${String.fromCharCode(65 + (column ?? 0))}${(row ?? 0) + 1} ${c.querySelector('.key')?.textContent}`;
    }),
  );

describe('a formula', () => {
  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });
  afterEach(() => {
    expect(browser.complaints.splice(0)).toEqual([]);
  });

  it('is written with completion and hints by keyboard, and kept', async () => {
    const light = async (row: string): Promise<number> => Number(/: ([\d.]+)/.exec((await cell(row, 'B').getAttribute('aria-label')) ?? '')?.[1]);
    // The demo works the mean out by the same layout and height.
    const mean = await light('Full mean PPFD');
    await begin('Dimmest point, maintained', 'B', '=bench.me');
    await expect.poll(offered).toEqual(['BENCH.MEAN(layout, height, [nx], [ny])']);
    expect(await editor().getAttribute('aria-activedescendant')).toBeNull();
    await page.keyboard.press('ArrowDown');
    await expect.poll(() => editor().getAttribute('aria-activedescendant')).not.toBeNull();
    const active = await editor().getAttribute('aria-activedescendant');
    await expect.poll(() => page.locator(`[id="${active}"]`).getAttribute('aria-selected')).toBe('true');
    await page.keyboard.press('Enter');
    await expect.poll(() => slip().locator('.argument b').textContent()).toBe('layout');
    await page.keyboard.type('layout');
    await expect.poll(offered).toContain('Layout · B');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Tab');
    await page.keyboard.type(',');
    await expect.poll(() => slip().locator('.argument').textContent()).toMatch(/height: .*at least 0\.01, at most 50/);
    await page.keyboard.type('mount h');
    await expect.poll(offered).toEqual(['Mount height · B', 'Mount height · A', 'Mount height · C']);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.keyboard.type(')');
    await expect.poll(() => editor().textContent()).toBe('=BENCH.MEAN(B12,B7)');
    await expect
      .poll(() => slip().getByRole('listitem').allTextContents())
      .toEqual([expect.stringMatching(/^aLayout · BB12/), expect.stringMatching(/^bMount height · BB7.*0\.40/)]);
    await page.keyboard.press('Enter');
    await expect.poll(() => light('Dimmest point, maintained')).toBe(Math.round(mean));
  });

  it('keeps on Enter what is written where nothing in the list was picked', async () => {
    await begin('Mount height', 'C', '=pi');
    await expect.poll(offered).toContain('PI()');
    await page.keyboard.type('()*0.1 m');
    await page.keyboard.press('Enter');
    await cell('Mount height', 'C').and(page.locator('[aria-label*="0.31 metres"]')).waitFor();
  });

  it('takes cells by a click and by the arrows, a range with Shift, and marks them with its letters', async () => {
    await begin('Cost to buy, all', 'B', '=');
    await page.keyboard.press('ArrowUp');
    await expect.poll(() => editor().textContent()).toMatch(/^=B\d+$/);
    await page.keyboard.press('ArrowLeft');
    const first = (await editor().textContent()) ?? '';
    expect(first).toMatch(/^=A\d+$/);
    await expect.poll(() => slip().locator('.unseen').textContent()).toMatch(new RegExp(`put in as ${first.slice(1)}\\.$`));
    // Another pick takes its place; a sign ends it.
    await cell('Mount height', 'A').click();
    await expect.poll(() => editor().textContent()).toBe('=A7');
    await page.keyboard.type('+SUM(');
    await cell('Along the bench', 'B').click();
    await page.keyboard.press('Shift+ArrowDown');
    await page.keyboard.type(')+A7+');
    // Of another table its name is written too.
    await page.locator('ob-table').nth(1).locator('[data-spot="0,0"]').click();
    await expect.poll(() => editor().textContent()).toBe('=A7+SUM(B2:B3)+A7+Choice.A1');
    await expect.poll(lettered).toEqual(['B2 b', 'B3 b', 'A7 a', 'A1 c']);
    expect(
      await editor()
        .locator('.ref')
        .evaluateAll((refs) => refs.map((ref) => ref.getAttribute('data-letter'))),
    ).toEqual(['a', 'b', 'a', 'c']);
    await page.keyboard.press('Escape');
    await expect.poll(() => page.locator('.formula-slip').count()).toBe(0);
    await expect.poll(() => page.locator('ob-table input:focus').count()).toBe(1);
  });

  it('tells the cells that it reads apart by letter and kind of line, in one ink that is seen by day, by night and on paper', async () => {
    await begin('Cost to buy, all', 'B', '=A7+B7+C7+A2');
    await expect.poll(lettered).toHaveLength(4);
    /** Of what wears a letter: its letter, its line, its ink, and how the ink stands out from what lies under it. */
    const looks = () =>
      page.evaluate(() => {
        const numbers = (colour: string): readonly number[] => (colour.match(/[\d.]+/g) ?? []).map(Number);
        /** Relative luminance and contrast ratio: Web Content Accessibility Guidelines 2.2, W3C, 2023, glossary. */
        const luminance = (colour: string): number => {
          const [r = 0, g = 0, b = 0] = numbers(colour).map((v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4));
          return 0.2126 * r + 0.7152 * g + 0.0722 * b;
        };
        const contrast = (a: string, b: string): number => {
          const [low = 0, high = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
          return (high + 0.05) / (low + 0.05);
        };
        const under = (element: Element | null): string => {
          const colour = element ? getComputedStyle(element).backgroundColor : 'rgb(255, 255, 255)';
          return element && numbers(colour)[3] === 0 ? under(element.parentElement) : colour;
        };
        const look = (of: Element, letter: string | null | undefined, line: string, ink: string, also: string) => ({
          letter,
          line,
          inks: [ink, also],
          contrast: Math.min(contrast(ink, under(of)), contrast(also, under(of))),
        });
        const written = [...document.querySelectorAll<HTMLElement>('.formula-slip .ref')].map((ref) => {
          const style = getComputedStyle(ref);
          return look(ref, ref.dataset.letter, style.borderBottomStyle, style.borderBottomColor, getComputedStyle(ref, '::after').color);
        });
        const cells = [...document.querySelectorAll('.keyed')].map((cell) => {
          const style = getComputedStyle(cell);
          const key = cell.querySelector('.key') as Element;
          return look(cell, key.textContent, style.outlineStyle, style.outlineColor, getComputedStyle(key).color);
        });
        return { written, cells, ink: getComputedStyle(document.body).color };
      });
    for (const [colorScheme, media] of [
      ['light', 'screen'],
      ['dark', 'screen'],
      ['dark', 'print'],
    ] as const) {
      await page.emulateMedia({ colorScheme, media });
      const { written, cells, ink } = await looks();
      const where = `${colorScheme}, ${media}`;
      expect(
        written.map(({ letter, line }) => `${letter} ${line}`),
        where,
      ).toEqual(['a solid', 'b dashed', 'c double', 'd dotted']);
      expect(cells.map(({ letter, line }) => `${letter} ${line}`).sort(), where).toEqual(['a solid', 'b dashed', 'c double', 'd dotted']);
      for (const { inks, contrast } of [...written, ...cells]) {
        expect(inks, where).toEqual([ink, ink]);
        expect(contrast, where).toBeGreaterThanOrEqual(4.5);
      }
    }
    await page.emulateMedia({ colorScheme: null, media: null });
    await page.keyboard.press('Escape');
  });

  it('finds cells of other pages by their headings, and writes their table before them', async () => {
    await begin('Mount height', 'C', '=2*');
    await page.keyboard.type('bench len');
    await expect.poll(offered).toContain('Bench length · Brief');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect.poll(() => editor().textContent()).toMatch(/^=2\*(bench_length|Brief\.A\d+)$/);
  });

  it('goes along to another page for a cell that is clicked there, and back to its own', async () => {
    await begin('Mount height', 'C', '=B7*');
    await page
      .locator('ob-contents')
      .getByRole('button', { name: /^Assumptions/ })
      .click();
    await page.getByRole('heading', { name: 'Assumptions', level: 2, exact: true }).waitFor();
    await page.locator('ob-table').first().locator('[data-spot="0,0"]').click();
    await expect.poll(() => editor().textContent()).toBe('=B7*Assumptions.A1');
    await expect.poll(lettered).toEqual(['A1 b']);
    await page.keyboard.press('Escape');
    await page.getByRole('heading', { name: 'Scenarios', level: 2, exact: true }).waitFor();
    await expect.poll(() => editor().count()).toBe(0);
    await expect.poll(() => page.locator('ob-table input:focus').count()).toBe(1);
    await page.keyboard.type('=B7+');
    await page
      .locator('ob-contents')
      .getByRole('button', { name: /^Brief/ })
      .click();
    await page.getByRole('heading', { name: 'Brief', level: 2, exact: true }).waitFor();
    await page.locator('ob-table').first().locator('[data-spot="2,0"]').click();
    await expect.poll(() => editor().textContent()).toBe('=B7+Brief.A3');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Scenarios', level: 2, exact: true }).waitFor();
    await cell('Mount height', 'C').and(page.locator('[aria-label*="worked"], [aria-label*="out of range"]')).waitFor();
  });

  it('says what is wrong while it is written, and that it is right again', async () => {
    await begin('Mount height', 'C', '=B7+5 W');
    await expect.poll(() => said().textContent()).toMatch(/length.*power/);
    await expect.poll(() => said().getAttribute('class')).toBe('wrong');
    await page.keyboard.press('Backspace');
    await page.keyboard.type('cm');
    await expect.poll(() => said().textContent()).toMatch(/^Gives 0?\.?45/);
    await page.keyboard.type('+(');
    await expect.poll(() => said().textContent()).toBe('');
    await expect.poll(() => cell('Mount height', 'C').getAttribute('aria-label')).toMatch(/0\.60 metres/);
  });

  it('is left as it was on Escape, which closes the list first', async () => {
    await cell('Maintained mean PPFD', 'B').click();
    const before = await cell('Maintained mean PPFD', 'B').getAttribute('aria-label');
    await page.keyboard.press('F2');
    await editor().waitFor();
    const text = await editor().textContent();
    expect(text).toMatch(/^=/);
    await page.keyboard.type('*mou');
    await expect.poll(offered).toContain('Mount height · B');
    await page.keyboard.press('Escape');
    await expect.poll(offered).toEqual([]);
    await expect.poll(() => editor().textContent()).toBe(`${text}*mou`);
    await page.keyboard.press('Escape');
    await expect.poll(() => editor().count()).toBe(0);
    await expect.poll(() => cell('Maintained mean PPFD', 'B').getAttribute('aria-label')).toBe(before);
    await expect.poll(() => page.locator('ob-app[citing]').count()).toBe(0);
  });

  it('shows units as they are written, and stays one line whatever is pasted', async () => {
    await begin('Mount height', 'C', '=UNIT(6,"in")+B7');
    await page.keyboard.press('Enter');
    await cell('Mount height', 'C').and(page.locator('[aria-label*="0.55 metres"]')).waitFor();
    await cell('Mount height', 'C').click();
    await page.keyboard.press('F2');
    await editor().waitFor();
    await expect.poll(() => editor().textContent()).toBe('=6 in+B7');
    await page.evaluate(() => {
      const data = new DataTransfer();
      data.setData('text/plain', '+1 cm\n+2 cm');
      document.activeElement?.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }));
    });
    await expect.poll(() => editor().textContent()).toBe('=6 in+B7+1 cm +2 cm');
    await page.keyboard.press('Control+z');
    await expect.poll(() => editor().textContent()).toBe('=6 in+B7');
  });

  it('is kept by a click elsewhere, and opens again with the reason where it is refused', async () => {
    await begin('Mount height', 'C', '=nosuchname');
    await cell('Cost to buy, all', 'A').click();
    await expect.poll(() => said().textContent()).toMatch(/Nothing is called nosuchname/);
    await expect.poll(() => editor().textContent()).toBe('=nosuchname');
  });

  it('loses nothing that an input method makes, and takes no key while it composes', async () => {
    const session = await page.context().newCDPSession(page);
    const compose = (text: string) => session.send('Input.imeSetComposition', { text, selectionStart: text.length, selectionEnd: text.length });
    await cell('Mount height', 'C').click();
    await compose('=');
    await compose('=A');
    expect(await editor().count()).toBe(0);
    await page.keyboard.press('Escape');
    await session.send('Input.insertText', { text: '=A7' });
    await editor().waitFor();
    await expect.poll(() => editor().textContent()).toBe('=A7');
    await compose('+');
    await compose('+1');
    await session.send('Input.insertText', { text: '+10 cm' });
    await expect.poll(() => editor().textContent()).toBe('=A7+10 cm');
    await page.keyboard.press('Enter');
    await cell('Mount height', 'C').and(page.locator('[aria-label*="0.40 metres"]')).waitFor();
  });

  it('has no fault that axe finds, with and without its list', async () => {
    await begin('Mount height', 'C', '=B7+SUM(B8,mou');
    await expect.poll(offered).toContain('Mount height · B');
    await page.keyboard.press('ArrowDown');
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Enter');
    await page.keyboard.type('+5 W');
    await expect.poll(() => said().getAttribute('class')).toBe('wrong');
    expect(await violations(page)).toEqual([]);
  });
});

describe('the slip of a formula', () => {
  useDemo(browser, 'Scenarios', (found) => {
    page = found;
  });

  it.each([
    [1440, 900],
    [1024, 768],
    [390, 844],
  ])('hides neither the label of its row nor what the formula reads, %i px wide', async (width, height) => {
    await resize(page, { width, height });
    /** Labels and cells read that lie under the slip, of the rows that are seen at all. */
    const hidden = (): Promise<readonly string[]> =>
      slip().evaluate((element) => {
        const own = element.getBoundingClientRect();
        return [...document.querySelectorAll('tr.sel > th, td:has(> .keyed)')]
          .filter((each) => {
            const box = each.getBoundingClientRect();
            return box.left < own.right - 3 && box.right > own.left + 3 && box.top < own.bottom - 3 && box.bottom > own.top + 3;
          })
          .map((each) => each.getAttribute('aria-label') ?? each.textContent ?? '');
      });
    for (const [row, column, formula, reads] of [
      ['Mount height', 'A', '=A5*30 cm', 1],
      ['Mount height', 'A', '=MIN(B7, A20)', 2],
      ['Mount height', 'C', '=A7+B7', 2],
      ['Full mean PPFD', 'C', '=C13*1.1', 1],
    ] as const) {
      await begin(row, column, formula);
      await expect.poll(async () => (await lettered()).length).toBe(reads);
      await expect.poll(hidden, { message: `${row}, ${column}: ${formula}` }).toEqual([]);
      const box = await slip().boundingBox();
      expect(box?.x).toBeGreaterThanOrEqual(0);
      expect((box?.x ?? 0) + (box?.width ?? 999)).toBeLessThanOrEqual(width);
      await page.keyboard.press('Escape');
      await page.keyboard.press('Escape');
      await slip().waitFor({ state: 'detached' });
    }
  });
});

describe('by touch, 390 px wide', () => {
  useDemo(
    browser,
    'Scenarios',
    (found) => {
      page = found;
    },
    TOUCH,
  );

  it('is written with cells that are tapped, within the screen', async () => {
    await cell('Mount height', 'A').tap();
    await cell('Mount height', 'A').tap();
    await page.locator('.over.writing').waitFor();
    await page.keyboard.press('Control+a');
    await page.keyboard.type('=');
    await editor().waitFor();
    await cell('Spread along', 'A').tap();
    await expect.poll(() => editor().textContent()).toBe('=A5');
    await page.keyboard.type('*30 cm');
    const box = await slip().boundingBox();
    expect(box?.x).toBeGreaterThanOrEqual(0);
    expect((box?.x ?? 0) + (box?.width ?? 999)).toBeLessThanOrEqual(390);
    await page.keyboard.press('Enter');
    await cell('Mount height', 'A').and(page.locator('[aria-label*="0.33 metres"]')).waitFor();
    await expect.poll(() => page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  });
});
