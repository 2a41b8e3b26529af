/**
 * `node tests/bench/big-table.mjs`: a table of 10,000 rows and 30 columns with 100,000 formulas, opened through the page as a file. Prints how long
 * scrolling, edits and typing take. Needs `npm run build` first.
 *
 * - A frame of scrolling: script, style, layout and paint of the page's own thread, from the scroll to the end of the frame that shows it.
 * - An edit: from the key press to the last of ten results of its row on the page, and then to the end of the work of that frame, without the wait
 *   for the screen's refresh.
 * - Echo: from the key press to the frame with the character in it, again without that wait; while nothing else is done, and while all
 *   100,000 formulas are being worked out anew because the one price that they all read was changed.
 */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { BROWSER_FLAGS, findBrowser } from '../../src/setup/browser.mjs';
import { serve } from '../../src/setup/serve.mjs';
import { letters } from './letters.mjs';
import { spread } from './spread.mjs';

const ROWS = 10_000;
const GIVENS = 20;
const WORKED = 10;
/** So many that the 95th per cent is not one or two of them. The first is among them: it runs what nothing ran before. */
const EDITS = 60;

/** Twenty columns of givens and ten of formulas, each reading the one before it; the first of them reads the price. */
function bigBook() {
  const columns = Array.from({ length: GIVENS + WORKED }, (_, i) => ({ id: `c${i}`, label: i < GIVENS ? `Given ${i + 1}` : `Worked ${i - GIVENS + 1}` }));
  const rows = Array.from({ length: ROWS }, (_, i) => ({ id: `r${i}` }));
  const cells = Object.fromEntries(
    rows.map((row, r) => [
      row.id,
      Object.fromEntries(
        columns.map((column, c) => {
          if (c < GIVENS) return [column.id, { content: String(((r * 31 + c * 17) % 997) + 1) }];
          const formula = c === GIVENS ? `=A${r + 1}*Price.A1` : `=${letters(c - 1)}${r + 1}+${letters(c - GIVENS)}${r + 1}`;
          return [column.id, { content: formula }];
        }),
      ),
    ]),
  );
  const table = (id, name, form, more) => ({ id, name, form, ...more });
  return {
    format: 'overbench book',
    version: 4,
    id: 'big',
    title: 'A large list',
    client: 'Nobody',
    currency: 'EUR',
    measures: 'metric',
    pages: [
      { id: 'p1', title: 'List', blocks: [{ id: 'b1', kind: 'table', table: 'big' }] },
      { id: 'p2', title: 'Price', blocks: [{ id: 'b2', kind: 'table', table: 'price' }] },
    ],
    tables: [
      table('big', 'Big', 'list', { columns, rows, cells }),
      table('price', 'Price', 'plain', { columns: [{ id: 'a' }], rows: [{ id: 'r', label: 'Price', kind: 'given' }], cells: { r: { a: { content: '2' } } } }),
    ],
    names: {},
  };
}

