import { describe, expect, it } from 'vitest';
import { apply } from '../../../src/book/apply.ts';
import type { Book } from '../../../src/book/book.ts';
import { cellEdit } from '../../../src/book/commands/set-cell.ts';
import { placeOf } from '../../../src/book/look-up.ts';
import { type Proposed, propose } from '../../../src/engine/propose/index.ts';
import { heightsLookedAt } from '../../../src/engine/propose/misses.ts';
import type { Space } from '../../../src/engine/propose/space.ts';
import { everyOne, type Lists, type Tried } from './every-one.ts';
import { smallBook, type Wanted } from './small-books.ts';

/** Two bars side by side are never so even. */
const UNEVEN: Wanted = {
  ...{ length: 1.1, width: 0.4, lowest: 0.2, room: 0.06, low: 30, aim: 90, ceiling: 2500, even: 0.9, least: 10, spread: 1 },
  ...{ fixtures: ['bar'], supplies: ['small', 'large'], fuses: ['0 A'], extra: '', cost: '', evenness: 'BENCH.UNIFORMITY({layout},{height},8,6)', lacks: [] },
};
const TWO = { along: { low: 1, high: 2 }, across: { low: 1, high: 2 } };

const saying = (book: Book, address: string, content: string): Book => {
  const at = placeOf(book, address);
  if (!at) throw new Error(`there is no ${address}`);
  return apply(book, { label: '', edits: cellEdit(at, { ...at.cell, content }) });
};

const every = (book: Book, by: Wanted, heights: readonly string[]): readonly Tried[] => {
  const lists: Lists = [
    ['fixture', by.fixtures],
    ['along', ['1', '2']],
    ['across', ['1', '2']],
    ['turned', ['FALSE', 'TRUE']],
    ['height', heights],
  ];
  return everyOne(book, lists, by.supplies, by.fuses, { low: by.least, high: 100 });
};

describe('where nothing holds', () => {
  it('looks at all heights of a small space, and at some of a large one, its lowest and highest among them', () => {
    const space = (heights: number, arrangements: number) =>
      ({ arrangements, heights: Array.from({ length: heights }, (_, i) => ({ content: `${i} cm`, metres: i / 100 })) }) as unknown as Space;
    expect(heightsLookedAt(space(12, 576))).toHaveLength(12);
    const some = heightsLookedAt(space(76, 1728)).map(({ metres }) => metres);
    expect([some[0], some.at(-1)]).toEqual([0, 0.75]);
    expect(new Set(some).size).toBe(some.length);
    expect(some.length).toBeLessThan(10);
    expect(heightsLookedAt(space(76, 1e6))).toHaveLength(4);
  });

  it('says which check stands in the way, and the smallest change of its limit with which one does', () => {
    const book = smallBook(UNEVEN);
    const { proposals, binds } = propose(book, TWO) as Proposed;
    expect(proposals).toEqual([]);
    expect(binds?.checks).toEqual(['c_evenness']);
    const misses =
      /^Nothing holds\. \d+ fail by c_evenness alone\. The nearest is bar, .* at 0\.\d+\sm, dimmed to \d+ %: c_evenness (\d+) % below the least\.$/;
    expect(binds?.said).toMatch(misses);
    const looser = binds?.changes.find(({ address }) => address === 'Brief.A8');
    // It misses by as much as the limit would have to be less.
    expect(Math.abs(0.9 * (1 - Number(misses.exec(binds?.said ?? '')?.[1]) / 100) - Number(looser?.content))).toBeLessThan(0.015);
    expect(looser?.said).toBe(`evenness_asked, 0.9: at ${looser?.content} one holds.`);
    const heights = ['0.2 m', '0.25 m', '0.26 m'];
    expect(every(book, UNEVEN, heights)).toEqual([]);
    expect(every(saying(book, 'Brief.A8', looser?.content ?? ''), UNEVEN, heights).length).toBeGreaterThan(0);
    // A step less is too little.
    const stricter = String(Number((Number(looser?.content) + 0.01).toFixed(2)));
    expect(every(saying(book, 'Brief.A8', stricter), UNEVEN, heights)).toEqual([]);
  });

  it('tells how much higher lights would have to hang, where that helps', () => {
    const by = { ...UNEVEN, even: 0.66 };
    const book = smallBook(by);
    const { binds } = propose(book, TWO) as Proposed;
    const higher = binds?.changes.find(({ address }) => address === 'Brief.A4');
    const metres = Number(higher?.content.split(' ')[0]);
    expect(higher?.said).toMatch(/^highest_mount, 0\.26\sm: at 0\.\d+\sm one holds\.$/);
    const allowed = saying(book, 'Brief.A4', higher?.content ?? '');
    expect(every(allowed, by, [higher?.content ?? '']).length).toBeGreaterThan(0);
    const below = Array.from({ length: Math.round((metres - 0.26) * 100) }, (_, i) => `${Number((0.26 + i / 100).toFixed(2))} m`);
    expect(every(allowed, by, below)).toEqual([]);
  });

  it('says too that no limit helps', () => {
    const { binds } = propose(smallBook({ ...UNEVEN, extra: '=IF({turned},"fails","unknown")' }), TWO) as Proposed;
    expect(binds?.changes).toEqual([]);
    expect(binds?.said).toMatch(/ fail by .*c_evenness.* alone.* No limit that was moved, by itself, lets one through\.$/);
  });
});
