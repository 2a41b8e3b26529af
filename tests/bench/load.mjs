/**
 * `node tests/bench/load.mjs [TIMES]`: the first visit to the built app, each time by a browser that has nothing kept: how long until something is
 * painted, until the page can be begun from, and from the click on the demo until its numbers stand there. Needs `npm run build` first.
 */
import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { chromium } from 'playwright-core';
import { BROWSER_FLAGS, findBrowser } from '../../src/setup/browser.mjs';
import { serve } from '../../src/setup/serve.mjs';
import { spread } from './spread.mjs';

const times = Number(process.argv[2] ?? 10);
const server = await serve(0);
const painted = [];
const ready = [];
const usable = [];
for (let n = 0; n < times; n++) {
  // A browser of its own each time: nothing of the programs before is compiled or kept.
  const browser = await chromium.launch({ executablePath: findBrowser(), args: [...BROWSER_FLAGS] });
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await page.goto(server.address);
  const demo = page.getByRole('button', { name: 'Open the demo' });
  await demo.waitFor();
  ready.push(await page.evaluate(() => performance.now()));
  painted.push(await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? Number.NaN));
  // Clicked as soon as it stands there, by the clock of the page.
  usable.push(
    await page.evaluate(
      () =>
        new Promise((resolve) => {
          const began = performance.now();
          const look = () => {
            if ([...document.querySelectorAll('ob-contents i')].some((i) => /hold/.test(i.textContent)) && document.querySelector('ob-table'))
              requestAnimationFrame(() => resolve(performance.now() - began));
            else requestAnimationFrame(look);
          };
          [...document.querySelectorAll('button')].find((button) => button.textContent === 'Open the demo').click();
          look();
        }),
    ),
  );
  await browser.close();
}
const html = readFileSync(new URL('../../dist/app/index.html', import.meta.url), 'utf8');
const linked = [...html.matchAll(/(?:src|href)="\.\/([^"]+\.(?:js|css))"/g)].map(([, path]) =>
  readFileSync(new URL(`../../dist/app/${path}`, import.meta.url)),
);
const shell = [Buffer.from(html), ...linked].reduce((sum, file) => sum + gzipSync(file).length, 0);
await server.stop();
console.log(spread('first paint, from the visit', painted));
console.log(spread('the page can be begun from, from the visit', ready));
console.log(spread('the demo with its numbers, from the click', usable));
console.log(`shell, gzipped: ${(shell / 1000).toFixed(1)} kB`);
