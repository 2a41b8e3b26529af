/** How far each given moves the plan, held against books that are opened anew with that one given changed. */
import { describe, expect, it } from 'vitest';
import { placeOf } from '../../src/book/look-up.ts';
import { moved } from '../../src/handover/swing.ts';
import { templateBook } from '../templates/open-template.ts';
import { make, section, textOf } from './made.ts';

describe('the swings', () => {
  const making = make(templateBook('trade-bench'));

  it.each([
    ['tariff', 'a tenth more', (content: number) => content * 1.1],
    ['bench_width', 'a tenth more', (content: number) => content * 1.1],
    ['light_hours', 'a tenth more', (content: number) => content * 1.1],
  ])('of %s is what a fresh book gives', async (name, step, changed) => {
    const made = await making;
    const at = placeOf(made.session.book, name);
    if (!at) throw new Error(`The book has no ${name}.`);
    const address = `${at.table.name}.${'ABC'[at.columnIndex]}${at.rowIndex + 1}`;
    const swing = made.sheet.swings.get(address);
    expect(swing?.step).toBe(step);
    const [number = '', unit = ''] = (at.cell?.content ?? '').split(' ');
    const content = `${Number(changed(Number(number)).toPrecision(15))} ${unit}`;
    const fresh = await make({
      ...made.session.book,
      tables: made.session.book.tables.map((t) =>
        t.id === at.table.id ? { ...t, cells: { ...t.cells, [at.row.id]: { ...t.cells[at.row.id], [at.column.id]: { ...at.cell, content } } } } : t,
      ),
    });
    for (const [i, result] of moved(made.sheet.reader).entries()) {
      const after = fresh.session.values[result.address];
      if (result.value.kind !== 'number' || after?.kind !== 'number') throw new Error(`${result.address} is no number.`);
      expect(swing?.shares[i], result.label).toBeCloseTo(after.base / result.value.base - 1, 9);
    }
  });

  it('stand in the order of how far they move it, and leave the book’s values as they were', async () => {
    const made = await making;
    const rows = [...section(made.body, 'swings').matchAll(/<tr><th scope="row">[\s\S]*?<\/tr>/g)].map(([row]) =>
      Math.max(...[...row.matchAll(/data-from="[^"]*">([^<]*)</g)].map(([, text = '']) => (text === 'same' ? 0 : Number(/[\d.]+/.exec(textOf(text))?.[0])))),
    );
    expect(rows.length).toBe(10);
    expect(rows).toEqual([...rows].sort((a, b) => b - a));
    const again = await make(templateBook('trade-bench'));
    const engine = await made.session.ask((one) => one.load(made.session.book));
    expect(engine).toEqual({ ...again.session.values });
  });
});
