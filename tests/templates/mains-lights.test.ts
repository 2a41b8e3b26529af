/** Lights with a driver of their own: no supply stands between them and the mains. Expected numbers are the catalogue's, by plain arithmetic. */
import { describe, expect, test } from 'vitest';
import { openTemplate, slugs } from './open-template.ts';
import { cellOf, entryOf, fill, has, row } from './rows.ts';

/** As Fixtures has it. */
const bay = { watts: 320, powerFactor: 0.97, on16: 5, on20: 6, price: 489 };
const SUPPLY_ROWS = [
  'supplies',
  'load',
  'output_load',
  'output_amps',
  'drop',
  'drop_share',
  'rating',
  'derated',
  'supply_volts',
  'ports',
  'port_watts',
  'supply_ip',
];
const SUPPLY_CHECKS = ['c_load', 'c_port', 'c_limited', 'c_drop', 'c_wire', 'c_ip_supply'];

describe.each(slugs)('a light with its own driver, in %s', (slug) => {
  test('takes no supply, and every row of supplies says so', async () => {
    const session = await openTemplate(slug);
    try {
      await fill(session, ['fixture', 'Bay 320']);
      for (const id of SUPPLY_ROWS.filter((id) => has(session, id))) expect(row(session, id), id).toBe('its own driver');
      for (const id of SUPPLY_CHECKS.filter((id) => has(session, id))) expect(row(session, id), id).toBe('holds, its own driver');
      if (has(session, 'buy_supplies')) expect(row(session, 'buy_supplies', 'EUR')).toBe(0);
      expect(row(session, 'efficiency')).toBe(1);
    } finally {
      session.close();
    }
  });

  test('has its current, its price and its verdict all the same', async () => {
    const session = await openTemplate(slug);
    try {
      // One light, so that it fits whatever the bench is.
      const one = ['along', 'across', 'spread_along', 'spread_across'].filter((id) => has(session, id));
      await fill(session, ['fixture', 'Bay 320'], ...one.map((id) => [id, '1'] as const));
      const count = has(session, 'count') ? Number(row(session, 'count')) : 1;
      if (has(session, 'amps')) expect(row(session, 'amps', 'A')).toBeCloseTo((count * bay.watts) / (230 * bay.powerFactor), 9);
      if (has(session, 'per_circuit')) {
        // 16 A loaded to eight tenths would take 8 of 1.43 A; its maker allows fewer at once.
        expect(row(session, 'per_circuit')).toBe(bay.on16);
        expect(row(session, 'circuits')).toBe(Math.ceil(count / bay.on16));
      }
      expect(row(session, 'buy', 'EUR')).toBeGreaterThanOrEqual(count * bay.price);
      expect(row(session, 'annual', 'EUR/year')).toBeGreaterThan(0);
      expect(row(session, 'verdict')).toMatch(/^(holds|close to limit|fails|unknown)/);
    } finally {
      session.close();
    }
  });

  test('is for the mains voltage, and is always looked at where hands are wet', async () => {
    const session = await openTemplate(slug);
    try {
      await fill(session, ['fixture', 'Bay 320']);
      expect(row(session, 'c_feed')).toMatch(/^holds/);
      if (has(session, 'c_touch'))
        expect(row(session, 'c_touch')).toBe('close to limit, 230 V at the light, limit 30 V: residual-current protection, electrician');
      if (session.book.names.mains_volts === undefined) return;
      await fill(session, ['mains_volts', '120 V']);
      expect(row(session, 'c_feed')).toBe('fails, the light is for 220 V to 240 V; the mains is 120 V');
      await fill(session, [entryOf(session, 'Fixtures', 'Bay 320', 'Volts, up to'), '']);
      expect(row(session, 'c_feed')).toBe('fails, the light is for 220 V; the mains is 120 V');
      // One for mains of any of these countries is in the catalogue too.
      await fill(session, ['fixture', 'Bay 240']);
      for (const [volts, state] of [
        ['120 V', /^holds/],
        ['230 V', /^holds/],
        ['277 V', /^holds/],
        ['400 V', /^fails, the light is for 100 V to 277 V; the mains is 400 V$/],
      ] as const) {
        await fill(session, ['mains_volts', volts]);
        expect(row(session, 'c_feed'), volts).toMatch(state);
      }
    } finally {
      session.close();
    }
  });
});

test('eighteen lights of 320 W with their own drivers take 18 × 320 W, and nothing of a supply', async () => {
  const session = await openTemplate('trade-bench');
  try {
    await fill(session, ['fixture', 'Bay 320']);
    expect(row(session, 'count')).toBe(18);
    // 18 × 0.32 kW × 16 h/d × 330 d/year.
    expect(row(session, 'energy', 'kWh/year')).toBeCloseTo(30_412.8, 6);
    expect(row(session, 'heat', 'W')).toBeCloseTo(5760, 9);
    expect(row(session, 'amps', 'A')).toBeCloseTo(5760 / (230 * 0.97), 9);
    expect(row(session, 'circuits')).toBe(4);
    await fill(session, ['breaker', '20 A']);
    expect(row(session, 'circuits')).toBe(3);
  } finally {
    session.close();
  }
});

test('a light with its own driver whose power factor nobody has given has no mains current, and the plan never holds by it', async () => {
  const session = await openTemplate('trade-bench');
  try {
    await fill(session, ['fixture', 'Bay 320'], [entryOf(session, 'Fixtures', 'Bay 320', 'Power factor'), '']);
    expect(session.values[cellOf(session, 'amps')]?.kind).toBe('error');
    expect(row(session, 'verdict')).not.toMatch(/^(holds|close to limit)/);
  } finally {
    session.close();
  }
});
