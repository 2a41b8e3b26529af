import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { JOULE_NM_PER_UMOL } from './photon-energy.ts';

/** Above it no fixture on sale is known to us; common practice, no published source. */
const ASK_ABOVE = 3.9;

export const EFFICACY = define({
  name: 'EFFICACY',
  family: 'Conversions and spectrum',
  summary: 'Light for each joule of electricity: how much a fixture makes of its power.',
  use: 'With the supply’s efficiency it counts from the mains. PPF counts 400–700 nm: a sheet that counts further must be asked about.',
  formula: 'ppf / watts · supply efficiency',
  params: [
    { name: 'ppf', quantity: 'output of one fixture', unit: 'µmol/s', meaning: 'initial, undimmed, 400–700 nm', atLeast: 0, atMost: 1e6 },
    { name: 'watts', quantity: 'power', unit: 'W', meaning: 'of the fixture, at the supply’s output', above: 0, atMost: 1e6 },
    {
      name: 'supply efficiency',
      quantity: 'efficiency of the supply',
      unit: '1',
      meaning: '1 unless said',
      optional: true,
      fallback: 1,
      atLeast: 0.05,
      atMost: 1,
    },
    {
      name: 'wavelength',
      quantity: 'wavelength',
      unit: 'nm',
      meaning: 'of the reddest light that it gives in strength; 660 nm unless said',
      optional: true,
      fallback: 660,
      atLeast: 400,
      atMost: 700,
    },
  ],
  returns: { quantity: 'efficacy', unit: 'µmol/J' },
  source:
    'By definition: photons over energy (ANSI/ASABE S640, 2017, photosynthetic photon efficacy, cited from memory); the most that energy allows: wavelength / 119.62656',
  examples: [{ formula: 'EFFICACY(156,60,0.9)', gives: 2.34 }],
  work: ([ppf, watts, supply, wavelength], show) => {
    const own = ppf / watts;
    const most = wavelength / JOULE_NM_PER_UMOL;
    if (own > most) {
      return refuse(
        `EFFICACY: ${say(own)} µmol/J is more photons than energy allows: at ${say(wavelength)} nm a joule is at most ${say(most)} µmol. Check PPF and watts.`,
      );
    }
    const value = own * supply;
    if (show) {
      show.expression('most that energy allows', calc`${wavelength} / 119.62656`, most, 'µmol/J');
      show.expression('light over electricity', calc`${ppf} / ${watts} * ${supply}`, value, 'µmol/J');
      if (own > ASK_ABOVE) show.note(`Above ${ASK_ABOVE} µmol/J: ask whether the sheet counts beyond 400–700 nm, or dims.`);
    }
    return value;
  },
});
