/** Counts of things: `four wire shelves`, `24 old 600 W lamps`, `12 trays a week`. */
import type { Amount } from './amounts.ts';
import { type Noun, nounsIn, type Owner } from './nouns.ts';
import { numerals } from './numbers.ts';
import type { Meaning } from './rules.ts';
import type { Stretch } from './sentences.ts';
import { type Around, isDoubted, OLD, type Said, SEVERAL } from './things.ts';

export const COUNTED: Partial<Record<Owner, Meaning>> = {
  bench: 'benches',
  shelf: 'shelves',
  rack: 'racks',
  tray: 'trays',
  lamp: 'lights',
  circuit: 'circuits',
};
const STOPS =
  /[.;:!?\n(]| (?:in|on|at|for|the|with|to|per|by|are|is|and|or(?! so )|above|from|under|over|x(?! ?\d)) |(?<!\d) an? |,(?! (?:old|long|used|big))/u;
/** `12 trays a week, want to go to 50`. */
export const GO_TO = /(?:go|get|grow|scale|expand|move)(?:ing)?(?: up)? to (?:about )?$/u;

/** `3 shelves (4 if I put the spare board in)`. */
const OR_SO_MANY = /^ ?[(,] ?(?:or |maybe |perhaps )?(\p{L}+|\d{1,3}) (?:if|when|once|with|counting)(?!\p{L})/u;
/** `two sockets on separate circuits`. */
const SOCKETS = /^ (?:sockets?|outlets?|plugs?) on (?:separate|different|their own|own) $/u;
/** Of `12 old 2x58W battens` each has two tubes. */
export const OF_EACH = /(?<![\d.,])\d{1,4} (?:(?!and |or |with |plus |by |x )\p{L}+ ){0,2}$/u;

const OF_THEM = /^ (?:of (?:them|these|those)|in all|in total|altogether|each)/u;

/** A number before what it counts: `four wire shelves`, `24 old 600 W lamps`, `ten of them`. */
export function countOf(around: Around, amount: Amount, sentence: Stretch): Noun | undefined {
  const { text, nouns: all } = around;
  if (amount.values.length !== 1 || (amount.values[0] ?? 0) % 1 !== 0 || (amount.values[0] ?? 0) > 100_000) return undefined;
  // `from one shelf to the next` counts nothing.
  if (
    amount.inWords &&
    amount.values[0] === 1 &&
    /(?:between|from|of|per|each|every|than|to|on|which) $/u.test(text.slice(Math.max(0, amount.from - 9), amount.from))
  )
    return undefined;
  const inside = nounsIn(all, sentence.from, sentence.to);
  const after = inside.find(({ from }) => from >= amount.to);
  const between = after ? text.slice(amount.to, after.from) : undefined;
  if (/^ ?x ?\d+ ?w/u.test(text.slice(amount.to, amount.to + 9)) && OF_EACH.test(text.slice(Math.max(0, amount.from - 24), amount.from))) return undefined;
  if (
    after &&
    between !== undefined &&
    between.length <= 45 &&
    ((!STOPS.test(`${between} `) && /^[ -]|^x/u.test(between)) || (after.owner === 'circuit' && SOCKETS.test(between)))
  ) {
    // `1020 trays` are trays of that name, and in `4 levels rack` the levels are counted.
    if (after.owner === 'tray' && [1020, 1010].includes(amount.values[0] ?? 0)) return undefined;
    return after;
  }
  const rest = text.slice(amount.to, amount.to + 14);
  const there = /there(?:'s| is| are) (?:only |about )?$/u.test(text.slice(Math.max(0, amount.from - 22), amount.from));
  if (OF_THEM.test(rest) || (there && /^ ?(?:[.,;!?\n]|$)/u.test(rest))) return nounsIn(all, Math.max(0, amount.from - 200), amount.from).at(-1);
  return undefined;
}

export function countSaid(amount: Amount, noun: Noun, means: Meaning, text: string, sentence: Stretch, oldThere: boolean): readonly Said[] {
  const spoken = text.slice(sentence.from, sentence.to);
  const [from, to] = noun.to > amount.from && noun.from - amount.to < 46 ? [amount.from, Math.max(amount.to, noun.to)] : [amount.from, amount.to];
  const after = text.slice(to, to + 24);
  if (means === 'trays' && /^ ?(?:a|per|each|every|\/) ?week/u.test(after)) means = 'trays a week';
  if (means === 'lights' && oldThere && (OLD.test(spoken) || !/led/u.test(text.slice(from, to)))) means = 'old lamps';
  const doubt = isDoubted(text, sentence, from, to);
  const ask = means === 'circuits' ? 'What else hangs on them must be known.' : doubt ? 'The client is not sure.' : undefined;
  const more = OR_SO_MANY.exec(text.slice(to, to + 40));
  const other = more ? numerals(more[1] ?? '', undefined)[0]?.values[0] : undefined;
  if (more && other !== undefined)
    return [
      { means, value: amount.values[0] ?? 0, unit: '', from, to, ask: SEVERAL },
      { means, value: other, unit: '', from: to + more[0].indexOf(more[1] ?? ''), to: to + more[0].length, ask: SEVERAL },
    ];
  return [{ means, value: amount.values[0] ?? 0, unit: '', from, to, ...(ask === undefined ? {} : { ask }) }];
}
