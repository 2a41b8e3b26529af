import { LAMP_FACTORS, type LampFactor } from '../data/lamp-factors.ts';
import { calc, define, isRefusal, type Refusal, refuse } from '../define.ts';
import { likest } from '../nearest.ts';

const LAMP = { name: 'lamp', quantity: 'kind of lamp', unit: 'text', meaning: LAMP_FACTORS.map(({ lamp }) => `“${lamp}”`).join(', ') } as const;
const SOURCE = 'R. W. Thimijan and R. D. Heins, HortScience 18(6):818-822, 1983, table 3 (from memory); white LEDs: common practice, no published source';

function lampOf(name: string, asked: string): LampFactor | Refusal {
  const found = LAMP_FACTORS.find(({ lamp }) => lamp.toLowerCase() === asked.trim().toLowerCase());
  const near = likest(
    asked,
    LAMP_FACTORS.map(({ lamp }) => lamp),
  );
  return found ?? refuse(`${name}: there is no lamp “${asked.slice(0, 40)}” in the table. The nearest are ${near.map((n) => `“${n}”`).join(', ')}.`);
}

export const LAMP_LUX = define({
  name: 'LAMP.LUX',
  family: 'Conversions and spectrum',
  summary: 'Usual lux per PPFD of a kind of lamp.',
  use: 'A start where no reading of both meters is at hand: LUX.FACTOR is better. White LEDs differ from make to make, some 60 to 75.',
  formula: 'from a table',
  params: [LAMP],
  returns: { quantity: 'lux per PPFD', unit: 'lx per µmol/m²/s' },
  source: SOURCE,
  examples: [{ formula: 'LAMP.LUX("sunlight")', gives: 54 }],
  work: ([asked], show) => {
    const lamp = lampOf('LAMP.LUX', asked);
    if (isRefusal(lamp)) return lamp;
    show?.expression(`${lamp.lamp}: ${lamp.sure}`, calc`${lamp.lux}`, lamp.lux, 'lx per µmol/m²/s');
    return lamp.lux;
  },
});

export const LAMP_PHOTONS = define({
  name: 'LAMP.PHOTONS',
  family: 'Conversions and spectrum',
  summary: 'Usual photons per joule of radiation, 400–700 nm, of a kind of lamp.',
  use: 'For PPFD.FROM.WATTS. Of the radiation, not of the electric power.',
  formula: 'from a table',
  params: [LAMP],
  returns: { quantity: 'photons per energy', unit: 'µmol/J' },
  source: SOURCE,
  examples: [{ formula: 'LAMP.PHOTONS("sunlight")', gives: 4.57 }],
  work: ([asked], show) => {
    const lamp = lampOf('LAMP.PHOTONS', asked);
    if (isRefusal(lamp)) return lamp;
    if (lamp.photons === undefined) return refuse(`LAMP.PHOTONS: no usual value is known for “${lamp.lamp}”; take it from the sheet’s spectrum.`);
    show?.expression(`${lamp.lamp}: ${lamp.sure}`, calc`${lamp.photons}`, lamp.photons, 'µmol/J');
    return lamp.photons;
  },
});
