import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { moved } from '../../src/ui/table/grid-moves.ts';
import { runs } from '../cases.ts';

const size = { rows: 20, columns: 4, page: 12 };

describe('the keys of a grid', () => {
  it('lead one cell on, and never round an edge', () => {
    expect(moved({ row: 3, column: 1 }, 'ArrowDown', false, size)).toEqual({ row: 4, column: 1 });
    expect(moved({ row: 19, column: 1 }, 'ArrowDown', false, size)).toEqual({ row: 19, column: 1 });
    expect(moved({ row: 3, column: 3 }, 'ArrowRight', false, size)).toEqual({ row: 3, column: 3 });
    expect(moved({ row: 0, column: 0 }, 'ArrowLeft', false, size)).toEqual({ row: 0, column: 0 });
  });

  it('lead to the ends of the row, and with Control to the corners of the table', () => {
    expect(moved({ row: 3, column: 1 }, 'Home', false, size)).toEqual({ row: 3, column: 0 });
    expect(moved({ row: 3, column: 1 }, 'End', false, size)).toEqual({ row: 3, column: 3 });
    expect(moved({ row: 3, column: 1 }, 'Home', true, size)).toEqual({ row: 0, column: 0 });
    expect(moved({ row: 3, column: 1 }, 'End', true, size)).toEqual({ row: 19, column: 3 });
  });

  it('lead nowhere where they are no keys of a grid', () => {
    expect(moved({ row: 3, column: 1 }, 'a', false, size)).toBeUndefined();
    expect(moved({ row: 3, column: 1 }, 'Tab', false, size)).toBeUndefined();
  });

  it('never leave the table, whatever is pressed', () => {
    const key = fc.constantFrom('ArrowDown', 'ArrowUp', 'ArrowLeft', 'ArrowRight', 'Home', 'End', 'PageDown', 'PageUp');
    fc.assert(
      fc.property(fc.array(fc.tuple(key, fc.boolean())), fc.integer({ min: 1, max: 50 }), fc.integer({ min: 1, max: 9 }), (keys, rows, columns) => {
        let at = { row: 0, column: 0 };
        for (const [name, control] of keys) {
          at = moved(at, name, control, { rows, columns, page: 12 }) ?? at;
          expect(at.row >= 0 && at.row < rows && at.column >= 0 && at.column < columns).toBe(true);
        }
      }),
      runs(100, 7),
    );
  });
});
