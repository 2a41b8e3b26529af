/** What a template answers where there is little to say: no need, no bill for demand, a point that shades, a maker who named another breaker. */
import { describe, expect, test } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import { templateText } from '../../src/handover/text.ts';
import { viewOf } from '../../src/ui/cells/index.ts';
import { cellParts } from '../../src/ui/table/cell.ts';
import { openTemplate, slugs, templateBook } from './open-template.ts';
import { entryOf, fill, row } from './rows.ts';

test.each(slugs)('every current that %s draws from the mains says that it is undimmed, and why', (slug) => {
  const rows = templateBook(slug).tables.flatMap((table) => (table.form === 'scenarios' ? table.rows.filter(({ id }) => /^amps/.test(id)) : []));
  if (slug !== 'meter-check') expect(rows.length).toBeGreaterThan(0);
  for (const { id, note } of rows) expect(note, id).toMatch(/Undimmed.* circuits must carry the lights at full power/);
});

test('a bench whose sun leaves nothing to add has enough everywhere', async () => {
  const session = await openTemplate('greenhouse-bench');
  await fill(session, ['latitude', '5 °']);
  expect(row(session, 'ppfd_low', 'µmol/m²/s')).toBe(0);
  expect(row(session, 'share_lit', '%')).toBe(100);
  session.close();
});

test('a bill has a demand charge once somebody says so', async () => {
  const session = await openTemplate('greenhouse-bench');
  const before = Number(row(session, 'run', 'EUR/year'));
  expect(row(session, 'demand', 'EUR/year')).toBe(0);
  await fill(session, ['demand_price', '6 EUR/kW/month']);
  const charge = Number(row(session, 'mains_power', 'kW')) * 6 * Number(row(session, 'lit_months'));
  expect(row(session, 'demand', 'EUR/year')).toBeCloseTo(charge, 8);
  expect(row(session, 'run', 'EUR/year')).toBeCloseTo(before + charge, 8);
  session.close();
});

test('lights that are points shade nothing by their faces, and the plan goes on', async () => {
  const session = await openTemplate('greenhouse-bench');
  await fill(session, ['fixture', 'Puck 18']);
  expect(row(session, 'shade', '%')).toBe(0);
  expect(row(session, 'c_shade')).toMatch(/^holds/);
  session.close();
});

describe('on the trade bench', () => {
  test('salad by short days stays in leaf, which is what is wanted, and the check says so', async () => {
    const session = await openTemplate('trade-bench');
    await fill(session, ['crop', 'lettuce'], ['stage', 'at home, least'], ['light_hours', '12 h/d']);
    expect(row(session, 'c_day')).toBe('assumed, leaves are wanted: a night of 12 h keeps it from flowering');
    session.close();
  });

  test('a maker who named another breaker is not said to have named none', async () => {
    const session = await openTemplate('trade-bench');
    const supply = String(row(session, 'supply'));
    await fill(
      session,
      [entryOf(session, 'Supplies', supply, 'Most on one 16 A'), '1'],
      [entryOf(session, 'Supplies', supply, 'Most on one 20 A'), ''],
      ['breaker', '10 A'],
    );
    expect(row(session, 'c_circuit')).toBe('unknown, the maker’s limit comes to less than one on this breaker; ask the maker');
    await fill(session, [entryOf(session, 'Supplies', supply, 'Most on one 16 A'), '']);
    expect(row(session, 'c_circuit')).toBe('unknown, no maker’s limit for this breaker');
    // The maker allows four; at 24 V from a mains of 90 V one draws some 3 A, and a breaker of 3 A carries 2.4 of it.
    await fill(session, [entryOf(session, 'Supplies', supply, 'Most on one 16 A'), '40'], ['mains_volts', '90 V'], ['breaker', '3 A']);
    expect(row(session, 'c_circuit')).toBe('fails, one alone is more than a circuit carries');
    session.close();
  });

  test('a temperature’s margin is in kelvin', async () => {
    const session = await openTemplate('trade-bench');
    await fill(session, ['ambient', '25 °C']);
    // The rails are for air of up to 40 °C, the tiles for 35.
    expect(row(session, 'c_ambient')).toBe('holds, 15 K under');
    await fill(session, ['ambient', '39 °C']);
    expect(row(session, 'c_ambient')).toBe('close to limit, 1 K under');
    expect(row(session, 'c_ambient', '', 'C')).toBe('fails, 4 K over');
    await fill(session, [entryOf(session, 'Fixtures', 'Rail 45', 'Ambient to'), '']);
    expect(row(session, 'c_ambient')).toBe('unknown, no limit given');
    session.close();
  });

  test('a number and its unit are two words in the text of their cell', async () => {
    const session = await openTemplate('trade-bench');
    for (const [name, text] of [
      ['plan_years', '8 year'],
      ['wipe_every', '6 month'],
    ] as const) {
      const address = session.book.names[name]?.replaceAll('$', '') ?? '';
      const at = cellAt(session.book, address);
      if (!at) throw new Error(`no ${name}`);
      for (const list of [true, false]) {
        const { inside } = cellParts(viewOf(at, session.values), { list });
        expect(templateText(inside as never).replace(/<[^>]*>/g, ''), `${name} ${list}`).toBe(text);
      }
    }
    session.close();
  });
});
