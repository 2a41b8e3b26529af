/**
 * From version 3 of the book to 4: places are written `Scenarios.B7`, no longer `Scenarios!B7`, and what would now read as a place is renamed: the name
 * `rail.v24` is `rail_v24` from then on. Changes that were kept with a book, to be taken back or played back, go along.
 *
 * What comes here is not checked yet, so anything may stand anywhere: what is not as it should be is handed on as it is, to be refused by the check.
 */
import { CORNER, QUOTED, referenceOf, referenceText, tablePrefix } from './address.ts';
import type { Change } from './change.ts';
import { asPlace, looksLikePlace } from './names.ts';
import { overChips, rewriteFormula } from './references.ts';

type Stored = Readonly<Record<string, unknown>>;
type Anew = (value: unknown) => unknown;

const TABLE = `(?:${QUOTED}|([A-Za-z0-9_\\u00C0-\\u02AF]+))!`;
/** A reference as version 3 wrote it. */
const OLD = new RegExp(`(?:${TABLE})?${CORNER}(?::(?:${TABLE})?${CORNER})?(?![A-Za-z0-9_.!(\\u00C0-\\u02AF])`, 'uy');
/** What is left of the old mark then, before whole rows or in a range from one table into another: none of it was ever worked out. */
const LEFT = new RegExp(`"[^"]*"|#REF!|${TABLE}`, 'gu');

export class PlacesAnew {
  readonly #names: Renames;
  readonly #tables: Renames;

  /** `stored`: the book as it was. `say` is told of each name that is another from now on. */
  constructor(stored: Stored, say: (sentence: string) => void = () => {}) {
    this.#names = new Renames(Object.keys(isRecord(stored.names) ? stored.names : {}), (old, now) => say(`The name ${old} is ${now} now: ${asPlace(old)}.`));
    const tables = Array.isArray(stored.tables)
      ? stored.tables.flatMap((table) => (isRecord(table) && typeof table.name === 'string' ? [table.name] : []))
      : [];
    this.#tables = new Renames(tables, (old, now) => say(`The table ${old} is called ${now} now: ${asPlace(old)}.`));
  }

