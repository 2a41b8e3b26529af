/** Working back asked as a page asks it: of an engine that has the book. */
import { createEngine } from '../../../src/engine/engine.ts';
import type { AskedBack, Tried, Value, WayBack, WorkedBack } from '../../../src/engine/types.ts';
import { book, table } from '../helpers.ts';

type Rows = Parameters<typeof table>[1];

/** Of a table T. */
export async function askBack(rows: Rows, asked: AskedBack, about: Parameters<typeof table>[2] = []): Promise<WorkedBack> {
  const engine = createEngine();
  try {
    await engine.load(book([table('T', rows, about)]));
    return await engine.back(asked);
  } finally {
    engine.close();
  }
}

export function waysOf(worked: WorkedBack): readonly WayBack[] {
  if (!worked.ok) throw new Error(worked.message);
  return worked.ways;
}

/** The values of the given that are exact answers, in base units. */
export const exactOf = (worked: WorkedBack): readonly number[] => waysOf(worked).map((way) => (way.kind === 'exact' ? baseOf(way.exact.value) : Number.NaN));

export function baseOf(value: Value | undefined): number {
  if (value?.kind !== 'number') throw new Error(`no number: ${JSON.stringify(value)}`);
  return value.base;
}

export const contents = (...tried: readonly (Tried | undefined)[]): readonly (string | undefined)[] => tried.map((one) => one?.content);
