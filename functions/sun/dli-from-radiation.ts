import { calc, define } from '../define.ts';
import { MOL_PER_MJ_PARAM, MOL_PER_MJ_SOURCE } from './params.ts';

export const dliFromRadiation = (radiation: number, molPerMj: number): number => radiation * molPerMj;

export const DLI_FROM_RADIATION = define({
  name: 'DLI.FROM.RADIATION',
  family: 'Sun and greenhouse',
  summary: 'Light per day from the radiation that weather services give.',
  use: 'For global radiation of a day on a level plane. Published factors differ by five in a hundred: 1.96 to 2.06 mol/MJ.',
  formula: 'radiation · mol per MJ',
  params: [{ name: 'radiation', quantity: 'daily radiation', unit: 'MJ/m²/d', meaning: 'global, on a level plane', atLeast: 0, atMost: 100 }, MOL_PER_MJ_PARAM],
  returns: { quantity: 'light per day (DLI)', unit: 'mol/m²/d' },
  source: `${MOL_PER_MJ_SOURCE}; the low factor, 7.058/3.6: Logan, Sams and Faust, 2016`,
  examples: [{ formula: 'DLI.FROM.RADIATION(20)', gives: 41.13 }],
  work: ([radiation, molPerMj], show) => {
    const value = dliFromRadiation(radiation, molPerMj);
    show?.expression('radiation as light', calc`${radiation} * ${molPerMj}`, value, 'mol/m²/d');
    return value;
  },
});
