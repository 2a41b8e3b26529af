/** A browser of its own with a profile that outlives it: one can end a tab of it as the system does, or all of it at once, and start it again. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, type CDPSession, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { findBrowser, VISIT_FLAGS } from '../../src/setup/browser.mjs';
import { serve } from '../../src/setup/serve.mjs';
import { long } from '../cases.ts';

/** How often each way of ending is tried: twice every day, fifty times in the long run. */
export const RUNS = Number(process.env.OVERBENCH_RUNS ?? (long ? 50 : 2));

interface Running {
  readonly context: BrowserContext;
  readonly processes: CDPSession;
}

export class Killable {
  #server: Awaited<ReturnType<typeof serve>> | undefined;
  #running: Running | undefined;
  readonly #profile = mkdtempSync(join(tmpdir(), 'profile-'));

  async begin(): Promise<void> {
    this.#server = await serve(0);
  }

  get address(): string {
    return this.#server?.address ?? '';
  }

  /** A page of the app, or another of its origin; the browser is started where none runs. */
  async visit(path = ''): Promise<Page> {
    this.#running ??= await this.#start();
    const page = await this.#running.context.newPage();
    await page.goto(this.address + path);
    return page;
  }

  async #start(): Promise<Running> {
    const executablePath = findBrowser();
    if (!executablePath) throw new Error('There is no browser: run node src/setup/browser.mjs first.');
    const viewport = { width: 1440, height: 900 };
    const context = await chromium.launchPersistentContext(this.#profile, { executablePath, args: [...VISIT_FLAGS], viewport });
    const processes = await context.browser()?.newBrowserCDPSession();
    if (!processes) throw new Error('The browser does not tell its processes.');
    return { context, processes };
  }

  /** Ends what shows the pages, as the system does where memory is short. */
  async killTabs(): Promise<void> {
    await this.#kill('renderer');
    await this.closePages();
  }

  /** Ends the whole browser without a word. */
  async killAll(): Promise<void> {
    const { context } = this.#running ?? {};
    const ended = new Promise((resolve) => context?.once('close', resolve));
    await this.#kill('browser');
    this.#running = undefined;
    if (context) await ended;
  }

  async #kill(kind: 'renderer' | 'browser'): Promise<void> {
    const found = await this.#running?.processes.send('SystemInfo.getProcessInfo');
    for (const { type, id } of found?.processInfo ?? []) if (type === kind) process.kill(id, 'SIGKILL');
  }

  async closePages(): Promise<void> {
    await Promise.all((this.#running?.context.pages() ?? []).map((page) => page.close().catch(() => {})));
  }

  async end(): Promise<void> {
    await this.killAll();
    await this.#server?.stop();
    // Its other processes may still be writing.
    rmSync(this.#profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
  }
}

export function useKillable(): Killable {
  const killable = new Killable();
  beforeAll(() => killable.begin());
  afterAll(() => killable.end());
  return killable;
}
