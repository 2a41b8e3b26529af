/** What amounts and counts in a client's text belong to, by the noun beside them. */

export type Owner = 'bench' | 'shelf' | 'tray' | 'pot' | 'room' | 'lamp' | 'plant' | 'circuit' | 'rack' | 'other' | 'none';

/** One line a kind of thing; patterns of whole words. */
export const WORDS: Readonly<Record<Exclude<Owner, 'none'>, string>> = {
  bench: 'benches|bench|tables?|beds?|bays?|staging|troughs?|propagators?|canopy',
  shelf:
    'shelf|shelves|shelving|tiers?|levels?|layers?|floors(?! of)|decks?|bookcase|bookshel(?:f|ves)|window ?sills?|ledges?|(?<!(?:our|the|your|fuse|distribution|consumer|switch) )boards?(?= (?:over|above|under|on|in the|by)|,)|boards',
  rack: 'racks?|trolleys?|carts?|units(?= of shel)|stands?(?= (?:with|of)|,)|dannies',
  tray: 'trays?|flats?|cell packs?|1020s?|boxes|punnets?|modules?',
  pot: 'pots?(?! chrys| mums| plants| roses)|tubs?|gutters?(?= system)|cells?',
  room: "(?<!(?:is|was|head|much|enough|more|some) )rooms?(?:'s)?(?! (?:for|to|of|between|above|over))|houses?|glass ?houses?|green ?houses?|poly ?tunnels?|tunnels?|garage|cellar|basement|shed|container|workshop|building|tent|cupboard|closet|attic|barn|warehouse|loft",
  lamp: 'fittings?|watters|(?<!to |of |daily |day|sun|natural )lights?(?! on| go| off| are on| a day| per day|ing)|lamps?|fixtures?|luminaires?|leds?|strips?|bars?|tubes?|panels?|bulbs?|sodiums?|hps|halides?|fluorescents?|t5s?|t8s?|battens?|spots?|pucks?|drivers?|ballasts?|ones(?=,)',
  plant: 'plants?|they(?= (?:grow|get|reach|start|end|shoot|stand))|seedlings?(?! rooms?)|crops?|stems?|vines?|leaves',
  circuit: 'circuits?|ways?(?= free)|breakers?|spurs?',
  other: 'ladders?|windows?|doors?|walls?|vans?|parcels?|packages?|tanks?|fans?|heaters?|pumps?',
};

const OWNERS = Object.keys(WORDS) as Exclude<Owner, 'none'>[];
const NOUNS = new RegExp(`(?<![\\p{L}\\d-])(?:${OWNERS.map((owner) => `(${WORDS[owner]})`).join('|')})(?![\\p{L}])`, 'gu');

export interface Noun {
  readonly owner: Exclude<Owner, 'none'>;
  readonly word: string;
  readonly from: number;
  readonly to: number;
}

export const nouns = (text: string): readonly Noun[] =>
  Array.from(text.matchAll(NOUNS), (hit) => ({
    owner: OWNERS[hit.findIndex((part, i) => i > 0 && part !== undefined) - 1] ?? 'other',
    word: hit[0],
    from: hit.index,
    to: hit.index + hit[0].length,
  }));

/** The nouns of a stretch, by halving: a long text has many. */
export function nounsIn(all: readonly Noun[], from: number, to: number): readonly Noun[] {
  let [low, high] = [0, all.length];
  while (low < high) {
    const mid = (low + high) >> 1;
    if ((all[mid]?.from ?? 0) < from) low = mid + 1;
    else high = mid;
  }
  const found: Noun[] = [];
  for (let i = low; i < all.length && (all[i]?.from ?? 0) < to; i++) found.push(all[i] as Noun);
  return found;
}
