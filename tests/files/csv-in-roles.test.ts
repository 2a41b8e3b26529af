import { describe, expect, it } from 'vitest';
import { readQuantity } from '../../functions/quantity-text.ts';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import { placeOf } from '../../src/book/look-up.ts';
import { isRefused } from '../../src/book/refused.ts';
import type { Mapping } from '../../src/files/csv/mapped.ts';
import { roleOf, unitOfColumn, withRole, withUnit } from '../../src/files/csv/roles.ts';
import { planCsv, stageCsv } from '../../src/files/csv/staged.ts';
import { suggestMapping } from '../../src/files/csv/suggest.ts';
import { sample } from '../book/sample.ts';

const rows: Mapping = { to: 'rows', table: 't', into: { from: 0, column: 'label' }, unitFrom: 1, columns: [{ from: 2, column: 'a', unit: 'cm' }] };

describe('a mapping, column by column', () => {
  it('says what each column of the file is for', () => {
    expect([0, 1, 2, 3].map((from) => roleOf(rows, from))).toEqual([
      { is: 'key', column: 'label' },
      { is: 'unit' },
      { is: 'values', column: 'a' },
      { is: 'left out' },
    ]);
    expect([unitOfColumn(rows, 2), unitOfColumn(rows, 3)]).toEqual(['cm', undefined]);
  });

  it('takes a use from the column that had it, and forgets what the column was before', () => {
    const other = withRole(rows, 3, { is: 'values', column: 'a' }, { title: 'Height', unit: 'm' });
    expect(other).toEqual({ ...rows, columns: [{ from: 3, column: 'a', unit: 'm' }] });
    const keyless = withRole(rows, 0, { is: 'values', column: 'b' }, { title: 'x' });
    expect(keyless).toMatchObject({ into: 'end', unitFrom: 1 });
    expect(withRole(rows, 2, { is: 'key', column: { id: 'b' } }, { title: 'x' })).toMatchObject({ into: { from: 2, column: { id: 'b' } }, columns: [] });
    const moved = withRole(rows, 2, { is: 'unit' }, { title: 'x' });
    expect(moved).toMatchObject({ unitFrom: 2, columns: [] });
    expect(withRole(rows, 1, { is: 'left out' }, { title: 'x' })).not.toHaveProperty('unitFrom');
  });

  it('puts a column of a new table where it stands in the file, under its heading', () => {
    const made: Mapping = { to: 'new table', name: 'N', page: 'N', columns: [{ from: 2, heading: 'c' }] };
    const more = withRole(made, 0, { is: 'new' }, { title: 'a', unit: 'm' });
    expect(more.columns).toEqual([
      { from: 0, heading: 'a', unit: 'm' },
      { from: 2, heading: 'c' },
    ]);
    expect(withRole(more, 0, { is: 'left out' }, { title: 'a' }).columns).toEqual(made.columns);
    expect(withUnit(more, 0, undefined).columns[0]).toEqual({ from: 0, heading: 'a' });
    expect(withUnit(more, 0, 'ft').columns[0]).toEqual({ from: 0, heading: 'a', unit: 'ft' });
  });
});

describe('a grid of numbers without headings', () => {
  it('goes over the rows of the table that is said, from the first one on and beside the names of its rows', async () => {
    const bringIn = async (book: Book, file: string, name: string, goal: Parameters<typeof suggestMapping>[2]): Promise<Book> => {
      const staged = await stageCsv(file, { name });
      const plan = await planCsv(book, staged, { mapping: suggestMapping(book, staged, goal), read: readQuantity, values: {} });
      if (isRefused(plan)) throw new Error(plan.message);
      expect(plan).toMatchObject({ notPlaced: 0 });
      return apply(book, plan.change);
    };
    const before = await bringIn(sample, 'Row;left;right\nfront;1;2\nback;3;4\n', 'Readings.csv', 'new table');
    const table = before.tables.find(({ name }) => name === 'Readings');
    const after = await bringIn(before, '9,5;8\n7;6\n', 'grid.csv', { table: table?.id ?? '' });
    const contents = ['A2', 'B2', 'C2', 'A3', 'B3', 'C3'].map((cell) => placeOf(after, `Readings.${cell}`)?.cell?.content);
    expect(contents).toEqual(['front', '9.5', '8', 'back', '7', '6']);
    expect(after.tables.find(({ name }) => name === 'Readings')?.rows).toHaveLength(3);
  });
});
