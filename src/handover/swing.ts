/**
 * How far each given moves the plan's two results: one given at a time is made a tenth more, a whole plain number one more, and the others stay.
 * Where that is not allowed or gives no result, it is made as much less. The engine goes through each change and back within one question, so that
 * whoever asks it next finds the book as it is.
 */
import { readContent } from '../../functions/quantity-text.ts';
import { unit } from '../../functions/units.ts';
import { apply } from '../book/apply.ts';
import { setCell } from '../book/commands/set-cell.ts';
import { invert } from '../book/invert.ts';
import { isRefused } from '../book/refused.ts';
import type { Address, Engine, Values } from '../engine/types.ts';
import type { Found, Reader } from './reader.ts';

export interface Swing {
  /** "a tenth more", "one less". */
  readonly step: string;
  /** By how much of itself each result changes, in the order of `moved`. */
  readonly shares: readonly number[];
}

/** The results whose change is told: the light that is kept, and what a year costs. */
export const moved = (reader: Reader): readonly Found[] =>
  [reader.first(['dli', 'dli_mean', 'kept', 'day_one']), reader.first(['annual', 'run', 'energy'])].filter(
    (found) => found?.value.kind === 'number',
  ) as Found[];

/** The largest of its shares. */
export const reach = (swing: Swing | undefined): number => Math.max(0, ...(swing?.shares.map(Math.abs) ?? []));

export async function swings(
  reader: Reader,
  givens: readonly Found[],
  ask: <T>(question: (engine: Engine) => Promise<T>) => Promise<T>,
): Promise<ReadonlyMap<Address, Swing>> {
  const results = moved(reader);
  const found = new Map<Address, Swing>();
  if (results.length === 0) return found;
  for (const given of givens) {
    for (const { step, content } of steps(given)) {
      const answer = setCell(reader.book, { address: given.address, content });
      if (isRefused(answer)) continue;
      const fresh = await ask(async (engine) => {
        const values = await engine.apply([answer], apply(reader.book, answer));
        await engine.apply([invert(answer)], reader.book);
        return values;
      });
      const shares = results.map((result) => share(result, fresh));
      if (shares.some((one) => one === undefined)) continue;
      found.set(given.address, { step, shares: shares as number[] });
      break;
    }
  }
  return found;
}

/** What a given is made for the trial, in the order in which it is tried. Text, yes or no, and readings of temperature have no tenth. */
function steps({ at }: Found): readonly { readonly step: string; readonly content: string }[] {
  const content = readContent(at.cell?.content ?? '');
  if (content.kind !== 'number' || content.given === 0 || unit(content.unit)?.reading) return [];
  const written = (value: number): string => `${Number(value.toPrecision(15))}${content.unit === '' ? '' : ` ${content.unit}`}`;
  const { given } = content;
  if (content.unit === '' && Number.isInteger(given))
    return [
      { step: 'one more', content: written(given + 1) },
      { step: 'one less', content: written(given - 1) },
    ];
  return [
    { step: 'a tenth more', content: written(given * 1.1) },
    { step: 'a tenth less', content: written(given * 0.9) },
  ];
}

/** What does not come back from the engine is what it was. */
function share(result: Found, fresh: Values): number | undefined {
  const after = fresh[result.address];
  if (result.value.kind !== 'number' || result.value.base === 0) return undefined;
  if (after === undefined) return 0;
  return after.kind === 'number' ? after.base / result.value.base - 1 : undefined;
}
