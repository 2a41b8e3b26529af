import type { Checks } from '../outside.ts';

const TEST = '{5000,6000,7000,8000,9000,10000},{0.9842,0.9815,0.9791,0.976,0.9738,0.9707}';

export const checks: Checks = {
  'maintenance-01': { formula: 'LIFE.TO(0.7,0.000002,1)', in: 'h' },
  'maintenance-02': { formula: 'LIFE.TO(0.9,0.000002,1)', in: 'h' },
  'maintenance-03': { formula: 'LIFE.TO(0.9,0.000003,1.01)', in: 'h' },
  'maintenance-05': { formula: 'LIFE.TO(0.8,0.0000042,1.005)', in: 'h' },
  'maintenance-06': { formula: 'LIFE.CLAIM.LIMIT(6000,20)', in: 'h' },
  'maintenance-07': { formula: 'LIFE.CLAIM.LIMIT(10000,20)', in: 'h' },
  'maintenance-08': { formula: 'MIN(LIFE.TO(0.9,0.000002,1),LIFE.CLAIM.LIMIT(6000,20))', in: 'h', says: 36000 },
  'maintenance-09': { formula: 'MAINTENANCE.FACTOR(20000,LIFE.TO(0.9,0.000003),1)' },
  'maintenance-10': { formula: 'LIFE.TO(0.9,0.000002)/UNIT(16,"h/d")/UNIT(365,"d/year")', in: 'year' },
  'maintenance-11': { formula: 'UNIT(200,"µmol/m²/s")/MAINTENANCE.FACTOR(36000,36000,1)', in: 'µmol/m²/s' },
  'maintenance-12': [
    { formula: `DECAY.RATE(${TEST})`, in: '/h', of: 'alpha' },
    { formula: `DECAY.START(${TEST})`, of: 'B' },
    { formula: `LIFE.TO(0.9,DECAY.RATE(${TEST}),DECAY.START(${TEST}))`, in: 'h', of: 'L90_h' },
    { formula: `LIFE.TO(0.7,DECAY.RATE(${TEST}),DECAY.START(${TEST}))`, in: 'h', of: 'L70_h' },
  ],
  'maintenance-13': { formula: 'MAINTENANCE.MEAN(36000,36000,0.95)' },
  'maintenance-14': { formula: 'MAINTENANCE.MEAN(0,36000,0.95)' },
  'maintenance-15': { formula: 'MAINTENANCE.MEAN(42240,36000,0.95,36000)' },
};
