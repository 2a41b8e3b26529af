import type { Checks } from '../outside.ts';

const top = (latitude: number, day: number) => ({ formula: `SUN.TOP(${latitude},${day})`, in: 'MJ/m²/d' });
const both = (latitude: number, day: number) => [
  { ...top(latitude, day), of: 'Ra' },
  { formula: `SUN.HOURS(${latitude},${day})`, in: 'h/d', of: 'N' },
];

export const checks: Checks = {
  'solar-01': top(-20, 246),
  'solar-12': top(-34, 46),
  'solar-16': top(66, 15),
  'solar-19': top(60, 15),
  'solar-21': top(40, 15),
  'solar-22': top(40, 46),
  'solar-23': top(40, 74),
  'solar-24': top(40, 105),
  'solar-25': top(40, 135),
  'solar-26': top(40, 166),
  'solar-27': top(40, 196),
  'solar-28': top(40, 227),
  'solar-29': top(40, 258),
  'solar-30': top(40, 288),
  'solar-31': top(40, 319),
  'solar-32': top(40, 349),
  // 15 June is day 166.
  'solar-42': top(40, 166),
  'solar-02': { formula: 'SUN.TOP(-20,246)', step: 'inverse relative distance' },
  'solar-03': { formula: 'SUN.TOP(-20,246)', step: 'declination', in: 'rad' },
  'solar-04': { formula: 'SUN.HOURS(-20,246)', step: 'hour angle at sunset', in: 'rad' },
  'solar-06': { formula: 'SUN.HOURS(-20,246)', in: 'h/d' },
  // 21 June is day 172.
  'solar-40': { formula: 'SUN.HOURS(40,172,-0.833)', in: 'h/d' },
  'solar-41': { formula: 'SUN.HOURS(52,172,-0.833)', in: 'h/d' },
  'solar-07': { formula: 'SUN.TOP(-22.9,135)*(0.25+0.5*UNIT(7.1,"h/d")/SUN.HOURS(-22.9,135))', in: 'MJ/m²/d' },
  'solar-08': { formula: 'SUN.TOP(-22.9,135)*(0.25+0.5*UNIT(7.096774193548387,"h/d")/SUN.HOURS(-22.9,135))', in: 'MJ/m²/d' },
  'solar-10': { formula: 'SUN.TOP(-22.9,135)*0.75', in: 'MJ/m²/d' },
  // The example's place and day: 50.8° N, 6 July.
  'solar-11': { formula: 'SUN.TOP(50.8,187)*(0.75+2E-5*100)', in: 'MJ/m²/d' },
  'solar-33': both(0, 80),
  'solar-34': both(52, 172),
  'solar-35': both(52, 355),
  'solar-36': both(65, 172),
  'solar-38': both(70, 355),
  'solar-45': { formula: 'DLI.FROM.RADIATION(20,UNIT(7.058/3.6,"mol/MJ"))', in: 'mol/m²/d' },
  'solar-46': { formula: 'DLI.FROM.RADIATION(20)', in: 'mol/m²/d' },
  'solar-47': { formula: 'DLI.FROM.RADIATION(UNIT(200,"W/m²")*UNIT(24,"h/d"))', in: 'mol/m²/d' },
  'solar-48': { formula: 'SUN.DLI(-20,246,1)/SUN.TOP(-20,246)/LAMP.PHOTONS("sunlight")', between: true },
  'solar-50': { formula: 'UNIT(40,"mol/m²/d")*COVER.TRANSMISSION(0.6,1,1)', in: 'mol/m²/d' },
  'solar-51': [
    { formula: 'DAY.LENGTH(52,172)', in: 'h/d', of: 0 },
    { formula: 'DAY.LENGTH(52,172,0)', in: 'h/d', of: 1 },
  ],
  'solar-52': [244, 258, 273].map((day, of) => ({ formula: `DAY.LENGTH(43.3,${day})`, in: 'h/d', of })),
  'solar-53': { formula: 'NIGHT.SHORTEST(52,,6,18)', in: 'h/d', between: true },
  'solar-54': ['12,5,200,11,14', '4,2.4,150,14,12', '3,3,400,10,20', '20,6,100,11,14'].map((given, of) => ({
    formula: `LAMP.HOURS.MEAN(${given})`,
    in: 'h/d',
    of,
  })),
  'solar-55': ['5,19', '20,6', '0,24'].map((given, of) => ({ formula: `LAMP.WINDOW(${given})`, in: 'h/d', of })),
  'solar-56': ['74,0.41', '349,0.3'].map((given, of) => ({ formula: `DULL.DAYS(52,${given},0.18,0.553656,10.2717,11,1.6)`, of })),
};
