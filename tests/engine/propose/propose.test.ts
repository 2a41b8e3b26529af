import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { placeIn } from '../../../src/book/address.ts';
import { apply } from '../../../src/book/apply.ts';
import type { Book } from '../../../src/book/book.ts';
import { putScenarios } from '../../../src/book/commands/put-scenarios.ts';
import { addressOf, standingOf } from '../../../src/book/look-up.ts';
import { isRefused } from '../../../src/book/refused.ts';
import { AIMS, type Aim, type Choices, finished, gathered, look, type PieceDone, type Proposed, propose, Searcher } from '../../../src/engine/propose/index.ts';
import { Workbook } from '../../../src/engine/workbook.ts';
import { checkOf } from '../../../src/shown.ts';

const templateOf = (slug: string): Book => JSON.parse(readFileSync(`templates/${slug}.json`, 'utf8')) as Book;

describe('proposals for a book', () => {
  it('stand in its scenarios with no check that fails and none that is unknown', () => {
    const book = templateOf('single-shelf');
    const found = propose(book);
    if (typeof found === 'string') throw new Error(found);
    expect(found.proposals.map(({ aim }) => aim)).toEqual(['cheapest', 'most even']);
    const change = putScenarios(book, { table: found.table, scenarios: found.proposals.map(({ cells, why }) => ({ givens: cells, why })), label: 'Proposals' });
    if (isRefused(change)) throw new Error(change.message);
    const filled = apply(book, change);
    const values = new Workbook({}).load(filled);
    const table = filled.tables.find(({ id }) => id === found.table);
    let checks = 0;
    for (const [c] of found.proposals.entries()) {
      for (const r of table?.rows.keys() ?? []) {
        const at = table && placeIn(table, c, r);
        if (!at || standingOf(at) !== 'check') continue;
        checks++;
        expect(['holds', 'assumed', 'look']).toContain(checkOf(values[addressOf(at)] ?? { kind: 'blank' })?.state);
      }
    }
    expect(checks).toBe(38);
  });

  it('are the same whatever the number of threads, and in whatever order their pieces come', () => {
    const book = templateOf('single-shelf');
    const choices: Choices = { heights: { step: 0.02 } };
    const alone = propose(book, choices) as Proposed;
    for (const threads of [2, 3]) {
      const searchers = Array.from({ length: threads }, () => Searcher.of(book, choices) as Searcher);
      const pieces: PieceDone[] = [];
      const [first] = searchers as [Searcher];
      for (let piece = first.plan.pieces - 1; piece >= 0; piece--) pieces.push((searchers[piece % threads] as Searcher).piece(piece));
      expect(finished(first, structuredClone(pieces))).toEqual(alone);
      expect(look(first, alone.proposals[0]?.layout as never).cells).toEqual(alone.proposals[0]?.cells);
      const best: Partial<Record<Aim, unknown>> = gathered(pieces).best;
      expect(Object.keys(best).sort()).toEqual([...AIMS].sort());
      for (const searcher of searchers) searcher.close();
    }
  });
});
