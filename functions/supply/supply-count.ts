import { say, sayLeast } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { CODES, downward, upward } from './params.ts';

const COUNT = { unit: '1', atLeast: 1, atMost: 10000, whole: true } as const;
const POWER = { unit: 'W', above: 0, atMost: 1e6 } as const;

/** Fixtures that one supply carries: what its watts allow, and what its ports allow. */
export function carriedBySupply(watts: number, rating: number, share: number, ports: number, portWatts: number) {
  const byWatts = downward((rating * share) / watts);
  const byPorts = ports * downward(portWatts / watts);
  return { byWatts, byPorts, each: Math.min(byWatts, byPorts) };
}

export const SUPPLY_COUNT = define({
  name: 'SUPPLY.COUNT',
  family: 'Supply, cable, breaker, support',
  summary: 'How many supplies a number of fixtures needs.',
  use: 'Watts or ports can bind: both are shown. Every fixture hangs on one port; a port carries as many whole fixtures as its watts allow.',
  formula: 'ceil(fixtures / min(floor(rating · load share / watts), ports · floor(port watts / watts)))',
  params: [
    { ...COUNT, name: 'fixtures', quantity: 'number of fixtures', meaning: 'in all' },
    { ...POWER, name: 'watts each', quantity: 'power of one fixture', meaning: 'at the supply’s output' },
    { ...POWER, name: 'rating', quantity: 'power rating', meaning: 'of one supply, after derating' },
    { name: 'load share', quantity: 'share of the rating to be used', unit: '1', meaning: '0.8 by common practice, no published source', above: 0, atMost: 1 },
    { ...COUNT, name: 'ports', quantity: 'output ports', meaning: 'of one supply' },
    { ...POWER, name: 'port watts', quantity: 'power of one port', meaning: 'most that one port gives' },
  ],
  returns: { quantity: 'number of supplies', unit: '1' },
  source: 'By counting: whole fixtures on whole supplies',
  caution: CODES,
  examples: [
    { formula: 'SUPPLY.COUNT(12,40,300,0.8,4,75)', gives: 3 },
    { formula: 'SUPPLY.COUNT(4,150,480,0.8,3,160)', gives: 2 },
  ],
  work: ([fixtures, watts, rating, share, ports, portWatts], show) => {
    const { byWatts, byPorts, each } = carriedBySupply(watts, rating, share, ports, portWatts);
    if (byPorts < 1)
      return refuse(
        `SUPPLY.COUNT: one fixture of ${say(watts)} W is more than a port’s ${say(portWatts)} W. It takes a port of at least ${sayLeast(watts)} W.`,
      );
    if (byWatts < 1) {
      return refuse(
        `SUPPLY.COUNT: one fixture of ${say(watts)} W is more than ${say(share)} of ${say(rating)} W. It takes a supply of at least ${sayLeast(watts / share)} W.`,
      );
    }
    const value = upward(fixtures / each);
    if (show) {
      show.expression('fixtures that its watts carry', calc`floor(${rating} * ${share} / ${watts} + 1e-9)`, byWatts, '1');
      show.expression('fixtures that its ports carry', calc`${ports} * floor(${portWatts} / ${watts} + 1e-9)`, byPorts, '1');
      show.note(byPorts < byWatts ? 'The ports bind, not the watts.' : byPorts > byWatts ? 'The watts bind, not the ports.' : 'Watts and ports bind alike.');
      show.expression('supplies', calc`ceil(${fixtures} / min(${byWatts}, ${byPorts}))`, value, '1');
    }
    return value;
  },
});
