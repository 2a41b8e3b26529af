/** The sun's path by the short formulas of FAO 56: good to some tenths of a percent of the day, not an almanac. */

/** Solar constant, MJ/m²/min: FAO 56, after eq. 21. */
export const SOLAR_CONSTANT = 0.082;

const TURN = (2 * Math.PI) / 365;

export interface SunDay {
  /** Inverse relative distance of earth and sun: eq. 23. */
  readonly distance: number;
  /** Declination, rad: eq. 24. */
  readonly declination: number;
  /** Hour angle at sunset, rad: eq. 25; clamped where the sun does not set or rise. */
  readonly sunset: number;
  readonly polar: 'day' | 'night' | undefined;
}

export function sunDay(latitude: number, day: number): SunDay {
  const distance = 1 + 0.033 * Math.cos(TURN * day);
  const declination = 0.409 * Math.sin(TURN * day - 1.39);
  const cosine = -Math.tan((latitude * Math.PI) / 180) * Math.tan(declination);
  const polar = cosine <= -1 ? 'day' : cosine >= 1 ? 'night' : undefined;
  return { distance, declination, sunset: Math.acos(Math.min(1, Math.max(-1, cosine))), polar };
}
