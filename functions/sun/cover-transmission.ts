import { calc, define, refuse } from '../define.ts';
import { SHARE } from './params.ts';

export const COVER_TRANSMISSION = define({
  name: 'COVER.TRANSMISSION',
  family: 'Sun and greenhouse',
  summary: 'Share of the sun’s light that gets through a house’s cover.',
  use: 'From a sheet’s figures, for light from all sides. Two simultaneous readings say more: COVER.TRANSMISSION.MEASURED.',
  formula: 'cover · frame · dirt',
  params: [
    { ...SHARE, name: 'cover', quantity: 'transmission of the cover', meaning: 'for diffuse light, new' },
    { ...SHARE, name: 'frame', quantity: 'share that the frame lets through', meaning: 'gutters, purlins and wires' },
    { ...SHARE, name: 'dirt', quantity: 'share that dirt lets through', meaning: 'and condensation' },
  ],
  returns: { quantity: 'transmission', unit: '1' },
  source: 'Product of shares that act one after the other: common practice, no published source',
  examples: [{ formula: 'COVER.TRANSMISSION(0.8,0.85,0.92)', gives: 0.6256 }],
  work: ([cover, frame, dirt], show) => {
    const value = cover * frame * dirt;
    show?.expression('one after the other', calc`${cover} * ${frame} * ${dirt}`, value, '1');
    return value;
  },
});

const READING = { unit: 'any' } as const;

export const COVER_TRANSMISSION_MEASURED = define({
  name: 'COVER.TRANSMISSION.MEASURED',
  family: 'Sun and greenhouse',
  summary: 'Share of the sun’s light that gets through a house’s cover, from readings inside and outside.',
  use: 'Best under an overcast sky, with several readings inside at plant height, taken at the same time as outside and with the lamps off.',
  formula: 'inside / outside',
  params: [
    { ...READING, name: 'inside', quantity: 'reading inside', meaning: 'PPFD or lux, the mean of several' },
    { ...READING, name: 'outside', quantity: 'reading outside', meaning: 'at the same time, with the same meter' },
  ],
  returns: { quantity: 'transmission', unit: '1' },
  source: 'By definition: inside over outside',
  unchecked: 'A quotient of two readings; there is no table to compare with.',
  examples: [{ formula: 'COVER.TRANSMISSION.MEASURED(300,480)', gives: 0.625 }],
  work: ([inside, outside], show) => {
    if (typeof inside !== 'number' || typeof outside !== 'number') return refuse('COVER.TRANSMISSION.MEASURED: both readings must be numbers.');
    if (outside <= 0 || inside < 0) return refuse('COVER.TRANSMISSION.MEASURED: the reading outside must be above 0 and the one inside 0 or more.');
    const value = inside / outside;
    if (value > 1)
      return refuse('COVER.TRANSMISSION.MEASURED: the reading inside is above the one outside. Switch the lamps off and read both again at the same time.');
    show?.expression('inside over outside', calc`${inside} / ${outside}`, value, '1');
    return value;
  },
});
