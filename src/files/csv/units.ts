/** Columns of a file in which some numbers have a unit and some have none: how those without are read is said, never guessed in silence. */
import { readQuantity } from '../../../functions/quantity-text.ts';
import { unit } from '../../../functions/units.ts';
import type { CsvRecord } from './records.ts';

/** Digits and what parts them, and nothing else. */
const BARE = /^[-+−]?[\d.,'\s]*\d[\d.,'\s]*(e[-+]?\d+)?$/iu;
/** Records that are looked at before any is placed. */
const FIRST = 200;

interface Seen {
  own: number;
  bare: number;
  /** In which the bare ones were read; an empty text: as plain numbers. */
  readonly units: Set<string>;
}

export class UnitsTold {
  private readonly columns = new Map<number, Seen>();

  see(column: number, field: string, readIn: string): void {
    const seen = this.columns.get(column) ?? { own: 0, bare: 0, units: new Set() };
    this.columns.set(column, seen);
    if (BARE.test(field.trim())) {
      seen.bare++;
      seen.units.add(readIn === '1' ? '' : readIn);
    } else seen.own++;
  }

  /** One sentence for each column that has both. */
  mixed(headings: readonly string[]): string[] {
    const both = [...this.columns].filter(([, { own, bare }]) => own > 0 && bare > 0).sort(([a], [b]) => a - b);
    return both.map(([column, { own, bare, units }]) => {
      const [only] = units;
      const read = units.size > 1 ? 'read in the units that their cells show' : only ? `read in ${only}` : 'kept as plain numbers';
      return `${headings[column] ?? `column ${column + 1}`}: ${own} ${own === 1 ? 'has its' : 'have their'} own unit, ${bare} ${bare === 1 ? 'has' : 'have'} none. Those without are ${read}.`;
    });
  }
}

/** What is asked of a file that is brought in. */
interface Numbers {
  readonly records: readonly CsvRecord[];
  readonly decimalMark: '.' | ',';
}

/** The unit for the bare numbers of a column that says none in its heading: that of the others in it, where they are all of one kind. */
export function unitOfOthers({ records, decimalMark }: Numbers, column: number, currency: string): string | undefined {
  const fields = records.slice(0, FIRST).flatMap(({ fields }) => fields[column]?.trim() || []);
  if (!fields.some((field) => BARE.test(field))) return undefined;
  const written = fields.filter((field) => !BARE.test(field)).map((field) => readQuantity(field, { currency, decimalMark }));
  const [first] = written;
  if (first?.kind !== 'number' || first.unit === '') return undefined;
  const kind = unit(first.unit);
  const alike = written.every((read) => {
    const own = read.kind === 'number' ? unit(read.unit) : undefined;
    return own !== undefined && own.dimension === kind?.dimension && own.reading === kind.reading;
  });
  return alike ? first.unit : undefined;
}
