import { describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import type { Change } from '../../src/book/change.ts';
import { addScenario } from '../../src/book/commands/add-scenario.ts';
import { putScenarios } from '../../src/book/commands/put-scenarios.ts';
import { setNote } from '../../src/book/commands/set-note.ts';
import { invert } from '../../src/book/invert.ts';
import { isRefused } from '../../src/book/refused.ts';
import { sample } from './sample.ts';
import { sound } from './sound.ts';

const one = (h: string, n: string, why = 'it is the cheapest') => ({ givens: { h, n }, why });
const put = (book: Book, scenarios: Parameters<typeof putScenarios>[1]['scenarios']): Change => {
  const answer = putScenarios(book, { table: 'scenarios', scenarios, label: 'Filled' });
  if (isRefused(answer)) throw new Error(answer.message);
  sound(book, answer);
  return answer;
};
const scenarios = (book: Book) => book.tables.find(({ id }) => id === 'scenarios');
const cell = (book: Book, row: string, column: string) => scenarios(book)?.cells[row]?.[column];
const contents = (book: Book, row: string): readonly (string | undefined)[] => scenarios(book)?.columns.map(({ id }) => cell(book, row, id)?.content) ?? [];

describe('putting arrangements into scenarios', () => {
  it('makes them ordinary givens, and says of what the base has too that it is as the base', () => {
    const after = apply(sample, put(sample, [one('50 cm', '8'), one('50 cm', '6'), one('70 cm', '8')]));
    expect(contents(after, 'h')).toEqual(['50 cm', '=A1', '70 cm']);
    expect(contents(after, 'n')).toEqual(['8', '6', '=A2']);
    expect(cell(after, 'h', 'a')).toMatchObject({ source: 'ours, proposed' });
    expect(cell(after, 'h', 'b')).not.toHaveProperty('typed');
    expect(cell(after, 'n', 'c')).not.toHaveProperty('source');
  });

  it('is one change, and taken back the book is what it was', () => {
    const change = put(sample, [one('50 cm', '8'), one('50 cm', '6'), one('70 cm', '8'), one('80 cm', '4')]);
    expect(apply(apply(sample, change), invert(change))).toEqual(sample);
  });

  it('adds the scenarios that the table lacks, with the formulas of the others', () => {
    const after = apply(sample, put(sample, [one('50 cm', '8'), one('50 cm', '6'), one('70 cm', '8'), one('80 cm', '4')]));
    expect(scenarios(after)?.columns.map(({ label }) => label)).toEqual(['A', 'B', 'C', 'D']);
    expect(contents(after, 'h')[3]).toBe('80 cm');
    expect(contents(after, 'cost')[3]).toContain('D2');
  });

  it('leaves what stands in another scenario as it was, also where that was as the one that becomes another', () => {
    const added = addScenario(sample, { table: 'scenarios' });
    if (isRefused(added)) throw new Error(added.message);
    const four = apply(sample, added);
    expect(contents(four, 'h')).toEqual(['60 cm', '45 cm', '=A1', '=A1']);
    const after = apply(four, put(four, [one('50 cm', '8')]));
    expect(contents(after, 'h')).toEqual(['50 cm', '45 cm', '60 cm', '60 cm']);
    expect(contents(after, 'n')).toEqual(['8', '9', '12', '9']);
    // What a scenario was as is followed from one to the next.
    const again = apply(four, put(four, [undefined, one('60 cm', '9')]));
    expect(contents(again, 'h')).toEqual(['60 cm', '=A1', '=A1', '=A1']);
  });

  it('is as the base in all that it does not say, for that is what it was found for', () => {
    const only = (h: string) => ({ givens: { h }, why: 'it is low' });
    const after = apply(sample, put(sample, [only('50 cm'), only('60 cm'), only('70 cm')]));
    expect(contents(after, 'n')).toEqual(['9', '=A2', '=A2']);
    const table = scenarios(sample);
    if (!table) throw new Error('the sample has scenarios');
    // Where the base itself goes by the other scenario, the two say one thing already, and neither may go by both.
    const turned: Book = { ...sample, tables: sample.tables.map((each) => (each === table ? { ...each, base: 'b' } : each)) };
    expect(contents(apply(turned, put(turned, [only('50 cm'), undefined, only('70 cm')])), 'n')).toEqual(['9', '=A2', '=B2']);
  });

  it('is said beside the first given, before what somebody wrote there, in the place of what was said before', () => {
    const noted = setNote(sample, { address: 'Scenarios.A1', note: 'The beam is low here.' });
    if (isRefused(noted)) throw new Error(noted.message);
    const first = apply(sample, noted);
    const once = apply(first, put(first, [one('50 cm', '8', 'it costs 3 EUR a year')]));
    expect(cell(once, 'h', 'a')?.note).toBe('Proposed: it costs 3 EUR a year\nThe beam is low here.');
    const twice = apply(once, put(once, [one('50 cm', '8', 'it costs 2 EUR a year')]));
    expect(cell(twice, 'h', 'a')?.note).toBe('Proposed: it costs 2 EUR a year\nThe beam is low here.');
    expect(cell(twice, 'n', 'a')).not.toHaveProperty('note');
  });

  it('goes by the scenario that the others are compared with, whichever that is', () => {
    const table = scenarios(sample);
    if (!table) throw new Error('the sample has scenarios');
    const based: Book = { ...sample, tables: sample.tables.map((each) => (each === table ? { ...each, base: 'b' } : each)) };
    const after = apply(based, put(based, [one('50 cm', '8'), one('50 cm', '6'), one('70 cm', '6')]));
    expect(contents(after, 'h')).toEqual(['=B1', '50 cm', '70 cm']);
    expect(contents(after, 'n')).toEqual(['8', '6', '=B2']);
  });

  it('refuses what a cell does not allow, and a table that compares nothing', () => {
    expect(putScenarios(sample, { table: 'scenarios', scenarios: [one('5 m', '8')], label: '' })).toMatchObject({ refused: true });
    expect(putScenarios(sample, { table: 'fixtures', scenarios: [], label: '' })).toMatchObject({ refused: true });
  });
});
