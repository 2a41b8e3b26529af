/** Lengths that are said side by side: `3 ft by 14 in`, `8 m and 4 m`, `36 W x 18 D`. */
import type { Meaning } from './rules.ts';
import { LENT, ROOM, type Said, SIDES, type Sided, TWO } from './things.ts';

/** Rooms whose size is often that of what grows there. A garage or a workshop stands around more than a bench. */
const FULL_OF_BENCHES = /room|house|tent|container/u;

/** Lengths said side by side, of which nothing says which is which: the longer is the length. Undefined where it is not so. */
export function sidesFrom(
  all: readonly Sided[],
  start: number,
  text: string,
  inFeet: boolean,
): { readonly said: readonly Said[]; readonly rest: readonly Said[]; readonly used: number } | undefined {
  const first = all[start] as Sided;
  const group = [first];
  for (let i = start + 1; i < all.length && group.length < 3; i++) {
    const [next, last] = [all[i] as Sided, group.at(-1) as Sided];
    const joined = first.amount.size !== undefined && next.amount.size === first.amount.size;
    const listed =
      first.amount.size === undefined &&
      next.amount.size === undefined &&
      next.amount.quantity === 'length' &&
      last.judged?.unsided === true &&
      next.judged?.unsided === true &&
      next.sentence === last.sentence &&
      /^ ?(?:and|,|plus) ?$/u.test(text.slice(last.amount.to, next.amount.from));
    if (!joined && !listed) break;
    group.push(next);
  }
  if (group.length < 2) return undefined;
  const [from, to] = [first.amount.from, (group.at(-1) as Sided).amount.to];
  const noun = (group.at(-1) as Sided).noun ?? first.noun;
  const owner = noun?.owner ?? 'none';
  const unitless = group.every(({ amount }) => amount.quantity === 'plain');
  const bare = group.map(({ amount }) => amount.values[0] ?? 0);
  const [millimetres, metres] = [unitless && inMillimetres(bare), unitless && !inFeet && inMetres(bare)];
  const feet = unitless && inFeet && !millimetres;
  const scale = millimetres ? 0.001 : feet ? 0.3048 : undefined;
  const values = group.map(({ amount }) => (scale === undefined ? (amount.values[0] ?? 0) : Number(((amount.values[0] ?? 0) * scale).toPrecision(12))));
  const asRest = (): readonly Said[] =>
    group.flatMap(({ amount }): Said[] =>
      amount.quantity === 'plain' ? [] : [{ means: 'other', value: amount.values[0] ?? 0, unit: amount.unit, from: amount.from, to: amount.to }],
    );
  if (unitless && !millimetres && !metres && (!feet || values.some((value) => value > 12))) return { said: [], rest: asRest(), used: group.length };
  const lettered = group.map(({ amount }, n) => LETTER.exec(text.slice(amount.to, group[n + 1]?.amount.from ?? amount.to + 12))?.[1]?.charAt(0));
  if (!unitless && owner !== 'tray' && owner !== 'lamp' && lettered.slice(0, 2).every(Boolean)) {
    const by = (letter: string): number | undefined => values[lettered.indexOf(letter)];
    const [length, width] = by('l') === undefined ? [by('w'), by('d')] : [by('l'), by('w') ?? by('d')];
    if (length !== undefined && width !== undefined) {
      const told = (means: Meaning, value: number): Said => ({ means, value, unit: 'm', from, to, ...(owner === 'room' ? { ask: ROOM } : {}) });
      return { said: [told('length', length), told('width', width)], rest: [], used: group.length };
    }
  }
  // Each side says itself which it is, or what they measure is nothing that is asked for.
  if (!unitless && group.every(({ judged }) => judged && !judged.unsided && judged.means !== 'other')) return undefined;
  if (group.some(({ judged }) => judged?.means === 'other') || owner === 'lamp' || (owner === 'room' && !FULL_OF_BENCHES.test(noun?.word ?? '')))
    return { said: [], rest: asRest(), used: group.length };
  const sides = values.slice(0, 2);
  const tray = owner === 'tray' || group.some(({ judged }) => judged?.means === 'tray length' || judged?.means === 'tray width');
  const ask = unitless ? LENT : owner === 'room' ? ROOM : SIDES;
  const doubtful = group.some(({ amount }) => amount.values.length > 1) ? TWO : ask;
  const made = (means: Meaning, value: number): Said => ({ means, value, unit: 'm', from, to, ask: doubtful });
  return {
    said: [made(tray ? 'tray length' : 'length', Math.max(...sides)), made(tray ? 'tray width' : 'width', Math.min(...sides))],
    rest: [],
    used: group.length,
  };
}

/** `1200 x 600`: sizes of that many are drawn in millimetres. */
const inMillimetres = (values: readonly number[]): boolean => values.every((value) => value >= 200 && value <= 20_000 && value % 5 === 0);
/** `2,50 x 0,80`. */
const inMetres = (values: readonly number[]): boolean => values.some((value) => value % 1 !== 0) && values.every((value) => value >= 0.2 && value <= 60);

/** `36 W x 18 D`. */
const LETTER = /^ ?\(?(long|length|wide|width|deep|depth|high|height|tall|[lwdh](?!\p{L}))/u;
