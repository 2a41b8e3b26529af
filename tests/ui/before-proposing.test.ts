/** When proposals are refused before anything is searched, and in which words. */
import { describe, expect, it } from 'vitest';
import type { At } from '../../src/book/address.ts';
import type { Book } from '../../src/book/book.ts';
import { placeOf } from '../../src/book/look-up.ts';
import { TO_ASK } from '../../src/book/said-by.ts';
import { notYet } from '../../src/ui/commands/before-proposing.ts';
import { placeOfAt } from '../../src/ui/parts/index.ts';
import { templateBook } from '../templates/open-template.ts';

const book = templateBook('trade-bench');

function withBrief(row: string, cell: { readonly content: string; readonly source?: string }): Book {
  return {
    ...book,
    tables: book.tables.map((table) =>
      table.form === 'brief' ? { ...table, cells: { ...table.cells, [row]: { [table.columns[0]?.id ?? '']: cell } } } : table,
    ),
  };
}

describe('proposals', () => {
  it('can be searched for where the client has answered, though defaults stand that nobody agreed to', () => {
    expect(notYet(book, {})).toBeUndefined();
  });

  it('wait for what only the client can say', () => {
    const lacking = withBrief('bench_length', { content: '' });
    expect(notYet(lacking, {})).toEqual({
      why: 'Nothing is proposed before the brief is answered. One answer lacks: Bench length.',
      question: { place: placeOfAt(placeOf(lacking, 'bench_length') as At), title: 'Bench length' },
    });
    expect(notYet(withBrief('bench_length', { content: '3.6 m', source: TO_ASK }), {})?.why).toMatch(/One answer lacks: Bench length\.$/);
  });

  it('are not for a book that compares nothing', () => {
    expect(notYet({ ...book, tables: book.tables.filter(({ form }) => form !== 'scenarios') }, {})).toEqual({
      why: 'Nothing can be proposed here: this book compares no scenarios.',
    });
  });

  it('wait while a mistake of units stands before a check of the scenario that all are compared with', () => {
    const table = book.tables.find(({ form }) => form === 'scenarios');
    const row = (table?.rows.findIndex(({ id }) => id === 'verdict') ?? 0) + 1;
    const mistake = { kind: 'error', word: 'unit error', message: 'adds a length to a power.' } as const;
    expect(notYet(book, { [`Scenarios.A${row}`]: mistake })).toEqual({
      why: 'Nothing is proposed while a mistake of units stands in the way: adds a length to a power.',
    });
    expect(notYet(book, { [`Scenarios.B${row}`]: mistake })).toBeUndefined();
  });
});
