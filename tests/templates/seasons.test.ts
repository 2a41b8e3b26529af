/** The greenhouse at the edges: a window of all day, a place south of the equator, and latitudes where the sun does not rise or does not set. */
import { describe, expect, test } from 'vitest';
import { cells, inside } from './open-template.ts';
import { cellOf, fill, row, said } from './rows.ts';

const NAMES = ['january', 'february', 'march', 'april', 'may', 'june', 'july', 'august', 'september', 'october', 'november', 'december'];
/** As the months of Clearness have it, for a northern place. */
const CLEARNESS = [0.33, 0.38, 0.41, 0.44, 0.46, 0.46, 0.46, 0.46, 0.43, 0.39, 0.34, 0.3];
const LENGTHS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const GREENHOUSE = 'greenhouse-bench';

describe('a window of lamps', () => {
  test('from 0 to 24 h is all day, and leaves no night', () =>
    inside(GREENHOUSE, async (session) => {
      await fill(session, ['lamps_on', '0 h'], ['lamps_off', '24 h'], ['noon', '12.5 h']);
      expect(row(session, 'window', 'h/d')).toBe(24);
      for (const id of ['dark_hours', 'night_shortest', 'night_longest']) expect(row(session, id, 'h/d'), id).toBe(0);
      expect(row(session, 'light_hours', 'h/d')).toBe(24);
      // More than in the template's window of 14 h.
      expect(row(session, 'lamp_hours', 'h/year')).toBeGreaterThan(1667);
    }));

  test('from an hour to the same hour is refused, and so is what hangs on it', () =>
    inside(GREENHOUSE, async (session) => {
      for (const hour of ['7 h', '0 h', '24 h']) {
        await fill(session, ['lamps_on', hour], ['lamps_off', hour]);
        for (const id of ['window', 'lamp_hours', 'dark_hours', 'night_shortest', 'energy']) {
          expect(session.values[cellOf(session, id)], `${id} at ${hour}`).toMatchObject({
            kind: 'error',
            message: expect.stringContaining('all day or not at all'),
          });
        }
      }
    }));
});

describe('south of the equator', () => {
  test('each month has the clearness of half a year away, and says so, until it is written for the south', () =>
    inside(GREENHOUSE, async (session) => {
      const used = (): readonly unknown[] => CLEARNESS.map((_, i) => said(session, `Months.J${i + 2}`));
      const taken = (): unknown => said(session, session.book.names.clearness_taken?.replaceAll('$', '') ?? '');
      const darkest = (): unknown => said(session, session.book.names.darkest_month?.replaceAll('$', '') ?? '');
      const north = NAMES.map((name) => row(session, `on_${name}`, 'h'));
      expect([used(), taken(), darkest()]).toEqual([CLEARNESS, 'as written', 'December']);
      await fill(session, ['latitude', '-52 °']);
      expect([used(), taken(), darkest()]).toEqual([[...CLEARNESS.slice(6), ...CLEARNESS.slice(0, 6)], 'from half a year away', 'June']);
      // The earth is some 7 % nearer to the light of January than to July's: else the hours a day are those of the north, half a year later.
      for (const [i, name] of NAMES.entries()) {
        const there = Number(row(session, `on_${name}`, 'h')) / (LENGTHS[i] as number);
        const here = Number(north[(i + 6) % 12]) / (LENGTHS[(i + 6) % 12] as number);
        expect(Math.abs(there - here), name).toBeLessThan(0.7);
      }
      await fill(session, ['clearness_for', 'south']);
      expect([used(), taken()]).toEqual([CLEARNESS, 'as written']);
      await fill(session, ['latitude', '52 °']);
      expect(taken()).toBe('from half a year away');
      await fill(session, ['latitude', '0 °'], ['clearness_for', 'north']);
      expect(taken()).toBe('as written');
    }));
});

describe('near the poles', () => {
  test('at 66°, 75° and 89° north and south all has a number, whatever the clock and the months grown in', () =>
    inside(GREENHOUSE, async (session) => {
      // Where no scenario holds there is no number of the cheapest; and what share of the bench has enough is not asked where nothing is wanted of the lamps.
      const asked = cells(session.book).filter(({ address, at }) => address !== 'Choice.A1' && at.row.id !== 'share_lit');
      const faults = (): readonly string[] => asked.flatMap(({ address }) => (session.values[address]?.kind === 'error' ? [address] : []));
      expect(asked.length).toBeGreaterThan(900);
      await fill(session, ['noon', '13.5 h']);
      const grown = (yes: readonly string[]) => fill(session, ...NAMES.map((name) => [`grown_${name}`, yes.includes(name) ? 'yes' : 'no'] as const));
      for (const months of [NAMES, ['june'], ['december']]) {
        await grown(months);
        for (const latitude of [66, -66, 75, -75, 89, -89]) {
          await fill(session, ['latitude', `${latitude} °`]);
          expect(faults(), `${latitude}°, ${months}`).toEqual([]);
        }
      }
    }));

  test('where the sun does not rise lamps burn as long as the window lets them, and where it does not set there is no dark', () =>
    inside(GREENHOUSE, async (session) => {
      await fill(session, ['latitude', '75 °'], ['noon', '13 h']);
      for (const i of [0, 10, 11]) {
        expect(said(session, `Months.D${i + 2}`, 'h/d')).toBe(0);
        expect(said(session, `Months.F${i + 2}`, 'mol/m²/d')).toBe(0);
        // 11 mol/m²/d would take 15 h of the lamps of A, and the window has 14.
        expect(row(session, `on_${NAMES[i]}`, 'h')).toBeCloseTo(14 * (LENGTHS[i] as number), 9);
        expect(row(session, `share_${NAMES[i]}`)).toBe(1);
        expect(row(session, `dull_${NAMES[i]}`)).toBe(1);
      }
      expect(row(session, 'dark_hours', 'h/d')).toBe(10);
      for (const i of [4, 5, 6]) expect(said(session, `Months.D${i + 2}`, 'h/d')).toBe(24);
      await fill(session, ...NAMES.filter((name) => name !== 'june').map((name) => [`grown_${name}`, 'no'] as const));
      expect(row(session, 'dark_hours', 'h/d')).toBe(0);
      expect(row(session, 'night_longest', 'h/d')).toBe(0);
    }));
});
