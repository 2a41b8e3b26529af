/** Tables are drawn bit by bit, where something in them is another. Whatever was done, what stands there is what is drawn of them from nothing. */
import fc from 'fast-check';
import type { Page } from 'playwright-core';
import { afterEach, expect, it } from 'vitest';
import type { Book, Cell, Table } from '../../src/book/book.ts';
import type { Change } from '../../src/book/change.ts';
import { moveLines } from '../../src/book/commands/move-lines.ts';
import { setHeading } from '../../src/book/commands/rename.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { type Command, command, played } from '../book/arbitrary.ts';
import { sample } from '../book/sample.ts';
import { cases } from '../cases.ts';
import { goTo, openFile, useBrowser } from './browser.ts';

const ROWS = 260;

/** More rows than a table has of which all are drawn, with a formula in each that reads the row above. */
const lots: Table = {
  id: 'lots',
  name: 'Lots',
  form: 'list',
  columns: [{ id: 'a' }, { id: 'b' }, { id: 'c' }],
  rows: Array.from({ length: ROWS }, (_, i) => ({ id: `l${i}`, ...(i === 0 && { head: true }) })),
  cells: Object.fromEntries(
    Array.from({ length: ROWS }, (_, i): [string, Record<string, Cell>] => [
      `l${i}`,
      i === 0
        ? { a: { content: 'Lot' }, b: { content: 'Length' }, c: { content: 'So far' } }
        : { a: { content: `Lot ${i}` }, b: { content: `${i} cm` }, c: { content: i === 1 ? '=B2' : `=C${i}+B${i + 1}` } },
    ]),
  ),
};

const book: Book = {
  ...sample,
  pages: [
    { id: 'all', title: 'All tables', blocks: [...sample.tables, lots].map((table) => ({ id: `of-${table.id}`, kind: 'table', table: table.id })) },
    ...sample.pages,
  ],
  tables: [...sample.tables, lots],
};

const row = fc.nat({ max: 14 });
const ofLots = fc.oneof(
  fc.tuple(row, fc.constantFrom('A', 'B', 'C'), fc.constantFrom('7 cm', 'Rail', '=B4', '')).map(
    ([at, column, content]) =>
      (now: Book) =>
        setCell(now, { address: `Lots.${column}${at + 1}`, content }),
  ),
  fc.tuple(row, row).map(
    ([at, to]) =>
      (now: Book) =>
        moveLines(now, { table: 'Lots', axis: 'row', at, count: 2, to }),
  ),
  fc.constantFrom('Height', '').map((label) => (now: Book) => setHeading(now, { table: 'Lots', axis: 'column', at: 1, label })),
);
const choice = fc.record({ table: fc.nat({ max: 5 }), row, column: fc.nat({ max: 3 }), block: fc.boolean() });
type Step =
  | { readonly run: Command }
  | { readonly choose: { readonly table: number; readonly row: number; readonly column: number; readonly block: boolean } }
  | { readonly past: 'undo' | 'redo' }
  | { readonly scroll: number };

const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 4, arbitrary: command.map((run): Step => ({ run })) },
  { weight: 2, arbitrary: ofLots.map((run): Step => ({ run })) },
  { weight: 2, arbitrary: choice.map((choose): Step => ({ choose })) },
  { weight: 1, arbitrary: fc.constantFrom<Step>({ past: 'undo' }, { past: 'redo' }) },
  { weight: 1, arbitrary: fc.nat({ max: 3000 }).map((scroll): Step => ({ scroll })) },
);

const browser = useBrowser();

afterEach(() => {
  expect(browser.complaints.splice(0)).toEqual([]);
});

interface App extends Element {
  readonly session: {
    readonly book: Book;
    readonly values: object;
    dispatch(change: Change): void;
    undo(): void;
    redo(): void;
    settled(): Promise<void>;
  };
}
interface TableElement extends HTMLElement {
  table: Table;
  updateComplete: Promise<boolean>;
  choose(spot: object, anchor?: object): void;
  placeAt(spot: object): object;
}

