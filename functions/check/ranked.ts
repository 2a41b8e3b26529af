/** Which scenarios may be built as they stand: what CHEAPEST.HOLDING and HOLDING.COUNT share. */
import { isRefusal, type MaybeCells, type Refusal, refuse } from '../define.ts';
import { verdictWord } from './verdict.ts';

export const VERDICTS = {
  name: 'verdicts',
  quantity: 'verdicts',
  unit: 'text',
  shape: 'range',
  meaning: 'one for each scenario, as VERDICT gives them; one that can’t be worked out is passed over',
  faultsPass: true,
} as const;

/** A scenario in the order of the range: that it works, or why it can't be said to. */
export type Standing = { readonly place: number; readonly works: true } | { readonly place: number; readonly works: false; readonly why: string };

/** What each of the verdicts says; null where there is none beside a blank, so that the scenario is none. */
export function standings(name: string, verdicts: MaybeCells): readonly (Standing | null)[] | Refusal {
  const made: (Standing | null)[] = [];
  for (const [i, text] of verdicts.flat().entries()) {
    const place = i + 1;
    if (text === null) made.push(null);
    else if (isRefusal(text)) made.push({ place, works: false, why: `its verdict can’t be worked out: ${text.message}` });
    else {
      const word = verdictWord(text);
      if (!word)
        return refuse(`${name}: verdict ${place} is “${String(text).slice(0, 40)}”; it must begin with holds, assumed, close to limit, unknown or fails.`);
      made.push(word === 'fails' || word === 'unknown' ? { place, works: false, why: word } : { place, works: true });
    }
  }
  return made;
}
