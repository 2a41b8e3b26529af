import type { Book } from './book.ts';

/** Which plan of several alike it is, as its sheet says: "version 2 of 2027-01-08"; empty in a book that says neither. By rows, so that the list of books needs nothing else. */
export function planVersion({ tables }: Book): string {
  const said = (row: string): string => tables.flatMap(({ cells }) => Object.values(cells[row] ?? {}))[0]?.content ?? '';
  const [version, date] = [said('plan_version'), said('plan_date')];
  return [version && `version ${version}`, date && `of ${date}`].filter(Boolean).join(' ');
}
