import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatCsv } from '../../src/files/csv/csv.ts';
import { type CsvRecord, findDelimiter, RecordReader } from '../../src/files/csv/records.ts';
import { RecordSplitter } from '../../src/files/csv/split.ts';
import { decode, findEncoding } from '../../src/files/csv/text.ts';
import { runs } from '../cases.ts';
import { nastyText } from './nasty.ts';
import { readStrictly } from './rfc4180.ts';

const bytes = (...values: number[]): Uint8Array => Uint8Array.from(values);
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const utf16 = (text: string, big: boolean): Uint8Array => {
  const made = new Uint8Array(text.length * 2);
  const view = new DataView(made.buffer);
  for (let i = 0; i < text.length; i++) view.setUint16(i * 2, text.charCodeAt(i), !big);
  return made;
};

describe('the encoding of a file', () => {
  it('is UTF-8 where the bytes are sound UTF-8, with a byte order mark or without, and the mark is no part of the text', () => {
    for (const file of [utf8('µmol;°C'), utf8('\uFEFFµmol;°C')]) {
      const { encoding } = findEncoding(file, true);
      expect(encoding).toBe('utf-8');
      expect(decode(file, encoding)).toBe('µmol;°C');
    }
  });

  it('is UTF-16 of either order by its mark, and by its zeros where it has none', () => {
    for (const big of [false, true]) {
      for (const mark of ['\uFEFF', '']) {
        const file = utf16(`${mark}length,width\r\n3,1\r\n`, big);
        const { encoding } = findEncoding(file, true);
        expect(encoding).toBe(big ? 'utf-16be' : 'utf-16le');
        expect(decode(file, encoding)).toBe('length,width\r\n3,1\r\n');
      }
    }
  });

  it('falls back on Windows-1252, says so, and reads its signs as the encoding’s table has them', () => {
    // WHATWG Encoding Standard, index windows-1252: 80 is €, B5 is µ, B2 is ², 93 and 94 are “ and ”.
    const file = bytes(0x80, 0xb5, 0xb2, 0x93, 0x94, 0xe9);
    const { encoding, said } = findEncoding(file, true);
    expect(said).toMatch(/Windows-1252/);
    expect(decode(file, encoding)).toBe('€µ²“”é');
  });

  it('is not misjudged where the first piece ends in the middle of a letter', () => {
    const file = utf8('aµ');
    expect(findEncoding(file.subarray(0, 2), false).encoding).toBe('utf-8');
    expect(findEncoding(file.subarray(0, 2), true).encoding).toBe('windows-1252');
  });
});

describe('the delimiter of a file', () => {
  it('is the mark that parts its records evenly, whatever stands in quotes or after decimal commas', () => {
    expect(findDelimiter('a,b,c\n1,2,3\n')).toBe(',');
    expect(findDelimiter('length;width\r\n3,6;1,5\r\n2,4;1,2\r\n')).toBe(';');
    expect(findDelimiter('a\tb\r1\t2\r')).toBe('\t');
    expect(findDelimiter('a|b\n"x,y|z"|2\n')).toBe('|');
    expect(findDelimiter('only one column\n12\n')).toBe(',');
  });
});

function readPieces(pieces: readonly string[], delimiter = ','): CsvRecord[] {
  const splitter = new RecordSplitter(delimiter);
  const reader = new RecordReader(delimiter);
  return [...pieces.flatMap((piece) => reader.read(splitter.push(piece))), ...reader.read(splitter.end())];
}

describe('records', () => {
  it('are those of a strict reader, however the text is cut into pieces (3,000 random tables)', () => {
    const table = fc
      .integer({ min: 2, max: 4 })
      .chain((width) => fc.array(fc.array(nastyText(6), { minLength: width, maxLength: width }), { minLength: 1, maxLength: 5 }));
    fc.assert(
      fc.property(table, fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 6 }), (rows, cuts) => {
        const text = formatCsv(rows);
        const pieces: string[] = [];
        for (let at = 0, i = 0; at < text.length; i++) {
          const size = cuts[i % cuts.length] ?? 1;
          pieces.push(text.slice(at, at + size));
          at += size;
        }
        const read = readPieces(pieces);
        expect(read.map((record) => record.fields)).toEqual(readStrictly(text));
        expect(read.some((record) => record.broken)).toBe(false);
      }),
      runs(3000, 4180),
    );
  });

  it('know the line on which each begins, over fields of several lines, empty lines and mixed line ends', () => {
    const read = readPieces(['a,b\r\n"1\n2",x\n\n3,y\r"4\r\n\r\n5",z']);
    expect(read.map(({ line, record, fields }) => [line, record, fields])).toEqual([
      [1, 1, ['a', 'b']],
      [2, 2, ['1\n2', 'x']],
      [5, 3, ['3', 'y']],
      [6, 4, ['4\r\n\r\n5', 'z']],
    ]);
  });

  it('take a quote inside a field for what it is: inches', () => {
    expect(readPieces(['length,width\n36",4\'6"\n']).at(-1)?.fields).toEqual(['36"', '4\'6"']);
  });

  it('are broken one by one: a quote that nothing closes costs its own line and no other', () => {
    const read = readPieces(['a,b\n1,2\n"3,4\n5,6\n7,8\n']);
    expect(read.map(({ fields, broken }) => [fields.join('~'), broken !== undefined])).toEqual([
      ['a~b', false],
      ['1~2', false],
      ['"3,4', true],
      ['5~6', false],
      ['7~8', false],
    ]);
  });

  it('are broken one by one: text after a closing quote is told, and kept whole', () => {
    const read = readPieces(['a,b\n"1"x,2\n3,4\n']);
    expect(read[1]).toMatchObject({ fields: ['"1"x,2'], line: 2, broken: expect.stringMatching(/after its closing quote/) });
    expect(read[2]?.fields).toEqual(['3', '4']);
  });
});
