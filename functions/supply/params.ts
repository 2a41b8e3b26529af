/** Parameters and sentences that the electrical functions share. */

export const CODES = 'Calculates sizes only. Local codes and the makers’ data sheets decide; mains work is for a licensed electrician.';

export const WATTS = { name: 'watts', quantity: 'power', unit: 'W', meaning: 'of all the load together', above: 0, atMost: 1e7 } as const;
export const VOLTS = { name: 'volts', quantity: 'voltage', unit: 'V', meaning: 'nominal', atLeast: 1, atMost: 1000 } as const;
export const AMPS = { name: 'amps', quantity: 'current', unit: 'A', meaning: 'of the load', above: 0, atMost: 1e5 } as const;
export const OHMS_PER_KM = {
  name: 'ohms per km',
  quantity: 'resistance of one conductor',
  unit: 'Ω/km',
  meaning: 'as WIRE.OHMS gives it',
  above: 0,
  atMost: 1e5,
} as const;
export const ONE_WAY = {
  name: 'length',
  quantity: 'length of the cable',
  unit: 'm',
  meaning: 'one way; the way back is counted in',
  above: 0,
  atMost: 1e4,
} as const;
export const DROP_SHARE = {
  name: 'share',
  quantity: 'share of the voltage that may be lost',
  unit: '1',
  meaning: '0.03 for three in a hundred',
  above: 0,
  atMost: 0.5,
} as const;
export const CONTINUOUS = {
  name: 'continuous share',
  quantity: 'share of a breaker that a load of three hours or more may use',
  unit: '1',
  meaning: '0.8 in the United States, NFPA 70 (NEC) 210.19(A) and 210.20(A); elsewhere as the local code says',
  optional: true,
  fallback: 0.8,
  above: 0,
  atMost: 1,
} as const;
export const CONDUCTOR_CLASS = {
  name: 'class',
  quantity: 'class of conductor',
  unit: '1',
  meaning: '1 solid, 2 stranded, 5 flexible (IEC 60228); 5 unless said',
  optional: true,
  fallback: 5,
  atLeast: 1,
  atMost: 5,
  whole: true,
} as const;
export const CONDUCTOR_TEMPERATURE = {
  name: 'temperature',
  quantity: 'temperature of the conductor',
  unit: '°C',
  meaning: 'in use; 20 °C unless said, plans commonly take 60 °C',
  optional: true,
  fallback: 20,
  atLeast: -40,
  atMost: 120,
} as const;

/** A fraction that is a whole number but for binary dust is that number: 12 / 0.3 is 40, not 40.00000000000001. */
export const upward = (x: number): number => Math.ceil(x - 1e-9 * Math.max(1, Math.abs(x)));
export const downward = (x: number): number => Math.floor(x + 1e-9 * Math.max(1, Math.abs(x)));
