import { besideDisc, shareInCircle, underDisc } from '../discs.ts';
import type { Check, Checks } from '../outside.ts';

const PPFD = 'µmol/m²/s';
const point = (m: number, height: number, offset: number): Check => ({ formula: `POINT.PPFD(100,BEAM.ANGLE(${m}),${height},${offset})`, in: PPFD });
/** Under the corner of a Lambertian rectangle: PPFD over output per area. */
const corner = (a: number, b: number, h: number): Check => ({
  formula: `BAR.PPFD(100,${a},${b},120,${h},${a / 2},${b / 2})*UNIT(${a * b},"m2")/UNIT(100,"µmol/s")`,
});
const bar = (length: number, width: number, h: number, along: number, across: number, beam = 120): Check => ({
  formula: `BAR.PPFD(100,${length},${width},${beam},${h},${along},${across})`,
  in: PPFD,
});
const disc = (formula: string): Check => ({ formula, in: PPFD });
/** Ten kilometres stand for an endless line, and for a ceiling of 0.01 µmol/s a square metre. */
const line = (across: number): Check => ({ formula: `BAR.PPFD(1000000,10000,0,120,0.3,0,${across})`, in: PPFD });
const ceiling = (h: number, of: number): Check => ({ formula: `BAR.PPFD(1000000,10000,10000,120,${h})*25000`, in: PPFD, of });
const landing = (length: number, width: number, benchLength: number, benchWidth: number, h: number): Check => ({
  formula: `LANDING.SHARE(LAYOUT(100,${length},${width},120,1,1,${benchLength},${benchWidth}),${h})`,
});
const fromPoint = (face: string, height: number): Check => ({ formula: `1-${face}/POINT.PPFD(100,120,${height},0)` });

export const checks: Checks = {
  'field-01': point(1, 0.5, 0),
  'field-03': point(1, 1, 0),
  'field-04': point(1, 1, 1.7320508),
  'field-05': point(2, 0.5, 0),
  'field-07': point(4.818841679, 0.6, 0.3),
  'field-08': point(1, 0.3, 1.2),
  'field-09': corner(1, 1, 1),
  'field-10': corner(0.6, 0.3, 0.5),
  'field-12': corner(2, 1, 0.2),
  'field-13': corner(0.1, 0.1, 1),
  'field-15': bar(1.2, 0.6, 0.3, 0.6, 0.3),
  'field-16': bar(1.15, 0.03, 0.3, 0, 0),
  'field-17': bar(1.15, 0.03, 0.3, 0, 0.3),
  'field-18': bar(1.15, 0.03, 0.3, 0.575, 0),
  'field-19': bar(0.3, 0.3, 0.6, 0.6, 0),
  'field-20': bar(2.4, 1.2, 0.1, 0, 0),
  'field-21': bar(1.15, 0.03, 0.3, 0, 0, 90),
  'field-22': bar(1.15, 0.03, 0.3, 0.2, 0.25, 100),
  'field-26': disc(besideDisc(100, 0.3, 120, 0.5, 0.4, 12)),
  'field-27': disc(underDisc(100, 0.15, 120, 0.6, 8)),
  'field-28': disc(underDisc(100, 1, 120, 0.1, 24)),
  'field-30': bar(1.2, 0, 0.3, 0, 0.3),
  'field-31': bar(1.2, 0, 0.3, 0.6, 0),
  'field-32': bar(2.4, 0, 0.6, 1.8, 0.5),
  'field-33': line(0),
  'field-34': line(0.3),
  'field-35': [ceiling(0.1, 0), ceiling(0.5, 1), ceiling(2, 2)],
  'field-36': { formula: shareInCircle(120, 1, 1, 10) },
  'field-37': { formula: shareInCircle(90, 1, 1, 10) },
  'field-38': landing(1.2, 0.6, 1.2, 0.6, 0.4),
  'field-39': landing(1, 1, 1, 1, 1),
  'field-40': landing(0, 0, 1.2, 0.6, 0.5),
  'field-42': landing(0, 0, 100, 100, 1),
  'field-43': fromPoint(underDisc(100, 0.1, 120, 1, 8), 1),
  'field-44': fromPoint(underDisc(100, 0.2, 120, 1, 8), 1),
  'field-46': fromPoint('BAR.PPFD(100,1.2,0,120,0.3)', 0.3),
  'field-47': fromPoint('BAR.PPFD(100,1.2,0,120,0.6)', 0.6),
};
