/** Scenarios of their own: copied, pasted, followed, filled by one formula, and given or worked by choice. */
import { describe, expect, it } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import { alsoChanged } from '../../src/book/also-changed.ts';
import { carriedCell } from '../../src/book/area.ts';
import type { Book } from '../../src/book/book.ts';
import { copyScenario } from '../../src/book/commands/add-scenario.ts';
import { fillScenarios } from '../../src/book/commands/fill-scenarios.ts';
import { insertLines } from '../../src/book/commands/insert-lines.ts';
import { keepValue, workAgain } from '../../src/book/commands/keep-value.ts';
import { putCells, repeatCells } from '../../src/book/commands/put-cells.ts';
import { sameAsBase } from '../../src/book/commands/same-as-base.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { standingOf } from '../../src/book/look-up.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';
import { sample } from './sample.ts';
import { label, sound } from './sound.ts';

const cell = (book: Book, address: string) => cellAt(book, address)?.cell;
const content = (book: Book, address: string): string | undefined => cell(book, address)?.content;
const set = (book: Book, address: string, text: string): Book => sound(book, setCell(book, { address, content: text }));
const row = (book: Book, n: number): (string | undefined)[] => ['A', 'B', 'C', 'D'].map((letter) => content(book, `Scenarios.${letter}${n}`));
/** Of the sample's rows: Mount height 60 cm, 45 cm, as A; Fixtures 9, as A, 12. */
const scenarios = 'scenarios';

describe('a copied scenario', () => {
  const copied = sound(sample, copyScenario(sample, { table: scenarios, column: 1 }));

  it('has what it was the same as in another for its own, and stays when those change', () => {
    expect(row(copied, 2)).toEqual(['9', '=A2', '12', '9']);
    expect(row(set(set(copied, 'Scenarios.A2', '20'), 'Scenarios.B1', '30 cm'), 1)[3]).toBe('45 cm');
    const later = set(copied, 'Scenarios.A2', '20');
    expect(content(later, 'Scenarios.D2')).toBe('9');
    expect(alsoChanged(later, { label: '', edits: [{ at: 'cell', table: scenarios, row: 'n', column: 'a', before: null, after: null }] })).toBe('B');
  });

  it('has a value that it was the same as by way of others, with its unit, what was typed and who said so', () => {
    let book = sound(sample, setCell(sample, { address: 'Scenarios.A1', content: '0.6 m', typed: '0,6 m', unit: 'm', source: 'client' }));
    book = set(set(book, 'Scenarios.B1', '=C1'), 'Scenarios.C1', '=A1');
    const made = sound(book, copyScenario(book, { table: scenarios, column: 1 }));
    // The note was written of B, and goes with it.
    expect(cell(made, 'Scenarios.D1')).toEqual({ content: '0.6 m', typed: '0,6 m', unit: 'm', source: 'client', note: 'lower' });
  });

  it('works out a formula that it was the same as from its own cells', () => {
    const book = set(sample, 'Scenarios.A2', '=ROUND(A3/UNIT(10,"EUR"),0)+Brief.A3');
    const made = sound(book, copyScenario(book, { table: scenarios, column: 1 }));
    expect(content(made, 'Scenarios.D2')).toBe('=ROUND(D3/UNIT(10,"EUR"),0)+Brief.A3');
    // What only points at the brief is the same for all by the brief, and not by another scenario.
    const shared = set(sample, 'Scenarios.A2', '=Brief.$A$3');
    expect(content(sound(shared, copyScenario(shared, { table: scenarios, column: 1 })), 'Scenarios.D2')).toBe('=Brief.$A$3');
  });

  it('leaves blank what is blank in the one that it was the same as', () => {
    const book = set(sample, 'Scenarios.A2', '');
    expect(cell(sound(book, copyScenario(book, { table: scenarios, column: 1 })), 'Scenarios.D2')?.content ?? '').toBe('');
  });
});

describe('what is the same as in another scenario', () => {
  /** Copies one cell as the page does, and puts it down. */
  const paste = (book: Book, from: string, to: string): Answer => {
    const [a, b] = [cellAt(book, from), cellAt(book, to)];
    if (!a || !b) throw new Error('no such cell');
    return putCells(book, {
      table: b.table.id,
      row: b.rowIndex,
      column: b.columnIndex,
      cells: [[carriedCell(a)]],
      from: { table: a.table.id, row: a.rowIndex, column: a.columnIndex },
    });
  };

  it('stays the same as the base where it is pasted', () => {
    const made = sound(sample, paste(sample, 'Scenarios.B2', 'Scenarios.C2'));
    expect(row(made, 2)).toEqual(['9', '=A2', '=A2', undefined]);
    expect(row(sound(sample, paste(sample, 'Scenarios.C1', 'Scenarios.B1')), 1)).toEqual(['60 cm', '=A1', '=A1', undefined]);
  });

  it('is pasted as the value that it stands for where it is the same as another than the base, or into the base', () => {
    const book = set(sample, 'Scenarios.C2', '=B2');
    const wide = sound(book, copyScenario(book, { table: scenarios, column: 0, label: 'D' }));
    expect(content(sound(wide, paste(wide, 'Scenarios.C2', 'Scenarios.D2')), 'Scenarios.D2')).toBe('9');
    expect(content(sound(book, paste(book, 'Scenarios.B2', 'Scenarios.A2')), 'Scenarios.A2')).toBe('9');
    const worked = set(set(sample, 'Scenarios.B2', '=B3*2'), 'Scenarios.C2', '=B2');
    expect(content(sound(worked, paste(worked, 'Scenarios.C2', 'Scenarios.A2')), 'Scenarios.A2')).toBe('=A3*2');
  });

  it('is repeated across as the same as the base', () => {
    const made = sound(sample, repeatCells(sample, { area: { table: scenarios, row: 1, column: 1, rows: 1, columns: 2 }, axis: 'column' }));
    expect(row(made, 2)).toEqual(['9', '=A2', '=A2', undefined]);
  });

  it('and a formula of a worked row goes along as ever', () => {
    expect(content(sound(sample, paste(sample, 'Scenarios.B4', 'Scenarios.C4')), 'Scenarios.C4')).toBe('=C3-B3');
  });
});

