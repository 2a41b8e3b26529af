import { describe, expect, it } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import type { Book } from '../../src/book/book.ts';
import { piecesOf } from '../../src/ui/cells/formula-text.ts';
import { letterAt } from '../../src/ui/parts/letter-at.ts';

const book: Book = {
  format: 'overbench book',
  version: 1,
  id: 'x',
  title: 'x',
  client: '',
  currency: 'EUR',
  measures: 'metric',
  pages: [],
  names: { tariff: 'Prices.A1' },
  tables: [
    {
      id: 's',
      name: 'Scenarios',
      form: 'scenarios',
      columns: [
        { id: 'a', label: 'A' },
        { id: 'b', label: 'B' },
      ],
      rows: [
        { id: '1', label: 'Mount height' },
        { id: '2', label: 'Mean PPFD' },
      ],
      cells: {},
    },
    { id: 'p', name: 'Prices', form: 'plain', columns: [{ id: 'a', label: 'Price' }], rows: [{ id: '1', label: 'Tariff' }], cells: {} },
  ],
};
const home = cellAt(book, 'Scenarios.B2');
const text = (formula: string): string => {
  if (!home) throw new Error('no such cell');
  return piecesOf(formula, book, home, new Map([['Scenarios.B1', 'a']]))
    .map((piece) => ('text' in piece ? piece.text : `[${piece.label}${piece.letter ? `:${piece.letter}` : ''}]`))
    .join('');
};

describe('a formula in headings', () => {
  it('says what a person calls each cell it reads, with the letter of the margin', () => {
    expect(text('=BENCH.MEAN(B1, A1)*tariff')).toBe('=BENCH.MEAN([Mount height:a], [Mount height, A]) × [Tariff]');
  });

  it('leaves texts and function names alone', () => {
    expect(text('=IF(B1>0,"A1 or tariff",LOG10(2))')).toBe('=IF([Mount height:a]>0, "A1 or tariff", LOG10(2))');
  });

  it('goes on after z with two letters', () => {
    expect([0, 25, 26, 27].map(letterAt)).toEqual(['a', 'z', 'aa', 'ab']);
  });
});
