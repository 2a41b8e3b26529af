/** Places of tables that may be called anything, and the writings in which they may come in. */
import fc from 'fast-check';
import { columnText } from '../../src/book/address.ts';
import { tableNameProblem } from '../../src/book/names.ts';

const LETTERS = [..."AabBeE159_ .,;:$#'()&+-*/%=<>|~^@?éñ×÷µΩ日"];

/** Names that tables may have: plain words, numbers, words that look like cells or functions, and letters that mean something in a formula. */
export const tableName = fc
  .oneof(
    fc.constantFrom(
      'Scenarios',
      'Light map',
      '2024',
      '2024.1',
      '1e5',
      "Grower's",
      'a.b',
      'rail',
      'BENCH.MEAN',
      'T',
      'É',
      'Light×2',
      "it's 'so' here",
      'A1 B2',
      '$T',
      'a,b;c',
    ),
    fc.array(fc.constantFrom(...LETTERS), { minLength: 1, maxLength: 12 }).map((letters) => letters.join('')),
  )
  .filter((name) => tableNameProblem(name) === undefined);

export interface Spot {
  readonly column: number;
  readonly row: number;
}

export const spot: fc.Arbitrary<Spot> = fc.record({
  column: fc.oneof(fc.nat({ max: 3 }), fc.nat({ max: 701 })),
  row: fc.oneof(fc.nat({ max: 9 }), fc.nat({ max: 19_999 })),
});

const quoted = (name: string): string => `'${name.replaceAll("'", "''")}'`;
const plain = (name: string): boolean => /^[A-Za-z_]\w*$/.test(name);

/** Every way to write one cell of a table that is read, by hand: no writing is made by the program. */
export function writingsOf(name: string, { column, row }: Spot, brackets = true): readonly string[] {
  const cell = `${columnText(column)}${row + 1}`;
  const fixed = `$${columnText(column)}$${row + 1}`;
  const table = plain(name) ? name : quoted(name);
  return [
    `${table}.${cell}`,
    `${quoted(name)}.${cell}`,
    `${table}.${fixed}`,
    `${table}!${cell}`,
    `${quoted(name)}!${fixed}`,
    `${table}.${cell.toLowerCase()}`,
    `$${table}.${fixed}`,
    ...(brackets ? [`[${table}.${cell}]`, `[$${quoted(name)}.${fixed}]`] : []),
  ];
}
