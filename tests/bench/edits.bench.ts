/** Every given of the demo book typed anew in turn, over and over: from the edit to all values that differ, in the engine alone. */
import { readFileSync } from 'node:fs';
import type { Book, Cell } from '../../src/book/book.ts';
import { Workbook } from '../../src/engine/workbook.ts';

const EDITS = 600;
const demo = JSON.parse(readFileSync('templates/trade-bench.json', 'utf8')) as Book;
const workbook = new Workbook({});
const begun = performance.now();
workbook.load(demo);
const first = performance.now() - begun;
const again = performance.now();
for (let i = 0; i < 5; i++) workbook.load(demo);
console.log(`load: first ${first.toFixed(0)} ms, again ${((performance.now() - again) / 5).toFixed(0)} ms`);

const givens = demo.tables.flatMap((table) =>
  Object.entries(table.cells).flatMap(([row, line]) =>
    Object.entries(line).flatMap(([column, cell]) =>
      /^\d+(\.\d+)?( |$)/.test(cell.content) ? [{ table: table.id, name: table.name, row, column, cell }] : [],
    ),
  ),
);

/** A number a little smaller or larger, so that something changes each time; a count goes up and down by one. */
const typed = (content: string, up: boolean): string =>
  content.replace(/^\d+(\.\d+)?/, (n) => (n.includes('.') ? String(Number(n) * (up ? 1.01 : 0.99)) : String(Math.max(1, Number(n) + (up ? 1 : -1)))));

let book = demo;
const times: number[] = [];
const byGiven = new Map<string, number[]>();
for (let i = 0; i < EDITS; i++) {
  const given = givens[i % givens.length];
  const table = book.tables.find((t) => t.id === given?.table);
  if (!given || !table) continue;
  const before = table.cells[given.row]?.[given.column] ?? null;
  const after: Cell = { ...given.cell, content: typed(given.cell.content, Math.floor(i / givens.length) % 2 === 0) };
  const changed = { ...table, cells: { ...table.cells, [given.row]: { ...table.cells[given.row], [given.column]: after } } };
  book = { ...book, tables: book.tables.map((t) => (t === table ? changed : t)) };
  const from = performance.now();
  workbook.apply([{ label: 'edit', edits: [{ at: 'cell', table: given.table, row: given.row, column: given.column, before, after }] }], book);
  const ms = performance.now() - from;
  times.push(ms);
  const label = `${given.name} ${table.rows.find((row) => row.id === given.row)?.label ?? given.row}`;
  byGiven.set(label, [...(byGiven.get(label) ?? []), ms]);
}
const at = (list: readonly number[], share: number): string => ([...list].sort((a, b) => a - b)[Math.floor(share * (list.length - 1))] ?? 0).toFixed(1);
console.log(
  `${times.length} edits of ${givens.length} givens: median ${at(times, 0.5)} ms, p95 ${at(times, 0.95)} ms, most ${at(times, 1)} ms (goal: p95 under 16, with the page)`,
);
for (const [label, list] of [...byGiven].sort((a, b) => Number(at(b[1], 0.5)) - Number(at(a[1], 0.5))).slice(0, 12))
  console.log(`  ${at(list, 0.5)} ms  ${label}`);
