/** A browser with the built app in it, served with the headers it is meant to run under. */
import { AxeBuilder } from '@axe-core/playwright';
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { BROWSER_FLAGS, findBrowser } from '../../src/setup/browser.mjs';
import { serve } from '../../src/setup/serve.mjs';

export interface Opened {
  readonly address: string;
  /** A new visitor: nothing kept from before. */
  visit(options?: BrowserContextOptions): Promise<Page>;
  /** What the page complained of: errors of scripts and breaches of its policy. */
  readonly complaints: string[];
  close(): Promise<void>;
}

async function openBrowser(): Promise<Opened> {
  const executablePath = findBrowser();
  if (!executablePath) throw new Error('There is no browser: run node src/setup/browser.mjs first.');
  const server = await serve(0);
  const browser: Browser = await chromium.launch({ executablePath, args: [...BROWSER_FLAGS] });
  const complaints: string[] = [];
  return {
    address: server.address,
    complaints,
    async visit(options = { viewport: { width: 1440, height: 900 } }) {
      const context = await browser.newContext({ ...options, acceptDownloads: true });
      const page = await context.newPage();
      page.on('pageerror', (error) => complaints.push(String(error)));
      page.on('console', (message) => {
        if (message.type() === 'error') complaints.push(message.text());
      });
      await page.goto(server.address);
      return page;
    },
    async close() {
      await browser.close();
      await server.stop();
    },
  };
}

/** One browser for the tests of a file; every visit ends with its test, or all of them with the file. */
export function useBrowser(end: 'each visit with its test' | 'all visits with the file' = 'each visit with its test'): Opened {
  let opened: Opened | undefined;
  const contexts: BrowserContext[] = [];
  const now = (): Opened => {
    if (!opened) throw new Error('The browser opens before the first test.');
    return opened;
  };
  beforeAll(async () => {
    opened = await openBrowser();
  });
  afterEach(async () => {
    for (const context of contexts.splice(0)) await context.close();
  });
  afterAll(async () => {
    await opened?.close();
  });
  return {
    get address() {
      return now().address;
    },
    get complaints() {
      return now().complaints;
    },
    async visit(options) {
      const page = await now().visit(options);
      if (end === 'each visit with its test') contexts.push(page.context());
      return page;
    },
    close: () => now().close(),
  };
}

/** What axe finds amiss on the page, or within a part of it, each with where it begins. */
export async function violations(page: Page, within = 'html', without: string[] = []): Promise<readonly string[]> {
  const found = await new AxeBuilder({ page }).include(within).disableRules(without).analyze();
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 120)).join(' | ')}`);
}

/** Opens the demo and waits until its numbers stand on the page. */
export async function openDemo(page: Page, wide = true): Promise<void> {
  await page.getByRole('button', { name: 'Open the demo' }).click();
  await page.locator('ob-table').first().waitFor();
  await page.locator('ob-contents i', { hasText: /hold/ }).waitFor({ state: wide ? 'visible' : 'attached' });
}

export async function goTo(page: Page, title: string): Promise<void> {
  await page.locator('ob-contents').getByRole('button', { name: title, exact: false }).first().click();
  await page.getByRole('heading', { name: title, level: 2, exact: true }).waitFor();
}
