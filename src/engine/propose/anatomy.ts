/** Where a book says how its lights are arranged, and what that comes to: by the ids of rows, which every template gives to the same thing. */
import { type At, placeIn } from '../../book/address.ts';
import type { Book, Table } from '../../book/book.ts';
import { baseColumn, placeOf, standingOf, titleOf } from '../../book/look-up.ts';

/** What is varied. A book that lets lights hang by how far they are below something has `drop_below` in place of a height. */
export const PARTS = ['fixture', 'along', 'across', 'turned', 'spread_along', 'spread_across', 'height', 'dim', 'supply', 'fuse'] as const;
export type Part = (typeof PARTS)[number];

export interface Anatomy {
  readonly table: Table;
  /** The scenario from which all is taken that is not varied. */
  readonly column: number;
  readonly parts: Partial<Readonly<Record<Part, At>>>;
  /** All checks but verdicts, which are made of them: of the scenario, and of tables that compare nothing. */
  readonly checks: readonly At[];
  /** The same, with the verdicts. */
  readonly judged: readonly At[];
}

const GIVEN: ReadonlySet<string> = new Set(['given', 'as']);

/** A sentence where the book has no arrangement to be tried. */
export function anatomyOf(book: Book, name?: string): Anatomy | string {
  const compared = book.tables.filter((table) => table.form === 'scenarios' && (name === undefined || table.id === name));
  if (compared.length === 0) return 'This book compares no scenarios, so there is nothing to propose.';
  const found = compared.map((table) => partsOf(table));
  const place = found.findIndex(({ fixture, height, along }) => fixture && (height || along));
  const table = compared[place];
  const parts = found[place];
  if (!table || !parts) return `${compared[0]?.name} has no row for a fixture and none for how high it hangs, so there is nothing to try.`;
  const column = baseColumn(table);
  const judged = book.tables.flatMap((one) =>
    one.rows.flatMap((_, r) =>
      one.columns.flatMap((__, c) => {
        const at = placeIn(one, c, r);
        return at?.cell && standingOf(at) === 'check' && (one.form !== 'scenarios' || (one === table && c === column)) ? [at] : [];
      }),
    ),
  );
  if (judged.length === 0) return 'This book checks nothing, so no arrangement could be called good.';
  const checks = judged.filter((at) => !isVerdict(at));
  return { table, column, parts, checks, judged };
}

const isVerdict = (at: At): boolean => /^=VERDICT\(/iu.test(at.cell?.content ?? '');

function partsOf(table: Table): Partial<Record<Part, At>> {
  const parts: Partial<Record<Part, At>> = {};
  for (const part of PARTS) {
    const at = givenOf(table, part) ?? (part === 'height' ? givenOf(table, 'drop_below') : undefined);
    if (at) parts[part] = at;
  }
  return parts;
}

function givenOf(table: Table, id: string): At | undefined {
  const at = rowOf(table, id);
  return at && GIVEN.has(standingOf(at)) ? at : undefined;
}

export function rowOf(table: Table, id: string): At | undefined {
  const row = table.rows.findIndex((one) => one.id === id);
  return row < 0 ? undefined : placeIn(table, baseColumn(table), row);
}

/** The light that the crop can count on, and how much is aimed at and wanted at least. */
export interface LightAsked {
  readonly light: At;
  readonly asked: At;
}

const AIMED: readonly (readonly [light: string, asked: string])[] = [
  ['kept', 'ppfd_aim'],
  ['kept', 'light_wanted'],
  ['dli_mean', 'target_aim'],
];
const WANTED: readonly (readonly [light: string, asked: string])[] = [
  ['kept', 'ppfd_low'],
  ['dli_least', 'target_low'],
];

export const aimOf = (book: Book, table: Table): LightAsked | undefined => lightOf(book, table, AIMED);
export const lowEndOf = (book: Book, table: Table): LightAsked | undefined => lightOf(book, table, WANTED);

function lightOf(book: Book, table: Table, pairs: typeof AIMED): LightAsked | undefined {
  for (const [id, other] of pairs) {
    const light = rowOf(table, id);
    const asked = rowOf(table, other) ?? placeOf(book, other);
    if (light && asked) return { light, asked };
  }
  return undefined;
}

/** What a check is called where its scenario needs no saying. */
export const checkLabel = (at: At): string => at.row.label ?? titleOf(at);
