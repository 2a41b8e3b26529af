import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textContent } from '../../functions/quantity-text.ts';
import { toBase, unit } from '../../functions/units.ts';
import { cellAt } from '../../src/book/address.ts';
import type { Book, Cell, Range } from '../../src/book/book.ts';
import { addressOf, rangeOf, sourceOf, standingOf, unitOf } from '../../src/book/look-up.ts';
import type { Values } from '../../src/engine/types.ts';
import { formatTidy, parseTidy, placesOf } from '../../src/files/csv/tidy.ts';
import { fieldOf } from '../../src/files/csv/values.ts';
import { formatWide } from '../../src/files/csv/wide.ts';
import { sample } from '../book/sample.ts';
import { runs } from '../cases.ts';
import { handValues } from './hand-values.ts';
import { readStrictly } from './rfc4180.ts';

const euro = (base: number) => ({ kind: 'number', base, unit: 'EUR' }) as const;
const worked: Values = {
  'Scenarios.C1': { kind: 'number', base: 0.6, unit: 'cm' },
  'Scenarios.B2': { kind: 'number', base: 9, unit: '' },
  'Scenarios.A3': euro(1251),
  'Scenarios.B3': euro(1251),
  'Scenarios.C3': euro(1668),
  'Scenarios.B4': { kind: 'error', word: 'unit error', message: 'It adds money to a length.' },
  'Scenarios.C4': euro(417.1),
  'Scenarios.A5': { kind: 'text', text: 'holds' },
  'Scenarios.B5': { kind: 'text', text: 'holds' },
};
const values = handValues(sample, worked);

describe('tidy CSV', () => {
  const records = readStrictly(formatTidy(sample, values));
  const line = (address: string): Record<string, string> => {
    const record = records.find((r) => r[3] === address) ?? [];
    return Object.fromEntries((records[0] ?? []).map((heading, i) => [heading, record[i] ?? '']));
  };

  it('has a line for every cell that holds something, under the fifteen headings', () => {
    expect(records[0]?.join(' ')).toBe('book page table address name row scenario kind value unit low high formula source note');
    const filled = sample.tables.reduce((n, table) => n + Object.values(table.cells).reduce((m, l) => m + Object.keys(l).length, 0), 0);
    expect(records.length - 1).toBe(filled);
  });

  it('tells a given in its shown unit, with its range, name and source', () => {
    expect(line('Brief.A1')).toMatchObject({
      page: 'Brief',
      name: 'bench_length',
      row: 'Bench length',
      kind: 'given',
      value: '3.6',
      unit: 'm',
      low: '0.3',
      high: '20',
      source: 'client',
      formula: '',
    });
    expect(line('Scenarios.B1')).toMatchObject({ row: 'Mount height', scenario: 'B', value: '45', unit: 'cm', note: 'lower' });
  });

  it('writes a number as it was given, whatever its unit and 14 digits of it inside make of it', () => {
    const written = (base: number) => fieldOf({ kind: 'number', base: Number(base.toPrecision(14)), unit: '°' });
    expect(written(Math.PI / 3)).toBe(60);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 179_999 }), (thousandths) => {
        expect(written(((thousandths / 1000) * Math.PI) / 180)).toBe(thousandths / 1000);
      }),
      runs(2000, 5),
    );
    // What no short number says stays as exact as it is inside.
    expect(Math.abs((Number(written(1)) * Math.PI) / 180 - 1)).toBeLessThan(1e-13);
  });

  it('tells a worked cell with its formula, guarded, and one that is as A', () => {
    expect(line('Scenarios.C4')).toMatchObject({ kind: 'worked', value: '417.1', unit: 'EUR', formula: "'=C3-A3" });
    expect(line('Scenarios.C1')).toMatchObject({ kind: 'as', value: '60', unit: 'cm', formula: "'=A1" });
  });

  it('writes an error as its word, never as a number', () => {
    expect(line('Scenarios.B4').value).toBe('unit error');
  });

  it('writes only the tables that were asked for', () => {
    expect(
      new Set(
        readStrictly(formatTidy(sample, values, { tables: ['brief'] }))
          .slice(1)
          .map((r) => r[2]),
      ),
    ).toEqual(new Set(['Brief']));
  });

  it('says which records it could not read, and gives each of them whole', () => {
    const read = parseTidy('table,address,kind,value,unit\r\nBrief,Brief.A1,given,3,m\r\nBrief,Brief.A2,guess,3,m\r\nBrief,Brief.A3\r\n');
    expect(read.cells.map((cell) => cell.content)).toEqual(['3 m']);
    expect(read.problems.map((p) => [p.record, p.fields.length])).toEqual([
      [3, 5],
      [4, 2],
    ]);
    expect(read.problems[0]?.message).toMatch(/“guess” is not a kind of cell/);
  });

  it('refuses a file without the headings it needs, and keeps all of its records', () => {
    const read = parseTidy('a,b\r\n1,2\r\n');
    expect(read.cells).toEqual([]);
    expect(read.problems.length).toBe(2);
    expect(read.problems[0]?.message).toMatch(/no column headed table or address or value/);
  });
});

