import { describe, expect, it } from 'vitest';
import { placeIn } from '../../src/book/address.ts';
import type { Cell, Table } from '../../src/book/book.ts';
import type { Value, Values } from '../../src/engine/types.ts';
import { differenceText, lacks, spokenName, viewOf } from '../../src/ui/cells/cell-view.ts';

const row = (id: string, label: string, more = {}) => ({ id, label, ...more });
const cells: Record<string, Record<string, Cell>> = {
  h: { a: { content: '30 cm' }, b: { content: '45 cm' }, c: { content: '=A1' } },
  mean: { a: { content: '=X()' }, b: { content: '=X()' }, c: { content: '=X()' } },
  even: { a: { content: '=Y()' }, b: { content: '=Y()' }, c: { content: '=Y()' } },
  sun: { a: { content: '' } },
};
const table: Table = {
  id: 's',
  name: 'Scenarios',
  form: 'scenarios',
  columns: ['a', 'b', 'c'].map((id) => ({ id, label: id.toUpperCase() })),
  rows: [
    row('h', 'Mount height', { unit: 'cm', kind: 'given', decimals: 0 }),
    row('mean', 'Mean PPFD', { decimals: 1 }),
    row('even', 'Evenness', { kind: 'check' }),
    row('sun', 'Sun in January', { kind: 'given' }),
  ],
  cells,
};
const light = (micro: number): Value => ({ kind: 'number', base: micro / 1e6, unit: 'µmol/m²/s' });
const values: Values = {
  'Scenarios.A1': { kind: 'number', base: 0.3, unit: 'cm' },
  'Scenarios.B1': { kind: 'number', base: 0.45, unit: 'cm' },
  'Scenarios.C1': { kind: 'number', base: 0.3, unit: 'cm' },
  'Scenarios.A2': light(216.5),
  'Scenarios.B2': light(217.4),
  'Scenarios.C2': { kind: 'error', word: 'unit error', message: 'Adds a length to a power.' },
  'Scenarios.A3': { kind: 'text', text: 'holds, .031 over .50' },
  'Scenarios.B3': { kind: 'text', text: 'fails, .236 under .50' },
};
const name = (column: number, line: number): string => {
  const at = placeIn(table, column, line);
  if (!at) throw new Error('no such cell');
  return spokenName(at, viewOf(at, values));
};

describe('the name of a cell, as it is read aloud', () => {
  it('says value, unit in words, kind, and what differs from the base', () => {
    expect(name(0, 0)).toBe('Mount height, A: 30 centimetres, given');
    expect(name(1, 0)).toBe('Mount height, B: 45 centimetres, given, differs from A');
    expect(name(2, 0)).toBe('Mount height, C: 30 centimetres, same as A');
    expect(name(1, 1)).toMatch(/^Mean PPFD, B: 217\.4 micromoles per square metre per second, worked, plus 0\.4.% against A$/);
  });

  it('says of a check what it assumes, and of a verdict how many and which, or that it holds only so far', () => {
    const said = (text: string): readonly string[] => {
      const at = placeIn(table, 0, 2);
      if (!at) throw new Error('no such cell');
      const view = viewOf(at, { 'Scenarios.A3': { kind: 'text', text } });
      return [view.state ?? '', view.word ?? '', spokenName(at, view)];
    };
    expect(said('assumed, 35 % under; limit assumed: 500')).toEqual(['assumed', 'assumed', 'Evenness, A: assumed, 35 % under; limit assumed: 500, check']);
    expect(said('holds, 2 assumed: Hours, Drop')).toEqual(['assumed', 'holds', 'Evenness, A: holds, 2 assumed: Hours, Drop, check']);
    expect(said('holds, 1 check lacking')).toEqual(['assumed', 'holds', 'Evenness, A: holds, 1 check lacking, check']);
    expect(said('fails 2: Evenness, Drop')).toEqual(['fails', 'fails', 'Evenness, A: fails 2: Evenness, Drop, check']);
    expect(said('holds, 2 % under')).toEqual(['holds', 'holds', 'Evenness, A: holds, 2 % under, check']);
  });

  it('says no difference for a place in a list, which is no amount, but does for what is reckoned from one', () => {
    const plain = (base: number): Value => ({ kind: 'number', base, unit: '' });
    const found: Values = { ...values, 'Scenarios.A2': plain(2), 'Scenarios.B2': plain(4) };
    const difference = (content: string): string => {
      const at = placeIn({ ...table, cells: { ...cells, mean: { a: { content }, b: { content } } } }, 1, 1);
      if (!at) throw new Error('no such cell');
      return viewOf(at, found).difference;
    };
    expect(difference('=MATCH(B1,Fixtures.$A$2:$A$12,0)')).toBe('');
    expect(difference('=MATCH("a) (b",Fixtures.$A$2:$A$12,0)')).toBe('');
    expect(difference('=MATCH(B1,Fixtures.$A$2:$A$12,0)*MIN(B1,2)')).toMatch(/^\+100.%$/);
    expect(difference('=INDEX(Fixtures.$B$2:$B$12,MATCH(B1,Fixtures.$A$2:$A$12,0))')).toMatch(/^\+100.%$/);
  });

  it('says which scenario a given is the same as, whichever one all are compared with', () => {
    const at = placeIn({ ...table, base: 'b' }, 2, 0);
    const view = at && viewOf(at, values);
    expect(view?.sameAs).toBe('A');
    expect(at && view && spokenName(at, view)).toBe('Mount height, C: 30 centimetres, same as A, differs from B');
    // A cell that points at another row is the same as none.
    const other = placeIn({ ...table, cells: { ...cells, h: { ...cells.h, c: { content: '=A2' } } } }, 2, 0);
    expect(other && viewOf(other, values).sameAs).toBeUndefined();
  });

  it('says how a check stands and by what margin, an error with its sentence, and what is not answered', () => {
    expect(name(1, 2)).toBe('Evenness, B: fails, .236 under .50, check');
    expect(name(2, 1)).toBe('Mean PPFD, C: unit error. Adds a length to a power., worked');
    expect(name(0, 3)).toBe('Sun in January, A: not answered yet, given');
  });

  it('shows a given before the engine has come to it', () => {
    const at = placeIn(table, 1, 0);
    expect(at && viewOf(at, {}).number?.text).toMatch(/^45.cm$/);
  });
});

