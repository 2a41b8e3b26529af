import type { Check, Checks } from '../outside.ts';

const exponent = (beam: number): Check => ({ formula: `BEAM.EXPONENT(${beam})` });
const angle = (m: number): Check => ({ formula: `BEAM.ANGLE(${m})`, in: '°' });
const peak = (beam: number): Check => ({ formula: `PEAK.INTENSITY(1000,${beam})`, in: 'µmol/s/sr' });
/** Where a tenth of the peak is left: the beam angle of the exponent for which half is left there. */
const tenth = (beam: number): Check => ({ formula: `BEAM.ANGLE(BEAM.EXPONENT(${beam})*LN(0.5)/LN(0.1))`, in: '°' });

export const checks: Checks = {
  'beam-02': exponent(40),
  'beam-03': exponent(60),
  'beam-05': exponent(90),
  'beam-06': exponent(100),
  'beam-07': exponent(110),
  'beam-08': exponent(115),
  'beam-09': exponent(120),
  'beam-11': exponent(140),
  'beam-14': angle(2),
  'beam-15': angle(3),
  'beam-16': angle(4),
  'beam-17': angle(10),
  'beam-18': peak(120),
  'beam-19': peak(90),
  'beam-20': peak(60),
  // A Lambertian face: what it gives off over what it sends straight ahead, whatever is counted.
  'beam-22': [
    { formula: '100*UNIT(1,"µmol/s/sr")/PEAK.INTENSITY(1,120)', of: 'emittance_lm_m2' },
    { formula: '0.1*100*UNIT(1,"µmol/s/sr")/PEAK.INTENSITY(1,120)', of: 'flux_lm' },
  ],
  'beam-25': { formula: 'SHARE.IN.BEAM(90)' },
  'beam-27': { formula: 'SHARE.IN.BEAM(60)' },
  'beam-26': tenth(90),
  'beam-28': tenth(60),
};
