import type { Checks } from '../outside.ts';

const perJoule = (nm: number) => ({ formula: `1/PHOTON.ENERGY(${nm})`, in: 'µmol/J' });
const fromLux = (lamp: string) => ({ formula: `LUX.TO.PPFD(10000,LAMP.LUX("${lamp}"))`, in: 'µmol/m²/s' });
const fromWatts = (lamp: string) => ({ formula: `PPFD.FROM.WATTS(100,LAMP.PHOTONS("${lamp}"))`, in: 'µmol/m²/s' });
const perMol = (ppf: number) => ({ formula: `1/EFFICACY(${ppf},100)`, in: 'kWh/mol' });

/** Lux of one watt a square metre of one wavelength, by the eye's sensitivity there that the case gives, over its photons. */
const eye = (nm: number, sensitivity: number) => ({
  formula: `LUX.FACTOR(UNIT(683*${sensitivity},"lx"),PPFD.FROM.WATTS(UNIT(1,"W/m²"),1/PHOTON.ENERGY(${nm})))`,
  in: 'lx per µmol/m²/s',
});

/** Wavelengths from 400 to 700 nm every 10 nm, and the weights of Simpson's rule. */
const NM = Array.from({ length: 31 }, (_, i) => 400 + 10 * i);
const SIMPSON = NM.map((_, i) => (i === 0 || i === 30 ? 1 : i % 2 === 1 ? 4 : 2));
const row = (numbers: readonly number[]): string => `{${numbers.join(',')}}`;
/** h·c/k in nm·K. */
const SECOND_RADIATION_CONSTANT = 14387768.775;

/** Three tenths of the integral of Planck's spectrum with that power of the wavelength. */
const planckSum = (kelvin: number, power: number): string =>
  `SUMPRODUCT(${row(SIMPSON)}*${row(NM)}^-${power}/(EXP(${SECOND_RADIATION_CONSTANT / kelvin}/${row(NM)})-1))`;

/** Photons over photons by their wavelength is the wavelength whose photons have the mean energy. */
const planck = (kelvin: number) => ({ formula: `1/PHOTON.ENERGY(UNIT(${planckSum(kelvin, 4)}/${planckSum(kelvin, 5)},"nm"))`, in: 'µmol/J' });

/**
 * The eye's sensitivity V(λ) from 380 to 780 nm every 10 nm: CIE 018:2019, The Basis of Physical Photometry, the same as ȳ of the 1931 observer.
 * To 700 nm read in transcriptions of that table, beyond it from memory.
 */
const EYE =
  '{0.000039,0.00012,0.000396,0.00121,0.004,0.0116,0.023,0.038,0.06,0.09098,0.13902,0.20802,0.323,0.503,0.71,0.862,0.954,0.99495,0.995,0.952,' +
  '0.87,0.757,0.631,0.503,0.381,0.265,0.175,0.107,0.061,0.032,0.017,0.00821,0.004102,0.002091,0.001047,0.00052,0.000249,0.00012,0.00006,0.00003,0.000015}';
const EYE_NM = row(Array.from({ length: 41 }, (_, i) => 380 + 10 * i));

/** Lux over photons of a glowing body, for each watt a square metre from 400 to 700 nm. */
const glow = (kelvin: number) => {
  const photons = planck(kelvin);
  const seen = `SUMPRODUCT(${EYE}*${EYE_NM}^-5/(EXP(${SECOND_RADIATION_CONSTANT / kelvin}/${EYE_NM})-1))`;
  const sent = planckSum(kelvin, 5);
  return { formula: `LUX.FACTOR(UNIT(683*3*${seen}/${sent},"lx"),PPFD.FROM.WATTS(UNIT(1,"W/m²"),${photons.formula}))`, in: 'lx per µmol/m²/s' };
};

export const checks: Checks = {
  'photon-01': perJoule(400),
  'photon-02': perJoule(450),
  'photon-03': perJoule(550),
  'photon-04': perJoule(555),
  'photon-05': perJoule(660),
  'photon-08': { formula: 'PHOTON.ENERGY(660)', in: 'J/µmol' },
  'photon-09': { formula: 'EFFICACY(250,100)*PHOTON.ENERGY(660)' },
  'photon-10': { formula: 'EFFICACY(250,100,1,450)*PHOTON.ENERGY(450)' },
  'photon-11': { formula: 'EFFICACY(560,100,1,660)', refused: '5.51717' },
  'photon-12': eye(450, 0.038),
  'photon-14': eye(555, 1),
  'photon-15': eye(660, 0.061),
  'photon-17': planck(2856),
  'photon-18': glow(3000),
  'photon-19': planck(3000),
  'photon-20': glow(5500),
  'photon-22': glow(5778),
  'photon-23': planck(5778),
  'photon-24': glow(6500),
  'photon-25': planck(6500),
  'photon-26': [fromLux('sunlight'), { formula: 'UNIT(10000,"lx")/LUX.FACTOR(PPFD.TO.LUX(100,54),100)', in: 'µmol/m²/s' }],
  'photon-28': fromLux('plant-growth fluorescent'),
  'photon-29': fromLux('high-pressure sodium'),
  'photon-30': fromLux('metal halide'),
  'photon-31': fromLux('low-pressure sodium'),
  'photon-32': fromLux('incandescent'),
  'photon-33': fromWatts('sunlight'),
  'photon-34': fromWatts('cool white fluorescent'),
  'photon-35': fromWatts('high-pressure sodium'),
  'photon-36': fromWatts('metal halide'),
  'photon-39': { formula: 'CONVERT(1000,"fc","lx")' },
  'photon-41': perMol(170),
  'photon-42': perMol(166),
  'photon-43': perMol(102),
  'photon-44': perMol(146),
};
