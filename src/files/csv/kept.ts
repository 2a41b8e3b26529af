/**
 * What an import could not place, kept in the book: a list on the page "Not placed" with the line, the reason and the record as it was read, the
 * file's headings first. `formatNotPlaced` makes a file of it again, to be mended and brought in once more.
 */
import { textContent } from '../../../functions/quantity-text.ts';
import type { Table } from '../../book/book.ts';
import { BOUNDS, count } from '../../book/bounds.ts';
import { plainText } from '../../book/content.ts';
import { NOT_PLACED } from '../../book/free-title.ts';
import { formatVerbatim, parseCsv } from './csv.ts';
import type { Draft, NewTable } from './draft.ts';
import type { CsvRecord } from './records.ts';

export interface NotPlaced {
  readonly record: CsvRecord;
  /** Counted from 1; left out where the whole record is meant. */
  readonly column?: { readonly number: number; readonly heading: string };
  readonly message: string;
}

const HEADINGS = ['Line', 'Why', 'As read'];
const IS_HEADINGS = 'headings';

/** A line for each record, whatever the number of its fields that found no place. Gives why the book has no room for them. */
export function keepAside(
  draft: Draft,
  file: { readonly name: string; readonly head: CsvRecord | undefined },
  problems: readonly NotPlaced[],
): string | undefined {
  const byRecord = new Map<CsvRecord, NotPlaced[]>();
  for (const problem of problems) {
    const known = byRecord.get(problem.record);
    if (known) known.push(problem);
    else byRecord.set(problem.record, [problem]);
  }
  let table: NewTable | undefined;
  let row = 0;
  const add = (cells: readonly string[]): string | undefined => {
    for (const [c, text] of cells.entries()) {
      const problem = table && draft.put(table, c, row, { content: textContent(text) });
      if (problem !== undefined) return problem;
    }
    row++;
    return undefined;
  };
  for (const [record, missed] of byRecord) {
    if (!table || row >= BOUNDS.rows) {
      table = begin(draft, file.name);
      row = 0;
      table.rows.set(0, { head: true });
      const problem = add(HEADINGS) ?? (file.head ? add([String(file.head.line), IS_HEADINGS, ...asRead(file.head)]) : undefined);
      if (problem !== undefined) return noRoom(problem, byRecord.size);
    }
    const problem = add([String(record.line), missed.map(reason).join(' '), ...asRead(record)]);
    if (problem !== undefined) return noRoom(problem, byRecord.size);
  }
  return undefined;
}

const noRoom = (problem: string, records: number): string =>
  `${count(records)} records can't be placed, and the book has no room to keep them: ${problem.charAt(0).toLowerCase()}${problem.slice(1)} Bring the file in by parts.`;

export const reason = ({ record, column, message }: NotPlaced): string =>
  column
    ? `Line ${record.line}, record ${record.record}, column ${column.number} (${column.heading}): ${message}`
    : `Line ${record.line}, record ${record.record}: ${message}`;

const asText = (fields: readonly string[]): string => formatVerbatim([fields]).slice(0, -2);

/** The record as one text, in as many pieces as a cell's length asks for. */
function asRead({ fields, broken }: CsvRecord): string[] {
  const text = broken === undefined ? asText(fields) : (fields[0] ?? '');
  const pieces: string[] = [];
  for (let at = 0; at < text.length; at += LONGEST) pieces.push(text.slice(at, at + LONGEST));
  return pieces;
}

/** One less than a cell holds, for the apostrophe that may go before it. */
const LONGEST = BOUNDS.text - 1;

function begin(draft: Draft, file: string): NewTable {
  const clean = `${NOT_PLACED}, ${file.replaceAll(/[!:"[\]{}\\'\p{Cc}]/gu, ' ')}`.slice(0, 50).trim();
  for (let n = 1; ; n++) {
    const made = draft.begin(n === 1 ? clean : `${clean} ${n}`, NOT_PLACED);
    if (typeof made !== 'string') return made;
    if (n > BOUNDS.tables) throw new Error(made);
  }
}

/** Whether a table of a book holds what an import could not place. */
export const holdsNotPlaced = (table: Table): boolean => table.rows[0]?.head === true && HEADINGS.every((heading, c) => textAt(table, c, 0) === heading);

/** The kept records as the file had them, under its headings, each with the reason why it was not placed after its fields. */
export function formatNotPlaced(table: Table): string {
  const records = table.rows.slice(1).map((_, i) => {
    const text = table.columns
      .slice(2)
      .map((_, c) => textAt(table, c + 2, i + 1))
      .join('');
    const { records: read } = parseCsv(text);
    const why = textAt(table, 1, i + 1);
    return [...(read[0] && asText(read[0]) === text ? read[0] : [text]), why === IS_HEADINGS ? 'not placed because' : why];
  });
  const width = Math.max(0, ...records.map((record) => record.length));
  return formatVerbatim(records.map((record) => [...record.slice(0, -1), ...Array.from({ length: width - record.length }, () => ''), record.at(-1) ?? '']));
}

const textAt = (table: Table, column: number, row: number): string =>
  plainText(table.cells[table.rows[row]?.id ?? '']?.[table.columns[column]?.id ?? '']?.content ?? '');
