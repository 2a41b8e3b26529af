/**
 * `node tests/bench/edit.mjs [EDITS]`: in the built demo, edits givens in turn as a person would (keys pressed in Chromium) and prints how long
 * it takes until the last result stands on the page, and until what is typed is echoed. With fewer edits than givens it takes them at even
 * distances, so that every table comes in. Needs `npm run build` first.
 *
 * All times begin at the key press, by the clock of the page.
 * - "on the page": from the key that commits to the document holding all changed values that are in view: the last change of what cells, live
 *   values in prose and pictures there say. It is what the program itself takes, and what it can answer for on any machine.
 * - "out of sight too": the same for the whole page that is open. Rows that cannot be seen are drawn after the frame that shows those that can.
 * - "drawn": that, and then the work of the frame with the change in it on the page's own thread: style, layout, and the list of what to paint.
 *   The pixels are made by other threads. Where there is no graphics processor, as here, they are made by the same processors that everything
 *   else runs on, and a machine with two of them can have a frame wait for its pixels; so what is measured here is more than on a desk.
 * - "with the screen's wait": to the end of that frame as it came. The screen refreshes every 16.7 ms, so a wait of up to that is in it, whatever
 *   the program does; it is printed so that nobody takes the other two for it.
 * No frame is asked for before something changed: while one is, Chromium keeps back messages to the page, the engine's answer among them, until
 * that frame is drawn, and a benchmark that asks for every frame would measure that. Nor is layout forced in between, as the page itself does not:
 * it is in "drawn", save where Chromium itself asks for it before the frame begins, to know where the caret is.
 * The margin's working, the clock of the last save and the spoken line come later by design and are left out.
 *
 * The first key comes 60 ms after a cell is chosen, when the page may be drawing that choice and its working: no kind moment, but one that
 * a quick typist meets. "Echo on the page": from the key press to the character standing in the input; "drawn" is that with the frame's work.
 */
import { chromium } from 'playwright-core';
import { BROWSER_FLAGS, findBrowser } from '../../src/setup/browser.mjs';
import { serve } from '../../src/setup/serve.mjs';
import { spread } from './spread.mjs';

const wanted = Number(process.argv[2] ?? 200);
const server = await serve(0);
const browser = await chromium.launch({ executablePath: findBrowser(), args: [...BROWSER_FLAGS] });
const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
await page.goto(server.address);
await page.getByRole('button', { name: 'Open the demo' }).click();
await page.locator('ob-contents i', { hasText: /hold/ }).waitFor();
await page.waitForTimeout(800);

await page.evaluate(() => {
  let away = new Set();
  const watch = { start: 0, last: 0, whole: 0, drawn: 0, shown: 0, echo: 0, echoDrawn: 0 };
  window.watch = watch;
  /** Cells that can't be seen now; asked before the keys, so that no layout is forced among them. */
  watch.look = () => {
    away = new Set();
    for (const cell of document.querySelectorAll('.cells .c')) {
      const { top, bottom } = cell.getBoundingClientRect();
      if (bottom <= 0 || top >= innerHeight) away.add(cell);
    }
  };
  watch.look();
  const port = new MessageChannel();
  const waiting = [];
  /** Tells how long the work of the next frame took, from its beginning or, where that is later, from now; and when it ended. */
  const frame = (tell) => {
    const asked = performance.now();
    requestAnimationFrame((began) => {
      waiting.push((end) => tell(end - Math.max(began, asked), end));
      // A message posted in a frame arrives right after it.
      port.port2.postMessage(0);
    });
  };
  port.port1.onmessage = () => {
    const end = performance.now();
    for (const tell of waiting.splice(0)) tell(end);
  };
  let keyed = false;
  addEventListener(
    'keydown',
    (event) => {
      if (event.key !== 'Enter' && event.key.length !== 1) return;
      watch.start = performance.now();
      watch.last = 0;
      watch.whole = 0;
      keyed = true;
    },
    true,
  );
  // A sign that no key of this keyboard makes comes without one, as from an input method.
  addEventListener(
    'beforeinput',
    () => {
      if (!keyed) watch.start = performance.now();
      keyed = false;
    },
    true,
  );
  addEventListener('input', () => {
    const { start } = watch;
    queueMicrotask(() => {
      const echo = performance.now();
      watch.echo = echo - start;
      frame((work) => {
        watch.echoDrawn = echo - start + work;
      });
    });
  });
  // What a cell says is its name; a live value in prose keeps its text; a picture its paths.
  let asked = false;
  new MutationObserver((changes) => {
    const told = changes.filter(({ target }) => !target.closest('.working, .over'));
    if (told.length === 0) return;
    watch.whole = performance.now() - watch.start;
    if (!told.some(({ target }) => !away.has(target))) return;
    watch.last = watch.whole;
    if (asked) return;
    asked = true;
    const { start } = watch;
    frame((work, end) => {
      asked = false;
      watch.drawn = watch.last + work;
      watch.shown = end - start;
    });
  }).observe(document.body, { subtree: true, attributes: true, attributeFilter: ['aria-label', 'data-text', 'd'] });
});

