import { say } from '../check-args.ts';
import { define, refuse } from '../define.ts';
import { isAbove } from './fuse.ts';
import { CODES } from './params.ts';

/** Whether an output counts as a limited one: by its marking and by what it can give, not by what hangs on it. */
export function checkLimited(marked: boolean | undefined, rating: number | undefined, limit: number | undefined): string {
  if (marked === false) return 'fails, the output is not marked as limited';
  if (rating !== undefined && limit !== undefined && isAbove(rating, limit)) return `fails, an output of ${say(rating)} W is over the limit of ${say(limit)} W`;
  if (marked === undefined) return 'unknown, whether the output is marked as limited is not given';
  if (rating === undefined) return 'unknown, what the output can give is not given';
  if (limit === undefined) return 'unknown, no limit given';
  return `holds, marked as limited, and ${say(rating)} W of at most ${say(limit)} W`;
}

const POWER = { unit: 'W', blankAllowed: true, unknownAllowed: true, above: 0, atMost: 1e7 } as const;
const YES: Readonly<Record<string, boolean>> = { yes: true, no: false };

export const CHECK_LIMITED = define({
  name: 'CHECK.LIMITED',
  family: 'Supply, cable, breaker, support',
  summary: 'Holds or fails: an output of a supply against the limit of a limited circuit.',
  use: 'What makes a circuit limited is the source: its marking, and the rating of the output. A large output with a small load on it is not limited.',
  formula: 'marked as limited, and output rating ≤ limit',
  params: [
    { name: 'marked', quantity: 'marked as limited', unit: 'any', meaning: 'yes or no, as printed on the supply; a blank gives “unknown”', blankAllowed: true },
    { ...POWER, name: 'output rating', quantity: 'power rating', meaning: 'most that one output gives, not the load on it; a blank gives “unknown”' },
    {
      ...POWER,
      name: 'limit',
      quantity: 'limit of a limited circuit',
      meaning: '100 W in the United States up to 30 V; elsewhere as the local code says; a blank gives “unknown”',
    },
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source:
    'NFPA 70 (NEC), 2020 (edition from memory), article 725 and chapter 9, tables 11(A) and (B): the source is listed and marked as limited, its rating at most 100 VA (read in electrical trade press)',
  caution: CODES,
  examples: [
    { formula: 'CHECK.LIMITED(TRUE,96,100)', gives: 'holds, marked as limited, and 96 W of at most 100 W' },
    { formula: 'CHECK.LIMITED("yes",240,100)', gives: 'fails, an output of 240 W is over the limit of 100 W' },
  ],
  work: ([marked, rating, limit], show) => {
    const said = typeof marked === 'string' ? YES[marked.trim().toLowerCase()] : marked;
    if (said !== null && said !== undefined && typeof said !== 'boolean')
      return refuse('CHECK.LIMITED: marked is a number; give yes or no, or leave it blank.');
    if (typeof marked === 'string' && said === undefined && marked !== 'unknown' && marked.trim() !== '')
      return refuse(`CHECK.LIMITED: marked is “${marked.slice(0, 40)}”; give yes or no, or leave it blank.`);
    show?.note('the output is judged, not the load on it');
    return checkLimited(said ?? undefined, typeof rating === 'number' ? rating : undefined, typeof limit === 'number' ? limit : undefined);
  },
});
