/** Years paid off that are longer than a light lives: new lights are in the costs, the check says so, and light is priced by what is there on the mean. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Session } from '../../src/session.ts';
import { openTemplate, slugs } from './open-template.ts';
import { entryOf, fill, row, said } from './rows.ts';

/** Mean of 0.9^(t/L90) from new lights to new lights, over all hours: a sum of many small steps, by no formula. */
function meanLeft(hours: number, l90: number, replaced: number, dirt: number): number {
  const steps = 20_000;
  let sum = 0;
  for (let i = 0; i < steps; i++) sum += 0.9 ** (((((i + 0.5) / steps) * hours) % replaced) / l90);
  return (dirt * sum) / steps;
}

describe('the rack of tiers, its first scenario by hand', () => {
  // 16 h on 330 days are 5,280 h a year and 42,240 h in 8 years; its lights give 90 % after 36,000 h. Eight of them, at 79 EUR with half an hour of work at 40 EUR/h.
  const once = 8 * (79 + 0.5 * 40);
  const worth = once / 1.06 ** (36000 / 5280);
  const worthOfOne = (1 - 1.06 ** -8) / 0.06;
  let session: Session;
  beforeAll(async () => {
    session = await openTemplate('rack-of-tiers');
  });
  afterAll(() => session.close());

  test('new lights come once within the years paid off, cost what they cost, and are said to be assumed', () => {
    expect(row(session, 'life', 'h')).toBeCloseTo(36000, 6);
    expect(row(session, 'replace_years', 'year')).toBeCloseTo(36000 / 5280, 9);
    expect(row(session, 'replace_times')).toBe(1);
    expect(row(session, 'replace_worth', 'EUR')).toBeCloseTo(worth, 8);
    expect(row(session, 'annual', 'EUR/year')).toBeCloseTo(
      Number(row(session, 'run', 'EUR/year')) + (Number(row(session, 'buy', 'EUR')) + worth) / worthOfOne,
      8,
    );
    expect(row(session, 'c_life')).toBe('assumed, new lights 1 × within the years paid off');
    expect(row(session, 'verdict')).toMatch(/assumed.*Life of the lights/);
  });

  test('light is priced by the mean share of day one that is there, and not by what is left at the end', () => {
    const share = meanLeft(42240, 36000, 36000, 0.95);
    expect(Number(row(session, 'mean_kept'))).toBeCloseTo(share, 4);
    const light =
      Number(row(session, 'dli_day_one', 'mol/m²/d')) * share * Number(said(session, session.book.names.area_all?.replaceAll('$', '') ?? '', 'm²')) * 330;
    expect(Number(row(session, 'mol_year', 'mol/year')) / light).toBeCloseTo(1, 4);
    expect(Number(row(session, 'per_mol', 'EUR/mol'))).toBeCloseTo(Number(row(session, 'annual', 'EUR/year')) / light, 6);
  });

  test('a client who lets them run down to another share has another life, and who says when is held to it', async () => {
    await fill(session, ['life_share', '80 %']);
    expect(row(session, 'life', 'h')).toBeCloseTo((36000 * Math.log(0.8)) / Math.log(0.9), 6);
    expect(row(session, 'replace_times')).toBe(0);
    expect(row(session, 'c_life')).toMatch(/^holds, 45 % under/);
    expect(Number(row(session, 'mean_kept'))).toBeCloseTo((0.95 * (1 - 0.9 ** (42240 / 36000))) / ((42240 / 36000) * Math.log(1 / 0.9)), 9);
    await fill(session, ['life_share', '90 %'], ['replace_after', '7.5 year']);
    expect(row(session, 'c_life')).toBe('fails, 10 % over');
    await fill(session, ['replace_after', '4 year']);
    expect(row(session, 'c_life')).toMatch(/^holds, 41 % under/);
    // Both halves are alike.
    expect(Number(row(session, 'mean_kept'))).toBeCloseTo((0.95 * (1 - 0.9 ** (21120 / 36000))) / ((21120 / 36000) * Math.log(1 / 0.9)), 9);
    await fill(session, ['replace_after', 'none'], ['plan_years', '5 year']);
    expect(row(session, 'replace_times')).toBe(0);
    expect(row(session, 'c_life')).toMatch(/^holds, 27 % under/);
    await fill(session, ['light_hours', '0 h/d']);
    expect(row(session, 'c_life')).toBe('holds, the lights are never on');
    expect(row(session, 'mean_kept')).toBeCloseTo(0.95, 12);
    session.undo();
  });
});

/** The row of hours in a year, where it is a row; elsewhere hours in a day on so many days. */
const YEARLY: Readonly<Record<string, readonly string[]>> = {
  'greenhouse-bench': ['lamp_hours'],
  'growing-canopy': ['hours_year'],
  'germination-and-microgreens': ['hours', 'lamp_days'],
};

test.each(slugs)('%s counts new lights, and what is left on the mean, by the hours that its lights are on', async (slug) => {
  const session = await openTemplate(slug);
  for (const letter of ['A', 'B', 'C']) {
    const l90 = Number(said(session, entryOf(session, 'Fixtures', String(row(session, 'fixture', '', letter)), 'L90'), 'h'));
    const [hours = 'hours', days] = YEARLY[slug] ?? ['hours'];
    const yearly =
      YEARLY[slug]?.length === 1
        ? Number(row(session, hours, 'h/year', letter))
        : Number(row(session, hours, 'h/d', letter)) * (days ? Number(row(session, days, 'd/year', letter)) : 330);
    const over = 8 * yearly;
    expect(yearly, letter).toBeGreaterThan(100);
    expect(row(session, 'replace_times', '', letter), letter).toBe(Math.max(0, Math.ceil(over / l90) - 1));
    expect(String(row(session, 'c_life', '', letter)), letter).toMatch(over > l90 ? /^assumed, new lights/ : /^holds/);
    expect(Number(row(session, 'mean_kept', '', letter)), letter).toBeCloseTo(meanLeft(over, l90, l90, 0.95), 4);
    const cost = ['run', 'capital', 'replace_year'].map((id) => Number(row(session, id, 'EUR/year', letter)));
    expect(row(session, 'annual', 'EUR/year', letter), letter).toBeCloseTo(
      cost.reduce((a, b) => a + b),
      8,
    );
    if (over > l90) expect(cost[2]).toBeGreaterThan(1);
  }
  session.close();
});
