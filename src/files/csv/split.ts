/**
 * Cuts text into the texts of its records, a piece at a time, so that a file of any length is read in little memory and every record knows its line.
 * What lies in a record is PapaParse's business; this only knows where one ends: at CRLF, LF or CR (a file may mix them) outside quotes.
 *
 * A quote opens only at the start of a field, as RFC 4180 has it, so `36"` in the middle of one is just text. A quoted field that does not
 * close within a million characters, or at all, is taken for a slip: its line is a record by itself, marked broken, and the next line begins anew.
 */
export interface RawRecord {
  /** Without its line end. */
  readonly text: string;
  /** The line on which it begins, from 1. */
  readonly line: number;
  /** A quote opens in it and does not close. */
  readonly open?: boolean;
}

const LONGEST = 1_000_000;
/** A line that goes on for longer than this is in no file of records, and must not fill the memory. */
const LONGEST_LINE = 4 * LONGEST;

const QUOTE = 34;
const CR = 13;
const LF = 10;

export class RecordSplitter {
  private text = '';
  private line = 1;
  private readonly delimiter: string;

  constructor(delimiter: string) {
    this.delimiter = delimiter;
  }

  /** The records that are whole once this piece is there too. */
  push(piece: string): RawRecord[] {
    this.text += piece;
    return this.take(false);
  }

  /** What is left when no more comes. */
  end(): RawRecord[] {
    return this.take(true);
  }

  private take(last: boolean): RawRecord[] {
    const records: RawRecord[] = [];
    let from = 0;
    while (from < this.text.length) {
      const end = this.endFrom(from, last);
      if (!end) break;
      records.push({ text: this.text.slice(from, end.at), line: this.line, ...(end.open && { open: true }) });
      this.line += end.lines;
      from = end.next;
    }
    this.text = this.text.slice(from);
    return records;
  }

  /** Where the record that begins here ends and the next begins; undefined where that is not to be seen yet. */
  private endFrom(from: number, last: boolean): { readonly at: number; readonly next: number; readonly lines: number; readonly open?: boolean } | undefined {
    const { text } = this;
    const delimiter = this.delimiter.charCodeAt(0);
    let quoted = false;
    let fieldStart = true;
    let inner = 0;
    for (let i = from; i < text.length; i++) {
      const c = text.charCodeAt(i);
      if (quoted) {
        if (c === QUOTE) {
          // A doubled quote closes and opens again at once. One that is last so far may be the first of two.
          if (i + 1 === text.length && !last) return undefined;
          if (text.charCodeAt(i + 1) === QUOTE) i++;
          else quoted = false;
        } else if (c === LF || (c === CR && text.charCodeAt(i + 1) !== LF)) inner++;
        if (i - from > LONGEST) return this.firstLine(from);
        continue;
      }
      if (c === LF || c === CR) {
        if (c === CR && i + 1 === text.length && !last) return undefined;
        const next = c === CR && text.charCodeAt(i + 1) === LF ? i + 2 : i + 1;
        return { at: i, next, lines: inner + 1 };
      }
      if (fieldStart && c === QUOTE) quoted = true;
      fieldStart = c === delimiter;
    }
    if (!last && text.length - from > LONGEST_LINE) throw new RangeError(`Line ${this.line} does not end: this is no file of records.`);
    if (!last) return undefined;
    return quoted ? this.firstLine(from) : { at: text.length, next: text.length, lines: inner + 1 };
  }

  private firstLine(from: number): { readonly at: number; readonly next: number; readonly lines: number; readonly open: true } {
    const lineEnd = /\r\n|\n|\r|$/gu;
    lineEnd.lastIndex = from;
    const match = lineEnd.exec(this.text);
    const at = match?.index ?? this.text.length;
    return { at, next: at + (match?.[0].length ?? 0), lines: 1, open: true };
  }
}
