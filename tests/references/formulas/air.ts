import type { Checks } from '../outside.ts';

export const checks: Checks = {
  'air-01': { formula: 'HUMIDITY.RATIO(-20,1)', step: 'vapour at saturation', in: 'N/m²' },
  'air-02': { formula: 'HUMIDITY.RATIO(-5,1)', step: 'vapour at saturation', in: 'N/m²' },
  'air-03': { formula: 'HUMIDITY.RATIO(5,1)', step: 'vapour at saturation', in: 'N/m²' },
  'air-04': { formula: 'HUMIDITY.RATIO(25,1)', step: 'vapour at saturation', in: 'N/m²' },
  'air-05': { formula: 'HUMIDITY.RATIO(50,1)', step: 'vapour at saturation', in: 'N/m²' },
  'air-06': { formula: 'HUMIDITY.RATIO(-20,1)' },
  'air-07': { formula: 'HUMIDITY.RATIO(-5,1)' },
  'air-08': { formula: 'HUMIDITY.RATIO(5,1)' },
  'air-09': { formula: 'HUMIDITY.RATIO(25,1)' },
  'air-10': { formula: 'HUMIDITY.RATIO(50,1)' },
  'air-11': { formula: 'HUMIDITY.RATIO(40,0.14)' },
  'air-12': { formula: 'LATENT.WATTS(1,24)', in: 'W' },
};
