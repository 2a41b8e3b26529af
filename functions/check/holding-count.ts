import { calc, define, isRefusal } from '../define.ts';
import { standings, VERDICTS } from './ranked.ts';

export const HOLDING_COUNT = define({
  name: 'HOLDING.COUNT',
  family: 'Check',
  summary: 'How many scenarios work: neither fail nor have something unknown.',
  use: 'Before CHEAPEST.HOLDING, which refuses where it is 0. A scenario that is only close to limit works, and so does one that holds on assumptions.',
  formula: 'number of verdicts that are holds, assumed or close to limit',
  params: [VERDICTS],
  returns: { quantity: 'number of scenarios', unit: '1' },
  source: 'By definition',
  unchecked: 'It counts our own texts.',
  examples: [{ formula: 'HOLDING.COUNT({"holds, 1 assumed: Hours","fails 1: Drop","close to limit 1: Load"})', gives: 2 }],
  work: ([verdicts], show) => {
    const found = standings('HOLDING.COUNT', verdicts);
    if (isRefusal(found)) return found;
    for (const one of found) if (one && !one.works) show?.note(`scenario ${one.place} is not counted: ${one.why}`);
    const count = found.filter((one) => one?.works).length;
    show?.expression('scenarios that work', calc`${count}`, count, '1');
    return count;
  },
});
