import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CsvValue, formatCsv, parseCsv, unguard } from '../../src/files/csv/csv.ts';
import { guard } from '../../src/files/guard.ts';
import { runs } from '../cases.ts';
import { readStrictly } from './rfc4180.ts';

/** Letters that make trouble in files of this kind, mixed with ordinary ones. */
const nasty = fc.string({
  unit: fc.oneof(
    fc.constantFrom(
      '=',
      '+',
      '-',
      '@',
      '\t',
      '\v',
      '\r',
      '\n',
      '\r\n',
      '\0',
      "'",
      '"',
      '""',
      ',',
      ';',
      '＝',
      '＋',
      '－',
      '＠',
      ' ',
      '\u00a0',
      '\uFEFF',
      'µ',
      '²',
      '😀',
      '\u202e',
    ),
    fc.string({ unit: 'grapheme', minLength: 1, maxLength: 2 }),
  ),
  maxLength: 8,
});
const field: fc.Arbitrary<CsvValue> = fc.oneof(
  { weight: 5, arbitrary: nasty },
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.integer(),
  fc.boolean(),
);
const table = fc
  .integer({ min: 2, max: 5 })
  .chain((width) => fc.array(fc.array(field, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 5 }));

const asText = (f: CsvValue): string => (typeof f === 'boolean' ? String(f).toUpperCase() : String(f ?? ''));

describe('the guard against text that runs elsewhere', () => {
  it('stands before every letter that could start a formula, its full-width form, and an apostrophe', () => {
    for (const letter of "=+-@\t\r\n\0＝＋－＠'") expect(guard(`${letter}1`)).toBe(`'${letter}1`);
  });

  it('stands before blanks, control characters and marks that nobody sees, where one of these letters comes after them: programs pass over them', () => {
    for (const before of [' ', '   ', '\t', '\v', '\f', '\r\n', '\u00a0', '\u3000', '\uFEFF', '\uFEFF ', '\u200b', '\u202e', '\u00ad', '\0', ' \t\uFEFF\v ']) {
      for (const letter of '=+-@＝＋－＠') {
        const text = `${before}${letter}1`;
        expect(guard(text), JSON.stringify(text)).toBe(`'${text}`);
        expect(unguard(guard(text))).toBe(text);
      }
    }
  });

  it('leaves other text alone', () => {
    for (const text of ['', 'Rail 45', ' Rail', '   ', '\uFEFFRail', ' 1=1', '1-2', 'µmol', '"=1"']) expect(guard(text)).toBe(text);
  });

  it('is never put before a number, so that a negative number stays one', () => {
    expect(
      formatCsv([
        ['a', 'b'],
        [-5, '-5'],
      ]),
    ).toBe("a,b\r\n-5,'-5\r\n");
  });

  it('is undone on the way in, over 20,000 random tables, read by the strict reader and by ours', () => {
    fc.assert(
      fc.property(table, fc.boolean(), (records, bom) => {
        const text = formatCsv(records, { bom });
        const strict = readStrictly(bom ? text.slice(1) : text);
        const expected = records.map((record) => record.map(asText));
        expect(strict.map((record) => record.map(unguard))).toEqual(expected);
        expect(parseCsv(text)).toEqual({ records: strict, problems: [] });
        for (const [i, record] of records.entries()) {
          for (const [j, f] of record.entries())
            if (typeof f === 'string') expect(strict[i]?.[j] ?? '').not.toMatch(/^(?:[\t\r\n\0]|[\s\p{Cc}\p{Cf}]*[=+\-@＝＋－＠])/u);
        }
      }),
      runs(20_000, 4180),
    );
  });
});

describe('CSV text', () => {
  it('ends every record with CRLF and begins with a byte order mark only when asked', () => {
    expect(
      formatCsv([
        ['a', 'b'],
        [1, true],
      ]),
    ).toBe('a,b\r\n1,TRUE\r\n');
    expect(formatCsv([['a', 'b']], { bom: true })).toBe('\uFEFFa,b\r\n');
  });

  it('fills short records up, so that all have one width', () => {
    expect(readStrictly(formatCsv([['a'], [], [1, 2, 3]]))).toEqual([
      ['a', '', ''],
      ['', '', ''],
      ['1', '2', '3'],
    ]);
  });

  it('writes numbers in full precision', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (x) => Number(readStrictly(formatCsv([[x, 'x']]))[0]?.[0]) === (x === 0 ? 0 : x)),
      runs(100, 15),
    );
  });

  it('reads the line ends of other programs', () => {
    expect(parseCsv('a,b\n1,2\n').records).toEqual([
      ['a', 'b'],
      ['1', '2'],
    ]);
  });
});
