import { shareInCircle } from '../discs.ts';
import type { Check, Checks } from '../outside.ts';

/** A row without end: 100 m of it seen from 0.1 m. */
const ROW = '100,100,0,120,0.1';
const bar = (h: number): Check => ({ formula: `BAR.PPFD(100,1.15,0.03,120,${h},0,${h})/BAR.PPFD(100,1.15,0.03,120,${h})` });
const landing = (h: number): Check => ({ formula: `LANDING.SHARE(LAYOUT(100,1.15,0.03,120,1,1,1.2,0.6),${h})` });

/** Rows without end, side by side: 201 of them, at 0.1 m; midway between two over beneath one, in the middle. */
function rows(spacing: number): Check {
  const width = 201 * spacing * 0.1;
  const layout = `LAYOUT(100,100,0,120,1,201,100,${width})`;
  return { formula: `BENCH.PPFD(${layout},0.1,50,${width / 2 + (spacing * 0.1) / 2})/BENCH.PPFD(${layout},0.1,50,${width / 2})` };
}

export const checks: Checks = {
  P01: { formula: 'POINT.PPFD(100,120,1,1)/POINT.PPFD(100,120,1,0)' },
  P02: { formula: `BAR.PPFD(${ROW},0,0.1)/BAR.PPFD(${ROW})` },
  P03: bar(0.2),
  P04: bar(0.3),
  P05: bar(0.45),
  P06: bar(0.6),
  P07: { formula: shareInCircle(120, 1, 1, 12) },
  P08: { formula: 'LANDING.SHARE(LAYOUT(100,0,0,120,1,1,2,2),1)' },
  // A metre of bench under a hundred metres of row.
  P09: { formula: 'LANDING.SHARE(LAYOUT(100,100,0,120,1,1,1,0.2),0.1)*100' },
  P10: [
    { formula: 'USEFUL.WIDTH(0,0,120,1,0.5)/UNIT(2,"m")', of: 0 },
    { formula: 'USEFUL.WIDTH(100,0,120,0.1,0.5)/UNIT(0.2,"m")', of: 1 },
  ],
  P11: { formula: 'USEFUL.WIDTH(1.15,0.03,120,0.3,0.5)/UNIT(0.6,"m")' },
  P12: [
    { formula: 'FOOTPRINT.WIDTH(1,120)/UNIT(2,"m")', of: 0 },
    { formula: 'POINT.PPFD(100,120,1,FOOTPRINT.WIDTH(1,120)/2)/POINT.PPFD(100,120,1,0)', of: 1 },
  ],
  P13: rows(0.5),
  P14: rows(1),
  P15: rows(1.5),
  P16: rows(2),
  P17: rows(3),
  P18: [
    { formula: 'FALLOFF.RATIO(0,0,120,1,0.5)', of: 0 },
    { formula: 'FALLOFF.RATIO(1.15,0.03,120,0.6,0.3)', of: 1 },
    { formula: 'FALLOFF.RATIO(100,0,120,0.2,0.1)', of: 2 },
    { formula: 'FALLOFF.RATIO(100,100,120,0.2,0.1)', of: 3 },
  ],
  P19: [
    { formula: 'DLI(100,12)', in: 'mol/m²/d', of: 0 },
    { formula: 'DLI(200,16)', in: 'mol/m²/d', of: 1 },
  ],
  P20: [
    { formula: 'DLI(150,14)', in: 'mol/m²/d', of: 0 },
    { formula: 'DLI(300,18)', in: 'mol/m²/d', of: 1 },
  ],
  P21: [
    { formula: 'UNIT(300,"W")*SUPPLY.LOAD(240,300)/4', in: 'W', of: 0 },
    { formula: 'SUPPLY.AMPS(60,24)', in: 'A', of: 1 },
    { formula: 'SUPPLY.AMPS(240,24)', in: 'A', of: 2 },
    { formula: 'SUPPLY.AMPS(300,24)', in: 'A', of: 3 },
  ],
  P22: [
    { formula: 'SUPPLY.LOAD(300,300)', of: 0 },
    { formula: 'SUPPLY.COUNT(3,75,300,0.8,4,75)', step: 'fixtures that its watts carry', of: 1 },
  ],
  P23: { formula: 'CLASS2.OUTPUTS(80,3,24)' },
  P24: [
    { formula: 'CONVERT(30,"W/ft2","W/m²")', of: 0 },
    { formula: 'UNIT(30,"W/ft2")*EFFICACY(250,100)*0.7', in: 'µmol/m²/s', of: 1 },
  ],
  P25: landing(0.15),
  P26: landing(0.3),
  P27: landing(0.45),
  P28: landing(0.6),
};
