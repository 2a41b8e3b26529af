import type { Checks } from '../outside.ts';

/** The solid angle between two cones about one axis: no function of its own, a cell with units reckons it. */
const zone = (from: number) => ({ formula: `2*PI()*(COS(UNIT(${from},"°"))-COS(UNIT(${from + 10},"°")))` });

/** What stands in a file of a fixture's light is read later; these are its zones. */
export const checks: Checks = {
  'photometric-file-25': zone(0),
  'photometric-file-29': zone(40),
  'photometric-file-30': zone(50),
  'photometric-file-31': zone(60),
  'photometric-file-32': zone(70),
  'photometric-file-33': zone(80),
  'photometric-file-34': zone(90),
  'photometric-file-37': zone(120),
  'photometric-file-38': zone(130),
  'photometric-file-39': zone(140),
  'photometric-file-40': zone(150),
  'photometric-file-41': zone(160),
};
