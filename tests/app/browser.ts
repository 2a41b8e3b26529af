/** A browser with the built app in it, served with the headers it is meant to run under. */
import { text } from 'node:stream/consumers';
import { AxeBuilder } from '@axe-core/playwright';
import { source } from 'axe-core';
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Download, type Page, type ViewportSize } from 'playwright-core';
import { afterAll, afterEach, beforeAll, inject } from 'vitest';
import type { Session } from '../../src/session.ts';

/** How long an action may take, in ms, before it counts as one that never comes: a machine with much else to do is slow, not wrong. */
const PATIENCE = 60_000;

export interface Opened {
  readonly address: string;
  /** A new visitor, with nothing kept from before, until the end of the test. */
  visit(options?: BrowserContextOptions): Promise<Page>;
  /** A new visitor who stays until whoever asked closes the visit, or the file ends. */
  stay(options?: BrowserContextOptions): Promise<Page>;
  /** What pages complained of since the file began: errors of scripts and breaches of their policy. */
  readonly complaints: string[];
}

/** The files of a worker have one line to the one browser of the run (setup.ts), which ends it, and each file has visitors of its own. */
let line: Promise<Browser> | undefined;
const complaints: string[] = [];

async function come(options: BrowserContextOptions = { viewport: { width: 1440, height: 900 } }): Promise<Page> {
  line ??= chromium.connect(inject('browser'));
  const context = await (await line).newContext({ ...options, acceptDownloads: true });
  context.setDefaultTimeout(PATIENCE);
  const page = await context.newPage();
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(inject('app'));
  return page;
}

/** The browser for the tests of a file. */
export function useBrowser(): Opened {
  const contexts: BrowserContext[] = [];
  const staying: BrowserContext[] = [];
  beforeAll(() => {
    complaints.length = 0;
  });
  afterEach(async () => {
    for (const context of contexts.splice(0)) await context.close();
  });
  afterAll(async () => {
    for (const context of staying.splice(0)) await context.close();
  });
  return {
    complaints,
    async stay(options) {
      const page = await come(options);
      staying.push(page.context());
      return page;
    },
    get address() {
      return inject('app');
    },
    async visit(options) {
      const page = await come(options);
      contexts.push(page.context());
      return page;
    },
  };
}

/** The text of a file that was sent out. */
export async function textOf(download: Download): Promise<string> {
  return text(await download.createReadStream());
}

export interface Judged {
  /** The part of the page that is looked at: what came to it, where the rest stands as it was and is judged elsewhere. */
  readonly within?: string;
  /** Rules that are left out. */
  readonly without?: readonly string[];
  /** Rules that are asked alone. */
  readonly only?: readonly string[];
}

/** What of the rules depends on colours: the look of the night differs from that of the day in nothing else. */
export const OF_COLOURS = ['color-contrast', 'link-in-text-block'];

/**
 * What axe finds amiss on the page, or within a part of it, each with where it begins. There are no frames, so axe may finish where it ran instead of
 * on a page of its own; and what it finds in order is not asked for. Both together take it a fifth of the time, for the same rules.
 */
export async function violations(page: Page, { within = 'html', without = [], only }: Judged = {}): Promise<readonly string[]> {
  // Axe is half a megabyte, and the builder would put it into the page twice each time. It is put there once, and nothing is what the page answers:
  // what a script comes to is copied to here, and of axe itself that takes a third of a second.
  const there = await page.evaluate(() => 'axe' in window);
  if (!there) await page.evaluate(`${source};undefined`);
  const axe = new AxeBuilder({ page, axeSource: 'undefined' })
    .setLegacyMode(true)
    .include(within)
    .options({ resultTypes: ['violations'] });
  const found = await (only ? axe.withRules([...only]) : axe.disableRules([...without])).analyze();
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 120)).join(' | ')}`);
}

/** Opens the demo and waits until its numbers stand on the page. */
export async function openDemo(page: Page, wide = true): Promise<void> {
  await page.getByRole('button', { name: 'Open the demo' }).click();
  await page.locator('ob-table').first().waitFor();
  await page.locator('ob-contents i', { hasText: /hold/ }).waitFor({ state: wide ? 'visible' : 'attached' });
}

/** To another page of the book; where the contents stand in a drawer, it is opened first. */
export async function goTo(page: Page, title: string): Promise<void> {
  const button = page.locator('.drawer-button');
  if ((await button.isVisible()) && (await page.locator('.book.drawer').count()) === 0) await button.click();
  await page.locator('ob-contents').getByRole('button', { name: title, exact: false }).first().click();
  await page.getByRole('heading', { name: title, level: 2, exact: true }).waitFor();
}

/**
 * Waits until all that was typed and changed is worked out and drawn. A value that is read once after an edit is read after this: until then the
 * one of before may stand there, and be taken for what came of the edit.
 */
export async function settled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const app = document.querySelector('ob-app') as HTMLElement & { readonly session: Session; readonly updateComplete: Promise<boolean> };
    await app.session.settled();
    await app.updateComplete;
  });
  await nextFrame(page);
}

/** How many changes can be taken back, once all that was asked for is done: the contents count them only when the page is idle. */
export async function changes(page: Page): Promise<number> {
  await settled(page);
  return page.evaluate(() => (document.querySelector('ob-app') as unknown as { readonly session: Session }).session.history.done.length);
}

/** Waits until what the page puts off to its next frame is done. */
export async function nextFrame(page: Page): Promise<void> {
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
}

/** Gives the window another size, and waits until everything lies where it does in that. */
export async function resize(page: Page, size: ViewportSize): Promise<void> {
  await page.setViewportSize(size);
  await nextFrame(page);
}

/** Waits until the page is at rest: half a second's worth of frames in which nothing on it changed. */
export async function atRest(page: Page): Promise<void> {
  await page.evaluate(async () => {
    let frames = 0;
    const watch = new MutationObserver(() => {
      frames = 0;
    });
    watch.observe(document.body, { subtree: true, attributes: true, childList: true, characterData: true });
    while (frames++ < 30) await new Promise((resolve) => requestAnimationFrame(resolve));
    watch.disconnect();
  });
}

/** Opens a book as a file of the visitor's. */
export async function openFile(page: Page, book: object): Promise<void> {
  const [picking] = await Promise.all([page.waitForEvent('filechooser'), page.getByRole('button', { name: 'Open a book file' }).click()]);
  await picking.setFiles({ name: 'book.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(book)) });
}
