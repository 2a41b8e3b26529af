/** What a crop’s row leaves blank is assumed and said to be, is unknown where the plan assumes nothing, and never simply holds. */
import { describe, expect, test } from 'vitest';
import type { Session } from '../../src/session.ts';
import { openTemplate, slugs, templateBook } from './open-template.ts';
import { entryOf, fill, row } from './rows.ts';

/** Headings of Crops, the check that reads each, what a plan assumes in its place, and limits that hold here. */
const LIMITS = [
  ['PPFD limit', 'c_ceiling', 'light_ceiling', '2500 µmol/m²/s', 'PPFD high'],
  ['Hours limit', 'c_hours', 'hours_limit', '24 h/d', 'Hours high'],
  ['Day length', 'c_day', 'day_length_kind', 'neutral', 'Hours low'],
] as const;

async function withOwnCrop(slug: string, look: (session: Session, at: (heading: string) => string) => Promise<void>): Promise<void> {
  const session = await openTemplate(slug);
  try {
    const crops = session.book.tables.find((t) => t.name === 'Crops');
    const free = (crops?.rows.findIndex((r, i) => i > 0 && !crops.cells[r.id]?.a?.content) ?? -1) + 1;
    await fill(session, [`Crops.A${free}`, 'cress'], [`Crops.B${free}`, 'any']);
    await fill(session, ['crop', 'cress'], ['stage', 'any']);
    const at = (heading: string): string => entryOf(session, 'Crops', 'cress', heading);
    await fill(session, [at('DLI low'), '1 mol/m²/d'], [at('DLI high'), '80 mol/m²/d']);
    await look(session, at);
  } finally {
    session.close();
  }
}

describe.each(slugs)('a limit of the crop in %s', (slug) => {
  const limits = LIMITS.filter(([, , assumed]) => templateBook(slug).names[assumed] !== undefined);

  test('holds where the crop’s row knows it, is assumed where the plan does, and else unknown', () =>
    withOwnCrop(slug, async (session, at) => {
      expect(limits.length).toBeGreaterThan(1);
      for (const [heading, check, assumed, wide] of limits) {
        await fill(session, [assumed, wide]);
        expect(row(session, check), `${heading} assumed`).toMatch(/^assumed, .*assumed/);
        expect(row(session, 'verdict')).not.toBe('holds');
        await fill(session, [at(heading), wide]);
        expect(row(session, check), `${heading} known`).toMatch(/^holds/);
        await fill(session, [at(heading), ''], [assumed, '']);
        expect(row(session, check), `${heading} neither`).toMatch(/^unknown/);
        expect(row(session, 'verdict')).not.toMatch(/^(holds|close to limit)/);
        await fill(session, [assumed, wide]);
      }
    }));

  test('names what was assumed', () =>
    withOwnCrop(slug, async (session) => {
      await fill(session, ['light_ceiling', '2000 µmol/m²/s'], ['hours_limit', '23 h/d']);
      expect(row(session, 'c_ceiling')).toMatch(/limit assumed: 2\s?000 µmol\/m²\/s on a leaf/);
      expect(row(session, 'c_hours')).toMatch(/limit assumed: 23 h\/d/);
    }));

  test('known only from what was tried is said so where the band is judged, and there is no aim', () =>
    withOwnCrop(slug, async (session, at) => {
      await fill(session, [at('How sure'), 'read in the source (range tested only)']);
      const checks = ['c_target', 'c_low', 'c_high', 'c_start'].filter((id) =>
        session.book.tables.find((t) => t.form === 'scenarios')?.rows.some((r) => r.id === id),
      );
      for (const check of checks)
        expect(row(session, check), check).toMatch(/^assumed.*only from trials|^fails.*only from trials|^close to limit.*only from trials/);
      const aim = session.values[(session.book.names.target_aim ?? '').replaceAll('$', '')];
      expect(aim).toMatchObject({ kind: 'error', message: expect.stringContaining('tested') });
    }));
});

test('the demo’s plan holds on four assumptions, and says which', async () => {
  const session = await openTemplate('trade-bench');
  try {
    expect(row(session, 'verdict')).toBe('holds, 4 assumed: Brightest point, Hours, Day length, Life of the lights');
    await fill(session, [entryOf(session, 'Crops', 'sweet basil', 'PPFD limit'), '600 µmol/m²/s']);
    expect(row(session, 'verdict')).toBe('holds, 3 assumed: Hours, Day length, Life of the lights');
  } finally {
    session.close();
  }
});

const WITH_SPARE = slugs.filter((slug) => templateBook(slug).names.spare_power !== undefined);

test.each(WITH_SPARE)('spare power alone does not make %s hold while the breaker is assumed, and the check says which', async (slug) => {
  const session = await openTemplate(slug);
  try {
    const set = (name: string, content: string) => fill(session, [name, content]);
    await set('breaker', '');
    await set('circuits_free', '');
    await set('spare_power', '50 kW');
    expect(row(session, 'c_circuit')).toMatch(/^assumed, 9\d % under; limit assumed: a breaker of \d+ A$/);
    await set('breaker', '16 A');
    expect(row(session, 'c_circuit'), 'circuits that nobody counted are no lack where the power is known').toMatch(/^holds, 9\d % under$/);
    await set('breaker', '');
    await set('spare_power', '0.001 kW');
    expect(row(session, 'c_circuit'), 'too little power fails whatever the breaker').toMatch(/^fails, .*over$/);
  } finally {
    session.close();
  }
});

test('a scenario that can’t be worked out is left out of the ranking, and takes no rank from the others', async () => {
  const session = await openTemplate('trade-bench');
  try {
    const cheapest = (): string => {
      const value = session.values[(session.book.names.cheapest ?? '').replaceAll('$', '')];
      return value?.kind === 'text' ? value.text : JSON.stringify(value);
    };
    expect(cheapest()).toBe('B');
    // So many lights of that size lie over one another: the layout is refused.
    await fill(session, [`Scenarios.B3`, '90']);
    expect(session.values['Scenarios.B12']?.kind).toBe('error');
    expect(cheapest()).toBe('A');
  } finally {
    session.close();
  }
});
