/** One visit to the demo for the tests of a describe: opening it takes longer than most of what is tested there. */
import type { Page, ViewportSize } from 'playwright-core';
import { afterAll, afterEach, beforeEach } from 'vitest';
import { goTo, type Opened, openDemo } from './browser.ts';

interface OpenApp extends HTMLElement {
  readonly session: { readonly history: { readonly done: readonly unknown[] }; undo(): unknown; settled(): Promise<void> };
}

/** What stands open over the page, or is being written. */
const OPEN = 'dialog[open], .over.writing, .formula-here, ob-prose-writing textarea';
/** Escape closes one thing at a time: a list, a slip, a text, a cell. */
const ESCAPES = 6;
const VIEWPORT = { width: 1440, height: 900 };

/** Closes what is open and takes back every change. */
async function takeBack(page: Page, viewport: ViewportSize): Promise<void> {
  for (let i = 0; i < ESCAPES && (await page.locator(OPEN).filter({ visible: true }).count()) > 0; i++) await page.keyboard.press('Escape');
  const left = await page.evaluate(async () => {
    const { session } = document.querySelector('ob-app') as OpenApp;
    while (session.history.done.length > 0 && session.undo()) await session.settled();
    return session.history.done.length;
  });
  if (left > 0) throw new Error(`${left} changes can not be taken back.`);
  await page.setViewportSize(viewport);
}

/**
 * Each test finds the demo as it was opened, on the page with this title, and `use` is told where. A test that failed leaves nothing to the next
 * one, which begins anew.
 */
export function useDemo(browser: Opened, title: string, use: (page: Page) => void): void {
  let page: Page | undefined;
  const leave = async (): Promise<void> => {
    await page?.context().close();
    page = undefined;
  };
  beforeEach(async () => {
    if (!page) {
      page = await browser.stay({ viewport: VIEWPORT });
      await openDemo(page);
    }
    await goTo(page, title);
    // The contents count the changes once nothing else is to be done.
    await page.locator('ob-contents li', { hasText: 'What changed' }).locator('i').waitFor({ state: 'detached' });
    use(page);
  });
  afterEach(async ({ task }) => {
    if (!page) return;
    if (task.result?.state === 'fail') return leave();
    try {
      await takeBack(page, VIEWPORT);
    } catch (error) {
      await leave();
      throw error;
    }
  });
  afterAll(leave);
}
