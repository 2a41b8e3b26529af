/** What a template takes of what can be said, found once for each: where it belongs, the lines of its list of crops, its questions for the client. */
import { type At, placeIn } from '../book/address.ts';
import type { Book } from '../book/book.ts';
import { plainText } from '../book/content.ts';
import { addressOf, namesOf, placeOf, sourceIn, sourceOf, standingOf } from '../book/look-up.ts';
import { isLeft, mustBeAsked, questionsOn, saidBy } from '../book/said-by.ts';
import { PLACES, type Place } from './givens.ts';
import type { Meaning } from './rules.ts';
import type { Value } from './things.ts';

export interface Takes {
  readonly places: ReadonlyMap<Meaning, { readonly at: At; readonly place: Place }>;
  readonly plants: Plants | undefined;
  /** Questions that only the client can answer, and nobody has. */
  readonly questions: readonly string[];
}

export interface Plants {
  readonly crop: At;
  readonly stage: At | undefined;
  readonly lines: readonly (readonly [crop: string, stage: string])[];
}

/** What may be an answer to a given. */
export interface Candidate {
  readonly at: At;
  readonly value: Value;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
  readonly ask?: string | undefined;
  /** What was said is another quantity, from which the answer may follow. */
  readonly near?: true;
  /** Taken from the given's own list. */
  readonly listed?: true;
  /** From a list that was written out. */
  readonly line?: true;
}

/** By its tables: the money that a book reckons in is no part of it. */
const known = new WeakMap<Book['tables'], Takes>();

export function takesOf(book: Book): Takes {
  const before = known.get(book.tables);
  if (before) return before;
  const places = new Map<Meaning, { at: At; place: Place }>();
  for (const [means, all] of Object.entries(PLACES) as [Meaning, readonly Place[]][]) {
    const found = all.flatMap((place) => {
      const at = atOf(book, place);
      return at ? [{ at, place }] : [];
    })[0];
    if (found) places.set(means, found);
  }
  const made: Takes = { places, plants: plantsOf(book), questions: questionsFor(book) };
  known.set(book.tables, made);
  return made;
}

export const nameOf = (book: Book, at: At): string => namesOf(book, at)[0] ?? addressOf(at);

function atOf(book: Book, { name, row, light }: Place): At | undefined {
  if (row) return rowIn(book, row);
  if (light) return lightIn(book, light);
  if (!name) return readingsIn(book);
  const at = placeOf(book, name);
  return at && ['given', 'as'].includes(standingOf(at)) ? at : undefined;
}

function rowIn(book: Book, id: string): At | undefined {
  const table = book.tables.find(({ form }) => form === 'scenarios');
  const row = table?.rows.findIndex((one) => one.id === id) ?? -1;
  const at = table && row >= 0 ? placeIn(table, 0, row) : undefined;
  return at && ['given', 'as', 'blank'].includes(standingOf(at)) ? at : undefined;
}

/** The first line of the list of lights in which nothing stands. */
function lightIn(book: Book, heading: string): At | undefined {
  const table = book.tables.find(({ id }) => id === 'fixtures');
  const head = table?.rows.find(({ head }) => head);
  const column = table?.columns.findIndex(({ id }) => table.cells[head?.id ?? '']?.[id]?.content === heading) ?? -1;
  const row = table?.rows.findIndex(({ id, head: isHead }) => !isHead && Object.values(table.cells[id] ?? {}).every(({ content }) => content === '')) ?? -1;
  return table && column >= 0 && row >= 0 ? placeIn(table, column, row) : undefined;
}

function readingsIn(book: Book): At | undefined {
  const table = book.tables.find(({ id }) => id === 'readings');
  return table && placeIn(table, 1, 1);
}

function plantsOf(book: Book): Plants | undefined {
  const [crop, stage] = [placeOf(book, 'crop'), placeOf(book, 'stage')];
  const from = crop && sourceIn(book, crop);
  if (!crop || !from) return undefined;
  const second = (stage && sourceIn(book, stage)?.column) ?? from.column + 1;
  const lines = from.list.rows
    .slice(from.from, from.to + 1)
    .map((_, i) => [from.column, second].map((column) => plainText(placeIn(from.list, column, from.from + i)?.cell?.content ?? '')) as [string, string])
    .filter(([name]) => name !== '');
  return { crop, stage, lines };
}

function questionsFor(book: Book): readonly string[] {
  const page = book.pages.find(({ blocks }) =>
    blocks.some((block) => block.kind === 'table' && book.tables.find(({ id }) => id === block.table)?.form === 'brief'),
  );
  const asked = page ? questionsOn(book, page) : [];
  return asked
    .filter((at) => isLeft(at) && (mustBeAsked(at) || saidBy(at.row.source)?.teller === 'client' || /\bask the client\b/u.test(sourceOf(at) ?? '')))
    .map((at) => nameOf(book, at));
}
