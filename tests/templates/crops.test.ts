/** The crops that a client may choose from, in every template that asks for one. */
import { describe, expect, test } from 'vitest';
import { CROP_HEADINGS, cropRows } from '../../functions/data/crops.ts';
import { readContent } from '../../functions/quantity-text.ts';
import { fromBase, need } from '../../functions/units.ts';
import { slugs, templateBook } from './open-template.ts';

describe.each(slugs)('the template %s', (slug) => {
  const crops = templateBook(slug).tables.find(({ name }) => name === 'Crops');

  test('lists the crops that are shared by all, each with what is known of it, and has room for more', () => {
    const shown = (content: string, column: number): string | number | null => {
      const read = readContent(content);
      if (read.kind === 'blank') return null;
      return read.kind === 'number' ? Number(fromBase(read.base, need(CROP_HEADINGS[column]?.[1] ?? '1')).toPrecision(10)) : content;
    };
    const rows = (crops?.rows ?? []).slice(1).map((row) => crops?.columns.map(({ id }, c) => shown(crops.cells[row.id]?.[id]?.content ?? '', c)) ?? []);
    const filled = rows.filter(([crop]) => crop !== null).map((row) => row.slice(0, CROP_HEADINGS.length));
    expect(filled).toEqual(cropRows().slice(1));
    expect(rows.length - filled.length).toBeGreaterThanOrEqual(5);
  });
});
