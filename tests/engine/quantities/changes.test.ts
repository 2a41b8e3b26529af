import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Kind, Quantities } from '../../../src/engine/quantities/index.ts';
import { runs } from '../../cases.ts';
import { place, Sheet } from './sheet.ts';

const ADDRESSES = ['A', 'B', 'C'].flatMap((column) => [1, 2, 3, 4, 5].map((row) => `${column}${row}`));

const content = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom('3 m', '36 in', '5 W', '16 h/d', '7', '0', '', 'basil', 'TRUE', '25 °C', '5 K', '80 %') },
  {
    weight: 5,
    arbitrary: fc
      .tuple(fc.constantFrom('+', '-', '*', '/', '>'), fc.constantFrom(...ADDRESSES), fc.constantFrom(...ADDRESSES))
      .map(([op, a, b]) => `=${a}${op}${b}`),
  },
  {
    weight: 2,
    arbitrary: fc.tuple(fc.constantFrom('SUM', 'MAX', 'COUNT', 'AVERAGE'), fc.constantFrom('A1:A5', 'B2:C4', 'A1:C1', 'C1:C5')).map(([f, r]) => `=${f}(${r})`),
  },
  { weight: 2, arbitrary: fc.tuple(fc.constantFrom(...ADDRESSES), fc.constantFrom(...ADDRESSES)).map(([a, b]) => `=IF(TRUE,${a},${b})`) },
  { weight: 1, arbitrary: fc.constantFrom(...ADDRESSES).map((a) => `=${a}`) },
);

const edit = fc.oneof(
  { weight: 4, arbitrary: fc.record({ at: fc.constantFrom(...ADDRESSES), content }) },
  { weight: 1, arbitrary: fc.record({ at: fc.constantFrom(...ADDRESSES), unit: fc.constantFrom('m', 'in', 'W', 'kWh', '%', '1', undefined) }) },
);

/** A kind in one line, whatever the order of its fields. */
function told(kind: Kind, unit: string): string {
  if (kind.is === 'number') return `${kind.dimension.key}${kind.reading ? ' reading' : ''} in ${unit}`;
  return kind.is === 'fail' ? `${kind.message} (${kind.at.col}, ${kind.at.row}; ${kind.mend?.label ?? 'no mend'})` : kind.is;
}

/** Cells on a circle, and those behind one: the calculator has an error there, and no kind is to be had. */
function behindCircles(sheet: Sheet): ReadonlySet<string> {
  const readers = (address: string): string[] => [...sheet.readers(place(address))].map((at) => sheet.address(at));
  const reached = (from: string): Set<string> => {
    const found = new Set<string>();
    const queue = readers(from);
    for (let next = queue.pop(); next; next = queue.pop()) {
      if (found.has(next)) continue;
      found.add(next);
      queue.push(...readers(next));
    }
    return found;
  };
  const behind = new Set<string>();
  for (const address of ADDRESSES) {
    const all = reached(address);
    if (all.has(address)) for (const each of all) behind.add(each);
  }
  return behind;
}

describe('Kinds and shown units after changes', () => {
  test('are those of a sheet worked out from nothing, and every cell that differs is told', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(...ADDRESSES), content), { maxLength: 15 }),
        fc.array(edit, { minLength: 1, maxLength: 8 }),
        (cells, edits) => {
          const sheet = new Sheet(Object.fromEntries(cells));
          const state = () => {
            const behind = behindCircles(sheet);
            return new Map(ADDRESSES.map((address) => [address, behind.has(address) ? 'circle' : told(sheet.kind(address), sheet.unit(address))]));
          };
          let before = state();
          for (const each of edits) {
            const heard = 'content' in each ? sheet.set(each.at, each.content) : sheet.setUnit(each.at, each.unit);
            const after = state();
            const fresh = new Quantities(sheet);
            fresh.rebuild();
            for (const address of ADDRESSES) {
              if (after.get(address) === 'circle') continue;
              expect(after.get(address), address).toBe(told(fresh.kindOf(place(address)), fresh.shownUnitOf(place(address))));
              const differs = before.get(address) !== 'circle' && before.get(address) !== after.get(address);
              if (differs) expect(heard, `${JSON.stringify(each)}: ${address} from ${before.get(address)} to ${after.get(address)}`).toContain(address);
            }
            before = after;
          }
        },
      ),
      runs(60, 11),
    );
  });

  test('a change of a value tells nobody but the edited cell, if that', () => {
    const sheet = new Sheet({ A1: '3 m', A2: '=A1*2', A3: '=A2+A1' });
    sheet.unit('A3');
    expect(sheet.set('A1', '4 m').filter((address) => address !== 'A1')).toEqual([]);
  });

  test('a change of kind tells all that follow, and mending it tells them again', () => {
    const sheet = new Sheet({ A1: '3 m', B1: '5 m', A2: '=A1+B1', A3: '=A2*2', A4: '=COUNT(A3)', C1: '=B1' });
    expect(sheet.set('A1', '3 W')).toEqual(['A1', 'A2', 'A3', 'A4']);
    expect(sheet.kind('A4')).toMatchObject({ is: 'fail', at: place('A2') });
    expect(sheet.set('A1', '3 m')).toEqual(['A1', 'A2', 'A3', 'A4']);
    expect(sheet.kind('A4').is).toBe('number');
  });

  test('a change of the shown unit changes the view of what follows it, and no kind', () => {
    const sheet = new Sheet({ A1: '3 m', A2: '=A1*2', A3: '=A2+A1', B1: '=A1', C1: '5 W' }, { units: { B1: 'cm' } });
    for (const address of ['A2', 'A3', 'B1']) sheet.unit(address);
    const kinds = ['A1', 'A2', 'A3', 'B1'].map((address) => sheet.kind(address));
    expect(sheet.setUnit('A1', 'in').filter((address) => address !== 'A1')).toEqual(['A2', 'A3']);
    expect(['A1', 'A2', 'A3', 'B1'].map((address) => sheet.unit(address))).toEqual(['in', 'in', 'in', 'cm']);
    expect(['A1', 'A2', 'A3', 'B1'].map((address) => sheet.kind(address))).toEqual(kinds);
  });

  test('a chain as long as a table is worked out without recursion', () => {
    const rows = 20_000;
    const cells: Record<string, string> = { A1: '3 m' };
    for (let row = 2; row <= rows; row++) cells[`A${row}`] = `=A${row - 1}+A$1`;
    const sheet = new Sheet(cells);
    expect(sheet.unit(`A${rows}`)).toBe('m');
    sheet.set('A1', '5 W');
    expect(sheet.unit(`A${rows}`)).toBe('W');
  });
});
