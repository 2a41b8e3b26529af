import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { type At, placeIn } from '../../../src/book/address.ts';
import { apply } from '../../../src/book/apply.ts';
import type { Book } from '../../../src/book/book.ts';
import { putScenarios } from '../../../src/book/commands/put-scenarios.ts';
import { cellEdit } from '../../../src/book/commands/set-cell.ts';
import { addressOf, placeOf, standingOf } from '../../../src/book/look-up.ts';
import { isRefused } from '../../../src/book/refused.ts';
import { type Choices, propose } from '../../../src/engine/propose/index.ts';
import { Workbook } from '../../../src/engine/workbook.ts';
import { cases } from '../../cases.ts';

/** What invented clients ask: a template, what is other than its example, and how many plans are put forward. */
const ENQUIRIES: [slug: string, says: Readonly<Record<string, string>>, proposals: number, choices?: Choices][] = [
  ['single-shelf', {}, 2],
  ['trade-bench', { bench_length: '2.4 m', bench_width: '1.2 m' }, 3, { along: { low: 1, high: 4 }, across: { low: 1, high: 4 } }],
  ['trade-bench', {}, 3],
  ['trade-bench', { highest_mount: '0.5 m' }, 3],
  ['trade-bench', { crop: 'lettuce', stage: 'indoor' }, 3],
  ['trade-bench', { light_hours: '12 h/d' }, 3],
  ['trade-bench', { tariff: '0.6 EUR/kWh', plan_years: '3 year' }, 3],
  ['trade-bench', { wall_reflectance: '0.4' }, 3],
  ['trade-bench', { evenness_asked: '0.75' }, 3],
  ['trade-bench', { bench_length: '6 m', circuits_free: '4' }, 3],
  ['trade-bench', {}, 3, { dimming: 'low end', heights: { low: 0.3, high: 0.6 } }],
  ['trade-bench', {}, 3, { fixtures: ['Rail 45', 'Rail 90'], turned: 'no', supplies: ['Supply 24/300'] }],
  ['rack-of-tiers', {}, 3],
  ['rack-of-tiers', { tiers: '2' }, 3],
  ['germination-and-microgreens', {}, 3],
  ['growing-canopy', {}, 3, { across: { low: 1, high: 6 }, along: { low: 1, high: 6 } }],
  ['replace-old-lamps', {}, 3],
  ['single-shelf', { bench_length: '0.9 m', crop: 'lettuce', stage: 'indoor' }, 2],
  ['single-shelf', { highest_mount: '0.3 m' }, 2],
  ['germination-and-microgreens', { bench_length: '1.2 m' }, 3],
];

const templateOf = (slug: string): Book => JSON.parse(readFileSync(`templates/${slug}.json`, 'utf8')) as Book;

function saying(book: Book, says: Readonly<Record<string, string>>): Book {
  return Object.entries(says).reduce((now, [name, content]) => {
    const at = placeOf(now, name);
    if (!at) throw new Error(`${name} is no given`);
    return apply(now, { label: '', edits: cellEdit(at, { ...at.cell, content }) });
  }, book);
}

/** Cells that are checks, by the columns of the scenarios that are asked for, and of every other table. */
function checksOf(book: Book, columns: number): readonly At[] {
  return book.tables.flatMap((table) =>
    table.rows.flatMap((_, r) =>
      table.columns.flatMap((__, c) => {
        const at = placeIn(table, c, r);
        return at && standingOf(at) === 'check' && (table.form !== 'scenarios' || c < columns) ? [at] : [];
      }),
    ),
  );
}

it.each(ENQUIRIES.slice(0, cases(ENQUIRIES.length)))(
  'proposals for %s with %j, opened as a book, fail in no check and leave none unknown',
  (...[slug, says, count, choices]) => {
    const book = saying(templateOf(slug), says);
    const found = propose(book, choices);
    if (typeof found === 'string') throw new Error(found);
    expect(found.proposals).toHaveLength(count);
    const change = putScenarios(book, { table: found.table, scenarios: found.proposals.map(({ cells, why }) => ({ givens: cells, why })), label: 'Proposals' });
    if (isRefused(change)) throw new Error(change.message);
    const filled = apply(book, change);
    const values = new Workbook({}).load(filled);
    const checks = checksOf(filled, count);
    expect(checks.length).toBeGreaterThan(count * 10);
    for (const at of checks) {
      const value = values[addressOf(at)];
      expect([addressOf(at), value?.kind === 'text' ? value.text : value]).toEqual([addressOf(at), expect.stringMatching(/^(holds|assumed|close to limit)/)]);
    }
    // What a proposal says of its numbers is what its scenario shows.
    const table = filled.tables.find(({ id }) => id === found.table);
    for (const [c, { values: told }] of found.proposals.entries()) {
      for (const [r, row] of (table?.rows ?? []).entries()) {
        const at = table && placeIn(table, c, r);
        if (at && told[row.id]) expect(values[addressOf(at)]).toEqual(told[row.id]);
      }
    }
  },
);
