import { calc, define } from '../define.ts';

export const PPFD_FROM_WATTS = define({
  name: 'PPFD.FROM.WATTS',
  family: 'Conversions and spectrum',
  summary: 'PPFD from radiation between 400 and 700 nm in watts.',
  use: 'For radiation already limited to 400–700 nm. A weather service’s global radiation holds all wavelengths: DLI.FROM.RADIATION.',
  formula: 'radiation · photons per joule',
  params: [
    { name: 'radiation', quantity: 'power per area', unit: 'W/m²', meaning: '400–700 nm', atLeast: 0, atMost: 1e5 },
    { name: 'photons', quantity: 'photons per energy', unit: 'µmol/J', meaning: '4.57 for sunlight; LAMP.PHOTONS gives others', atLeast: 3, atMost: 6 },
  ],
  returns: { quantity: 'light on the leaves (PPFD)', unit: 'µmol/m²/s' },
  source: 'R. W. Thimijan and R. D. Heins, HortScience 18(6):818-822, 1983, table 3 (sunlight read second-hand, others from memory)',
  examples: [{ formula: 'PPFD.FROM.WATTS(100,4.57)', gives: 457 }],
  work: ([radiation, photons], show) => {
    const value = radiation * photons;
    show?.expression('radiation times photons of a joule', calc`${radiation} * ${photons}`, value, 'µmol/m²/s');
    return value;
  },
});
