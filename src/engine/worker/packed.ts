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

/** Hands values over in parts of at most so many, each when the one before it was taken in; gives the last of them, unpacked. */
export async function inParts(values: Iterable<readonly [Address, Value]>, most: number, send: (part: Packed) => Promise<void>): Promise<Values> {
  let part: (readonly [Address, Value])[] = [];
  for (const one of values) {
    if (part.length === most) {
      await send(packed(part));
      part = [];
    }
    part.push(one);
  }
  return Object.fromEntries(part);
}

function packed(values: readonly (readonly [Address, Value])[]): Packed {
  const units = new Map<string, number>();
  const addresses: Address[] = [];
  const numbers = new Float64Array(values.length);
  const unit = new Uint16Array(values.length);
  const others: Record<Address, Value> = {};
  for (const [address, value] of values) {
    if (value.kind !== 'number') {
      others[address] = value;
      continue;
    }
    const nth = units.get(value.unit) ?? units.size;
    units.set(value.unit, nth);
    numbers[addresses.length] = value.base;
    unit[addresses.length] = nth;
    addresses.push(address);
  }
  return { addresses, numbers: numbers.slice(0, addresses.length), unit: unit.slice(0, addresses.length), units: [...units.keys()], others };
}

export function unpacked({ addresses, numbers, unit, units, others }: Packed): Values {
  const values: Record<Address, Value> = { ...others };
  for (const [i, address] of addresses.entries()) values[address] = { kind: 'number', base: numbers[i] as number, unit: units[unit[i] as number] as string };
  return values;
}
