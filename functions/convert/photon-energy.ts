import { calc, define } from '../define.ts';

/** Energy of photons in J·nm/µmol: h·c·N_A with the exact constants of the SI, 2019. */
export const JOULE_NM_PER_UMOL = 119.62656;

export const PHOTON_ENERGY = define({
  name: 'PHOTON.ENERGY',
  family: 'Conversions and spectrum',
  summary: 'Energy of photons of one wavelength.',
  use: 'Its inverse is the most photons that a joule can be. For a spectrum, weigh by photons.',
  formula: '119.62656 / wavelength in nm',
  params: [{ name: 'wavelength', quantity: 'wavelength', unit: 'nm', meaning: 'of light in air or vacuum alike', atLeast: 100, atMost: 3000 }],
  returns: { quantity: 'energy per light', unit: 'J/µmol' },
  source: 'h·c·N_A/λ with the exact constants of BIPM, The International System of Units, 9th ed. 2019, table 1; NIST CODATA 2018',
  examples: [{ formula: 'PHOTON.ENERGY(660)', gives: 0.18125237, within: 1e-7 }],
  work: ([nm], show) => {
    const value = JOULE_NM_PER_UMOL / nm;
    show?.expression('h·c·N_A over the wavelength', calc`119.62656 / ${nm}`, value, 'J/µmol');
    return value;
  },
});