const folder = await mkdtemp(join(tmpdir(), 'bench-'));
const file = join(folder, 'big.json');
await writeFile(file, JSON.stringify(bigBook()));
const server = await serve(0);
const browser = await chromium.launch({ executablePath: findBrowser(), args: [...BROWSER_FLAGS] });
const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
try {
  await page.goto(server.address);
  const picking = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open a book file' }).click();
  const began = performance.now();
  await (await picking).setFiles(file);
  await page.locator('ob-table').first().waitFor({ timeout: 120_000 });
  const drawn = performance.now() - began;
  await page.evaluate(() => document.querySelector('ob-app').session.settled());
  console.log(`opened: on the page after ${(drawn / 1000).toFixed(1)} s, worked out after ${((performance.now() - began) / 1000).toFixed(1)} s`);
  await page.waitForTimeout(4000);
  console.log(`rows on the page ${await page.locator('#grid-0 tbody tr').count()}, cells ${await page.locator('#grid-0 td.c').count()}`);

  await page.evaluate(() => {
    const waiting = [];
    const port = new MessageChannel();
    port.port1.onmessage = () => {
      const end = performance.now();
      for (const tell of waiting.splice(0)) tell(end);
    };
    /** How long the next frame's work takes, from its beginning or, where that is later, from now. Asked for only then: see edit.mjs. */
    window.frame = () =>
      new Promise((resolve) => {
        const asked = performance.now();
        requestAnimationFrame((began) => {
          waiting.push((end) => resolve(end - Math.max(began, asked)));
          port.port2.postMessage(0);
        });
      });
    window.echoes = [];
    window.pressed = 0;
    addEventListener(
      'keydown',
      () => {
        window.pressed = performance.now();
      },
      true,
    );
    addEventListener('input', (event) => {
      // The press was made when the event was; what kept the page from hearing of it counts.
      const waited = performance.now() - event.timeStamp;
      queueMicrotask(() => {
        const took = performance.now() - event.timeStamp;
        window.frame().then((work) => window.echoes.push(Math.max(took, waited) + work));
      });
    });
  });

  for (const step of [24, 120, 700]) {
    const frames = await page.evaluate(async (by) => {
      const scroll = document.querySelector('.large > .scroll');
      scroll.scrollTop = 0;
      await window.frame();
      const taken = [];
      for (let n = 0; n < 150; n++) {
        const began = performance.now();
        scroll.scrollTop += by;
        // The scroll is told of at the beginning of the frame, and drawn in it.
        const asked = performance.now() - began;
        taken.push(asked + (await window.frame()));
      }
      return taken;
    }, step);
    console.log(spread(`scrolling by ${step} px, a frame`, frames));
    // What is still being painted of it belongs to no other step.
    await page.waitForTimeout(500);
  }
  const aside = await page.evaluate(async () => {
    const scroll = document.querySelector('.large > .scroll');
    const taken = [];
    for (let n = 0; n < 100; n++) {
      scroll.scrollLeft = (n % 50) * 40;
      taken.push(await window.frame());
    }
    scroll.scrollLeft = 0;
    return taken;
  });
  console.log(spread('scrolling aside by 40 px, a frame', aside));

  const choose = (row, column) =>
    page.evaluate(
      ([r, c]) => {
        const element = document.querySelector('ob-table');
        element.choose({ row: r, column: c });
        element.take();
      },
      [row, column],
    );
  const results = [];
  const drawnTimes = [];
  for (let n = 0; n < EDITS; n++) {
    const row = (n * 163) % ROWS;
    await choose(row, 0);
    await page.waitForTimeout(250);
    await page.keyboard.type(String(1000 + n));
    await page.waitForTimeout(100);
    const result = page.evaluate(
      ([r, last]) =>
        new Promise((resolve) => {
          const address = `Big.${last}${r + 1}`;
          const { session } = document.querySelector('ob-app');
          const before = session.values[address]?.base;
          const look = () => {
            if (session.values[address]?.base === before) return;
            seen.disconnect();
            const on = performance.now() - window.pressed;
            window.frame().then((work) => resolve([on, on + work]));
          };
          const seen = new MutationObserver(look);
          seen.observe(document.querySelector('#grid-0'), { subtree: true, attributes: true, childList: true, characterData: true });
          setTimeout(() => resolve(undefined), 3000);
        }),
      [row, letters(GIVENS + WORKED - 1)],
    );
    await page.waitForTimeout(30);
    await page.keyboard.press('Enter');
    const found = await result;
    if (!found) console.log(`no result in row ${row + 1}`);
    else {
      results.push(found[0]);
      drawnTimes.push(found[1]);
    }
    // It is saved meanwhile.
    await page.waitForTimeout(650);
  }
  console.log(`the first edit: on the page ${results[0]?.toFixed(1)}, drawn ${drawnTimes[0]?.toFixed(1)} ms`);
  console.log(spread('edit with ten dependents, on the page', results));
  console.log(spread('edit with ten dependents, drawn', drawnTimes));

  await choose(5, 1);
  await page.waitForTimeout(500);
  await page.evaluate(() => {
    window.echoes.length = 0;
  });
  for (let n = 0; n < 40; n++) {
    await page.keyboard.press(String(n % 10));
    await page.waitForTimeout(40);
  }
  console.log(spread('echo while at rest', await page.evaluate(() => window.echoes)));
  await page.keyboard.press('Escape');

  const busy = [];
  const took = [];
  for (let n = 0; n < 5; n++) {
    await choose(6 + n, 2);
    await page.waitForTimeout(600);
    await page.evaluate((price) => {
      window.echoes.length = 0;
      const { session } = document.querySelector('ob-app');
      window.work = { began: performance.now(), took: 0 };
      void session.type('Price.A1', String(price));
      void session.settled().then(() => {
        window.work.took = performance.now() - window.work.began;
      });
    }, 3 + n);
    for (let k = 0; k < 60; k++) {
      await page.keyboard.press(String(k % 10));
      await page.waitForTimeout(20);
    }
    busy.push(...(await page.evaluate(() => window.echoes)));
    await page.keyboard.press('Escape');
    await page.waitForTimeout(2500);
    took.push(await page.evaluate(() => window.work.took));
  }
  console.log(spread('all 100,000 formulas worked out anew', took));
  console.log(spread('echo meanwhile, and while it is saved', busy));
} finally {
  await browser.close();
  await server.stop();
  await rm(folder, { recursive: true, force: true });
}
