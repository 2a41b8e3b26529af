/** What the list of commands finds, and in which order: Enter runs the first. */
import { describe, expect, it } from 'vitest';
import { labelOf, ranked, usable } from '../../src/ui/commands/commands.ts';
import type { Desk } from '../../src/ui/parts/command.ts';

/** A desk on which all can be done: two rows and columns of a plain table are chosen. */
const desk = {
  bookOpen: true,
  canUndo: true,
  canRedo: true,
  canReturn: true,
  canDrop: true,
  scenario: 'B',
  sameAs: 'A',
  quantity: true,
  quantityRow: true,
  hasMend: true,
  measures: 'metric',
  pages: [{ id: 'p', title: 'Scenarios' }],
  shape: { form: 'plain', row: 2, rows: 2, allRows: 9, head: false, column: 1, columns: 2, allColumns: 5, locked: 1, unlocked: 1, names: ['height'] },
  can: () => true,
} as unknown as Desk;
const labels = (words: string, at: Desk = desk): readonly string[] => ranked(usable(at), words, at).map((command) => labelOf(command, at));

describe('the list of commands', () => {
  it('begins with the command that is called so, not with one that reads alike', () => {
    expect(labels('repeat')[0]).toBe('Repeat the first row down');
    expect(labels('first row')[0]).toBe('Repeat the first row down');
    expect(labels('unlock')[0]).toBe('Unlock the worked cell');
    expect(labels('lock')[0]).toBe('Lock the worked cell');
    expect(labels('go to scenarios')[0]).toBe('Go to Scenarios');
    expect(labels('print')[0]).toBe('Print this page');
  });

  it('never makes a change again where a repetition was sought', () => {
    const single = { ...desk, shape: { ...desk.shape, rows: 1, columns: 1 } } as unknown as Desk;
    expect(labels('repeat', single)).toEqual([]);
    expect(labels('redo', single)[0]).toBe('Make the change again');
  });

  it('puts what has the words in its label before what has them among its other words, and keeps the order of those alike', () => {
    for (const word of ['row', 'column', 'scenario', 'order', 'copy', 'name', 'table', 'new', 'line', 'format']) {
      const inLabel = labels(word).map((label) => label.toLowerCase().includes(word));
      expect(inLabel, word).toEqual([...inLabel].sort((a, b) => Number(b) - Number(a)));
    }
    expect(labels('')).toEqual(usable(desk).map((command) => labelOf(command, desk)));
    expect(labels('no such thing')).toEqual([]);
  });
});
