import { describe, expect, it } from 'vitest';
import { wordsOf } from '../../../src/ui/cells/words.ts';
import { citingOf } from '../../../src/ui/formula/letters.ts';
import { at, book } from './book.ts';

const home = at('Scenarios.B2');
const citing = (formula: string) => citingOf(wordsOf(formula), book, home);

describe('letters', () => {
  it('are given in the order in which cells are named, and one to a cell however it is written', () => {
    const { cited, marks, cells } = citing('=B1*tariff+$B$1/Scenarios.b1-Prices.A1');
    expect(cited.map(({ letter, heading, written }) => `${letter} ${heading} (${written})`)).toEqual(['a Mount height · B (B1)', 'b Tariff · Prices (tariff)']);
    expect(marks.map(({ letter }) => letter).join('')).toBe('abaab');
    expect([...cells]).toEqual([
      ['Scenarios.B1', 'a'],
      ['Prices.A1', 'b'],
    ]);
  });

  it('mark every cell of a range, from whichever corner it is written', () => {
    const { cited, cells } = citing('=SUM(B2:A1)+SUM(heights)');
    expect(cited.map(({ heading, range }) => [heading, range])).toEqual([
      ['Mount height · A to Mean PPFD · B', true],
      ['Mount height · A to Mount height · B', true],
    ]);
    expect([...cells.keys()].sort()).toEqual(['Scenarios.A1', 'Scenarios.A2', 'Scenarios.B1', 'Scenarios.B2']);
    expect(new Set(cells.values())).toEqual(new Set(['a']));
  });

  it('go to no cell that is not there, no text and no function', () => {
    expect(citing('=Z9+Nowhere.A1+"A1"+LOG10(2)+unknown').cited).toEqual([]);
  });
});
