/**
 * `node tests/bench/edit.mjs [EDITS]`: in the built demo, edits every given in turn as a person would (keys pressed in Chromium) and prints how long
 * it takes until the last result stands on the page, and until what is typed is echoed. Needs `npm run build` first.
 *
 * From the key press to the last change of what cells, live values in prose and pictures in view say, layout included. The frame that shows it
 * follows within one refresh of the screen. The margin's working, the clock of the last save and the spoken line come later and are left out.
 */
import { chromium } from 'playwright-core';
import { BROWSER_FLAGS, findBrowser } from '../../src/setup/browser.mjs';
import { serve } from '../../src/setup/serve.mjs';

const wanted = Number(process.argv[2] ?? 200);
const server = await serve(0);
const browser = await chromium.launch({ executablePath: findBrowser(), args: [...BROWSER_FLAGS] });
const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
await page.goto(server.address);
await page.getByRole('button', { name: 'Open the demo' }).click();
await page.locator('ob-contents i', { hasText: /hold/ }).waitFor();
await page.waitForTimeout(800);

await page.evaluate(() => {
  const watch = { start: 0, last: 0, echo: 0 };
  window.watch = watch;
  addEventListener(
    'keydown',
    (event) => {
      if (event.key === 'Enter' || event.key.length === 1) watch.start = performance.now();
    },
    true,
  );
  addEventListener('input', () => {
    document.body.getBoundingClientRect();
    watch.echo = performance.now();
  });
  // What a cell says is its name; a live value in prose keeps its text; a picture its paths.
  new MutationObserver((changes) => {
    if (!changes.some(({ target }) => !target.closest('.working, .over'))) return;
    document.body.getBoundingClientRect();
    watch.last = performance.now();
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
        if (number && !cell.content.startsWith('=')) {
          const x = Number(number[1]);
          const step = Number.isInteger(x) && !number[2] ? x + 1 : Number((x * 0.98).toPrecision(6));
          other = `${range?.high !== undefined && step > range.high ? x - 1 : step}${number[2]}`;
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
for (let n = 0; n < Math.max(wanted, givens.length); n++) {
  const given = givens[n % givens.length];
  if (given.page !== here) {
    await page.evaluate((id) => document.querySelector('ob-app').showPage(id), given.page);
    here = given.page;
    await page.waitForTimeout(400);
  }
  await page.evaluate(({ table, row, column }) => {
    const element = [...document.querySelectorAll('ob-table')].find((t) => t.table.id === table);
    element.choose({ row: element.table.rows.findIndex((r) => r.id === row), column: element.table.columns.findIndex((c) => c.id === column) });
    element.take();
  }, given);
  await page.waitForTimeout(60);
  for (const key of given.other) {
    await page.evaluate(() => {
      window.watch.echo = 0;
    });
    await page.keyboard.insertText('');
    await page.keyboard.press(key === ' ' ? 'Space' : key).catch(() => page.keyboard.insertText(key));
    echoes.push(await page.evaluate(() => (window.watch.echo > window.watch.start ? window.watch.echo - window.watch.start : 0)));
  }
  await page.keyboard.press('Enter');
  await page.waitForTimeout(120);
  const took = await page.evaluate(() => window.watch.last - window.watch.start);
  const refused = await page.evaluate(() => document.querySelector('.slip .wrong')?.textContent ?? '');
  if (refused) {
    await page.keyboard.press('Escape');
    console.log(`refused: ${given.name} = ${given.other}: ${refused}`);
  } else {
    results.push({ name: given.name, took });
    await page.keyboard.press('Control+z');
  }
  await page.waitForTimeout(60);
}
await browser.close();
await server.stop();

const at = (sorted, share) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))];
const line = (name, values) => {
  const sorted = [...values].sort((a, b) => a - b);
  return `${name.padEnd(42)} n ${String(sorted.length).padStart(4)}  p50 ${at(sorted, 0.5).toFixed(1).padStart(6)}  p95 ${at(sorted, 0.95).toFixed(1).padStart(6)}  most ${sorted.at(-1).toFixed(1).padStart(6)} ms`;
};
const byTable = Map.groupBy
  ? Map.groupBy(results, (r) => r.name.split(' ')[0])
  : results.reduce((m, r) => m.set(r.name.split(' ')[0], [...(m.get(r.name.split(' ')[0]) ?? []), r]), new Map());
for (const [name, list] of byTable)
  console.log(
    line(
      name,
      list.map((r) => r.took),
    ),
  );
console.log('The ten slowest:');
for (const { name, took } of [...results].sort((a, b) => b.took - a.took).slice(0, 10)) console.log(`  ${name.padEnd(50)} ${took.toFixed(1)} ms`);
console.log(
  line(
    'All results on the page after Enter',
    results.map((r) => r.took),
  ),
);
console.log(line('Echo of a key', echoes));