/** Every given with a number or a choice in it: the page it stands on, its place, and another value it may have. */
const givens = await page.evaluate(() => {
  const { book } = document.querySelector('ob-app').session;
  const found = [];
  for (const table of book.tables) {
    const own = book.pages.find((p) => p.blocks.some((b) => b.kind === 'table' && b.table === table.id));
    if (!own) continue;
    for (const [r, row] of table.rows.entries()) {
      for (const column of table.columns) {
        const cell = table.cells[row.id]?.[column.id];
        const kind = cell?.kind ?? row.kind ?? column.kind;
        if (!cell || row.head || kind === 'worked' || kind === 'check' || (cell.content.startsWith('=') && kind !== 'given') || cell.content === '') continue;
        const range = cell.range ?? row.range ?? column.range;
        const number = /^(-?[\d.]+)(.*)$/.exec(cell.content);
        let other = cell.content === 'TRUE' ? 'FALSE' : cell.content === 'FALSE' ? 'TRUE' : undefined;
        if (range?.oneOf) other = range.oneOf.find((choice) => choice !== cell.content);
        else if (number && !cell.content.startsWith('=')) {
          const x = Number(number[1]);
          const step = Number.isInteger(x) && !number[2] ? x + 1 : Number((x * 0.98).toPrecision(6));
          other = `${step === 0 ? 0.1 : range?.high !== undefined && step > range.high ? x - 1 : step}${number[2]}`;
        }
        if (other === undefined) continue;
        found.push({
          page: own.id,
          table: table.id,
          row: row.id,
          column: column.id,
          name: `${table.name} ${row.label ?? r + 1} ${column.label ?? ''}`.trim(),
          other,
        });
      }
    }
  }
  return found;
});

const echoes = [];
const results = [];
let here = '';
for (let n = 0; n < wanted; n++) {
  const given = givens[wanted < givens.length ? Math.floor((n * givens.length) / wanted) : n % givens.length];
  if (given.page !== here) {
    await page.evaluate((id) => document.querySelector('ob-app').dispatchEvent(new CustomEvent('ob-page', { detail: { page: id } })), given.page);
    here = given.page;
    await page.waitForTimeout(400);
  }
  await page.evaluate(({ table, row, column }) => {
    const element = [...document.querySelectorAll('ob-table')].find((t) => t.table.id === table);
    element.choose({ row: element.table.rows.findIndex((r) => r.id === row), column: element.table.columns.findIndex((c) => c.id === column) });
    element.take();
  }, given);
  await page.waitForTimeout(60);
  await page.evaluate(() => window.watch.look());
  for (const [k, key] of [...given.other].entries()) {
    await page.keyboard.press(key === ' ' ? 'Space' : key).catch(() => page.keyboard.insertText(key));
    await page.waitForTimeout(20);
    const { echo, echoDrawn } = await page.evaluate(() => window.watch);
    echoes.push({ name: `${given.name}, key ${k + 1}`, echo, echoDrawn });
  }
  await page.keyboard.press('Enter');
  await page.waitForTimeout(120);
  const refused = await page.evaluate(() => document.querySelector('.slip .wrong')?.textContent ?? '');
  if (refused) {
    await page.keyboard.press('Escape');
    console.log(`refused: ${given.name} = ${given.other}: ${refused}`);
  } else {
    const { last, whole, drawn, shown } = await page.evaluate(() => window.watch);
    if (last > 0) results.push({ name: given.name, table: given.table, last, whole, drawn, shown });
    await page.keyboard.press('Control+z');
  }
  await page.waitForTimeout(100);
}
await browser.close();
await server.stop();

console.log(`${givens.length} givens; ${results.length} edits`);
for (const name of new Set(results.map((r) => r.name))) {
  const own = results.filter((r) => r.name === name);
  const middle = (key) =>
    own
      .map((r) => r[key])
      .sort((a, b) => a - b)
      [own.length >> 1].toFixed(1);
  console.log(`  ${name.slice(0, 52).padEnd(53)} on the page ${middle('last').padStart(5)}  drawn ${middle('drawn').padStart(5)} ms`);
}
console.log('the slowest echoes:');
for (const { name, echo, echoDrawn } of echoes.toSorted((a, b) => b.echo - a.echo).slice(0, 8))
  console.log(`  ${name.slice(0, 52).padEnd(53)} on the page ${echo.toFixed(1).padStart(5)}  drawn ${echoDrawn.toFixed(1).padStart(5)} ms`);
const tell = (words, of, key) =>
  console.log(
    spread(
      words,
      of.map((each) => each[key]),
    ),
  );
tell('results on the page', results, 'last');
tell('results out of sight too', results, 'whole');
tell('results drawn', results, 'drawn');
tell("results, with the screen's wait", results, 'shown');
tell('echo of a key on the page', echoes, 'echo');
tell('echo of a key drawn', echoes, 'echoDrawn');
tell(
  'of these, the first key of a cell',
  echoes.filter(({ name }) => name.endsWith('key 1')),
  'echoDrawn',
);
