import { PPFD } from '../day/params.ts';
import { calc, define, refuse } from '../define.ts';
import { LUX, LUX_PER_PPFD, LUX_SOURCE, ONE_SPECTRUM } from './lux-params.ts';

export const LUX_TO_PPFD = define({
  name: 'LUX.TO.PPFD',
  family: 'Conversions and spectrum',
  summary: 'PPFD from a lux reading.',
  use: ONE_SPECTRUM,
  formula: 'lux / lux factor',
  params: [LUX, LUX_PER_PPFD],
  returns: { quantity: 'light on the leaves (PPFD)', unit: 'µmol/m²/s' },
  source: LUX_SOURCE,
  examples: [{ formula: 'LUX.TO.PPFD(10800,54)', gives: 200 }],
  work: ([lux, factor], show) => {
    const value = lux / factor;
    show?.expression('lux over the factor', calc`${lux} / ${factor}`, value, 'µmol/m²/s');
    show?.note(ONE_SPECTRUM);
    return value;
  },
});

export const PPFD_TO_LUX = define({
  name: 'PPFD.TO.LUX',
  family: 'Conversions and spectrum',
  summary: 'What a lux meter reads at a PPFD.',
  use: ONE_SPECTRUM,
  formula: 'ppfd · lux factor',
  params: [PPFD, LUX_PER_PPFD],
  returns: { quantity: 'illuminance', unit: 'lx' },
  source: LUX_SOURCE,
  examples: [{ formula: 'PPFD.TO.LUX(200,54)', gives: 10800 }],
  work: ([ppfd, factor], show) => {
    const value = ppfd * factor;
    show?.expression('PPFD times the factor', calc`${ppfd} * ${factor}`, value, 'lx');
    show?.note(ONE_SPECTRUM);
    return value;
  },
});

export const LUX_FACTOR = define({
  name: 'LUX.FACTOR',
  family: 'Conversions and spectrum',
  summary: 'Lux per PPFD of a lamp, from one reading with each meter.',
  use: `To make a lux meter serve for one kind of lamp: read both once at the same spot. ${ONE_SPECTRUM}`,
  formula: 'lux / ppfd',
  params: [LUX, { ...PPFD, atLeast: 0.001, meaning: 'at the same spot' }],
  returns: { quantity: 'lux per PPFD', unit: 'lx per µmol/m²/s' },
  source: 'By definition: lux over PPFD; at most 683 lm/W over the photons of a joule at 555 nm, 147 lx per µmol/m²/s',
  examples: [{ formula: 'LUX.FACTOR(10800,200)', gives: 54 }],
  work: ([lux, ppfd], show) => {
    const value = lux / ppfd;
    // 683 lm/W at 555 nm, where a joule is 4.639 µmol: no light has more.
    if (value > 147.3)
      return refuse(
        `LUX.FACTOR: ${Number(value.toPrecision(4))} lx per µmol/m²/s is more than any light has (147, pure green of 555 nm). Check both readings.`,
      );
    show?.expression('lux over PPFD', calc`${lux} / ${ppfd}`, value, 'lx per µmol/m²/s');
    return value;
  },
});
