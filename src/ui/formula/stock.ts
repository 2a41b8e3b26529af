/** What there is to write formulas with: functions as the engine tells of them, and units. */
import type { Signature } from '../../../functions/check-args.ts';
import { QUANTITIES, quantityName, unit, withCurrency } from '../../../functions/units.ts';
import type { FunctionCard } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import { PICKS } from '../cells/index.ts';
import { signatureText } from './hints.ts';

export interface Library {
  /** Of our own functions, what their records say. */
  readonly cards: ReadonlyMap<string, FunctionCard>;
  /** What every function takes, the standard's too. */
  readonly signatures: ReadonlyMap<string, Signature>;
  /** The same as it is read: `condition, then, [otherwise]`. */
  readonly texts: ReadonlyMap<string, string>;
}

export const NO_LIBRARY: Library = { cards: new Map(), signatures: new Map(), texts: new Map() };

/** The same for every book: asked once. */
let library: Promise<Library> | undefined;

export function libraryOf(ask: Session['ask']): Promise<Library> {
  library ??= ask(async (engine) => {
    const [cards, signatures] = await Promise.all([engine.functions(), engine.signatures()]);
    const byName = <T extends { readonly name: string }>(all: readonly T[]): ReadonlyMap<string, T> => new Map(all.map((each) => [each.name, each]));
    return { cards: byName(cards), signatures: byName(signatures), texts: new Map(signatures.map((each) => [each.name, signatureText(each)])) };
  });
  // Whoever asks next tries again.
  library.catch(() => {
    library = undefined;
  });
  return library;
}

const units = new Map<string, readonly (readonly [symbol: string, quantity: string])[]>();

/** Units by symbol, with the quantity that each is for, in the book's currency. */
export function unitsIn(currency: string): readonly (readonly [symbol: string, quantity: string])[] {
  const known = units.get(currency);
  if (known) return known;
  const named = new Map<string, string>();
  for (const text of [...PICKS.flat(), ...QUANTITIES.map(([symbol]) => withCurrency(symbol, currency))]) {
    const found = text === '1' ? undefined : unit(text);
    if (found) named.set(found.symbol, quantityName(found.dimension, found.reading));
  }
  const made = [...named];
  units.set(currency, made);
  return made;
}
