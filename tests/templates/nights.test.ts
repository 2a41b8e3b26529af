/**
 * Crops that flower by day length, under glass: the night of every month that is grown in counts, twilight is light.
 * Half a day ω = acos((sin h₀ − sin φ sin δ) / (cos φ cos δ)) with h₀ = −6°, and δ = 0.409 sin(2π J / 365 − 1.39) (R. G. Allen and others, Crop
 * evapotranspiration, FAO Irrigation and Drainage Paper 56, 1998, eq. 24), at the middle of each month.
 */
import { expect, test } from 'vitest';
import { openTemplate } from './open-template.ts';
import { entryOf, fill, row, said } from './rows.ts';

const radians = Math.PI / 180;
function dayAt(latitude: number, day: number): number {
  const declination = 0.409 * Math.sin((2 * Math.PI * day) / 365 - 1.39);
  const phi = latitude * radians;
  return (24 / Math.PI) * Math.acos((Math.sin(-6 * radians) - Math.sin(phi) * Math.sin(declination)) / (Math.cos(phi) * Math.cos(declination)));
}

const MIDDLES = { january: 15, february: 46, march: 74, april: 105, may: 135, june: 166, july: 196, august: 227, september: 258, october: 288, november: 319 };

test('a short-day crop that is grown all the year has no night of twelve hours in June, however early the lamps go off', async () => {
  const session = await openTemplate('greenhouse-bench');
  try {
    await fill(session, ['day_length_kind', 'short'], ['lamps_on', '6 h'], ['lamps_off', '18 h']);
    const june = 24 - dayAt(52, 166);
    expect(june).toBeLessThan(6);
    expect(row(session, 'night_shortest', 'h/d')).toBeCloseTo(june, 6);
    expect(row(session, 'c_day')).toMatch(/^fails/);
  } finally {
    session.close();
  }
});

test('only the months that are grown in count, for nights, gaps and the darkest month', async () => {
  const session = await openTemplate('greenhouse-bench');
  try {
    await fill(session, ['day_length_kind', 'short'], ['lamps_on', '6 h'], ['lamps_off', '18 h']);
    await fill(session, ...Object.keys(MIDDLES).map((month) => [`grown_${month}`, 'no'] as const));
    // In December the sun is up for less than the lamps are on.
    expect(dayAt(52, 349)).toBeLessThan(12);
    expect(row(session, 'night_shortest', 'h/d')).toBeCloseTo(12, 9);
    expect(row(session, 'c_day')).toMatch(/^(holds|assumed)/);
    expect(row(session, 'lit_months')).toBe(1);
    await fill(session, ['grown_march', 'yes'], ['grown_december', 'no']);
    expect(row(session, 'night_shortest', 'h/d')).toBeCloseTo(24 - dayAt(52, 74), 6);
    expect(said(session, (session.book.names.darkest_month ?? '').replaceAll('$', ''))).toBe('March');
    expect(row(session, 'gap_december', 'mol/m²/d')).toBe(0);
  } finally {
    session.close();
  }
});

test('a blackout makes the night, and a lamp that burns into it breaks it', async () => {
  const session = await openTemplate('greenhouse-bench');
  try {
    // The sun stands highest at 12 by this clock: the cloth leaves ten hours of day.
    await fill(session, ['day_length_kind', 'short'], ['lamps_on', '8 h'], ['lamps_off', '18 h'], ['blackout_from', '18 h'], ['blackout_to', '8 h']);
    expect(row(session, 'night_shortest', 'h/d')).toBeCloseTo(14, 9);
    expect(row(session, 'c_day')).toMatch(/^(holds|assumed), night of 14 h/);
    await fill(session, ['lamps_off', '21 h']);
    expect(row(session, 'night_shortest', 'h/d')).toBeCloseTo(11, 9);
    expect(row(session, 'c_day')).toMatch(/^fails/);
  } finally {
    session.close();
  }
});

test('of a long-day crop the longest night decides', async () => {
  const session = await openTemplate('greenhouse-bench');
  try {
    await fill(session, [entryOf(session, 'Crops', 'vegetable seedlings', 'Day length'), 'long'], ['lamps_on', '11 h'], ['lamps_off', '13 h']);
    expect(row(session, 'night_longest', 'h/d')).toBeCloseTo(24 - dayAt(52, 349), 6);
    expect(row(session, 'c_day')).toMatch(new RegExp(`^assumed, leaves are wanted: a night of ${Math.floor(24 - dayAt(52, 349))}\\.`));
  } finally {
    session.close();
  }
});
