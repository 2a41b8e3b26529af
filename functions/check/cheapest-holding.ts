import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { verdictWord } from './verdict.ts';

export const CHEAPEST_HOLDING = define({
  name: 'CHEAPEST.HOLDING',
  family: 'Check',
  summary: 'Which scenario is the cheapest of those that work.',
  use: 'Gives its place, 1 for the first: INDEX takes its name by it. A scenario that fails, or of which something is unknown, is never ranked. Of equals the first.',
  formula: 'place of the least cost where the verdict is holds or look',
  params: [
    { name: 'verdicts', quantity: 'verdicts', unit: 'text', shape: 'range', meaning: 'one for each scenario, as VERDICT gives them' },
    { name: 'costs', quantity: 'costs', unit: 'any', shape: 'range', meaning: 'one for each scenario, in the same order' },
  ],
  returns: { quantity: 'place', unit: '1' },
  source: 'By definition: the least cost of those that neither fail nor are unknown',
  unchecked: 'It picks by our own texts.',
  examples: [{ formula: 'CHEAPEST.HOLDING({"holds","fails, see Drop","look, see Load"},{900,500,850})', gives: 3 }],
  work: ([verdicts, costs], show) => {
    const texts = verdicts.flat();
    const prices = costs.flat();
    if (texts.length !== prices.length) return refuse(`CHEAPEST.HOLDING: there are ${texts.length} verdicts and ${prices.length} costs; they must be as many.`);
    const ranked: { place: number; price: number }[] = [];
    for (const [i, text] of texts.entries()) {
      const price = prices[i] ?? null;
      if (text === null && price === null) continue;
      const word = text === null ? 'unknown' : verdictWord(text);
      if (!word) return refuse(`CHEAPEST.HOLDING: verdict ${i + 1} is “${String(text).slice(0, 40)}”; it must begin with holds, look, unknown or fails.`);
      if (word === 'fails' || word === 'unknown') {
        show?.note(`scenario ${i + 1} is not ranked: ${word}`);
        continue;
      }
      if (typeof price !== 'number') return refuse(`CHEAPEST.HOLDING: the cost of scenario ${i + 1} is not given, so the cheapest is not known.`);
      ranked.push({ place: i + 1, price });
    }
    const [first, ...rest] = ranked;
    if (!first) return refuse('CHEAPEST.HOLDING: none of the scenarios holds. Mend what fails, or answer what is unknown, first.');
    const best = rest.reduce((a, b) => (b.price < a.price ? b : a), first);
    show?.note(`costs of those that work: ${ranked.map(({ place, price }) => `${place}: ${say(price)}`).join(', ')}`);
    show?.expression('place of the least', calc`${best.place}`, best.place, '1');
    return best.place;
  },
});
