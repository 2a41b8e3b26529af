import { say } from '../check-args.ts';
import { calc, define, isRefusal, refuse } from '../define.ts';
import { standings, VERDICTS } from './ranked.ts';

export const CHEAPEST_HOLDING = define({
  name: 'CHEAPEST.HOLDING',
  family: 'Check',
  summary: 'Which scenario is the cheapest of those that work.',
  use: 'Gives its place, 1 for the first: INDEX takes its name by it. A scenario that fails, or of which something is unknown, is never ranked; one whose verdict or cost can’t be worked out is left out, and the working says why. Of equals the first.',
  formula: 'place of the least cost where the verdict is holds, assumed or close to limit',
  params: [
    VERDICTS,
    {
      name: 'costs',
      quantity: 'costs',
      unit: 'any',
      shape: 'range',
      meaning: 'one for each scenario, in the same order; one that can’t be worked out leaves its scenario out',
      faultsPass: true,
    },
  ],
  returns: { quantity: 'place', unit: '1' },
  source: 'By definition: the least cost of those that neither fail nor are unknown',
  unchecked: 'It picks by our own texts.',
  examples: [{ formula: 'CHEAPEST.HOLDING({"holds","fails 1: Drop","close to limit 1: Load"},{900,500,850})', gives: 3 }],
  work: ([verdicts, costs], show) => {
    const prices = costs.flat();
    const found = standings('CHEAPEST.HOLDING', verdicts);
    if (isRefusal(found)) return found;
    if (found.length !== prices.length) return refuse(`CHEAPEST.HOLDING: there are ${found.length} verdicts and ${prices.length} costs; they must be as many.`);
    const ranked: { place: number; price: number }[] = [];
    const left: string[] = [];
    const unpriced: string[] = [];
    for (const [i, price] of prices.entries()) {
      const one = found[i] ?? null;
      const place = i + 1;
      if (one === null && price === null) continue;
      if (one === null || !one.works) {
        left.push(`scenario ${place} is not ranked: ${one?.why ?? 'unknown'}`);
      } else if (typeof price === 'number') ranked.push({ place, price });
      else {
        const why = isRefusal(price) ? `its cost can’t be worked out: ${price.message}` : price === null ? 'its cost is not given' : 'its cost is no number';
        unpriced.push(`scenario ${place} is left out: ${why}`);
      }
    }
    for (const said of [...left, ...unpriced]) show?.note(said);
    const [first, ...rest] = ranked;
    if (!first) {
      if (unpriced.length > 0) return refuse(`CHEAPEST.HOLDING: no scenario can be compared. ${unpriced.map((said) => `S${said.slice(1)}`).join(' ')}`);
      return refuse('CHEAPEST.HOLDING: none of the scenarios works. Put right what fails, or answer what is unknown, first.');
    }
    const best = rest.reduce((a, b) => (b.price < a.price ? b : a), first);
    show?.note(`costs of those that work: ${ranked.map(({ place, price }) => `${place}: ${say(price)}`).join(', ')}`);
    show?.expression('place of the least', calc`${best.place}`, best.place, '1');
    return best.place;
  },
});