/** Of each table on the page, what stands in its rows and what is drawn of them from nothing, where these differ; and how many were held against one another. */
const differences = (page: Page): Promise<{ readonly rows: number; readonly all: number; readonly differ: readonly string[] }> =>
  page.evaluate(async () => {
    const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
    const { session } = document.querySelector('ob-app') as App;
    await session.settled();
    // What is out of sight is drawn when the page is idle, after 50 ms at the latest.
    await new Promise((resolve) => setTimeout(resolve, 90));
    await frame();
    /** A row without what is no part of it: marks of the drawing, and the widths to which the columns of a list have grown meanwhile (laying.ts). */
    const plain = (row: Element): Element => {
      const copy = row.cloneNode(true) as Element;
      const marks = document.createNodeIterator(copy, NodeFilter.SHOW_COMMENT);
      for (let mark = marks.nextNode(); mark; mark = marks.nextNode()) (mark as Comment).remove();
      for (const cell of copy.querySelectorAll<HTMLElement>('th')) if (cell.getAttribute('style')?.startsWith('min-width')) cell.removeAttribute('style');
      copy.normalize();
      return copy;
    };
    const rowsOf = (table: Element): Map<string, Element> =>
      new Map(
        [...table.querySelectorAll('thead tr, tbody tr, .asks [role=row]')].map((each, i) => [each.getAttribute('aria-rowindex') ?? String(i), plain(each)]),
      );
    const differ: string[] = [];
    let rows = 0;
    let all = 0;
    for (const table of document.querySelectorAll<TableElement>('ob-table')) {
      const afresh = document.createElement('ob-table') as TableElement;
      for (const name of ['book', 'table', 'values', 'chosen', 'anchor', 'letters', 'pending', 'ask'])
        Object.assign(afresh, { [name]: table[name as 'table'] });
      table.after(afresh);
      await afresh.updateComplete;
      const [from, to] = [table, afresh].map((each) => each.querySelector('.scroll'));
      if (from && to) to.scrollTop = from.scrollTop;
      await frame();
      await frame();
      const [now, wanted] = [rowsOf(table), rowsOf(afresh)];
      const large = table.table.rows.length > 200;
      all += large ? 1 : wanted.size;
      if (!large && [...now.keys()].join() !== [...wanted.keys()].join())
        differ.push(`${table.table.name}: rows ${[...now.keys()]}, wanted ${[...wanted.keys()]}`);
      for (const [at, shown] of now) {
        const want = wanted.get(at);
        // Of a large table both draw what is in sight, and one of them a few rows more.
        if (want === undefined) continue;
        rows++;
        if (!shown.isEqualNode(want)) differ.push(`${table.table.name}, row ${at}: ${shown.outerHTML}\nwanted: ${want.outerHTML}`);
      }
      afresh.remove();
    }
    return { rows, all, differ: differ.slice(0, 2) };
  });

it('after any run of changes, choices and scrolling the rows on the page are those drawn from nothing', async () => {
  const page = await browser.visit();
  await openFile(page, book);
  await goTo(page, 'All tables');
  await page.locator('[role=gridcell][aria-label^="Lot 3, Length: 3"]').waitFor();
  const seed = 71 + Number(process.env.SEED ?? 0);
  let compared = 0;
  for (const [n, each] of fc.sample(step, { seed, numRuns: cases(300) }).entries()) {
    const now = await page.evaluate(() => (document.querySelector('ob-app') as App).session.book);
    const change = 'run' in each ? played(now, each.run)?.change : undefined;
    // The page on which all of them stand stays as it is.
    if ('run' in each && (!change || change.edits.some(({ at }) => at === 'page' || at === 'block' || at === 'table'))) continue;
    await page.evaluate(
      ({ does, made }) => {
        const { session } = document.querySelector('ob-app') as App;
        const tables = [...document.querySelectorAll<TableElement>('ob-table')];
        if (made) session.dispatch(made);
        if (does && 'past' in does) session[does.past]();
        if (does && 'scroll' in does) for (const scroll of document.querySelectorAll('.large > .scroll')) scroll.scrollTop = does.scroll;
        const table = does && 'choose' in does ? tables[does.choose.table % tables.length] : undefined;
        if (table && does && 'choose' in does) {
          const spot = { row: does.choose.row % table.table.rows.length, column: does.choose.column % table.table.columns.length };
          table.choose(spot, does.choose.block ? table.placeAt({ row: 0, column: 0 }) : undefined);
        }
      },
      { does: 'run' in each ? undefined : each, made: change },
    );
    const { rows, all, differ } = await differences(page);
    expect(differ, `seed ${seed}, step ${n}: ${change?.label ?? JSON.stringify(each)}`).toEqual([]);
    expect(all).toBeGreaterThan(10);
    expect(rows).toBeGreaterThanOrEqual(all);
    compared += rows;
  }
  expect(compared).toBeGreaterThan(1000);
});