const text = fc.string({
  unit: fc.oneof(
    fc.constantFrom('=', '+', '-', '@', "'", '"', ',', '\r', '\n', '\t', '1', ' m', 'TRUE', '＝', ';'),
    fc.string({ unit: 'grapheme', maxLength: 2 }),
  ),
  maxLength: 6,
});
const symbol = fc.constantFrom('', 'm', 'cm', 'in', 'µmol/m²/s', 'h/d', '°C', '%', 'EUR/kWh', 'kWh/year');
const number = fc.oneof(fc.integer({ min: -1e6, max: 1e6 }), fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 }));
const limit = fc.integer({ min: -1000, max: 1000 });
const range: fc.Arbitrary<Range> = fc.oneof(
  fc.record({ low: limit, high: limit, unit: symbol.filter((s) => s !== '') }, { requiredKeys: ['low', 'unit'] }) as fc.Arbitrary<Range>,
  fc.record({ oneOf: fc.array(text, { minLength: 1, maxLength: 3 }) }),
  fc.record(
    { oneOf: fc.constant(['10 m', '16 m']), low: limit, high: limit, unit: fc.constant('m') },
    { requiredKeys: ['oneOf', 'low'] },
  ) as fc.Arbitrary<Range>,
  fc.constant({ from: "'Fixture list'.A2:A4" }),
);
const given = fc.tuple(number, symbol).map(([n, s]) => (s === '' ? String(n) : `${n} ${s}`));
const content = fc.oneof(
  given,
  text.map((words) => textContent(words)),
  fc.constantFrom('TRUE', 'FALSE', '', '=A1', '=SUM(A1:B2)*UNIT(-5,"°F")', '3.60 m', '1e3 W', "'12"),
);
const shown = fc.constantFrom('cm', 'ft', 'm');
const cell: fc.Arbitrary<Cell> = fc.record(
  { content, unit: fc.oneof(symbol, shown).filter((s) => s !== ''), source: text, note: text, range, kind: fc.constantFrom('given', 'worked', 'check') },
  { requiredKeys: ['content'] },
) as fc.Arbitrary<Cell>;

describe('tidy CSV, out and in again', () => {
  it('gives the same cells back: content, shown unit, kind, range, source and note', () => {
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 2, maxLength: 2 }), { minLength: 1, maxLength: 4 }), text, (grid, title) => {
        const book: Book = {
          ...sample,
          title,
          names: {},
          tables: [
            {
              id: 't',
              name: 'Some things',
              form: 'plain',
              columns: [{ id: 'x', label: title }, { id: 'y' }],
              rows: grid.map((_, i) => ({ id: `r${i}`, label: title })),
              cells: Object.fromEntries(grid.map(([x, y], i) => [`r${i}`, { ...(x ? { x } : {}), ...(y ? { y } : {}) }])),
            },
          ],
        };
        const values = shownValues(book);
        const read = parseTidy(formatTidy(book, values));
        expect(read.problems).toEqual([]);
        const expected = book.tables.flatMap((table) =>
          [...placesOf(table)]
            .filter((at) => standingOf(at) !== 'blank')
            .map((at) => {
              const value = values[addressOf(at)];
              const standing = standingOf(at);
              return {
                table: 'Some things',
                address: addressOf(at),
                content: at.cell?.content,
                kind: standing === 'as' ? 'given' : standing,
                unit: value?.kind === 'number' ? value.unit : (unitOf(at) ?? ''),
                ...(rangeOf(at) ? { range: rangeOf(at) } : {}),
                source: sourceOf(at) ?? '',
                note: at.cell?.note ?? '',
              };
            }),
        );
        expect(read.cells).toEqual(expected);
      }),
      runs(3000, 7),
    );
  });
});

/** As an engine would show them: a number in its cell's unit where that is of its kind, else in its own. */
function shownValues(book: Book): Values {
  const values = { ...handValues(book, {}) };
  for (const [address, value] of Object.entries(values)) {
    const at = cellAt(book, address);
    const match = /^\S+ (.+)$/u.exec(at?.cell?.content ?? '');
    if (value.kind !== 'number' || !at) continue;
    const own = unit(match?.[1] ?? '');
    const set = unit(value.unit);
    if (own && set && own.dimension !== set.dimension) values[address] = { ...value, unit: own.symbol };
  }
  return values;
}

describe('wide CSV', () => {
  const records = readStrictly(formatWide(sample, values));

  it('sets scenarios across and labels down, each row with its unit beside its label', () => {
    const top = records.findIndex((r) => r[0] === 'Scenarios');
    expect(records.slice(top + 1, top + 6)).toEqual([
      ['', 'unit', 'A', 'B', 'C'],
      ['Mount height', 'cm', '60', '45', '60'],
      ['Fixtures', '', '9', '9', '12'],
      ['Cost', 'EUR', '1251', '1251', '1668'],
      ['Beside A', 'EUR', '', 'unit error', '417.1'],
    ]);
  });

  it('sets a list under headings that carry their units', () => {
    const top = records.findIndex((r) => r[0] === 'Fixture list');
    expect(records.slice(top + 1, top + 3).map((r) => r.slice(0, 3))).toEqual([
      ['Fixture', 'Price (EUR)', 'Output (µmol/s)'],
      ['Rail 45', '79', '122'],
    ]);
  });

  it('converts a row to one unit where its cells are shown in several of a kind, and keeps each one’s own where the kinds differ', () => {
    const inch = unit('in');
    const mixed: Values = {
      ...values,
      'Scenarios.B1': { kind: 'number', base: inch ? toBase(20, inch) : 0, unit: 'in' },
      'Scenarios.C2': { kind: 'number', base: 12, unit: 'kg' },
    };
    const rows = readStrictly(formatWide(sample, mixed, { tables: ['Scenarios'] }));
    expect(rows[2]).toEqual(['Mount height', 'cm', '60', '50.8', '60']);
    expect(rows[3]).toEqual(['Fixtures', '', '9', '9', '12 kg']);
  });
});
