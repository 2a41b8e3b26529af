/** What a book of an earlier edition says on the page, and how what is only assumed is marked. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { goTo, useBrowser, violations } from './browser.ts';

const browser = useBrowser();

interface Stored {
  readonly tables: readonly { readonly id: string; readonly cells: Record<string, Record<string, { content: string }>> }[];
  [field: string]: unknown;
}

/** A book of a template that is not here any more: it says what it said when it was opened last. In A the height is held against a limit that is assumed. */
function olderBook(): Buffer {
  const book = JSON.parse(readFileSync(new URL('../templates/old/trade-bench.1.json', import.meta.url), 'utf8')) as Stored;
  const height = book.tables.find(({ id }) => id === 'scenarios')?.cells.c_height?.a;
  if (!height) throw new Error('The book has no such check.');
  height.content = '=CHECK.AT.MOST(A7,"unknown",0,UNIT(2,"m"),"a room of 2 m")';
  const template = { slug: 'a-bench-of-old', edition: 1, lacks: { checks: ['Fuse of each run', 'Shade'], older: ['Wire current'] } };
  return Buffer.from(JSON.stringify({ ...book, version: 3, id: 'older-bench', template }));
}

it('says above the scenarios which checks a book lacks, in its verdicts too, and marks what is assumed by shape and word', async () => {
  const page = await browser.visit();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Control+o')]);
  await chooser.setFiles({ name: 'older.json', mimeType: 'application/json', buffer: olderBook() });
  await goTo(page, 'Scenarios');
  await page.getByText('It lacks 2 checks of the present one: Fuse of each run, Shade. 1 check works by older rules: Wire current.').waitFor();
  const check = (name: string) => page.locator(`[role=gridcell][aria-label^="${name}, A: "]`);
  await expect
    .poll(() => check('Height').getAttribute('aria-label'), { timeout: 20_000 })
    .toBe(
      // 0.30 m of 2 m: 85 % under.
      'Height, A: assumed, 85 % under; limit assumed: a room of 2 m, check',
    );
  await expect.poll(() => check('Verdict').getAttribute('aria-label')).toBe('Verdict, A: holds, 1 assumed: Height; 2 checks lacking, 1 by older rules, check');
  const tags = (name: string) =>
    check(name)
      .locator('.tag')
      .evaluateAll((found) => found.map((tag) => [tag.textContent, getComputedStyle(tag).clipPath]));
  const [[word, shape] = []] = await tags('Height');
  const [[verdict, its] = []] = await tags('Verdict');
  const [[holds, other] = []] = await tags('Evenness');
  expect([word, verdict, holds]).toEqual(['assumed', 'holds', 'holds']);
  // The verdict stands on an assumption: it has that mark, not the one of what holds.
  expect(its).toBe(shape);
  expect(other).not.toBe(shape);
  await expect.poll(() => page.locator('ob-contents li.here').textContent()).toContain('1 holds, assumed');
  expect(await violations(page, { within: '.lacks' })).toEqual([]);
  expect(browser.complaints).toEqual([]);
}, 60_000);
