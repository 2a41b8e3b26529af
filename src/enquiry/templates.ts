/** Which template an enquiry is for, with its reason: a table, a line a sign. The most points count; where two have as many, the one that stands first. */

import type { Meaning } from './rules.ts';
import type { Heard } from './things.ts';

export interface Chosen {
  readonly slug: string;
  /** For whoever reads it: "four shelves and the gap between them". */
  readonly reason: string;
}

interface Sign {
  readonly slug: string;
  readonly points: number;
  readonly reason: string;
  /** Words of the text. */
  readonly words?: RegExp;
  /** Something that was found; with a number at least so large. */
  readonly found?: Meaning;
  readonly least?: number;
  readonly most?: number;
}

// biome-ignore format: a line a sign
const SIGNS: readonly Sign[] = [
  { slug: 'meter-check', points: 7, found: 'readings', least: 1e9, reason: 'readings of a meter' },
  { slug: 'meter-check', points: 4, words: /(?<!\p{L})(?:i|we) (?:have )?(?:measured|took (?:some )?readings)|(?:do|does|check|whether) .{0,30}readings|light meter|quantum (?:meter|sensor)|lux meter|(?<!\p{L})(?:i|we) (?:read|get|got) [\d ,.]+(?:k ?)?(?:lux|lx|foot|fc)|(?:my |the )(?:reading|meter) (?:is|says|shows|gives|reads|has)/u, reason: 'a meter' },
  { slug: 'replace-old-lamps', points: 8, words: /(?:replac|swap|switch(?:ing)? (?:over )?from|must go|get(?:ting)? rid|dying|worn out|retrofit|upgrad|chang(?:e|ing) (?:over|out|from)|take (?:out|down)|convert|i want out|go(?:ing)? led)[^.;\n]{0,80}?(?:sodium|hps|halide|fluorescent|lamps?|tubes|lights?|\d ?w)|(?:sodium|hps|halides?|fluorescents?|tube lamps|old (?:lamps|lights|tubes))[^;]{0,140}?(?:must go|dying|worn|replac|give up|fail|swap|for leds?|to leds?|i want out|found a|go led)/u, reason: 'old lamps to be replaced' },
  { slug: 'replace-old-lamps', points: 4, words: /swap(?:ping)? out|want (?:them|these|those|the \p{L}+) (?:gone|out)/u, reason: 'old lamps that must go' },
  { slug: 'replace-old-lamps', points: 2, found: 'old lamps', reason: 'old lamps that are counted' },
  { slug: 'greenhouse-bench', points: 5, found: 'latitude', reason: 'a latitude' },
  { slug: 'greenhouse-bench', points: 4, words: /green ?house|glass ?house|poly ?tunnel|hoop ?house|propagation house|conservatory|lean-to|orangery|serres?(?!\p{L})|sun ?room|cold frame|(?<!\p{L})glass(?! jar)/u, reason: 'a greenhouse' },
  { slug: 'greenhouse-bench', points: 2, words: /(?<!(?:without|no|any|much|little) )(?:daylight|sunlight)|overcast|cloud(?:ed|y)|(?<!\p{L})sun(?:'s)?(?!\p{L})|natural light|supplement/u, reason: 'sun beside the lamps' },
  { slug: 'germination-and-microgreens', points: 9, words: /micro ?-?greens?|micro ?herbs|(?:pea|broccoli|radish|sunflower) shoots?|(?<!\p{L})cress(?!\p{L})|sprouts?(?!\p{L})/u, reason: 'microgreens' },
  { slug: 'germination-and-microgreens', points: 8, words: /germinat|seedlings? rooms?|seed (?:trays|boxes)|sowing|blackout dome|dark days|humidity domes?|healing (?:chamber|room|tent)|(?<!\p{L})graft/u, reason: 'a room for seedlings' },
  { slug: 'germination-and-microgreens', points: 5, found: 'trays a week', reason: 'trays a week' },
  { slug: 'germination-and-microgreens', points: 2, found: 'trays', reason: 'trays' },
  { slug: 'growing-canopy', points: 7, words: /as they (?:grow|get taller|stretch)|(?:rais|mov)(?:e|ing) (?:up )?(?:the |my |our )?(?:lights?|lamps?)|lift(?:ing)? (?:the |my |our )?(?:lights?|lamps?)|pull(?:ed|ing)? (?:the lights? )?up|lower(?:ed|ing) the lights?|shoot up|(?:(?:grow|end|finish|stretch)(?:s|ing)?|(?:they|plants|will) get) (?:up )?(?:to|at) (?:about )?[\d.,]+ ?(?:m|cm|ft|feet|in|inch)|(?:lights?|lamps?) (?:go|come|move)s? up (?:with|as)|(?:lights?|lamps?)[^.;\n]{0,20}(?:raised|lifted|pulled up)|on (?:ropes|pulleys|winches|hoists)|a day once|yo-?yos|ratchets?/u, reason: 'plants that grow towards their lights' },
  { slug: 'growing-canopy', points: 4, words: /on top (?:as|and)|tops? near the same|over a season|without moving/u, reason: 'light on tops that rise' },
  { slug: 'growing-canopy', points: 4, found: 'first plant height', reason: 'how high the plants begin' },
  { slug: 'growing-canopy', points: 3, found: 'growth', reason: 'how fast the plants grow' },
  { slug: 'rack-of-tiers', points: 4, found: 'shelves', least: 2, reason: 'several shelves' },
  { slug: 'rack-of-tiers', points: 3, found: 'gap', reason: 'the gap between them' },
  { slug: 'rack-of-tiers', points: 2, words: /(?<!\p{L})racks?(?!\p{L})|racking|shelving|tiers?(?!\p{L})/u, reason: 'a rack' },
  { slug: 'single-shelf', points: 5, found: 'shelves', least: 1, most: 1, reason: 'one shelf' },
  { slug: 'single-shelf', points: 5, words: /(?:only|just)[^.;\n]{0,30}(?:the )?(?:\p{L}+ )?one(?! (?:of|thing))/u, reason: 'only one of them' },
  { slug: 'single-shelf', points: 4, words: /(?<!\p{L})(?:shelf|window ?sill|ledge|mantelpiece|bookcase|sideboard|cabinet|one board|board(?= [\d.,]+ ?(?:m|cm|met(?:er|re)s?|ft|feet|foot|in|inch(?:es)?)(?!\p{L})))(?!\p{L})/u, reason: 'a shelf' },
  { slug: 'trade-bench', points: 3, words: /(?<!\p{L})(?:bench(?:es)?|tables?|beds?)(?!\p{L})/u, reason: 'a bench' },
  { slug: 'trade-bench', points: 1, words: /(?:without|no|not) (?:any |much )?(?:daylight|sunlight)/u, reason: 'no daylight' },
  { slug: 'trade-bench', points: 1, words: /^/u, reason: 'nothing that asks for another' },
];

export function choose({ plain, said }: Pick<Heard, 'plain' | 'said'>): Chosen {
  const counts = new Map<string, { points: number; reasons: string[] }>();
  for (const { slug, points, reason, words, found, least = -90, most = 1e9 } of SIGNS) {
    const there = words
      ? words.test(plain)
      : said.some(({ means, value }) => means === found && (typeof value !== 'number' || (value >= least && value <= most)));
    if (!there) continue;
    const so = counts.get(slug) ?? { points: 0, reasons: [] };
    counts.set(slug, { points: so.points + points, reasons: [...so.reasons, reason] });
  }
  const [best] = [...counts].sort((a, b) => b[1].points - a[1].points);
  const [slug, { reasons }] = best ?? ['trade-bench', { reasons: ['nothing that asks for another'] }];
  const told = reasons.length > 1 ? reasons.filter((reason) => reason !== 'nothing that asks for another') : reasons;
  return { slug, reason: told.join(', ') };
}
