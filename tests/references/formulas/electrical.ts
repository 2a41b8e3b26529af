import type { Check, Checks } from '../outside.ts';

/** Classes 1 and 2 share a column up to 95 mm². */
const metric = (area: number): Check[] => [
  { formula: `WIRE.OHMS(${area},1)`, in: 'Ω/km', of: 'class1_2' },
  { formula: `WIRE.OHMS(${area},2)`, in: 'Ω/km', of: 'class1_2' },
  { formula: `WIRE.OHMS(${area},5)`, in: 'Ω/km', of: 'class5_6' },
];
const table8 = (awg: number, make: 'solid' | 'stranded'): Check => ({ formula: `WIRE.OHMS.AWG(${awg},"${make}")`, in: 'Ω/kft' });
const bothMakes = (awg: number): Check[] => [
  { ...table8(awg, 'solid'), of: 'solid' },
  { ...table8(awg, 'stranded'), of: 'stranded' },
];
const diameter = (awg: number): Check => ({ formula: `2*SQRT(WIRE.AREA(${awg})/PI())`, in: 'mm' });
const gauge = (awg: number): Check[] => [
  { formula: `WIRE.AREA(${awg})`, in: 'mm²', of: 'area_mm2' },
  { formula: `WIRE.OHMS(WIRE.AREA(${awg}))`, in: 'Ω/km', of: 'ohm_per_km_20C' },
  { formula: `WIRE.OHMS(WIRE.AREA(${awg}),5,75)`, in: 'Ω/kft', of: 'ohm_per_kft_75C' },
];
const drop = (watts: number, volts: number, length: string, ohms: string): Check[] => {
  const formula = `CABLE.DROP(${watts},${volts},${length},${ohms})`;
  return [
    { formula, in: 'V', of: 'drop_V' },
    { formula: `${formula}/UNIT(${volts},"V")`, in: '%', of: 'percent' },
  ];
};
const dropAndHeat = (watts: number, volts: number, length: string, ohms: string): Check[] => [
  ...drop(watts, volts, length, ohms),
  { formula: `CABLE.DROP(${watts},${volts},${length},${ohms})*SUPPLY.AMPS(${watts},${volts})`, in: 'W', of: 'loss_W' },
];

/** One formula for each value of a list. */
const each = (inputs: readonly (number | string)[], formula: (input: number | string) => Omit<Check, 'of'>): Check[] =>
  inputs.map((input, of) => ({ ...formula(input), of }));
const cord = (area: number | string) => ({ formula: `WIRE.AMPACITY(${area},2,30)`, in: 'A' });
const cordAwg = (cores: number) => (awg: number | string) => ({ formula: `WIRE.AMPACITY.AWG(${awg},${cores},30)`, in: 'A' });
const inAir = (most: number) => (air: number | string) => ({ formula: `WIRE.AMPACITY(1,2,${air},${most})/WIRE.AMPACITY(1,2,30,${most})` });
const besideFuse = (fuse: number | string) => ({ formula: `CHECK.FUSE(${fuse},1,200,"gG")`, step: 'what the cable must carry', in: 'A' });
const word = (check: string) => ({ formula: `LEFT(${check},5)` });

