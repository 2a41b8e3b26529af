/** One fixture that gives too little, in a meter check; what was not measured; and how near a face may be. */
import { expect, test } from 'vitest';
import { begin } from '../../src/book/begin.ts';
import { isRefused } from '../../src/book/refused.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { openSession } from '../../src/session.ts';
import { inside, slugs, templateBook } from './open-template.ts';
import { type Arrangement, places, plainLight } from './plain-light.ts';
import { cellOf, entryOf, fill, row, said } from './rows.ts';

const ALL: Arrangement = {
  output: 122 * 0.9,
  faceLength: 1.15,
  faceWidth: 0.06,
  beam: 120,
  length: 2.4,
  width: 1,
  along: 2,
  across: 4,
  spreadAlong: 1.05,
  spreadAcross: 1.3,
};

/** What a quantum meter reads at 6 × 3 places under the plan's eight lights, of which one gives another share. */
function readings(weak: number, share: number): number[] {
  const all = plainLight(ALL, 0.33);
  const [u, v] = places(ALL)[weak - 1] as readonly [number, number];
  // The one by itself: over the middle of a bench that is moved under it.
  const one = plainLight({ ...ALL, along: 1, across: 1 }, 0.33);
  return Array.from({ length: 18 }, (_, i) => {
    const [x, y] = [(((i % 6) + 0.5) * 2.4) / 6, ((Math.floor(i / 6) + 0.5) * 1) / 3];
    return all(x, y) - (1 - share) * one(x - u + 1.2, y - v + 0.5);
  });
}

const typed = (values: readonly number[], table: string): (readonly [string, string])[] =>
  values.map((value, i) => [`${table}.${'BCDEFG'[i % 6]}${Math.floor(i / 6) + 2}`, value.toFixed(3)] as const);
const meter = (session: Parameters<typeof said>[0], name: string, unit = ''): string | number =>
  said(session, session.book.names[name]?.replaceAll('$', '') ?? '', unit);

test('a dark bar is named with its place, what it gives and how much better that explains the readings, and no height is put forward', () =>
  inside('meter-check', async (session) => {
    await fill(session, ['meter_kind', 'quantum meter'], ...typed(readings(6, 0.3), 'Readings'), ...typed(Array(18).fill(0), 'Dark'));
    expect(meter(session, 'weak_fixture')).toBe(6);
    // The second along and the third across: its centre by the spreads of the plan.
    const [u, v] = places(ALL)[5] as readonly [number, number];
    expect(meter(session, 'weak_along', 'm')).toBeCloseTo(u, 9);
    expect(meter(session, 'weak_across', 'm')).toBeCloseTo(v, 9);
    expect(meter(session, 'weak_share')).toBeCloseTo(0.3, 3);
    expect(meter(session, 'weak_miss')).toBeLessThan(1e-3);
    expect(meter(session, 'miss')).toBeGreaterThan(0.1);
    expect(meter(session, 'height_found')).toBe('the pattern does not fit');
    expect(meter(session, 'weak_said')).toMatch(/^Fixture 6 of 8, the one in place 2 along and row 3 across, likely gives too little: 30(\.\d+)? % /);
    // Against the median the places far from it are off by what it gives them, and by nothing more.
    expect(Math.abs(said(session, 'Difference.A1') as number)).toBeLessThan(0.06);
  }));

test('where all give the same no fixture is named, and the height that would explain the mean is put forward', () =>
  inside('meter-check', async (session) => {
    await fill(session, ['meter_kind', 'quantum meter'], ...typed(readings(1, 1), 'Readings'), ...typed(Array(18).fill(0), 'Dark'));
    expect(meter(session, 'weak_fixture')).toBe(0);
    for (const name of ['weak_along', 'weak_across', 'weak_share', 'weak_miss']) expect(meter(session, name)).toBe('none');
    expect(meter(session, 'weak_said')).toBe('No single fixture stands out as giving too little.');
    expect(meter(session, 'height_found', 'm')).toBeCloseTo(0.33, 4);
  }));

test('scenarios that rest on readings do not hold before there are any; the plan is judged as it is', async () => {
  const begun = begin(templateBook('meter-check'), { client: 'Somebody' });
  if (isRefused(begun)) throw new Error(begun.message);
  const session = openSession(begun, createEngine());
  await session.settled();
  expect(row(session, 'verdict', '', 'A')).toMatch(/^holds/);
  for (const letter of ['B', 'C']) expect(row(session, 'verdict', '', letter)).toBe('unknown, not measured yet');
  session.close();
});

test.each(slugs)('%s can’t tell the brightest point nearer than twice the spacing of the diodes, and says where that is not given', (slug) =>
  inside(slug, async (session) => {
    // So little that none fails, as one does that is too bright however its diodes lie.
    await fill(session, ['dim', '20 %']);
    const fixture = String(row(session, 'fixture'));
    const spacing = entryOf(session, 'Fixtures', fixture, 'Diode spacing');
    const held = String(row(session, 'c_ceiling'));
    expect(held).toMatch(/^(holds|assumed|close to limit), /);
    await fill(session, [spacing, '50 cm']);
    expect(row(session, 'c_ceiling')).toBe('unknown, nearer than twice the diode spacing');
    await fill(session, [spacing, '']);
    expect(row(session, 'c_ceiling')).toBe(`${held}; diode spacing not given`);
  }),
);

test('a shelf that leaves no room for plants says so in words, and no length below nothing', () =>
  inside('rack-of-tiers', async (session) => {
    expect(row(session, 'tallest', 'm')).toBeGreaterThan(0);
    await fill(session, ['tier_gap', '0.20 m']);
    expect(said(session, cellOf(session, 'tallest'))).toBe('none: the lights leave no room');
  }));
