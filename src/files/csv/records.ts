/** Texts of records to their fields, by PapaParse; and by what mark the fields are parted. */
import Papa from 'papaparse';
import type { RawRecord } from './split.ts';

export interface CsvRecord {
  /** As they stand, guards and all. */
  readonly fields: readonly string[];
  /** The line on which it begins, from 1. */
  readonly line: number;
  /** Its number among the records, from 1; empty lines are none. */
  readonly record: number;
  /** Why it can't be read as a record: its quotes are not as they should be. It then has one field: its whole text. */
  readonly broken?: string;
}

export const DELIMITERS = [',', ';', '\t', '|'] as const;
export type Delimiter = (typeof DELIMITERS)[number];

const ENOUGH_TO_JUDGE = 65_536;

/** The mark that parts the first ten records most evenly; a comma where none does. */
export function findDelimiter(text: string): Delimiter {
  // Every kind of line end is made one before it is looked at.
  const sample = text.slice(0, ENOUGH_TO_JUDGE).replaceAll(/\r\n?/gu, '\n');
  const { meta } = Papa.parse<string[]>(sample, { newline: '\n', delimitersToGuess: [...DELIMITERS], preview: 1, skipEmptyLines: true });
  return DELIMITERS.find((mark) => mark === meta.delimiter) ?? ',';
}

/** Reads records in the order in which they come; numbers go on from one call to the next. */
export class RecordReader {
  private record = 0;
  private readonly delimiter: string;

  constructor(delimiter: string) {
    this.delimiter = delimiter;
  }

  read(raws: readonly RawRecord[]): CsvRecord[] {
    const filled = raws.filter((raw) => raw.text !== '');
    const together = this.parse(filled.map((raw) => raw.text).join('\n'));
    if (together.sound && together.rows.length === filled.length && !filled.some((raw) => raw.open))
      return filled.map((raw, i) => this.made(raw, together.rows[i] ?? []));
    // One of them is broken: each by itself, so that it spoils no other.
    return filled.map((raw) => {
      const { rows, sound } = this.parse(raw.text);
      const [fields] = rows;
      if (sound && !raw.open && rows.length === 1 && fields) return this.made(raw, fields);
      const broken = raw.open ? 'A quote opens in it that nothing closes.' : 'A quoted field goes on after its closing quote.';
      return { ...this.made(raw, [raw.text]), broken };
    });
  }

  private made(raw: RawRecord, fields: readonly string[]): CsvRecord {
    this.record++;
    return { fields, line: raw.line, record: this.record };
  }

  private parse(text: string): { readonly rows: readonly (readonly string[])[]; readonly sound: boolean } {
    // PapaParse takes a byte order mark off whatever it is given; one that begins a field in the middle of a file is that field's own.
    const whole = text.startsWith('\uFEFF') ? `\uFEFF${text}` : text;
    const { data, errors } = Papa.parse<string[]>(whole, { delimiter: this.delimiter, newline: '\n' });
    return { rows: data, sound: errors.length === 0 };
  }
}
