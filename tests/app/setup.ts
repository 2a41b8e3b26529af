/** Builds the app, and serves it and starts the browser once for all files: a file that starts its own waits seconds for it. */
import { chromium } from 'playwright-core';
import type { TestProject } from 'vitest/node';
import { findBrowser, VISIT_FLAGS } from '../../src/setup/browser.mjs';
import { serve } from '../../src/setup/serve.mjs';
import { build } from '../build.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the built app is served. */
    readonly app: string;
    /** Where the browser is to be reached. */
    readonly browser: string;
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const executablePath = findBrowser();
  if (!executablePath) throw new Error('There is no browser: run node src/setup/browser.mjs first.');
  build('page');
  const server = await serve(0);
  const browser = await chromium.launchServer({ executablePath, args: [...VISIT_FLAGS], host: '127.0.0.1' });
  project.provide('app', server.address);
  project.provide('browser', browser.wsEndpoint());
  return async () => {
    await browser.close();
    await server.stop();
  };
}
