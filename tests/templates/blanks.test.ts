/** A blank in a filled row of a list is not 0: what reads it is not answered yet, through look-ups and sums too. */
import { describe, expect, test } from 'vitest';
import { openTemplate, slugs } from './open-template.ts';
import { cellOf, entryOf, fill, has, row } from './rows.ts';

describe.each(slugs)('a blank in a filled row of %s', (slug) => {
  test.each([
    ['Fixtures', 'fixture', 'Price', ['price', 'buy', 'annual']],
    ['Fixtures', 'fixture', 'Power', ['power', 'energy', 'run']],
    ['Fixtures', 'fixture', 'Output', ['output', 'kept', 'full']],
    ['Fixtures', 'fixture', 'Feed', ['feed', 'c_load', 'efficiency']],
    ['Supplies', 'supply', 'Efficiency', ['efficiency', 'energy', 'annual']],
    ['Supplies', 'supply', 'Price', ['supply_price', 'buy', 'annual']],
  ] as const)('%s, of the %s chosen: without its %s nothing that reads it has a value', async (list, chosen, heading, readers) => {
    const session = await openTemplate(slug);
    try {
      await fill(session, [entryOf(session, list, String(row(session, chosen)), heading), '']);
      for (const id of readers.filter((id) => has(session, id)))
        expect(session.values[cellOf(session, id)], id).toMatchObject({ kind: 'error', message: expect.stringContaining('not answered yet') });
      // Its checks are not answered either, and no plan holds on what nobody has said.
      if (heading === 'Feed') expect(row(session, 'verdict')).toMatch(/^(unknown|fails)/);
    } finally {
      session.close();
    }
  });

  test('that is not filled wants no answer', async () => {
    const session = await openTemplate(slug);
    try {
      const errors = Object.entries(session.values).filter(([address, value]) => /^(Fixtures|Supplies)\./.test(address) && value.kind === 'error');
      expect(errors).toEqual([]);
    } finally {
      session.close();
    }
  });
});

test('a light without a price is bought for nothing nowhere, and turns no ranking over', async () => {
  const session = await openTemplate('trade-bench');
  try {
    await fill(session, [entryOf(session, 'Fixtures', 'Rail 90', 'Price'), '']);
    expect(session.values[cellOf(session, 'buy_fixtures', 'B')]?.kind).toBe('error');
    const cheapest = session.values[(session.book.names.cheapest ?? '').replaceAll('$', '')];
    // B was the cheapest that works; its cost is not known now, and C fails.
    expect(cheapest).toEqual({ kind: 'text', text: 'A' });
  } finally {
    session.close();
  }
});
