import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { CODES, WATTS } from './params.ts';

/** Rating of a supply at an ambient temperature: full up to `from`, then falling by `slope` of itself for each kelvin. */
export const supplyDerated = (rating: number, ambient: number, from: number, slope: number): number => rating * (1 - slope * Math.max(0, ambient - from));

export const SUPPLY_DERATED = define({
  name: 'SUPPLY.DERATED',
  family: 'Supply, cable, breaker, support',
  summary: 'What a supply may give in a warm place.',
  use: 'With the corner and slope of the maker’s derating curve; many curves also fall at low mains voltage, which is not calculated here.',
  formula: 'rating · (1 − slope · max(0, ambient − from))',
  params: [
    { ...WATTS, name: 'rating', quantity: 'power rating', meaning: 'of the supply, in the cool' },
    { name: 'ambient', quantity: 'air temperature', unit: '°C', meaning: 'around the supply', atLeast: -60, atMost: 150 },
    { name: 'from', quantity: 'air temperature', unit: '°C', meaning: 'from which the rating falls', atLeast: -60, atMost: 150 },
    { name: 'slope', quantity: 'share lost for each kelvin', unit: '/K', meaning: '0.025 for 2.5 in a hundred', atLeast: 0, atMost: 1 },
  ],
  returns: { quantity: 'power rating', unit: 'W' },
  source: 'Straight-line derating as makers’ sheets draw it: common practice, no published source',
  caution: CODES,
  examples: [{ formula: 'SUPPLY.DERATED(300,55,45,0.025)', gives: 225 }],
  work: ([rating, ambient, from, slope], show) => {
    const value = supplyDerated(rating, ambient, from, slope);
    if (value <= 0) {
      return refuse(`SUPPLY.DERATED: at ${say(ambient)} °C nothing is left of the rating; by this slope it ends at ${say(from + 1 / slope)} °C.`);
    }
    show?.expression('rating less what the heat takes', calc`${rating} * (1 - ${slope} * max(0, ${ambient} - ${from}))`, value, 'W');
    return value;
  },
});
