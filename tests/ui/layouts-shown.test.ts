/** Layouts as the slip lists them: in which order, which of them, in which words; and what its fields say is to be tried. */
import { describe, expect, it } from 'vitest';
import type { Table } from '../../src/book/book.ts';
import type { Layout, Offered } from '../../src/engine/proposing/index.ts';
import { choicesIn } from '../../src/ui/slips/layout-choices.ts';
import { ANY, dotOf, inWords, lineOf, listed, sameLayout, titleOf, unitsOf } from '../../src/ui/slips/layouts-shown.ts';
import { templateBook } from '../templates/open-template.ts';

const YEAR = 1;
const base: Layout = {
  ...{ fixture: 'Rail 90', along: 3, across: 4, turned: false, spreadAlong: '1.1', spreadAcross: '1.2' },
  ...{ height: '0.45 m', metres: 0.45, dim: 85, supply: 'Supply 24/300', fuse: '6.3 A' },
  ...{ count: 12, annual: 1_664 / YEAR, evenness: 0.6741, light: 268.4e-6, place: 5 },
};
const layout = (more: Partial<Layout>): Layout => ({ ...base, ...more });
const demo = templateBook('trade-bench');
const units = unitsOf(demo, scenariosOf(demo.tables));

function scenariosOf(tables: readonly Table[]): Table | undefined {
  return tables.find(({ form }) => form === 'scenarios');
}

describe('layouts in words', () => {
  it('say the light, the rows, the supply and the fuse, how high and how far dimmed', () => {
    expect(titleOf(base)).toBe('Rail 90, 3 × 4, Supply 24/300, fuse 6.3 A');
    expect(inWords(base, units)).toBe('Rail 90, 3 × 4, Supply 24/300, fuse 6.3 A, at 0.45 m, dimmed to 85 %');
    expect(inWords(layout({ turned: true, fuse: '0 A', dim: 100 }), units)).toBe('Rail 90, 3 × 4, turned, Supply 24/300, no fuse, at 0.45 m');
    expect(inWords(layout({ supply: '', fuse: '', fixture: 'Bay 320' }), units)).toBe('Bay 320, 3 × 4, at 0.45 m, dimmed to 85 %');
  });

  it('say of lights that hang under a shelf how far below it', () => {
    const rack = templateBook('rack-of-tiers');
    expect(inWords(layout({ metres: 0.05, dim: 100 }), unitsOf(rack, scenariosOf(rack.tables)))).toMatch(/, hung below the shelf above by 0\.05 m$/);
  });

  it('stand in the units of the book, and are spoken with them', () => {
    const line = lineOf(base, units);
    expect([line.height.text, line.dim.text, line.count.text, line.light, line.evenness.text, line.cost]).toEqual([
      '0.45\u202fm',
      '85 %',
      '12',
      { text: '268', unit: 'µmol/m²/s' },
      '0.674',
      { text: '1664', unit: 'EUR/year' },
    ]);
    expect(line.spoken).toBe(
      'Rail 90, 3 by 4, Supply 24/300, fuse 6.3 A, 0.45 metres, dimmed to 85 percent, 12 lights, 268 micromoles per square metre per second, evenness 0.674, 1664 euros per year',
    );
    const feet = unitsOf({ ...demo, measures: 'US customary' }, undefined);
    expect(lineOf(layout({ metres: 0.4572 }), { ...units, height: feet.height }).height.text).toBe('1′\u00a06″');
  });

  it('leave out what the book does not say', () => {
    const line = lineOf(layout({ annual: Number.NaN, evenness: Number.NaN, metres: Number.NaN }), units);
    expect([line.cost.text, line.evenness.text, line.height.text]).toEqual(['', '', '']);
    expect(line.spoken).not.toMatch(/NaN|euro|evenness|metres,/);
    expect(dotOf(layout({ annual: Number.NaN }), units)).toBeUndefined();
    expect(dotOf(base, units)).toEqual({ cost: expect.closeTo(1_664, 6), evenness: 0.6741 });
  });

  it('say DLI where the book has no mean PPFD, as where plants grow toward the light', () => {
    const growing = templateBook('growing-canopy');
    expect(unitsOf(growing, scenariosOf(growing.tables))).toMatchObject({ lit: 'DLI', light: 'mol/m²/d', hasCost: true, hasEvenness: true });
  });
});

