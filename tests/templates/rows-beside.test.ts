/** The light of rows alike beside a bench: none until it is asked for, said for a row in the middle and for one at the end, and counted where somebody says so. */
import { expect, test } from 'vitest';
import type { Session } from '../../src/session.ts';
import { makeFrom, textOf } from '../handover/made.ts';
import { inside } from './open-template.ts';
import { cellOf, fill, has, row, said } from './rows.ts';

const SLUGS = ['trade-bench', 'growing-canopy', 'greenhouse-bench'] as const;
const PPFD = 'µmol/m²/s';
const LETTERS = ['A', 'B', 'C'];
const NONE = 'no rows beside';

/** All that hangs on the light, and what is counted and bought. */
const LIGHT = [
  'full',
  'day_one',
  'kept',
  'dli',
  'dli_mean',
  'dli_least',
  'evenness',
  'evenness_inside',
  'share_lit',
  'lowest',
  'highest',
  'reach_height',
  'gap_darkest',
];
const COUNTED = ['count', 'supplies', 'amps', 'heat', 'buy', 'capital', 'past_ends', 'past_sides'];
const valuesOf = (session: Session, ids: readonly string[]): unknown[] =>
  ids.filter((id) => has(session, id)).flatMap((id) => LETTERS.map((letter) => session.values[cellOf(session, id, letter)]));

/**
 * Three gutters of 0.2 × 12 m, 1.1 m from centre to centre, each under one row of nine Rail 90 that hang 1.40 m over it, at 24 × 12 points. Worked from
 * outside, by a quadrature written apart from the project: mean of one alone, of the middle one and of one at the end, and the lowest to the mean.
 */
const GUTTERS = { alone: 60.264, middle: 117.83, end: 97.779, evenAlone: 0.66036, evenMiddle: 0.65598, evenEnd: 0.63213 };
const asGutters = (session: Session): Promise<void> =>
  fill(
    session,
    ...(session.book.names.lift_top
      ? ([
          ['lift_top', '3 m'],
          ['start_height', '0.1 m'],
        ] as const)
      : ([['highest_mount', '3 m']] as const)),
    ['bench_length', '12 m'],
    ['bench_width', '0.2 m'],
    ['fixture', 'Rail 90'],
    ['along', '9'],
    ['across', '1'],
    ['spread_along', '1'],
    ['spread_across', '1'],
    ['height', '1.4 m'],
    ['dim', '100 %'],
    ['grid_along', '=24'],
    ['grid_across', '=12'],
  );

test.each(SLUGS)('%s has no rows beside it as it stands, and blank they come to the same', async (slug) => {
  await inside(slug, async (session) => {
    for (const name of ['rows_beside', 'rows_apart']) expect(said(session, session.book.names[name]?.replaceAll('$', '') ?? '')).toBe('none');
    expect(said(session, session.book.names.beside_counted?.replaceAll('$', '') ?? '')).toBe('no');
    for (const letter of LETTERS) {
      for (const id of ['full_middle', 'full_end']) expect(row(session, id, '', letter), id).toBe(NONE);
      expect(row(session, 'layout', '', letter)).toBe(row(session, 'own_layout', '', letter));
      expect(row(session, 'layout', '', letter)).not.toContain('beside');
    }
    const before = valuesOf(session, [...LIGHT, ...COUNTED]);
    expect(before.length).toBeGreaterThan(30);
    await fill(session, ['rows_beside', ''], ['rows_apart', '']);
    expect(valuesOf(session, [...LIGHT, ...COUNTED])).toEqual(before);
    // To count what there is none of changes nothing.
    await fill(session, ['beside_counted', 'yes']);
    expect(valuesOf(session, [...LIGHT, ...COUNTED])).toEqual(before);
  });
});

test.each(SLUGS)('%s says the light of a gutter alone, in the middle of three and at the end, and counts it where that is asked', async (slug) => {
  await inside(slug, async (session) => {
    await asGutters(session);
    const full = (): number => Number(row(session, 'full', PPFD));
    expect(full()).toBeCloseTo(GUTTERS.alone, 3);
    // Over a canopy that grows it is that of the week with the least room.
    const even = (to: number): void => (slug === 'growing-canopy' ? undefined : expect(row(session, 'evenness')).toBeCloseTo(to, 4));
    await fill(session, ['rows_beside', '1'], ['rows_apart', '1.1 m']);
    // Said, and not counted yet.
    expect(row(session, 'full_middle', PPFD)).toBeCloseTo(GUTTERS.middle, 3);
    expect(row(session, 'full_end', PPFD)).toBeCloseTo(GUTTERS.end, 3);
    expect(row(session, slug === 'trade-bench' ? 'spill' : 'beside_gain', '%')).toBeCloseTo(95.5, 1);
    expect(full()).toBeCloseTo(GUTTERS.alone, 3);
    even(GUTTERS.evenAlone);
    const [light, counted, high] = [valuesOf(session, LIGHT), valuesOf(session, COUNTED), Number(row(session, 'highest', PPFD))];
    await fill(session, ['beside_counted', 'yes']);
    expect(full()).toBeCloseTo(GUTTERS.middle, 3);
    expect(row(session, 'day_one', PPFD)).toBeCloseTo(GUTTERS.middle, 3);
    even(GUTTERS.evenMiddle);
    expect(Number(row(session, 'highest', PPFD))).toBeGreaterThan(high * 1.8);
    expect(valuesOf(session, COUNTED)).toEqual(counted);
    expect(row(session, 'count')).toBe(9);
    await fill(session, ['beside_counted', 'yes, as an end row']);
    expect(full()).toBeCloseTo(GUTTERS.end, 3);
    even(GUTTERS.evenEnd);
    expect(valuesOf(session, COUNTED)).toEqual(counted);
    await fill(session, ['beside_counted', 'no']);
    expect(valuesOf(session, LIGHT)).toEqual(light);
  });
});

