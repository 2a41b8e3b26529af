/** What a book says of checks that it lacks: the same words in the verdict, on the page, on paper and on the command line. */
import type { Book, Lacks } from '../book.ts';

const checks = (n: number): string => `${n} ${n === 1 ? 'check' : 'checks'}`;

/** After a verdict: `3 checks lacking, 2 by older rules`. */
export function lacksShort({ checks: lacking, older }: Lacks): string {
  const said = [
    lacking.length > 0 && `${checks(lacking.length)} lacking`,
    older.length > 0 && `${lacking.length > 0 ? older.length : checks(older.length)} by older rules`,
  ];
  return said.filter(Boolean).join(', ');
}

/** In whole sentences, with which; nothing where none is lacking. */
export function lacksSaid({ template }: Book): string {
  const lacks = template?.lacks;
  if (!lacks) return '';
  const said = [
    lacks.checks.length > 0 && `It lacks ${checks(lacks.checks.length)} of the present one: ${lacks.checks.join(', ')}.`,
    lacks.older.length > 0 && `${checks(lacks.older.length)} work${lacks.older.length === 1 ? 's' : ''} by older rules: ${lacks.older.join(', ')}.`,
  ];
  return `This book was begun from an earlier edition of its template. ${said.filter(Boolean).join(' ')}`;
}

/** What took the place of a name that an earlier edition had, as a sentence; undefined where nothing is known of it. */
export function wentSaid({ went }: Book, name: string): string | undefined {
  const key = went && Object.keys(went).find((each) => each.toLowerCase() === name.toLowerCase());
  return key === undefined ? undefined : `${key} is no longer given. ${went?.[key]}`;
}
