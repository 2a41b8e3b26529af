/** The standard functions that the books use: OASIS, Open Document Format for Office Applications (OpenDocument) v1.3, part 4: Recalculated Formula (OpenFormula), 2021, chapter 6. */
import { down, isOpen, near, num, refuse, sound, text, up, type Value, yesno } from './values.ts';

type Rows = readonly (readonly Value[])[];

const first = (rows: Rows | undefined): Exclude<Value, { kind: 'fault' }> => sound(rows?.[0]?.[0] ?? { kind: 'blank' });

function numberIn(rows: Rows | undefined): number {
  const found = first(rows);
  if (found.kind === 'number') return found.n;
  return found.kind === 'blank' ? 0 : found.kind === 'yesno' ? Number(found.yes) : refuse('a text where a number belongs');
}

/** The numbers of ranges, texts and blanks passed over; of single values a text is refused. */
function numbers(args: readonly Rows[]): { readonly all: number[]; readonly reading: boolean } {
  let reading = false;
  const all = args.flatMap((rows) =>
    rows.flat().flatMap((cell) => {
      const found = sound(cell);
      if (found.kind === 'number') reading ||= found.reading;
      return found.kind === 'number' ? [found.n] : [];
    }),
  );
  return { all, reading };
}

const key = (value: Value): string | number =>
  value.kind === 'text' ? value.s.toLowerCase() : value.kind === 'number' ? value.n : value.kind === 'yesno' ? String(value.yes) : '';
const isTrue = (cell: Value): boolean => key(sound(cell)) === 'true' || (sound(cell).kind === 'number' && key(sound(cell)) !== 0);
const same = (a: Value, b: Value): boolean => {
  if (a.kind !== b.kind) return false;
  return a.kind === 'number' && b.kind === 'number' ? near(a.n, b.n) : key(a) === key(b);
};

export const STANDARD: Readonly<Record<string, (args: readonly Rows[]) => Value>> = {
  SUM: (args) => num(numbers(args).all.reduce((sum, x) => sum + x, 0)),
  // What is refused is no number, and is passed over as a text is.
  COUNT: (args) => num(args.flatMap((rows) => rows.flat()).filter((cell) => cell.kind === 'number').length),
  MAX: (args) => extreme(args, Math.max),
  MIN: (args) => extreme(args, Math.min),
  AVERAGE: (args) => {
    const { all, reading } = numbers(args);
    return all.length === 0 ? refuse('nothing to average') : num(all.reduce((sum, x) => sum + x, 0) / all.length, reading);
  },
  LN: ([x]) => (numberIn(x) > 0 ? num(Math.log(numberIn(x))) : refuse('no logarithm of nothing')),
  SQRT: ([x]) => (numberIn(x) < 0 ? refuse('a root of less than nothing') : num(Math.sqrt(numberIn(x)))),
  MOD: ([x, by]) => {
    const [a, b] = [numberIn(x), numberIn(by)];
    if (b === 0) return refuse('divides by zero');
    const left = a - b * down(a / b);
    return num(Math.abs(left) < 1e-9 * Math.abs(b) ? 0 : left);
  },
  INT: ([x]) => num(down(numberIn(x))),
  ROUNDUP: ([x, places]) => {
    const scale = 10 ** numberIn(places);
    const scaled = numberIn(x) * scale;
    return num((Math.sign(scaled) * up(Math.abs(scaled))) / scale);
  },
  ROUNDDOWN: ([x, places]) => {
    const scale = 10 ** numberIn(places);
    const scaled = numberIn(x) * scale;
    return num((Math.sign(scaled) * down(Math.abs(scaled))) / scale);
  },
  OR: (args) => yesno(args.some((rows) => rows.flat().some(isTrue))),
  AND: (args) => yesno(args.every((rows) => rows.flat().every(isTrue))),
  LEN: ([x]) => {
    const found = first(x);
    return num(found.kind === 'text' ? found.s.length : found.kind === 'blank' ? 0 : String(numberIn(x)).length);
  },
  CODE: ([x]) => {
    const found = first(x);
    return found.kind === 'text' && found.s !== '' ? num(found.s.charCodeAt(0)) : refuse('no letter');
  },
  LEFT: ([x, count]) => {
    const found = first(x);
    return text(found.kind === 'text' ? found.s.slice(0, numberIn(count)) : refuse('no text'));
  },
  ABS: ([x]) => num(Math.abs(numberIn(x))),
  CHAR: ([x]) => text(String.fromCharCode(numberIn(x))),
  ROWS: ([x]) => num(x?.length ?? 0),
  COLUMNS: ([x]) => num(x?.[0]?.length ?? 0),
  INDEX: ([rows, row, column]) => {
    const [r, c] = [numberIn(row), column === undefined ? 1 : numberIn(column)];
    return sound(rows?.[r - 1]?.[c - 1] ?? refuse('no such place'));
  },
  MATCH: ([wanted, among]) => {
    const found = first(wanted);
    const all = (among ?? []).flat();
    const place = all.findIndex((cell) => !isOpen(cell) && same(cell, found));
    return place < 0 ? refuse('not found') : num(place + 1);
  },
};

function extreme(args: readonly Rows[], pick: (...xs: number[]) => number): Value {
  const { all, reading } = numbers(args);
  return num(all.length === 0 ? 0 : pick(...all), reading);
}

/** Functions that reckon cell by cell. */
export const ARRAYS: ReadonlySet<string> = new Set(['SUMPRODUCT']);

export function arrayOf(_name: string, args: readonly Rows[]): number {
  const [head = [], ...rest] = args.map((rows) =>
    rows.flat().map((cell) => {
      const found = sound(cell);
      return found.kind === 'number' ? found.n : found.kind === 'yesno' ? Number(found.yes) : 0;
    }),
  );
  return head.reduce((sum, x, i) => sum + rest.reduce((product, other) => product * (other[i] ?? 0), x), 0);
}
