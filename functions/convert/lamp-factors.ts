import { LAMP_FACTORS, type LampFactor } from '../data/lamp-factors.ts';
import { calc, define, isRefusal, type Refusal, refuse } from '../define.ts';
import { likest } from '../nearest.ts';

const LAMP = { name: 'lamp', quantity: 'kind of lamp', unit: 'text', meaning: LAMP_FACTORS.map(({ lamp }) => `“${lamp}”`).join(', ') } as const;
const END = {
  name: 'end',
  quantity: 'which of the kind',
  unit: 'text',
  meaning: '“usual”, or the “low” or “high” end of what such lamps have; “usual” unless said',
  optional: true,
  fallback: 'usual',
  oneOf: ['usual', 'low', 'high'],
} as const;
const SOURCE =
  'R. W. Thimijan and R. D. Heins, HortScience 18(6):818-822, 1983, table 3 (from memory); white LEDs: common practice, no published source; low and high: CIE 015:2018, Colorimetry, illuminants LED-B1 to LED-V2, FL3 to FL12 and HP1, else from memory';

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
  summary: 'Lux per PPFD of a kind of lamp: usual, lowest or highest.',
  use: 'A start where no reading of both meters is at hand: LUX.FACTOR is better. Lamps of one kind differ from make to make: with “low” and “high” a lux reading becomes the span in which the PPFD lies, the high factor giving its low end.',
  formula: 'from a table',
  params: [LAMP, END],
  returns: { quantity: 'lux per PPFD', unit: 'lx per µmol/m²/s' },
  source: SOURCE,
  examples: [
    { formula: 'LAMP.LUX("sunlight")', gives: 54 },
    { formula: 'LAMP.LUX("warm white LED","high")', gives: 75 },
  ],
  work: ([asked, end], show) => {
    const lamp = lampOf('LAMP.LUX', asked);
    if (isRefusal(lamp)) return lamp;
    if (end !== 'usual') {
      const value = lamp.spread[end === 'low' ? 0 : 1];
      show?.expression(`${lamp.lamp}, ${end} end: ${lamp.apart}`, calc`${value}`, value, 'lx per µmol/m²/s');
      return value;
    }
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
