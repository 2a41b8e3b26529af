/** What comes through the clipboard: text taken apart, its decimal mark, and cells that say they were copied here. */
import { describe, expect, it } from 'vitest';
import { readCarried } from '../../src/ui/table/paste-cells.ts';
import { decimalMarkOf, gridOf, withoutThousands } from '../../src/ui/table/pasted-text.ts';

describe('text with tabs', () => {
  it('is taken apart into rows and cells, blanks kept in their places', () => {
    expect(gridOf('a\tb\r\n\tc\r\n')).toEqual([
      ['a', 'b'],
      ['', 'c'],
    ]);
    expect(gridOf('12')).toEqual([['12']]);
    expect(gridOf('a\t')).toEqual([['a', '']]);
  });

  it('may have tabs, line breaks and quotes inside quoted cells, and inches that are no quotes', () => {
    expect(gridOf('"two\nlines"\t"say ""on"""\n36"\t"open')).toEqual([
      ['two\nlines', 'say "on"'],
      ['36"', '"open'],
    ]);
  });
});

describe('the decimal mark of a block', () => {
  it('is what its numbers agree on', () => {
    expect(decimalMarkOf([['33,3', 'Rail 45', '12']])).toBe(',');
    expect(decimalMarkOf([['1.234,5 m']])).toBe(',');
    expect(decimalMarkOf([['1,234.5', '1,234']])).toBe('.');
    expect(decimalMarkOf([['1.234.567']])).toBe(',');
    expect(decimalMarkOf([['0,125']])).toBe(',');
  });

  it('is left open where they say nothing or contradict one another', () => {
    expect(decimalMarkOf([['1,234', '12', 'x']])).toBeUndefined();
    expect(decimalMarkOf([['33,3'], ['33.3']])).toBeUndefined();
    expect(decimalMarkOf([['=1,5']])).toBeUndefined();
  });

  it('tells what parts thousands', () => {
    expect(withoutThousands('1.234 W', ',')).toBe('1234 W');
    expect(withoutThousands('1.234.567,8', ',')).toBe('1234567,8');
    expect(withoutThousands('1,234.5', '.')).toBe('1234.5');
    expect(withoutThousands('1.5', ',')).toBe('1.5');
    expect(withoutThousands('0.45 m', '.')).toBe('0.45 m');
  });
});

describe('cells that were copied here', () => {
  const good = { book: 'b', table: 't', row: 0, column: 1, cells: [[{ content: '=A1', unit: 'm', note: 'n' }, null]] };

  it('are read as they were written', () => {
    expect(readCarried(JSON.stringify(good))).toEqual(good);
  });

  it('are none at all where anything about them is not just so', () => {
    for (const bad of [
      {},
      { ...good, row: -1 },
      { ...good, column: 1.5 },
      { ...good, cells: [] },
      { ...good, cells: [[{ content: 5 }]] },
      { ...good, cells: [[{ content: 'x', script: 'y' }]] },
      { ...good, cells: [[{ content: 'x'.repeat(40_000) }]] },
      { ...good, cells: [Array.from({ length: 101 }, () => null)] },
      { ...good, more: 1 },
      [good],
    ])
      expect(readCarried(JSON.stringify(bad)), JSON.stringify(bad).slice(0, 80)).toBeUndefined();
    expect(readCarried('{"book":')).toBeUndefined();
    expect(readCarried('['.repeat(200_000))).toBeUndefined();
  });
});