describe('a difference', () => {
  it('is told in percent with one decimal under ten, as the same where it would read as nothing, and not at all from zero', () => {
    expect(differenceText(light(237.8), light(216.5))).toMatch(/^\+9\.8.%$/);
    expect(differenceText(light(108), light(216))).toMatch(/^−50.%$/);
    expect(differenceText(light(216.00001), light(216))).toBe('same');
    expect(differenceText(light(1), light(0))).toBe('');
  });

  it('of temperatures is told in degrees, and of IP codes not at all', () => {
    const air = (base: number, symbol: string): Value => ({ kind: 'number', base, unit: symbol });
    expect(differenceText(air(30, '°C'), air(25, '°C'))).toMatch(/^\+5\.0.K$/u);
    expect(differenceText(air(-2, '°C'), air(1, '°C'))).toMatch(/^−3\.0.K$/u);
    // 5 K are 9 degrees Fahrenheit.
    expect(differenceText(air(30, '°F'), air(25, '°F'))).toMatch(/^\+9\.0.F°$/u);
    expect(differenceText(air(25.01, '°C'), air(25, '°C'))).toBe('same');
    const at = placeIn({ ...table, rows: [row('ip', 'IP')], cells: { ip: { a: { content: '=X()' }, b: { content: '=X()' } } } }, 1, 0);
    if (!at) throw new Error('no such cell');
    const code = (base: number): Value => ({ kind: 'number', base, unit: '' });
    expect(viewOf(at, { 'Scenarios.A1': code(65), 'Scenarios.B1': code(44) }).difference).toBe('');
  });
});

describe('why a cell has no value', () => {
  const refused = (message: string, from?: string): Values => ({
    'Scenarios.B2': { kind: 'error', word: 'refused', message, ...(from !== undefined && { from }) },
  });
  const at = placeIn(table, 1, 1);
  if (!at) throw new Error('no such cell');

  it('begins with the words of its row, not with the name of a function', () => {
    expect(viewOf(at, refused('CHEAPEST.HOLDING: none of the scenarios works. Put right what fails.')).why).toBe(
      'Mean PPFD, B: none of the scenarios works. Put right what fails.',
    );
    expect(viewOf(at, refused('LAYOUT: the faces overlap: PAYBACK.YEARS: never.')).why).toBe('Mean PPFD, B: the faces overlap: never.');
  });

  it('stays as it is where it names no function', () => {
    expect(viewOf(at, refused('Adds a length to a power.')).why).toBe('Adds a length to a power.');
    expect(viewOf(at, refused('A bare IP: 65 is meant.')).why).toBe('A bare IP: 65 is meant.');
  });

  it('is read aloud once with the title, and then as a sentence', () => {
    expect(spokenName(at, viewOf(at, refused('LAYOUT.AT: row 2 is blank.')))).toMatch(/^Mean PPFD, B: refused\. Row 2 is blank\./);
  });
});

it('a check that is close to its limit is said so, in formulas of earlier books too', () => {
  const at = placeIn(table, 1, 2);
  if (!at) throw new Error('no such cell');
  for (const text of ['close to limit, 4.4 % under', 'look, 4.4 % under'])
    expect(viewOf(at, { 'Scenarios.B3': { kind: 'text', text } })).toMatchObject({ state: 'look', word: 'close to limit', text: '4.4 % under' });
});

describe('within a sentence', () => {
  it('a value that waits for an answer says which, without the address of its cell', () => {
    const message = 'Rail 45, L90 (Fixtures.N2) is not answered yet.';
    expect(lacks({ kind: 'error', word: 'not answered yet', message })).toBe('unknown: Rail 45, L90 is not answered yet');
    expect(lacks({ kind: 'error', word: 'not answered yet', message: 'Hours (a day) (Brief.A12) is not answered yet.' })).toBe(
      'unknown: Hours (a day) is not answered yet',
    );
    expect(lacks({ kind: 'error', word: 'unit error', message: 'Adds a length to a power.' })).toBe('');
    expect(lacks({ kind: 'blank' })).toBe('');
  });
});