describe('the list', () => {
  const [a, b, c] = [layout({ annual: 3, place: 1 }), layout({ annual: 1, place: 2, evenness: 0.9 }), layout({ annual: 3, place: 0, turned: true })];
  const unknown = layout({ annual: Number.NaN, place: 3, fixture: 'Puck 18' });
  const all = [a, b, c, unknown];

  it('is sorted by what is asked for, equals as they were tried, what is not known last, either way round', () => {
    expect(listed(all, units, ANY, { by: 'cost', turned: false })).toEqual([b, c, a, unknown]);
    expect(listed(all, units, ANY, { by: 'cost', turned: true })).toEqual([c, a, b, unknown]);
    expect(listed(all, units, ANY, { by: 'evenness', turned: false })[0]).toBe(b);
    expect(all).toEqual([a, b, c, unknown]);
  });

  it('shows those that say all the words, cost no more and are even enough', () => {
    expect(listed(all, units, { ...ANY, words: 'TURNED rail' }, { by: 'cost', turned: false })).toEqual([c]);
    expect(listed(all, units, { ...ANY, words: 'rail, 48' }, { by: 'cost', turned: false })).toEqual([]);
    expect(listed(all, units, { ...ANY, most: 2 }, { by: 'cost', turned: false })).toEqual([b]);
    expect(listed(all, units, { ...ANY, least: 0.9 }, { by: 'cost', turned: false })).toEqual([b]);
  });

  it('knows a layout again by all that it says, and not by where it was found', () => {
    expect(sameLayout(base, layout({ place: 99 }))).toBe(true);
    expect(sameLayout(base, layout({ dim: 84 }))).toBe(false);
    expect(sameLayout(undefined, undefined)).toBe(false);
  });
});

describe('what is to be tried', () => {
  const offered: Offered = {
    plan: { table: 's', pieces: 1, layouts: 1, said: [] },
    fixtures: ['Rail 45', 'Rail 90'],
    supplies: ['Supply 24/150', 'Supply 24/300'],
    ...{ along: { low: 1, high: 12 }, across: { low: 1, high: 12 }, spreadAlong: '1.1', spreadAcross: '1.2' },
    heights: { low: 0.25, high: 0.9, step: 0.05 },
    rows: ['fixture', 'along', 'across', 'turned', 'spread_along', 'spread_across', 'height', 'dim', 'supply', 'fuse'],
  };
  const asOffered: readonly (readonly [string, string])[] = [
    ...[...offered.fixtures.map((one) => ['fixture', one] as const), ...offered.supplies.map((one) => ['supply', one] as const)],
    ...([
      ['along-low', '1'],
      ['along-high', '12'],
      ['across-low', '1'],
      ['across-high', '12'],
      ['turned', 'either'],
    ] as const),
    ...([
      ['spread-along', '1.1'],
      ['spread-across', '1.2'],
      ['height-low', '0.25 m'],
      ['height-high', '0.9 m'],
      ['height-step', '0.05 m'],
      ['dimming', 'aim'],
      ['circuits', ''],
    ] as const),
  ];
  const said = (...other: readonly (readonly [string, ...string[]])[]) => {
    const data = new FormData();
    const names = new Set(other.map(([name]) => name));
    for (const [name, value] of asOffered) if (!names.has(name)) data.append(name, value);
    for (const [name, ...values] of other) for (const value of values) data.append(name, value);
    return choicesIn(data, offered, units);
  };

  it('is everything where the fields stand as they were', () => {
    expect(said()).toEqual({ turned: 'either', spreadAlong: ['1.1'], spreadAcross: ['1.2'], dimming: 'aim' });
  });

  it('is what the fields say, heights in any unit', () => {
    expect(said(['fixture', 'Rail 90'], ['supply', 'Supply 24/150'])).toMatchObject({ fixtures: ['Rail 90'], supplies: ['Supply 24/150'] });
    expect(said(['along-low', '2'], ['across-high', '4'])).toMatchObject({ along: { low: 2, high: 12 }, across: { low: 1, high: 4 } });
    expect(said(['height-low', '30 cm'], ['height-step', '1 in'])).toMatchObject({ heights: { low: 0.3, step: expect.closeTo(0.0254, 12) } });
    expect(said(['height-high', '0.5'])).toMatchObject({ heights: { high: 0.5 } });
    expect(said(['spread-along', '1 1.1  1.2'])).toMatchObject({ spreadAlong: ['1', '1.1', '1.2'] });
    expect(said(['turned', 'yes'], ['dimming', 'none'], ['circuits', '2'])).toMatchObject({ turned: 'yes', dimming: 'none', circuits: 2 });
  });

  it('is refused in a sentence where it can not be read, or nothing is left', () => {
    expect(said(['fixture'])).toBe('Tick one light at least.');
    expect(said(['supply'])).toBe('Tick one supply at least.');
    expect(said(['along-low', '5'], ['along-high', '2'])).toBe('From 5 to 2 there is no number of rows.');
    expect(said(['height-low', '1 m'])).toBe('The least height is above the greatest.');
    expect(said(['height-low', '3 kg'])).toMatch(/^./);
    expect(said(['height-low', 'high'])).toMatch(/high/);
    expect(said(['spread-across', '1.1,2'])).toBe('“1.1,2” is no spread: write numbers such as 1.1, with spaces between them.');
  });
});
