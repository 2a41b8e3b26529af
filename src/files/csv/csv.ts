/**
 * Comma-separated text as RFC 4180 (Shafranovich, 2005) has it: CRLF between records, fields in double quotes where they need it.
 * A text that another program might run as a formula is guarded by an apostrophe, which is taken away again on the way in.
 */
import Papa from 'papaparse';
import { guard, unguard } from '../guard.ts';

/** A number is written as it is, in full precision; a text is guarded. */
export type CsvValue = string | number | boolean | null;

export interface CsvOptions {
  /** Begins with a byte order mark, by which some programs know UTF-8. */
  readonly bom?: boolean;
}

export { unguard };

/** Records of one width, as RFC 4180 asks: short ones are filled up with empty fields. */
export function formatCsv(records: readonly (readonly CsvValue[])[], { bom = false }: CsvOptions = {}): string {
  const width = records.reduce((most, record) => Math.max(most, record.length), 0);
  const texts = records.map((record) => Array.from({ length: width }, (_, i) => fieldText(record[i] ?? null)));
  return `${bom ? '\uFEFF' : ''}${Papa.unparse(texts, { newline: '\r\n' })}\r\n`;
}

/** Fields as they came from a file, guards and all, to be given back as they were. */
export const formatVerbatim = (records: readonly (readonly string[])[]): string => `${Papa.unparse(records as string[][], { newline: '\r\n' })}\r\n`;

/** Every field as it stands, guards and all. Line ends may be CRLF, LF or CR; a byte order mark is passed over. */
export function parseCsv(text: string): { readonly records: readonly (readonly string[])[]; readonly problems: readonly string[] } {
  const { data, errors } = Papa.parse<string[]>(text.replace(/^\uFEFF/u, ''), { delimiter: ',', skipEmptyLines: false });
  const records = data.at(-1)?.length === 1 && data.at(-1)?.[0] === '' ? data.slice(0, -1) : data;
  return { records, problems: errors.map(({ message, row }) => (row === undefined ? message : `Record ${row + 1}: ${message}.`)) };
}

function fieldText(field: CsvValue): string {
  if (field === null) return '';
  if (typeof field === 'number') return String(field);
  if (typeof field === 'boolean') return field ? 'TRUE' : 'FALSE';
  return guard(field);
}