export const checks: Checks = {
  'electrical-01': metric(0.5),
  'electrical-03': metric(1),
  'electrical-06': metric(4),
  'electrical-07': metric(6),
  'electrical-08': metric(10),
  'electrical-09': metric(16),
  // The transcription calls these stranded; by their values the first is solid wire, the others are stranded.
  'electrical-12': table8(10, 'solid'),
  'electrical-15': table8(4, 'stranded'),
  'electrical-16': table8(2, 'stranded'),
  'electrical-17': bothMakes(18),
  'electrical-18': bothMakes(16),
  'electrical-19': bothMakes(14),
  'electrical-20': bothMakes(12),
  'electrical-21': bothMakes(10),
  'electrical-24': diameter(6),
  'electrical-25': diameter(22),
  'electrical-26': diameter(20),
  'electrical-27': diameter(18),
  'electrical-29': diameter(14),
  'electrical-30': diameter(12),
  'electrical-31': diameter(10),
  'electrical-32': gauge(18),
  'electrical-33': gauge(16),
  'electrical-34': gauge(14),
  'electrical-36': gauge(10),
  'electrical-37': { formula: 'WIRE.OHMS(1.5,5,75)/WIRE.OHMS(1.5,5,20)' },
  'electrical-38': { formula: 'WIRE.OHMS.AWG(14,"solid",20)', in: 'Ω/kft' },
  'electrical-39': { formula: 'WIRE.OHMS.AT.20(1,30)', in: 'Ω/km' },
  'electrical-41': { formula: 'WIRE.OHMS.AT.20(1,75)', in: 'Ω/km' },
  'electrical-44': dropAndHeat(240, 24, '15', 'WIRE.OHMS(4,5)'),
  'electrical-45': dropAndHeat(60, 24, '3', 'WIRE.OHMS(0.75,5)'),
  'electrical-46': dropAndHeat(3680, 230, '30', 'WIRE.OHMS(2.5,1)'),
  'electrical-47': drop(240, 24, 'UNIT(30,"ft")', 'WIRE.OHMS.AWG(14,"solid")'),
  'electrical-48': drop(1920, 120, 'UNIT(100,"ft")', 'WIRE.OHMS.AWG(12,"stranded")'),
  'electrical-49': [
    { formula: 'CABLE.REACH(13.3,5,24,0.03)', in: 'm' },
    { formula: 'CABLE.AREA(5.41353,5,24,0.03)', in: 'mm²', says: 1.5 },
    { formula: 'CABLE.AREA(5.41354,5,24,0.03)', in: 'mm²', says: 2.5 },
  ],
  'electrical-50': { formula: 'CABLE.DROP.CHAIN(2.5,{1,1,1,1},13.3)', in: 'V', of: 'drop_at_last_V' },
  'electrical-52': { formula: 'BREAKER.LEAST(12)', in: 'A' },
  'electrical-53': { formula: 'BREAKER.LEAST(24)', in: 'A' },
  'electrical-54': { formula: 'BREAKER.LEAST(10,5)', in: 'A' },
  // Loads of one ampere, and of one watt, that the circuit carries.
  'electrical-55': [
    { formula: 'CIRCUIT.COUNT(20,1)', of: 'amps' },
    { formula: 'CIRCUIT.COUNT(20,MAINS.AMPS(1,1,1,120))', of: 'watts' },
  ],
  'electrical-56': { formula: 'CIRCUIT.COUNT(20,MAINS.AMPS(100,1,0.95,120))' },
  'electrical-57': { formula: 'CIRCUIT.COUNT(15,MAINS.AMPS(100,1,1,120))' },
  'electrical-58': [
    { formula: 'LOAD.IS.CONTINUOUS(2.9)', of: 0 },
    { formula: 'LOAD.IS.CONTINUOUS(3)', of: 1 },
    { formula: 'LOAD.IS.CONTINUOUS(16)', of: 2 },
  ],
  'electrical-59': [
    { formula: 'CLASS2.OUTPUTS(1,1,24)', step: 'most current of one output', in: 'A', of: 'amps' },
    { formula: 'CLASS2.OUTPUTS(1,1,24)', step: 'fixtures on one output', of: 'VA' },
  ],
  'electrical-60': { formula: 'CLASS2.OUTPUTS(40,6,24)' },
  'electrical-61': { formula: 'SUPPLY.COUNT(1,240,299,0.8,1,300)', refused: 'a supply of at least 300 W' },
  'electrical-62': [
    { formula: 'SUPPLY.COUNT(10,60,300,0.8,4,75)', of: 'supplies' },
    { formula: 'SUPPLY.COUNT(10,60,300,0.8,4,75)', step: 'fixtures that its watts carry', of: 'lightsPerSupply' },
  ],
  'electrical-63': { formula: 'SUPPLY.AMPS(300,24)', in: 'A' },
  'electrical-64': { formula: 'HEAT.WATTS(240,0.9)', in: 'W' },
  // No function of its own: a cell with units reckons them. A farad is A·s/V.
  'electrical-65': { formula: 'SQRT(2)*UNIT(230,"V")/UNIT(5,"Ω")', in: 'A' },
  'electrical-66': { formula: 'UNIT(100E-6,"A·s/V")*UNIT(325.27,"V")^2/2', in: 'J' },
  'electrical-67': { formula: 'HEAT.WATTS(1,1)', in: 'BTU/h' },
  'electrical-68': [
    { formula: 'HEAT.WATTS(10000,1)', in: 'BTU/h', of: 'btu_h' },
    { formula: 'HEAT.WATTS(10000,1)', in: 'ton', of: 'tons' },
    { formula: 'HEAT.WATTS(10000,1)', in: 'kW', of: 'kW' },
  ],
  'electrical-69': { formula: 'COOL.WATTS(10000,3)', in: 'W' },
  'electrical-70': each([0.5, 0.75, 1], cord),
  'electrical-71': each([1.5, 2.5, 4], (area) => ({ ...cord(area), between: true })),
  'electrical-72': each([0.5, 0.75, 1, 1.25, 1.5, 2.5], cord),
  'electrical-73': cord(1.25),
  'electrical-74': each([18, 17, 16, 14, 12], cordAwg(2)),
  'electrical-75': each([18, 16, 14, 12, 10, 8, 6], cordAwg(3)),
  'electrical-76': each([18, 17, 16, 14, 12, 10, 8, 6], cordAwg(2)),
  'electrical-77': cordAwg(3)(17),
  'electrical-78': each([4, 6, 7, 9, 10, 20], (cores) => ({ formula: `WIRE.AMPACITY.AWG(12,${cores},30)/WIRE.AMPACITY.AWG(12,3,30)` })),
  'electrical-79': each([30, 35, 40, 45, 50, 55], inAir(60)),
  'electrical-80': each([35, 40, 45, 50, 55, 60, 65, 70], inAir(75)),
  'electrical-81': each([10, 12, 16, 25], besideFuse),
  'electrical-82': each([2, 4, 6, 12, 16, 63], besideFuse),
  'electrical-83': each([100, 240], (watts) => word(`CHECK.LIMITED(TRUE(),${watts},100)`)),
  'electrical-84': each([0.5], (area) => word(`CHECK.FUSE(0,9.375,WIRE.AMPACITY(${area},2,30),"other",SUPPLY.AMPS(300,24))`)),
  'electrical-85': each([8, 8.01], (amps) => word(`CHECK.FUSE(10,${amps},20,"other")`)),
  'electrical-86': each([1, 1.25, 1.5, 2.5, 4], cord),
};