  book(stored: Stored): Stored {
    return changed(stored, {
      tables: eachIn(this.#table),
      names: (names) => this.#keyed(names, this.#target),
      pages: eachIn(this.#page),
      went: (went) => this.#keyed(went, (sentence) => sentence),
    });
  }

  /** A change that was made of a book of version 3. */
  readonly change = (change: Change): Change => changed(change, { edits: eachIn((edit) => this.#edit(edit)) });

  #edit(edit: unknown): unknown {
    if (!isRecord(edit)) return edit;
    const sides = (anew: Anew): Record<string, Anew> => ({ before: anew, after: anew });
    switch (edit.at) {
      case 'cell':
        return changed(edit, sides(this.#cell));
      case 'row':
      case 'column':
        return changed(edit, sides(this.#line));
      case 'table':
        return changed(edit, sides(this.#table));
      case 'table fields':
        return changed(
          edit,
          sides((fields) => changed(fields, { name: ofText(this.#tables.of) })),
        );
      case 'page':
        return changed(edit, sides(this.#page));
      case 'block':
        return changed(edit, sides(this.#block));
      case 'name':
        return changed(edit, { name: ofText(this.#names.of), ...sides(this.#target) });
      case 'book':
        return changed(
          edit,
          sides((fields) => changed(fields, { went: (went) => this.#keyed(went, (sentence) => sentence) })),
        );
      default:
        return edit;
    }
  }

  readonly #table: Anew = (table) =>
    changed(table, {
      name: ofText(this.#tables.of),
      rows: eachIn((row) => this.#line(row)),
      columns: eachIn((column) => this.#line(column)),
      cells: inEach(inEach((cell) => this.#cell(cell))),
    });

  readonly #line: Anew = (line) => changed(line, { range: (range) => this.#range(range) });

  readonly #cell: Anew = (cell) => changed(cell, { content: ofText(this.#content), typed: ofText(this.#content), range: (range) => this.#range(range) });

  readonly #range: Anew = (range) => changed(range, { from: this.#target });

  readonly #page: Anew = (page) => changed(page, { blocks: eachIn((block) => this.#block(block)) });

  readonly #block: Anew = (block) =>
    isRecord(block) && block.kind === 'prose'
      ? changed(block, { text: ofText((text) => overChips(text, this.#place)) })
      : changed(block, { reads: inEach(ofText((text) => this.#place(text))) });

  readonly #content = (content: string): string => (content.startsWith('=') ? this.#formula(content) : content);

  #formula(formula: string): string {
    const made = rewriteFormula(
      formula,
      // One that says no table is written as it was.
      (reference) => (reference.table === undefined ? undefined : { ...reference, table: this.#tables.of(reference.table) }),
      this.#names.of,
      OLD,
    );
    if (!made.includes('!')) return made;
    return made.replaceAll(LEFT, (whole, quoted?: string, bare?: string) => {
      const table = quoted?.replaceAll("''", "'") ?? bare;
      return table === undefined ? whole : tablePrefix(this.#tables.of(table));
    });
  }

  /** A text that is one place or a name. */
  readonly #place = (text: string): string => {
    OLD.lastIndex = 0;
    const match = OLD.exec(text);
    const reference = match && match[0].length === text.length ? referenceOf(match) : undefined;
    if (!reference) return this.#names.of(text);
    return referenceText(reference.table === undefined ? reference : { ...reference, table: this.#tables.of(reference.table) });
  };

  readonly #target: Anew = ofText((text) => this.#place(text));

  #keyed(found: unknown, anew: Anew): unknown {
    return isRecord(found) ? Object.fromEntries(Object.entries(found).map(([name, value]) => [this.#names.of(name), anew(value)])) : found;
  }
}

/** Names that would read as places, each with the one that it gets: with a _ for its last point, and a number where that is taken. */
class Renames {
  readonly #made = new Map<string, string>();
  readonly #taken: Set<string>;
  readonly #tell: (old: string, now: string) => void;

  constructor(all: readonly string[], tell: (old: string, now: string) => void) {
    this.#taken = new Set(all.map((name) => name.toLowerCase()));
    this.#tell = tell;
    for (const name of all) this.of(name);
  }

  /** What it is called from now on; the same where it was no place. */
  readonly of = (name: string): string => {
    if (!looksLikePlace(name)) return name;
    const key = name.toLowerCase();
    const known = this.#made.get(key);
    if (known !== undefined) return known;
    const at = name.lastIndexOf('.');
    const plain = `${name.slice(0, at)}_${name.slice(at + 1)}`;
    let now = plain;
    for (let n = 2; this.#taken.has(now.toLowerCase()); n++) now = `${plain.slice(0, 55)}_${n}`;
    this.#taken.add(now.toLowerCase());
    this.#made.set(key, now);
    this.#tell(name, now);
    return now;
  };
}

// ---- parts of what is stored, made anew where they are as they should be, and the very same where nothing changes

const isRecord = (found: unknown): found is Stored => typeof found === 'object' && found !== null && !Array.isArray(found);

const ofText =
  (anew: (text: string) => string): Anew =>
  (found) =>
    typeof found === 'string' ? anew(found) : found;

function eachIn(anew: Anew): Anew {
  return (list) => {
    if (!Array.isArray(list)) return list;
    const made = list.map(anew);
    return made.some((item, i) => item !== list[i]) ? made : list;
  };
}

function inEach(anew: Anew): Anew {
  return (record) => {
    if (!isRecord(record)) return record;
    const made = Object.entries(record).map(([key, value]) => [key, anew(value)] as const);
    return made.some(([key, value]) => value !== record[key]) ? Object.fromEntries(made) : record;
  };
}

/** The fields that are there, each made anew. */
function changed<T>(found: T, fields: Readonly<Record<string, Anew>>): T {
  if (!isRecord(found)) return found;
  const made = Object.entries(fields).flatMap(([key, anew]) => {
    const now = Object.hasOwn(found, key) ? anew(found[key]) : undefined;
    return now === found[key] ? [] : [[key, now] as const];
  });
  return made.length === 0 ? found : { ...found, ...Object.fromEntries(made) };
}
