/** A small book to write formulas in. */
import { type At, cellAt } from '../../../src/book/address.ts';
import type { Book } from '../../../src/book/book.ts';

export const book: Book = {
  format: 'overbench book',
  version: 1,
  id: 'x',
  title: 'x',
  client: '',
  currency: 'EUR',
  measures: 'metric',
  pages: [],
  names: { tariff: 'Prices.A1', heights: 'Scenarios.A1:B1' },
  tables: [
    {
      id: 's',
      name: 'Scenarios',
      form: 'scenarios',
      columns: ['A', 'B', 'C'].map((label) => ({ id: label, label })),
      rows: ['Mount height', 'Mean PPFD', 'Mean day light'].map((label) => ({ id: label, label })),
      cells: {},
    },
    { id: 'p', name: 'Prices', form: 'plain', columns: [{ id: 'a', label: 'Price' }], rows: [{ id: '1', label: 'Tariff' }], cells: {} },
    { id: 'l', name: 'Light map', form: 'list', columns: [{ id: 'a' }, { id: 'b' }], rows: [{ id: '1' }, { id: '2' }], cells: {} },
  ],
};

export function at(address: string): At {
  const found = cellAt(book, address);
  if (!found) throw new Error(`no such cell: ${address}`);
  return found;
}
