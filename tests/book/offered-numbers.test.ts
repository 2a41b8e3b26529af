/** Where a number is chosen, what is put forward must be no more than what was typed: of a limit, the next larger one is the unsafe neighbour. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import { apply } from '../../src/book/apply.ts';
import type { Book, Range } from '../../src/book/book.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { setRange } from '../../src/book/commands/set-range.ts';
import { rangeOf } from '../../src/book/look-up.ts';
import { readPlain } from '../../src/book/read-plain.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';
import { runs } from '../cases.ts';
import { sample } from './sample.ts';

const SIZES = [10, 13, 16, 20, 25, 32, 40];
const withRow = (label: string, unit: string, range: Range, content: string): Book => ({
  ...sample,
  tables: [
    {
      id: 'electrics',
      name: 'Electrics',
      form: 'list',
      columns: [{ id: 'a' }],
      rows: [{ id: 'r', label, kind: 'given', range, ...(unit && { unit }) }],
      cells: { r: { a: { content } } },
    },
    ...sample.tables,
  ],
});
const breaker = withRow('Breaker', 'A', { oneOf: SIZES.map((size) => `${size} A`) }, '16 A');
const open = withRow('Breaker', 'A', { oneOf: SIZES.map((size) => `${size} A`), low: 1, high: 125, unit: 'A' }, '16 A');
const label = (answer: Answer): string => (isRefused(answer) ? `refused: ${answer.message}` : answer.label);
const written = (book: Book, content: string): string => label(setCell(book, { address: 'Electrics.A1', content }));
const offered = (message: string): number[] => [...(/Did you mean (.*)\?$/.exec(message)?.[1] ?? '').matchAll(/[\d.]+/g)].map(([number]) => Number(number));

describe('a choice of numbers', () => {
  it('puts forward the next smaller one, never a larger', () => {
    expect(written(breaker, '15 A')).toBe('refused: Breaker: “15 A” is not one of the choices: 10 A, 13 A, 16 A, 20 A, 25 A, 32 A, 40 A. Did you mean 13 A?');
    expect(written(breaker, '1 A')).not.toContain('Did you mean');
    expect(written(breaker, '15900 mA')).toContain('Did you mean 13 A?');
    expect(written(breaker, '39 A')).toContain('Did you mean 32 A?');
    expect(written(breaker, '15 X')).not.toContain('Did you mean');
    expect(written(breaker, '16 B')).not.toContain('Did you mean');
    expect(written(breaker, '15 W')).not.toContain('Did you mean');
  });

  it('says of random numbers never a larger one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 200, noNaN: true }).map((x) => Number(x.toPrecision(3))),
        (amps) => {
          for (const number of offered(written(breaker, `${amps} A`))) expect(number).toBeLessThanOrEqual(amps);
        },
      ),
      runs(1000, 20260301),
    );
  });

  it('puts nothing forward where the number has no unit: of gauges the larger number is the thinner wire', () => {
    const gauge = withRow('Gauge', '', { oneOf: ['18', '16', '14', '12'] }, '18');
    expect(written(gauge, '15')).toBe('refused: Gauge: “15” is not one of the choices: 18, 16, 14, 12.');
  });

  it('takes any number between its limits too, where it has some', () => {
    expect(written(open, '15 A')).toBe('Breaker: 16 A → 15 A');
    expect(written(open, '13 A')).toBe('Breaker: 16 A → 13 A');
    expect(written(open, '126 A')).toBe('refused: Breaker: 126 A is above what is allowed, from 1 to 125 A.');
    expect(written(open, 'large')).toBe('refused: Breaker takes a number, from 1 to 125 A; “large” is none.');
    const at = cellAt(open, 'Electrics.A1');
    if (!at) throw new Error('no cell');
    expect(readPlain(open, at, '15', 'A')).toMatchObject({ ok: true, content: '15 A' });
  });

  it('is said with or without limits, as long as what is listed are numbers', () => {
    const set = (range: Range): Answer => setRange(breaker, { addresses: ['Electrics.A1'], range });
    const answer = set({ oneOf: ['10 A', '16 A'], low: 1, high: 125, unit: 'A' });
    expect(label(answer)).toBe('Breaker: allowed → one of 2, or from 1 to 125 A');
    const next = isRefused(answer) ? undefined : cellAt(apply(breaker, answer), 'Electrics.A1');
    expect(next && rangeOf(next)).toEqual({ oneOf: ['10 A', '16 A'], low: 1, high: 125, unit: 'A' });
    expect(label(set({ oneOf: ['small', '16 A'], low: 1 }))).toMatch(/a list may stand that holds numbers alone/);
    expect(label(set({ from: 'Brief.A1', low: 1 }))).toMatch(/^refused: /);
    expect(label(set({}))).toMatch(/^refused: /);
  });
});
