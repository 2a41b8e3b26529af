/** The names that a book gives its cells, as the calculator has them. */
import type { Book } from '../book/book.ts';
import { readReference, type Span } from './addresses.ts';
import type { Hyper } from './hyper.ts';
import type { Sheets } from './sheets.ts';

export class Names {
  readonly #sheets: Sheets;
  /** As the book writes them, by their capitals. */
  #known: ReadonlyMap<string, string> = new Map();

  constructor(sheets: Sheets) {
    this.#sheets = sheets;
  }

  /** For a calculator that has none. */
  forget(): void {
    this.#known = new Map();
  }

  /** Names all cells of a book anew. */
  give(hyper: Hyper, book: Book): void {
    for (const name of this.#known.values()) hyper.hf.removeNamedExpression(name);
    const known = new Map<string, string>();
    for (const [name, target] of Object.entries(book.names)) {
      const written = readReference(target);
      const sheet = written?.table === undefined ? undefined : this.#sheets.sheet(written.table);
      const table = sheet === undefined ? undefined : book.tables[sheet];
      if (!written || !table) continue;
      try {
        hyper.name(name, table.name, written);
        known.set(name.toUpperCase(), name);
      } catch {
        // A name that the calculator will not have is no name: formulas that use it say so.
      }
    }
    this.#known = known;
  }

  has(name: string): boolean {
    return this.#known.has(name.toUpperCase());
  }

  all(): Iterable<string> {
    return this.#known.values();
  }

  /** The cells that a name stands for, however its letters are written. */
  span(asWritten: string): Span | undefined {
    const name = this.#known.get(asWritten.toUpperCase());
    const written = name === undefined ? undefined : readReference(this.#sheets.book?.names[name] ?? '');
    const sheet = written?.table === undefined ? undefined : this.#sheets.sheet(written.table);
    return written && sheet !== undefined ? { start: { sheet, ...written.start }, end: { sheet, ...written.end } } : undefined;
  }
}
