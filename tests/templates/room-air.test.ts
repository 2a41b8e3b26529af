/** Air of a closed room: nothing until it is asked for, and then what plain arithmetic gives. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Session } from '../../src/session.ts';
import { makeFrom, textOf } from '../handover/made.ts';
import { openTemplate } from './open-template.ts';
import { fill, row } from './rows.ts';

const ROWS = ['latent_heat', 'heat_air', 'moisture_air', 'air_changes'] as const;

interface Room {
  readonly slug: string;
  /** What A draws, in W, by hand. */
  readonly heat: number;
  /** The given that says how warm the air gets, and how warm that is, in °C. */
  readonly air: 'crop_air' | 'ambient';
  readonly warm: number;
  /** Water of a day, in kg, that asks for more air than the heat it leaves does. */
  readonly wetter: number;
}
// All are lit for 16 h a day.
const ROOMS: readonly Room[] = [
  // Eight lights of 45 W behind supplies of 0.92.
  { slug: 'rack-of-tiers', heat: (8 * 45) / 0.92, air: 'crop_air', warm: 28, wetter: 5 },
  // Eight trays a week, four on a shelf for eight days at a time: three shelves of two lights of 45 W, dimmed to 95 %, behind supplies of 0.9.
  { slug: 'germination-and-microgreens', heat: (3 * 2 * 45 * 0.95) / 0.9, air: 'ambient', warm: 25, wetter: 5 },
  // Two by six lights of 90 W, dimmed to 89 %, behind supplies of 0.92.
  { slug: 'growing-canopy', heat: (12 * 90 * 0.89) / 0.92, air: 'ambient', warm: 25, wetter: 12 },
];

describe.each(ROOMS)('the air of the room in $slug', ({ slug, heat, air, warm, wetter }) => {
  // 3 kg of water in 16 h, each 2.45 MJ.
  const latent = (3 * 2.45e6) / (16 * 3600);
  let session: Session;
  beforeAll(async () => {
    session = await openTemplate(slug);
  });
  afterAll(() => session.close());

  test('is not calculated before anything is given, and is not on the sheet', async () => {
    for (const id of ROWS) expect(row(session, id), id).toBe('not calculated');
    expect(row(session, 'sensible_heat', 'W')).toBeCloseTo(heat, 9);
    expect(textOf((await makeFrom(session, 'A')).body)).not.toContain('Air changes in the room');
  });

  test('without water all of the heat is carried off by air', async () => {
    await fill(session, ['air_in', '18 °C'], ['room_volume', '30 m³']);
    const flow = (heat * 3600) / (1.2 * 1005 * (warm - 18));
    expect(row(session, 'heat_air', 'm³/h')).toBeCloseTo(flow, 8);
    expect(row(session, 'air_changes', '/h')).toBeCloseTo(flow / 30, 9);
    expect(row(session, 'moisture_air')).toBe('not calculated');
  });

  test('vapour takes its heat from the air, and the greater flow sets the air changes', async () => {
    await fill(session, ['water_off', '3 kg/d'], ['humidity_kept', '100 %'], ['humidity_in', '0 %']);
    expect(row(session, 'latent_heat', 'W')).toBeCloseTo(latent, 9);
    expect(row(session, 'sensible_heat', 'W')).toBeCloseTo(heat - latent, 9);
    const flow = ((heat - latent) * 3600) / (1.2 * 1005 * (warm - 18));
    expect(row(session, 'heat_air', 'm³/h')).toBeCloseTo(flow, 8);
    expect(row(session, 'air_changes', '/h')).toBeCloseTo(flow / 30, 9);
    // Water's pressure at saturation, 3169.7 Pa at 25 °C and 872.6 Pa at 5 °C: ASHRAE Handbook Fundamentals, 2017, chapter 1, table 3 (read in a transcription).
    await fill(session, [air, '25 °C'], ['air_in', '5 °C'], ['humidity_in', '100 %'], ['humidity_kept', '50 %'], ['water_off', `${wetter} kg/d`]);
    const ratio = (vapour: number): number => (0.621945 * vapour) / (101325 - vapour);
    const moist = wetter / 16 / (1.2 * (ratio(3169.7 / 2) - ratio(872.6)));
    expect(Math.abs(Number(row(session, 'moisture_air', 'm³/h')) / moist - 1)).toBeLessThan(1e-3);
    expect(row(session, 'air_changes', '/h')).toBeCloseTo(Number(row(session, 'moisture_air', 'm³/h')) / 30, 9);
    expect(textOf((await makeFrom(session, 'A')).body)).toContain('Air changes in the room');
  });

  test('more water than the lamps can turn to vapour leaves no heat below zero', async () => {
    await fill(session, ['water_off', '60 kg/d']);
    expect(row(session, 'sensible_heat', 'W')).toBe(0);
    expect(row(session, 'heat_air', 'm³/h')).toBe(0);
  });

  test('air that is no drier, or no cooler, is said to carry nothing off', async () => {
    await fill(session, ['humidity_kept', '20 %']);
    expect(row(session, 'moisture_air')).toContain('no drier');
    expect(row(session, 'air_changes')).toContain('no drier');
    await fill(session, ['air_in', '25 °C']);
    expect(row(session, 'heat_air')).toContain('0.1');
  });
});
