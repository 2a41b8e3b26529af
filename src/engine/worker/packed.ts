/**
 * Many values on their way from the worker to the page. A message of objects is taken apart and built up again on the page's own thread, object by
 * object, while whoever types there waits; numbers, which most values are, go as one block of memory, and their units by number.
 */
import type { Address, Value, Values } from '../types.ts';

export interface Packed {
  readonly addresses: readonly Address[];
  readonly numbers: Float64Array;
  /** Which of `units` each number has. */
  readonly unit: Uint16Array;
  readonly units: readonly string[];
  /** What is no number. */
  readonly others: Values;
}

/** Values in one part: whoever takes them in can see to other things after each. */
const MOST = 500;

/** Hands values over in parts, each when the one before it was taken in; gives the last of them, unpacked. */
export async function inParts(values: Values, send: (part: Packed) => Promise<void>): Promise<Values> {
  const addresses = Object.keys(values);
  let from = 0;
  for (; addresses.length - from > MOST; from += MOST) await send(packed(values, addresses.slice(from, from + MOST)));
  return from === 0 ? values : picked(values, addresses.slice(from));
}

const picked = (values: Values, addresses: readonly Address[]): Values => Object.fromEntries(addresses.map((at) => [at, values[at] as Value]));

function packed(values: Values, all: readonly Address[]): Packed {
  const units = new Map<string, number>();
  const addresses: Address[] = [];
  const numbers: number[] = [];
  const unit: number[] = [];
  const others: Address[] = [];
  for (const address of all) {
    const value = values[address];
    if (value?.kind !== 'number') {
      others.push(address);
      continue;
    }
    const nth = units.get(value.unit) ?? units.size;
    units.set(value.unit, nth);
    addresses.push(address);
    numbers.push(value.base);
    unit.push(nth);
  }
  return { addresses, numbers: Float64Array.from(numbers), unit: Uint16Array.from(unit), units: [...units.keys()], others: picked(values, others) };
}

export function unpacked({ addresses, numbers, unit, units, others }: Packed): Values {
  const values: Record<Address, Value> = { ...others };
  for (const [i, address] of addresses.entries()) values[address] = { kind: 'number', base: numbers[i] as number, unit: units[unit[i] as number] as string };
  return values;
}
