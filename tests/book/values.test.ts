import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Table } from '../../src/book/book.ts';
import type { Address, Value, Values } from '../../src/engine/types.ts';
import { carried, compared, Gathering, noValues, tableValues } from '../../src/values.ts';
import { runs } from '../cases.ts';

const number = (base: number): Value => ({ kind: 'number', base, unit: '1' });
const table = (name: string, rows: readonly string[], columns: readonly string[]): Table => ({
  id: name,
  name,
  form: 'plain',
  rows: rows.map((id) => ({ id })),
  columns: columns.map((id) => ({ id })),
  cells: {},
});
const light = table('Day light', ['r1', 'r2', 'r3'], ['a', 'b']);
const other = table('T', ['r1', 'r2'], ['a']);
const bookOf = (...tables: Table[]) => ({ tables }) as unknown as Book;

const later = (before: Values, fresh: Values): Values => {
  const all = new Gathering(before);
  all.add(fresh);
  return all.seen();
};
const start = later(noValues(), { "'Day light'.A1": number(1), "'Day light'.B3": number(2), 'T.A1': number(3) });

describe('the values of a book at a moment', () => {
  it('are what a plain record would hold after the same answers, and those of the moments before stay', () => {
    const answer = fc.dictionary(
      fc.constantFrom("'Day light'.A1", "'Day light'.B3", 'T.A1', 'T.AB1200', "'A.A'.C2"),
      fc.oneof(fc.nat(3).map(number), fc.constant<Value>({ kind: 'blank' }), fc.constant<Value>({ kind: 'text', text: 'x' })),
    );
    fc.assert(
      fc.property(fc.array(answer), (answers) => {
        const plain: Record<Address, Value> = {};
        let now = noValues();
        const seen: [Values, Values][] = [];
        for (const fresh of answers) {
          now = later(now, fresh);
          for (const [address, value] of Object.entries(fresh))
            if (value.kind === 'blank') delete plain[address];
            else plain[address] = value;
          seen.push([now, { ...plain }]);
        }
        for (const [moment, record] of seen) {
          expect(moment).toEqual(record);
          expect(Object.keys(moment).sort()).toEqual(Object.keys(record).sort());
          for (const address of Object.keys(record)) expect(moment[address]).toBe(record[address]);
        }
      }),
      runs(300, 811),
    );
  });

  it('share with the moment before every table and row in which nothing is another', () => {
    const now = later(start, { "'Day light'.B3": number(5) });
    expect(tableValues(now, other)).toBe(tableValues(start, other));
    expect(tableValues(now, light)).not.toBe(tableValues(start, light));
    expect(tableValues(now, light)[0]).toBe(tableValues(start, light)[0]);
    expect(tableValues(start, light)[2]?.[1]).toEqual(number(2));
    expect(tableValues(now, light)[2]?.[1]).toEqual(number(5));
  });

  it('are told by table of a plain record too', () => {
    expect(tableValues({ "'Day light'.B3": number(2) }, light)).toEqual([
      [undefined, undefined],
      [undefined, undefined],
      [undefined, number(2)],
    ]);
  });

  it('can’t be written on', () => {
    const open = start as Record<Address, Value>;
    expect(() => {
      open['T.A1'] = number(9);
    }).toThrow(TypeError);
    expect(() => {
      delete open['T.A1'];
    }).toThrow(TypeError);
    expect(start['T.A1']).toEqual(number(3));
  });

  it('go along with their cells when rows and columns move and a table gets another name', () => {
    const moved = { ...light, name: 'Sun', rows: [{ id: 'r3' }, { id: 'new' }, { id: 'r1' }], columns: [{ id: 'b' }, { id: 'a' }] };
    const now = carried(start, bookOf(light, other), bookOf(moved, other));
    expect(now).toEqual({ 'Sun.A1': number(2), 'Sun.B3': number(1), 'T.A1': number(3) });
    expect(tableValues(now, other)).toBe(tableValues(start, other));
  });

  it('keep their rows where only the order of the rows is another', () => {
    const now = carried(start, bookOf(light), bookOf({ ...light, rows: light.rows.toReversed() }));
    expect(tableValues(now, light)[2]).toBe(tableValues(start, light)[0]);
  });

  it('that say the same are taken for the same, and those that do not are told', () => {
    const again = later(noValues(), { "'Day light'.A1": number(1), "'Day light'.B3": number(7), "'Day light'.A4": number(8), 'T.A1': number(3) });
    const { values, changed } = compared(start, again);
    expect(values).toEqual({ ...again });
    expect([...changed].sort()).toEqual(["'Day light'.A4", "'Day light'.B3"]);
    expect(tableValues(values, other)).toBe(tableValues(start, other));
    expect(tableValues(values, light)[0]).toBe(tableValues(start, light)[0]);
    expect(compared(again, start).changed).toEqual(changed);
  });
});
