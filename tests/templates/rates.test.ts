/** Rates of the cost pages: what is none or blank changes nothing, and what is filled in comes to what plain arithmetic gives. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { RUN_COST_BANDS } from '../../functions/cost/run-cost-bands.ts';
import type { Session } from '../../src/session.ts';
import { makeFrom, textOf } from '../handover/made.ts';
import { openTemplate, slugs, templateBook } from './open-template.ts';
import { cellOf, fill, row, said } from './rows.ts';

const RATES = /^(?:peak_price|off_peak_price|peak_from|peak_to|peak_part|lights_on_at|peak_hours|co_two|rebate_\w+|spares|fitting_hours|replace_\w+)$/;
const COSTS = ['buy', 'run', 'capital', 'annual'] as const;

// The meter check compares lights that hang already, and has no such rows.
describe.each(slugs.filter((slug) => slug !== 'meter-check'))('the rates of %s', (slug) => {
  test('are none as they stand, and blank they come to the same', async () => {
    const session = await openTemplate(slug);
    const names = Object.keys(session.book.names).filter((name) => RATES.test(name));
    expect(names.length).toBeGreaterThan(9);
    for (const name of names) expect(said(session, session.book.names[name]?.replaceAll('$', '') ?? ''), name).toBe('none');
    const costs = (): unknown => COSTS.map((id) => ['A', 'B', 'C'].map((letter) => row(session, id, id === 'buy' ? 'EUR' : 'EUR/year', letter)));
    const before = costs();
    for (const letter of ['A', 'B', 'C']) {
      expect(row(session, 'price_paid', 'EUR/kWh', letter)).toBe(0.25);
      for (const id of ['buy_spares', 'buy_fitting', 'buy_rebate']) expect(row(session, id, 'EUR', letter), id).toBe(0);
      expect(row(session, 'annual', 'EUR/year', letter)).toBeCloseTo(
        ['run', 'capital', 'replace_year'].reduce((sum, id) => sum + Number(row(session, id, 'EUR/year', letter)), 0),
        9,
      );
    }
    await fill(session, ...names.map((name) => [name, ''] as const));
    expect(costs()).toEqual(before);
    // One price of the two, and nobody said when it holds: no price is paid, and no cost stands, as if it were known.
    for (const name of ['peak_price', 'off_peak_price']) {
      await fill(session, ['peak_price', 'none'], ['off_peak_price', 'none'], [name, '0.15 EUR/kWh']);
      expect(row(session, 'peak_share'), name).toBe('peak hours: not said');
      expect(row(session, 'price_paid'), name).toBe('unknown, peak hours: not said');
      for (const id of ['run', 'annual']) expect(row(session, id), `${name} ${id}`).toMatch(/peak hours: not said/);
      if (slug === 'replace-old-lamps') expect(said(session, session.book.names.old_price?.replaceAll('$', '') ?? '')).toBe('unknown, peak hours: not said');
    }
    session.close();
  });
});

/** Each paragraph of prose with the rows of the scenarios that it shows, by letter. */
function shownIn(slug: string): { readonly text: string; readonly ids: ReadonlyMap<string, readonly string[]> }[] {
  const book = templateBook(slug);
  const rows = book.tables.find((table) => table.form === 'scenarios')?.rows ?? [];
  const prose = book.pages.flatMap((page) => page.blocks.flatMap((block) => (block.kind === 'prose' ? block.text.split('\n\n') : [])));
  return prose.map((text) => {
    const ids = new Map<string, string[]>();
    for (const [, letter = '', n] of text.matchAll(/\{\{Scenarios\.([A-C])(\d+)\}\}/g))
      ids.set(letter, [...(ids.get(letter) ?? []), rows[Number(n) - 1]?.id ?? '']);
    return { text, ids };
  });
}

test.each(slugs)('no text of %s tells what a scenario costs without its verdict', (slug) => {
  const priced = shownIn(slug).flatMap(({ ids }) => [...ids.values()].filter((shown) => shown.some((id) => /^(?:buy|run|annual|plan_cost)$/.test(id))));
  expect(priced.length).toBeGreaterThan(5);
  for (const shown of priced) expect(shown).toContain('verdict');
});

test.each(['trade-bench', 'rack-of-tiers'])('the text on the costs of %s names what is in the sum, with what is added and taken off', (slug) => {
  const sums = shownIn(slug).flatMap(({ ids }) => [...ids.values()].filter((shown) => shown.includes('buy_fixtures')));
  expect(sums).toHaveLength(3);
  for (const shown of sums) expect(shown).toEqual(expect.arrayContaining(['buy', 'buy_fixtures', 'buy_spares', 'buy_labour', 'buy_fitting', 'buy_rebate']));
});

