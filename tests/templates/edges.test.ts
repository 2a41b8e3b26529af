/** What the templates say of the edges of a bench: how even the light is away from them, and how far lights stick out past them. */
import { describe, expect, test } from 'vitest';
import { isRefusal } from '../../functions/define.ts';
import { faces } from '../../functions/field/layout.ts';
import { parseLayout } from '../../functions/field/layout-text.ts';
import { textOf } from '../../src/book/address.ts';
import type { Session } from '../../src/session.ts';
import { openTemplate, slugs, templateBook } from './open-template.ts';

const rowsOf = (slug: string): readonly string[] =>
  templateBook(slug)
    .tables.find((t) => t.form === 'scenarios')
    ?.rows.map((row) => row.id) ?? [];

const cellOf = (slug: string, id: string, column = 0): string => textOf('Scenarios', column, rowsOf(slug).indexOf(id));

async function type(session: Session, address: string, typed: string): Promise<void> {
  expect(await session.type(address, typed), `${address} takes ${typed}`).toMatchObject({ ok: true });
  await session.settled();
}

const base = (session: Session, address: string): number => {
  const value = session.values[address];
  if (value?.kind !== 'number') throw new Error(`${address}: ${JSON.stringify(value)}`);
  return value.base;
};

describe.each(slugs.filter((slug) => rowsOf(slug).includes('evenness_inside')))('away from the edges, in %s', (slug) => {
  const [evenness, height] = [cellOf(slug, 'evenness_inside'), cellOf(slug, 'height')];
  const margin = templateBook(slug).names.edge_margin?.replaceAll('$', '') ?? '';

  test('there is a value however high the lights hang and however narrow the bench is', async () => {
    const session = await openTemplate(slug);
    for (const [length, width] of [
      ['6 m', '1.5 m'],
      ['0.5 m', '12 m'],
      ['20 m', '0.2 m'],
    ] as const) {
      await type(session, 'Brief.A1', length);
      await type(session, 'Brief.A2', width);
      await type(session, cellOf(slug, 'across'), '1');
      await type(session, cellOf(slug, 'along'), '1');
      for (const [high, share] of [
        ['3 m', '20 %'],
        ['10 m', '40 %'],
      ] as const) {
        await type(session, height, high);
        await type(session, margin, share);
        expect(base(session, evenness), `${length} × ${width}, ${high}, ${share}`).toBeGreaterThan(0);
        expect(base(session, evenness)).toBeLessThanOrEqual(1);
      }
    }
    session.close();
  });

  test('the margin is what is given', async () => {
    const session = await openTemplate(slug);
    const whole = base(session, cellOf(slug, 'evenness'));
    const before = base(session, evenness);
    await type(session, margin, '0 %');
    expect(base(session, evenness), 'no margin leaves out nothing').toBeCloseTo(whole, 12);
    await type(session, margin, '40 %');
    expect(base(session, evenness)).not.toBeCloseTo(before, 3);
    session.close();
  });
});

describe.each(slugs)('lights past the edges, in %s', (slug) => {
  test('are told as far as the outermost faces of the layout reach', async () => {
    const session = await openTemplate(slug);
    const ids = rowsOf(slug);
    const seen: number[] = [];
    const compare = (): void => {
      for (const [column] of session.book.tables.find((t) => t.form === 'scenarios')?.columns.entries() ?? []) {
        const text = session.values[cellOf(slug, 'layout', column)];
        if (text?.kind !== 'text') continue;
        const layout = parseLayout(text.text);
        if (isRefusal(layout)) throw new Error(layout.message);
        const all = faces(layout);
        const ends = Math.max(0, ...all.map((f) => f.x + f.length / 2 - layout.bench.length));
        const sides = Math.max(0, ...all.map((f) => f.y + f.width / 2 - layout.bench.width));
        expect(base(session, cellOf(slug, 'past_ends', column)), text.text).toBeCloseTo(ends, 9);
        expect(base(session, cellOf(slug, 'past_sides', column)), text.text).toBeCloseTo(sides, 9);
        seen.push(ends, sides);
      }
    };
    compare();
    const tries: readonly (readonly [string, string])[] = [
      ['spread_along', '1.6'],
      ['spread_across', '1.7'],
      ['turned', 'TRUE'],
    ];
    for (const [id, typed] of tries.filter(([id]) => ids.includes(id))) {
      await type(session, cellOf(slug, id), typed);
      compare();
    }
    // Shorter and narrower than any row of lights.
    await type(session, 'Brief.A1', '0.9 m');
    await type(session, 'Brief.A2', '0.2 m');
    for (const id of ['along', 'across'].filter((id) => ids.includes(id))) await type(session, cellOf(slug, id), '1');
    compare();
    expect(seen.filter((past) => past > 0).length).toBeGreaterThan(0);
    expect(seen.filter((past) => past === 0).length).toBeGreaterThan(0);
    session.close();
  });
});
