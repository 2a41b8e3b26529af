/** How well enquiries are read, held against what was meant: each expectation was written by somebody who had not seen the rules. */
import type { Book } from '../../src/book/book.ts';
import { answers, choose, type Finding, hear } from '../../src/enquiry/index.ts';

export interface Meant {
  /** A name or an address; a question mark for its line is the first free one of its list. */
  readonly given: string;
  readonly value: unknown;
  readonly unit: string;
  readonly sure: boolean;
  readonly words: string;
}

export interface Enquiry {
  readonly text: string;
  readonly template: string;
  readonly findings: readonly Meant[];
  /** Words of what no given of the template takes. */
  readonly unused: readonly string[];
}

export interface Score {
  /** What the text says and a given takes; how much of it was found; how much of that is called sure. */
  meant: number;
  found: number;
  foundSure: number;
  /** All that is called sure, and how much of it is right. */
  sure: number;
  sureRight: number;
  templates: number;
  /** Givens that something was found for, and those of them that need no question. */
  givens: number;
  givensSure: number;
  /** Of words that nobody marked. */
  readonly invented: string[];
  /** Found for the right given, at another value; called sure where it is to be asked. */
  readonly wrong: string[];
  readonly missed: string[];
}

const close = (a: unknown, b: unknown): boolean => {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(a));
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((one, i) => close(one, b[i]));
  return a === b;
};

const told = (n: number, { given, value, unit, words }: { given: string; value: unknown; unit: string; words: string }): string =>
  `${n}: ${given} ${JSON.stringify(value)} ${unit} “${words}”`;

function freeLine(book: Book, name: string): number {
  const list = book.tables.find((table) => table.name === name);
  return (list?.rows.findIndex(({ id }) => Object.values(list.cells[id] ?? {}).every(({ content }) => content === '')) ?? -1) + 1;
}

export function measure(enquiries: readonly Enquiry[], bookOf: (template: string) => Book): Score {
  const score: Score = { meant: 0, found: 0, foundSure: 0, sure: 0, sureRight: 0, templates: 0, givens: 0, givensSure: 0, invented: [], wrong: [], missed: [] };
  for (const [n, { text, template, findings: meant, unused }] of enquiries.entries()) {
    const heard = hear(text);
    if (choose(heard).slug === template) score.templates++;
    else score.wrong.push(`${n}: template ${choose(heard).slug}, not ${template}`);
    const book = bookOf(template);
    const { findings } = answers(text, heard, book);
    const line = freeLine(book, 'Fixtures');
    const fits = (one: Finding, other: Meant): boolean =>
      one.given === other.given.replace('?', String(line)) && close(one.value, other.value) && one.unit === other.unit;
    score.givens += new Set(findings.map(({ given }) => given)).size;
    score.givensSure += findings.filter(({ sure }) => sure).length;
    for (const one of meant) {
      score.meant++;
      const found = findings.find((each) => fits(each, one));
      if (found) score.found++;
      if (found?.sure) score.foundSure++;
      if (!found) score.missed.push(told(n, one));
    }
    const marked = [...meant.map(({ words }) => words), ...unused].map((words) => [text.indexOf(words), text.indexOf(words) + words.length] as const);
    for (const one of findings) {
      const right = meant.find((other) => fits(one, other));
      if (one.sure) score.sure++;
      if (one.sure && right?.sure) score.sureRight++;
      else if (one.sure) score.wrong.push(`sure ${told(n, one)}`);
      else if (!right) score.wrong.push(`ask ${told(n, one)}`);
      if (!right && !marked.some(([from, to]) => from < one.at[1] && one.at[0] < to)) score.invented.push(told(n, one));
    }
  }
  return score;
}