describe('the rack of tiers, its first scenario by hand', () => {
  // Eight lights of 45 W at 79 EUR behind supplies of 0.92, 16 h on 330 days; 0.5 h of labour each at 40 EUR/h; 8 years at 6 %.
  const watts = (8 * 45) / 0.92;
  const energy = (watts * 16 * 330) / 1000;
  const worthOfOne = (1 - 1.06 ** -8) / 0.06;
  let session: Session;
  beforeAll(async () => {
    session = await openTemplate('rack-of-tiers');
  });
  afterAll(() => session.close());
  const near = (id: string, unit: string, expected: number): void => expect(row(session, id, unit), id).toBeCloseTo(expected, 8);

  test('lamp hours are placed in the peak by the clock, past midnight too', async () => {
    await fill(session, ['peak_price', '0.40 EUR/kWh'], ['off_peak_price', '0.20 EUR/kWh']);
    // Nobody said when: what is paid is not known, and says why.
    for (const id of ['peak_share', 'price_paid']) expect(row(session, id)).toMatch(/peak hours: not said$/);
    expect(said(session, cellOf(session, 'run'))).toContain('peak hours: not said');
    await fill(session, ['peak_hours', '5 h/d']);
    near('price_paid', 'EUR/kWh', (5 * 0.4 + 11 * 0.2) / 16);
    await fill(session, ['peak_from', '7 h'], ['peak_to', '22 h'], ['lights_on_at', '18 h']);
    // On from 18 to 10: four hours before 22, three after 7.
    near('peak_share', '%', (100 * 7) / 16);
    near('price_paid', 'EUR/kWh', (7 * 0.4 + 9 * 0.2) / 16);
    near('run', 'EUR/year', (energy / 16) * (7 * 0.4 + 9 * 0.2));
    // The function for any number of prices in a day says the same.
    const bands = [7, 22].map((from, i) => [from * 3600, ([0.4, 0.2][i] as number) / 3.6e6]);
    near('run', 'EUR/year', RUN_COST_BANDS.work([watts, 18, 10, bands, 330] as never, undefined) as number);
    await fill(session, ['light_hours', '24 h/d']);
    near('peak_share', '%', (100 * 15) / 24);
    await fill(session, ['light_hours', '16 h/d'], ['peak_from', '20 h'], ['peak_to', '6 h'], ['lights_on_at', '4 h']);
    // The peak from 20 to 6, lights from 4 to 20: two hours of it.
    near('peak_share', '%', (100 * 2) / 16);
    await fill(session, ['peak_price', 'none'], ['off_peak_price', 'none']);
    expect(row(session, 'peak_share')).toBe('one price all day');
    near('run', 'EUR/year', energy * 0.25);
  });

  test('rebate, spares, fitting by the hour, replacement and CO₂ are in the costs', async () => {
    const before = Number(row(session, 'buy', 'EUR'));
    await fill(
      session,
      ['rebate_sum', '100 EUR'],
      ['rebate_each', '10 EUR'],
      ['spares', '10 %'],
      ['fitting_hours', '6 h'],
      ['co_two', '400 g/kWh'],
      ['replace_after', '3 year'],
    );
    expect(row(session, 'spare_count')).toBe(1);
    const buy = before + 79 + 6 * 40 - (100 + 8 * 10);
    near('buy', 'EUR', buy);
    near('co_two_year', 'kg/year', energy * 0.4);
    // At the end of the third and the sixth year; the ninth is past the plan.
    expect(row(session, 'replace_times')).toBe(2);
    const once = 8 * (79 + 0.5 * 40);
    const worth = once / 1.06 ** 3 + once / 1.06 ** 6;
    near('replace_worth', 'EUR', worth);
    near('annual', 'EUR/year', energy * 0.25 + (buy + worth) / worthOfOne);
    near('plan_cost', 'EUR', buy + worth + energy * 0.25 * worthOfOne);
    near('per_mol', 'EUR/mol', Number(row(session, 'annual', 'EUR/year')) / Number(row(session, 'mol_year', 'mol/year')));
    // Lights of 21,120 h last four years of 5,280 h: replaced once, for at the end of the plan nobody buys new ones.
    await fill(session, ['replace_after', 'none'], ['replace_life', '21120 h'], ['replace_price', '60 EUR']);
    expect(row(session, 'replace_times')).toBe(1);
    near('replace_worth', 'EUR', (8 * 60) / 1.06 ** 4);
    await fill(session, ['interest', '0 %/year']);
    near('replace_worth', 'EUR', 8 * 60);
    await fill(session, ['interest', '6 %/year'], ['rebate_sum', '5000 EUR']);
    near('buy_rebate', 'EUR', 9 * 79);
  });

  test('the sheet has a line for each that is there, and none for what is none', async () => {
    const sheet = textOf((await makeFrom(session, 'A')).body);
    for (const words of ['Buying spare lights', 'Fitting by the hour', 'Rebate', 'CO₂ of the energy', 'Replacing them, by the year', 'Cost of the whole plan'])
      expect(sheet).toContain(words);
    expect(sheet).not.toContain('Share of lamp hours at peak');
    // New lights come at the end of each life, unless the plan is paid off before.
    const plain = await openTemplate('rack-of-tiers');
    await fill(plain, ['plan_years', '6 year']);
    // The calculations to check by hand have every term, those that are nothing too.
    const [bare = ''] = textOf((await makeFrom(plain, 'A')).body).split('Calculations to check by hand');
    expect(bare).toContain('Cost of the whole plan');
    for (const words of ['spare lights', 'Fitting by the hour', 'Rebate', 'CO₂', 'Replacing them', 'eak hours', 'at peak']) expect(bare).not.toContain(words);
    plain.close();
  });
});

test('old lamps pay the prices of the hours that they are on', async () => {
  const session = await openTemplate('replace-old-lamps');
  const old = Number(said(session, session.book.names.old_run?.replaceAll('$', '') ?? 'Old.A14', 'EUR/year'));
  const saving = Number(row(session, 'saving', 'EUR/year'));
  const run = Number(row(session, 'run', 'EUR/year'));
  await fill(session, ['peak_price', '0.50 EUR/kWh'], ['peak_hours', '24 h/d']);
  // All at twice the price.
  expect(said(session, 'Old.A14', 'EUR/year')).toBeCloseTo(2 * old, 8);
  expect(row(session, 'saving', 'EUR/year')).toBeCloseTo(saving + old - run, 8);
  session.close();
});
