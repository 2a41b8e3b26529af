import { calc, define } from '../define.ts';

/** Share of the first light that is left after so many hours, from the hours to 90 %, times what dirt leaves. */
export const maintenanceFactor = (hours: number, l90: number, dirt: number): number => 0.9 ** (hours / l90) * dirt;

export const MAINTENANCE_FACTOR = define({
  name: 'MAINTENANCE.FACTOR',
  family: 'Ageing',
  summary: 'Share of the first light that a crop can still count on after so many hours.',
  use: 'To plan for the end of the years, not the first day. Exponential ageing; for LEDs whose L90 is known. Dirt as kept by cleaning. Sudden failures are not counted.',
  formula: '0.9^(hours / L90) · dirt',
  params: [
    { name: 'hours', quantity: 'hours run', unit: 'h', meaning: 'up to the day planned for', atLeast: 0, atMost: 1e6 },
    { name: 'L90', quantity: 'hours to 90 % of the first light', unit: 'h', meaning: 'from the sheet', atLeast: 100, atMost: 1e6 },
    { name: 'dirt', quantity: 'share that dirt lets through', unit: '1', meaning: '0.95 by common practice, no published source', above: 0, atMost: 1 },
  ],
  returns: { quantity: 'maintenance factor', unit: '1' },
  source:
    'Exponential decay as in ANSI/IES TM-21-19, Projecting long-term luminous, photon and radiant flux maintenance of LED light sources, 2019, eq. 1 (read second-hand)',
  examples: [{ formula: 'MAINTENANCE.FACTOR(26400,36000,0.95)', gives: 0.8793628, within: 1e-6 }],
  work: ([hours, l90, dirt], show) => {
    const value = maintenanceFactor(hours, l90, dirt);
    if (show) {
      show.expression('ageing alone', calc`0.9^(${hours} / ${l90})`, 0.9 ** (hours / l90), '1');
      show.expression('ageing and dirt', calc`0.9^(${hours} / ${l90}) * ${dirt}`, value, '1');
      if (value < 0.5) show.note('Less than half is left: such lamps are commonly replaced before.');
    }
    return value;
  },
});
