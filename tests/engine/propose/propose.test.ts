import { describe, expect, it } from 'vitest';
import { apply } from '../../../src/book/apply.ts';
import type { Book } from '../../../src/book/book.ts';
import { cellEdit } from '../../../src/book/commands/set-cell.ts';
import { placeOf } from '../../../src/book/look-up.ts';
import { Sweeper } from '../../../src/engine/cone/index.ts';
import { AIMS, type Choices, finished, gathered, look, type PieceDone, type Proposed, propose, Searcher } from '../../../src/engine/propose/index.ts';
import { smallBook, type Wanted } from './small-books.ts';

const BY: Wanted = {
  ...{ length: 1.1, width: 0.4, lowest: 0.2, room: 0.12, low: 30, aim: 90, ceiling: 2500, even: 0.1, least: 10, spread: 1 },
  ...{ fixtures: ['bar', 'dot'], supplies: ['small', 'large'], fuses: ['0 A', '6 A'], extra: '', cost: '', lacks: [] },
  evenness: 'BENCH.UNIFORMITY({layout},{height},8,6)',
};
const FEW: Choices = { along: { low: 1, high: 2 }, across: { low: 1, high: 2 } };

const saying = (book: Book, address: string, content: string): Book => {
  const at = placeOf(book, address);
  if (!at) throw new Error(`there is no ${address}`);
  return apply(book, { label: '', edits: cellEdit(at, { ...at.cell, content }) });
};

describe('proposals for a book', () => {
  it('are the same whatever the number of threads, and in whatever order their pieces come', () => {
    const book = smallBook(BY);
    const alone = propose(book, FEW) as Proposed;
    expect(alone.proposals.map(({ aim }) => aim)).toEqual(AIMS);
    for (const threads of [2, 3]) {
      const searchers = Array.from({ length: threads }, () => Searcher.of(book, FEW) as Searcher);
      const pieces: PieceDone[] = [];
      const [first] = searchers as [Searcher];
      for (let piece = first.plan.pieces - 1; piece >= 0; piece--) pieces.push((searchers[piece % threads] as Searcher).piece(piece));
      expect(finished(first, structuredClone(pieces))).toEqual(alone);
      expect(gathered(pieces).counts).toEqual(alone.counts);
      for (const { layout, cells, values } of alone.proposals) expect(look(first, layout)).toMatchObject({ cells, values });
      for (const searcher of searchers) searcher.close();
    }
  });

  it('are told for other choices by the same copy of the book, which a search that was stopped leaves sound', () => {
    const book = smallBook(BY);
    const sweeper = new Sweeper(book);
    const stopped = Searcher.of(sweeper, FEW) as Searcher;
    let beats = 0;
    const stop = (): void => {
      if (++beats > 1) throw new Error('stopped');
    };
    expect(() => stopped.plan.pieces > 1 && [0, 1].map((piece) => stopped.piece(piece, stop))).toThrow('stopped');
    const before = JSON.stringify(book);
    for (const choices of [FEW, { ...FEW, fixtures: ['dot'] }, { ...FEW, heights: { low: 0.25 } }])
      expect(propose(sweeper, choices)).toEqual(propose(book, choices));
    expect(JSON.stringify(book)).toBe(before);
    sweeper.close();
  });

  it('keep to what may be chosen', () => {
    const { proposals, all } = propose(smallBook(BY), {
      ...{ fixtures: ['DOT'], along: { low: 2, high: 2 }, turned: 'no', supplies: ['large'], dimming: 'none', heights: { low: 0.21, high: 0.24 }, all: true },
    }) as Proposed;
    expect(proposals.length).toBe(3);
    for (const one of [...all, ...proposals.map(({ layout }) => layout)]) {
      expect(one).toMatchObject({ fixture: 'dot', along: 2, turned: false, supply: 'large', dim: 100 });
      expect(one.metres).toBeGreaterThanOrEqual(0.21);
      expect(one.metres).toBeLessThanOrEqual(0.24);
    }
    expect(propose(smallBook(BY), { fixtures: ['lamp'] })).toBe('Fixture, A: “lamp” is not one of the choices.'.replace('Fixture', 'fixture'));
    expect(propose(smallBook(BY), { along: { low: 5, high: 4 } })).toBe('With these choices nothing is left to try.');
  });

  it('hang at heights by the inch in a book in feet and inches', () => {
    const { all } = propose({ ...smallBook(BY), measures: 'US customary' }, { ...FEW, all: true }) as Proposed;
    // From 20 cm to 32 cm: the limits, and the even inches between them.
    expect([...new Set(all.map(({ height }) => height))].sort()).toEqual(['10 in', '12 in', '12.598425197 in', '7.874015748 in', '8 in']);
  });

  it('are refused in words while a mistake of units or an answer that lacks stands in their way, and for a book without an arrangement', () => {
    const book = smallBook(BY);
    expect(propose(saying(book, 'Brief.A8', '0.2 kg'))).toMatch(/^Nothing is proposed while .*evenness_asked/);
    const wrong = saying(book, 'Scenarios.A34', '=CHECK.AT.LEAST(A20,bench_length)');
    expect(propose(wrong)).toMatch(/^Nothing is proposed while a mistake of units stands in the way: /);
    expect(propose(saying(book, 'bench_length', ''))).toMatch(/^Nothing is proposed while an answer lacks: .*bench_length/);
    expect(propose({ ...book, tables: book.tables.filter(({ form }) => form !== 'scenarios') })).toBe(
      'This book compares no scenarios, so there is nothing to propose.',
    );
  });
});
