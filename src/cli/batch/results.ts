/** What a run over many clients tells of each: the worked rows of every scenario, down to the verdict, and the checks. What else stands below was only looked up. */
import { unit } from '../../../functions/units.ts';
import { type At, placeIn } from '../../book/address.ts';
import type { Book, Table } from '../../book/book.ts';
import { addressOf, columnHeading, rowHeading, standingOf, titleOf, unitOf } from '../../book/look-up.ts';
import type { Address, Value, Values } from '../../engine/types.ts';
import { type CsvValue, fieldOf } from '../../files/csv/index.ts';

export type Form = 'tidy' | 'wide';

interface Result {
  readonly address: Address;
  /** Its place among the columns of the wide form. */
  readonly column: number;
  readonly label: string;
  /** Of the cell: "Maintained mean PPFD, B". */
  readonly title: string;
  readonly check: boolean;
}

export interface Results {
  readonly scenarios: readonly { readonly name: string; readonly results: readonly Result[] }[];
  /** One a column of the wide form; the unit is the one in which the template itself shows the row. */
  readonly columns: readonly { readonly label: string; readonly unit: string }[];
}

/** `values` are the template's own. */
export function resultsOf(book: Book, values: Values): Results {
  const compared = book.tables.filter((table) => table.form === 'scenarios');
  const columns: { label: string; unit: string }[] = [];
  const scenarios: { name: string; results: Result[] }[] = [];
  if (compared.length === 0)
    scenarios.push({ name: '', results: book.tables.filter((t) => t.form !== 'list').flatMap((t) => columnResults(t, 0, columns, values)) });
  for (const table of compared) {
    const own: { label: string; unit: string }[] = [];
    const found = table.columns.map((_, c) => columnResults(table, c, own, values, columns.length));
    columns.push(...own);
    for (const [c, results] of found.entries()) scenarios.push({ name: nameOf(table, c), results });
  }
  return { scenarios, columns };
}

const isResult = (at: At): boolean => at.row.label !== undefined && ['worked', 'check'].includes(standingOf(at));

/** The results of one column. Rows that an earlier column has too share their place with it. */
function columnResults(table: Table, c: number, columns: { label: string; unit: string }[], values: Values, offset = 0): Result[] {
  const places = table.rows.map((_, r) => placeIn(table, c, r)).filter((at) => at !== undefined);
  const isCheck = (at: At): boolean => standingOf(at) === 'check';
  const verdict = places.findLastIndex((at) => at.row.strong && isCheck(at));
  const foot = table.form !== 'scenarios' ? -1 : verdict < 0 ? places.findLastIndex(isCheck) : verdict;
  const results: Result[] = [];
  // A check that came to a book later stands below the verdict, and is told before it.
  for (const at of foot < 0 ? places : [...places.slice(0, foot), ...places.slice(foot + 1).filter(isCheck), ...places.slice(foot, foot + 1)]) {
    if (!isResult(at)) continue;
    const label = rowHeading(at);
    let column = columns.findIndex((one) => one.label === label);
    const value = values[addressOf(at)];
    if (column < 0) column = columns.push({ label, unit: value?.kind === 'number' ? value.unit : (unitOf(at) ?? '') }) - 1;
    results.push({ address: addressOf(at), column: column + offset, label, title: titleOf(at), check: standingOf(at) === 'check' });
  }
  return results;
}

function nameOf(table: Table, c: number): string {
  const at = placeIn(table, c, 0);
  return (at && columnHeading(at)) || String(c + 1);
}

/** The headings, after those of the client's own columns. */
export function headingsOf({ columns }: Results, form: Form): string[] {
  if (form === 'tidy') return ['scenario', 'result', 'value', 'unit'];
  return ['scenario', ...columns.map(({ label, unit: symbol }) => (symbol === '' ? label : `${label} (${symbol})`))];
}

/** The records of one client, without its own columns. */
export function recordsOf({ scenarios, columns }: Results, values: Values, form: Form): CsvValue[][] {
  if (form === 'tidy') return scenarios.flatMap(({ name, results }) => results.map((result) => [name, result.label, ...tidyFields(values[result.address])]));
  return scenarios.map(({ name, results }) => {
    const record: CsvValue[] = [name, ...columns.map(() => null)];
    for (const { address, column } of results) record[column + 1] = wideField(values[address], columns[column]?.unit ?? '');
    return record;
  });
}

const BLANK: Value = { kind: 'blank' };

const tidyFields = (value: Value = BLANK): [CsvValue, CsvValue] => [fieldOf(value), value.kind === 'number' ? value.unit : ''];

/** In the heading's unit; a number of another kind says its own. */
function wideField(value: Value = BLANK, symbol: string): CsvValue {
  if (value.kind !== 'number' || value.unit === symbol) return fieldOf(value);
  const [own, shared] = [unit(value.unit), unit(symbol)];
  const alike = own && shared && own.dimension === shared.dimension && own.reading === shared.reading;
  return alike ? fieldOf(value, symbol) : `${fieldOf(value)} ${value.unit}`;
}

/** Words of errors that are answers of a kind: a function found that there is none, or a given was left blank. */
const NO_ANSWER: ReadonlySet<string> = new Set(['refused', 'not answered yet']);

/**
 * Why the plan of each scenario is no plan, or undefined: the first error among its results. A check that fails is a result and no error. Nor is it one
 * where a row has no answer while the checks have theirs, such as the height that would reach the aim where none does: the row says its word.
 */
export function failuresOf({ scenarios }: Results, values: Values): (string | undefined)[] {
  return scenarios.map(({ results }) => {
    const checked = results.some((result) => result.check);
    for (const { address, title, check } of results) {
      const value = values[address];
      if (value?.kind !== 'error' || (checked && !check && NO_ANSWER.has(value.word))) continue;
      return `${title}: ${value.word}. ${value.message}${value.from === undefined ? '' : ` (from ${value.from})`}`;
    }
    return undefined;
  });
}

/** With the reason of each scenario that is no plan in its last check, which is where whoever reads the results looks for its verdict. */
export function withReasons({ scenarios }: Results, values: Values, failures: readonly (string | undefined)[]): Values {
  const reasons = scenarios.flatMap(({ results }, i) => {
    const [reason, verdict] = [failures[i], results.findLast((result) => result.check) ?? results.at(-1)];
    return reason === undefined || !verdict ? [] : [[verdict.address, { kind: 'text', text: `unknown: ${reason}` }] as const];
  });
  return reasons.length === 0 ? values : { ...values, ...Object.fromEntries(reasons) };
}
