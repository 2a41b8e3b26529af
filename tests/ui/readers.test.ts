import { describe, expect, it } from 'vitest';
import { removeBlock } from '../../src/book/commands/blocks.ts';
import { removePage } from '../../src/book/commands/pages.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';
import { readersText } from '../../src/ui/commands/readers.ts';
import { sample } from '../book/sample.ts';

const readers = (answer: Answer): string => (isRefused(answer) ? answer.message : readersText(sample, answer));

describe('who reads what is taken away', () => {
  it('is counted whether it says the cell or its name', () => {
    // The three costs read Brief.A2, and the check of A says bench_length.
    expect(readers(removePage(sample, { page: 'p1' }))).toBe('Others read it: 4 formulas would lose a cell. The name bench_length goes too.');
  });

  it('may be a picture', () => {
    expect(readers(removeBlock(sample, { block: 'b4' }))).toBe('Others read it: 3 formulas and 1 text or picture would lose a cell. The name prices goes too.');
  });

  it('may be nobody', () => {
    expect(readers(removeBlock(sample, { block: 'b5' }))).toBe('Nothing else reads it.');
  });
});
