/** The sun's path by the short formulas of FAO 56: good to some tenths of a percent of the day, not an almanac. */

/** Solar constant, MJ/m²/min: FAO 56, after eq. 21. */
export const SOLAR_CONSTANT = 0.082;

const TURN = (2 * Math.PI) / 365;

export interface SunDay {
  /** Inverse relative distance of earth and sun: eq. 23. */
  readonly distance: number;
  /** Declination, rad: eq. 24. */
  readonly declination: number;
  /** Hour angle at sunset, rad: eq. 25 for a height of 0; clamped where the sun does not pass the height. */
  readonly sunset: number;
  readonly polar: 'day' | 'night' | undefined;
}

/** Sunset is when the sun's centre passes `height`, degrees over the horizon: sin h = sin φ sin δ + cos φ cos δ cos ω solved for ω. */
export function sunDay(latitude: number, day: number, height = 0): SunDay {
  const distance = 1 + 0.033 * Math.cos(TURN * day);
  const declination = 0.409 * Math.sin(TURN * day - 1.39);
  const phi = (latitude * Math.PI) / 180;
  const cosine = -Math.tan(phi) * Math.tan(declination) + Math.sin((height * Math.PI) / 180) / (Math.cos(phi) * Math.cos(declination));
  const polar = cosine <= -1 ? 'day' : cosine >= 1 ? 'night' : undefined;
  return { distance, declination, sunset: Math.acos(Math.min(1, Math.max(-1, cosine))), polar };
}