describe('what a change also changes', () => {
  const said = (book: Book, answer: Answer): string => (isRefused(answer) ? answer.message : alsoChanged(sound(book, answer), answer));

  it('is said of those scenarios that follow the cell, be it by way of another, and of no others', () => {
    expect(said(sample, setCell(sample, { address: 'Scenarios.A2', content: '10' }))).toBe('B');
    expect(said(sample, setCell(sample, { address: 'Scenarios.A1', content: '70 cm' }))).toBe('C');
    const both = set(sample, 'Scenarios.C2', '=B2');
    expect(said(both, setCell(both, { address: 'Scenarios.A2', content: '10' }))).toBe('B, C');
    expect(said(both, setCell(both, { address: 'Scenarios.B2', content: '11' }))).toBe('C');
    const own = set(both, 'Scenarios.B2', '4');
    expect(said(own, sameAsBase(own, { address: 'Scenarios.B2' }))).toBe('C');
  });

  it('is nothing where nobody follows, and where those that do are changed by the same change', () => {
    expect(said(sample, setCell(sample, { address: 'Scenarios.B1', content: '50 cm' }))).toBe('');
    expect(said(sample, setCell(sample, { address: 'Brief.A3', content: '12 h/d' }))).toBe('');
    const all = putCells(sample, { table: scenarios, row: 1, column: 0, cells: [[{ content: '1' }, { content: '2' }, { content: '3' }]] });
    expect(said(sample, all)).toBe('');
  });
});

describe('one formula for all scenarios', () => {
  const more = sound(sample, insertLines(sample, { table: scenarios, axis: 'row', at: 5, count: 1 }));

  it('reads in each the column of its own, and what is shared stays', () => {
    const book = set(more, 'Scenarios.B6', "=B3/B2+Brief.A3+'Fixture list'.B2+SUM(B2:B3)+$A3");
    const made = sound(book, fillScenarios(book, { address: 'Scenarios.B6' }));
    expect(row(made, 6)).toEqual([
      "=A3/A2+Brief.A3+'Fixture list'.B2+SUM(A2:A3)+$A3",
      "=B3/B2+Brief.A3+'Fixture list'.B2+SUM(B2:B3)+$A3",
      "=C3/C2+Brief.A3+'Fixture list'.B2+SUM(C2:C3)+$A3",
      undefined,
    ]);
    expect(label(fillScenarios(made, { address: 'Scenarios.A6' }))).toBe('refused: There is no formula here that another scenario lacks.');
  });

  it('is not a value, nor what is the same as in another, nor of another table', () => {
    for (const address of ['Scenarios.A1', 'Scenarios.C1', 'Brief.A1', 'Nowhere.A1'])
      expect(label(fillScenarios(sample, { address }))).toBe('refused: There is no formula here that another scenario lacks.');
  });
});

describe('a given of a scenario, worked or given by choice,', () => {
  const worked = set(sample, 'Scenarios.B2', '=ROUND(B3/UNIT(20,"EUR"),0)');
  const kept = sound(worked, keepValue(worked, { address: 'Scenarios.B2', content: '7' }));

  it('keeps its value without the formula, and has the formula again when asked', () => {
    expect(cell(kept, 'Scenarios.B2')).toMatchObject({ content: '7', source: 'ours, in place of =ROUND(B3/UNIT(20,"EUR"),0)' });
    expect(cellAt(kept, 'Scenarios.B2') && standingOf(cellAt(kept, 'Scenarios.B2') as never)).toBe('given');
    const later = set(kept, 'Scenarios.B2', '5');
    expect(cell(sound(later, workAgain(later, { address: 'Scenarios.B2' })), 'Scenarios.B2')).toEqual(cell(worked, 'Scenarios.B2'));
  });

  it('has its formula follow rows that move, and go along into a copy and a paste', () => {
    const more = sound(kept, insertLines(kept, { table: scenarios, axis: 'row', at: 2, count: 1 }));
    expect(cell(more, 'Scenarios.B2')?.source).toBe('ours, in place of =ROUND(B4/UNIT(20,"EUR"),0)');
    const copy = sound(kept, copyScenario(kept, { table: scenarios, column: 1 }));
    expect(cell(copy, 'Scenarios.D2')?.source).toBe('ours, in place of =ROUND(D3/UNIT(20,"EUR"),0)');
    const own = carriedCell(cellAt(kept, 'Scenarios.B2') as never);
    const put = sound(kept, putCells(kept, { table: scenarios, row: 1, column: 2, cells: [[own]], from: { table: scenarios, row: 1, column: 1 } }));
    expect(cell(put, 'Scenarios.C2')?.source).toBe('ours, in place of =ROUND(C3/UNIT(20,"EUR"),0)');
  });

  it('is no locked result, no plain value, and nothing without a formula set aside', () => {
    const no = 'refused: Only a given that a formula answers can be kept as a value.';
    expect(label(keepValue(sample, { address: 'Scenarios.B3', content: '7 EUR' }))).toBe(no);
    expect(label(keepValue(sample, { address: 'Scenarios.B1', content: '7 cm' }))).toBe(no);
    expect(label(workAgain(sample, { address: 'Scenarios.B1' }))).toBe('refused: No formula was set aside here.');
  });
});
