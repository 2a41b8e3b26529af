/** Parameters and sources that the sun functions share. */
export const LATITUDE = { name: 'latitude', quantity: 'latitude', unit: '°', meaning: 'north positive, south negative', atLeast: -90, atMost: 90 } as const;
export const DAY = {
  name: 'day',
  quantity: 'day of the year',
  unit: '1',
  meaning: '1 for 1 January; 15 for the middle of January',
  atLeast: 1,
  atMost: 366,
} as const;
export const CLEARNESS = {
  name: 'clearness',
  quantity: 'share of the sun’s radiation that comes through the air',
  unit: '1',
  meaning: 'mean of the month at the place; some 0.3 in dull, 0.6 in bright weather',
  above: 0,
  atMost: 1,
} as const;
export const SHARE = { unit: '1', above: 0, atMost: 1 } as const;

export const MOL_PER_MJ_PARAM = {
  name: 'mol per MJ',
  quantity: 'light per radiation',
  unit: 'mol/MJ',
  meaning: '2.0565 unless said: 0.45 of the radiation at 4.57 µmol/J; published factors run from 1.96 to 2.06',
  optional: true,
  fallback: 2.0565,
  atLeast: 1,
  atMost: 3,
} as const;

export const FAO = 'R. G. Allen, L. S. Pereira, D. Raes and M. Smith, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, 1998';
export const MOL_PER_MJ_SOURCE =
  'R. W. Thimijan and R. D. Heins, Photometric, radiometric, and quantum light units of measure, HortScience 18(6), 1983, table 3 (4.57 µmol/J, read second-hand); J. C. Sager and J. C. McFarlane, Radiation, in Plant Growth Chamber Handbook, 1997 (0.45, read second-hand)';
