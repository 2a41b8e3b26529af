import type { Checks } from '../outside.ts';

const dli = (ppfd: number, hours: number) => ({ formula: `DLI(${ppfd},${hours})`, in: 'mol/m²/d' });
const ppfd = (light: number, hours: number) => ({ formula: `PPFD.FOR.DLI(${light},${hours})`, in: 'µmol/m²/s' });

export const checks: Checks = {
  'dli-01': dli(200, 12),
  'dli-02': dli(200, 16),
  'dli-03': dli(200, 20),
  'dli-04': dli(250, 12),
  'dli-05': dli(250, 14),
  'dli-07': dli(1000, 16),
  'dli-12': dli(300, 14),
  'dli-15': dli(100, 12),
  'dli-16': dli(150, 18),
  'dli-17': dli(200, 16),
  'dli-18': dli(250, 16),
  'dli-19': dli(300, 18),
  'dli-20': dli(500, 12),
  'dli-21': dli(600, 18),
  'dli-13': { formula: 'DLI.SCHEDULE({200;50},{12;12})', in: 'mol/m²/d' },
  'dli-23': ppfd(17, 16),
  'dli-24': ppfd(12, 18),
  'dli-25': ppfd(6, 12),
  'dli-28': ppfd(10, 16),
  'dli-29': ppfd(30, 17),
  'dli-30': ppfd(4, 12),
  'dli-31': { formula: 'HOURS.FOR.DLI(12,200)', in: 'h/d' },
  'dli-32': { formula: 'HOURS.FOR.DLI(30,200)', refused: '41.6667 h/d' },
  'dli-33': dli(100, 24),
  'dli-34': { formula: 'PPFD.FOR.DLI(DLI.GAP(17,8),16)', in: 'µmol/m²/s' },
};