test('the check of the light and the height that would do follow what is counted, and so does the working', async () => {
  await inside('trade-bench', async (session) => {
    await fill(session, ['neighbours', '2'], ['aisle', '0.5 m']);
    const [spill, full, kept, reach] = [row(session, 'spill'), row(session, 'full', PPFD), row(session, 'kept', PPFD), row(session, 'reach_height', 'm')].map(
      Number,
    ) as [number, number, number, number];
    expect(spill).toBeGreaterThan(0.02);
    await fill(session, ['beside_counted', 'yes']);
    // The benches of the brief stand one on either side, a bench and an aisle away; what they add is taken from a grid of its own.
    expect(Math.abs(Number(row(session, 'full', PPFD)) / full / (1 + spill) - 1)).toBeLessThan(1e-3);
    expect(Number(row(session, 'kept', PPFD)) / kept).toBeCloseTo(Number(row(session, 'full', PPFD)) / full, 9);
    expect(Number(row(session, 'reach_height', 'm'))).toBeGreaterThan(reach);
    expect(row(session, 'spill')).toBeCloseTo(spill, 9);
    const steps = JSON.stringify(await session.ask((engine) => engine.trace(cellOf(session, 'full'))));
    expect(steps).toContain('are counted: 1 on one side, 1 on the other');
    // One bench beside it lies on one side.
    await fill(session, ['neighbours', '1']);
    expect(row(session, 'layout')).toMatch(/beside 0 and 1 at 2 m$/);
    // More than the brief can say.
    await fill(session, ['rows_beside', '3'], ['rows_apart', '2.5 m']);
    expect(row(session, 'layout')).toMatch(/beside 3 and 3 at 2\.5 m$/);
    expect(row(session, 'spill')).toBeCloseTo(Number(row(session, 'full_middle', PPFD)) / full - 1, 12);
  });
});

test('rows of which nobody said how far apart they are, and rows behind reflecting sides, are no light that is counted', async () => {
  await inside('greenhouse-bench', async (session) => {
    await fill(session, ['rows_beside', '2'], ['beside_counted', 'yes']);
    expect(row(session, 'layout')).toContain('centre to centre');
    expect(row(session, 'full')).toContain('centre to centre');
    await fill(session, ['rows_apart', '3 m'], ['along', '2'], ['spread_along', '1'], ['spread_across', '1'], ['wall_reflectance', '0.3']);
    expect(row(session, 'full')).toMatch(/[Rr]eflecting sides shut/);
    await fill(session, ['wall_reflectance', '0']);
    expect(row(session, 'full', PPFD)).toBeCloseTo(Number(row(session, 'full_middle', PPFD)), 9);
  });
});

test('the sheet has no word of rows that there are none of, and else which are counted and what one in the middle and one at the end get', async () => {
  await inside('growing-canopy', async (session) => {
    const bare = textOf((await makeFrom(session, 'A')).body);
    for (const words of ['ows alike', 'Full mean PPFD, middle', 'end row', NONE, 'From centre to centre', 'Is their light counted?'])
      expect(bare).not.toContain(words);
    await fill(session, ['rows_beside', '2'], ['rows_apart', '1.6 m']);
    // That they are not counted is said too.
    expect(textOf((await makeFrom(session, 'A')).body)).toMatch(/Is their light counted\?\s*none\s*no(?!ne)/);
    await fill(session, ['beside_counted', 'yes']);
    const sheet = textOf((await makeFrom(session, 'A')).body);
    for (const words of [
      'Rows alike beside it, each side',
      'From centre to centre',
      'Is their light counted?',
      'Full mean PPFD, middle row',
      'Full mean PPFD, end row',
    ])
      expect(sheet).toContain(words);
    expect(sheet).toMatch(/light of 2 and 2 rows beside it counted/);
  });
});
