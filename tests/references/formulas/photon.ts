import type { Checks } from '../outside.ts';

const perJoule = (nm: number) => ({ formula: `1/PHOTON.ENERGY(${nm})`, in: 'µmol/J' });
const fromLux = (lamp: string) => ({ formula: `LUX.TO.PPFD(10000,LAMP.LUX("${lamp}"))`, in: 'µmol/m²/s' });
const fromWatts = (lamp: string) => ({ formula: `PPFD.FROM.WATTS(100,LAMP.PHOTONS("${lamp}"))`, in: 'µmol/m²/s' });
const perMol = (ppf: number) => ({ formula: `1/EFFICACY(${ppf},100)`, in: 'kWh/mol' });

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
