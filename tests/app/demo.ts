/** One visit to a book for the tests of a file: opening it takes longer than most of what is tested there. */
import type { BrowserContextOptions, Page } from 'playwright-core';
import { afterEach, beforeEach } from 'vitest';
import type { Session } from '../../src/session.ts';
import type { ObApp } from '../../src/ui/shell/app.ts';
import { goTo, type Opened, openDemo, settled } from './browser.ts';

/** The page with a book open. */
type OpenApp = ObApp & { session: Session };

/** How the book is visited. Tests of one file that visit it alike do so one after another, on one page. */
export interface Visit extends BrowserContextOptions {
  /** Opens the book from where one begins; the demo unless said. Two ways of opening are two visits. */
  readonly open?: (page: Page) => Promise<void>;
}

/** By touch on a narrow screen. */
export const TOUCH = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } as const;

/** What stands open over the page, or is being written. */
const OPEN = 'dialog[open], .over.writing, .formula-here, ob-prose-writing textarea';
/** Escape closes one thing at a time: a list, a slip, a text, a cell. */
const ESCAPES = 6;
const VIEWPORT = { width: 1440, height: 900 };

const isNarrow = ({ viewport }: BrowserContextOptions): boolean => (viewport?.width ?? VIEWPORT.width) <= 640;

/** Closes what is open, takes back every change, and leaves nothing chosen and nothing said. */
async function takeBack(page: Page, options: BrowserContextOptions): Promise<void> {
  await page.emulateMedia({ media: null, colorScheme: options.colorScheme ?? null });
  await page.setViewportSize(options.viewport ?? VIEWPORT);
  for (let i = 0; i < ESCAPES && (await page.locator(OPEN).filter({ visible: true }).count()) > 0; i++) await page.keyboard.press('Escape');
  const left = await page.evaluate(async () => {
    const app = document.querySelector('ob-app') as OpenApp;
    const { session } = app;
    await session.settled();
    while (session.history.done.length > 0 && session.undo()) await session.settled();
    document.querySelector<HTMLElement>('.shade')?.click();
    document.querySelector<HTMLElement>('.grab[aria-expanded=true]')?.click();
    app.whereabouts.leave();
    app.whereabouts.anchor = undefined;
    app.typing.forget();
    app.telling.tell('');
    await app.updateComplete;
    for (const scrolled of document.querySelectorAll('main, .scroll')) scrolled.scrollTo(0, 0);
    return session.history.done.length;
  });
  if (left > 0) throw new Error(`${left} changes can not be taken back.`);
}

interface Kept {
  readonly open: Visit['open'];
  readonly options: string;
  page: Page | undefined;
}
const kept = new WeakMap<Opened, Kept[]>();

/** The one visit of this kind in the file. */
function visitOf(browser: Opened, open: Visit['open'], how: BrowserContextOptions): Kept {
  const options = JSON.stringify(how);
  const all = kept.get(browser) ?? [];
  kept.set(browser, all);
  let found = all.find((one) => one.open === open && one.options === options);
  if (!found) {
    found = { open, options, page: undefined };
    all.push(found);
  }
  return found;
}

/**
 * Each test finds the book as it was opened, on the page with this title, and `use` is told where. A test that failed leaves nothing to the next
 * one, which begins anew.
 */
export function useDemo(browser: Opened, title: string, use: (page: Page) => void, { open, ...how }: Visit = {}): void {
  const options = { viewport: VIEWPORT, ...how };
  const visit = visitOf(browser, open, options);
  const leave = async (): Promise<void> => {
    await visit.page?.context().close();
    visit.page = undefined;
  };
  beforeEach(async () => {
    if (!visit.page) {
      visit.page = await browser.stay(options);
      await (open ?? ((page: Page) => openDemo(page, !isNarrow(options))))(visit.page);
    }
    const { page } = visit;
    await goTo(page, title);
    // The contents count the changes once nothing else is to be done.
    await page.locator('ob-contents li', { hasText: 'What changed' }).locator('i').waitFor({ state: 'detached' });
    await settled(page);
    use(page);
  });
  afterEach(async ({ task }) => {
    const { page } = visit;
    if (!page) return;
    if (task.result?.state === 'fail') return leave();
    try {
      await takeBack(page, options);
    } catch (error) {
      await leave();
      throw error;
    }
  });
}
