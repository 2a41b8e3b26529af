/** What the line of Crops says that is picked: the light that it asks for, in words, and the hours that go with it while nobody has said any. */
import { readContent, textContent } from '../../functions/quantity-text.ts';
import { type At, placeIn } from './address.ts';
import type { Book } from './book.ts';
import { type Answered, pickersOf, same, textOfLine } from './goes-with.ts';
import { placeOf, sourceIn, sourceOf } from './look-up.ts';
import { mustBeAsked, saidBy, TO_ASK } from './said-by.ts';

/** Cells of a row of the list that a given takes its text from, by their headings. */
type Row = (heading: string) => string;

function rowsOf(book: Book, at: At): readonly { readonly texts: readonly string[]; readonly cell: Row }[] {
  const own = sourceIn(book, at);
  const head = own?.list.rows[0];
  const columns = pickersOf(book, at).map(({ column }) => column);
  if (!own || !head?.head || columns.length < 2) return [];
  const content = (column: number, row: number): string => placeIn(own.list, column, row)?.cell?.content ?? '';
  return own.list.rows.slice(own.from, own.to + 1).map((_, i) => ({
    texts: columns.map((column) => content(column, own.from + i)),
    cell: (heading) =>
      content(
        own.list.columns.findIndex((__, c) => same(content(c, 0), heading)),
        own.from + i,
      ),
  }));
}

/** The low and the high end of what a row says under two headings: `10.8 to 12.96 mol/m²/d`, `13 mol/m²/d or more`; empty where it says neither. */
function span(cell: Row, name: string): string {
  const [low, high] = [cell(`${name} low`), cell(`${name} high`)];
  if (low === '' || high === '') return low !== '' ? `${name} ${low} or more` : high !== '' ? `${name} ${high} or less` : '';
  const [a, b] = [readContent(low), readContent(high)];
  if (low === high || a.kind !== 'number' || b.kind !== 'number' || a.unit !== b.unit) return low === high ? `${name} ${low}` : `${name} ${low} to ${high}`;
  return `${name} ${a.given} to ${high}`;
}

/** By the words of each line that may be picked whole, the light it asks for: a day’s (DLI), else that at one time (PPFD). */
export function lightOfLines(book: Book, at: At): ReadonlyMap<string, string> {
  const filled = rowsOf(book, at).filter(({ texts }) => texts[0]);
  return new Map(filled.map(({ texts, cell }) => [textOfLine(texts), span(cell, 'DLI') || span(cell, 'PPFD')]));
}

/** The name of the given that the crop may set. */
export const HOURS = 'light_hours';

/** How the source of hours begins that the crop has set: a default that another crop sets anew, until somebody says or agrees to it. */
const BY_THE_CROP = 'by the crop';

export function isByCrop(hours: At): boolean {
  const said = saidBy(sourceOf(hours));
  return said?.teller === 'default' && !said.agreed && said.how.startsWith(BY_THE_CROP);
}

/** Where nobody has said the hours of light: the middle of those of the crop that the answers come to, and that they are the crop's. */
export function hoursWith(book: Book, answers: readonly Answered[]): readonly Answered[] {
  const hours = placeOf(book, HOURS);
  const [first] = answers;
  if (!hours || !first || !(mustBeAsked(hours) || isByCrop(hours))) return [];
  const stands = pickersOf(book, first.at).map(({ at }) => (answers.find((one) => one.at.row === at.row)?.after ?? at.cell)?.content ?? '');
  const rows = stands.length < 2 ? [] : rowsOf(book, first.at).filter(({ texts }) => texts.every((text, i) => same(text, stands[i] ?? '')));
  const [low, high] = ['Hours low', 'Hours high'].map((heading) => readContent(rows[0]?.cell(heading) ?? ''));
  const { typed: _, ...kept } = hours.cell ?? { content: '' };
  if (rows.length !== 1 || low?.kind !== 'number' || high?.kind !== 'number' || low.unit !== high.unit) {
    // What another crop has set is no answer of this one.
    return stands.length < 2 || mustBeAsked(hours) ? [] : [{ at: hours, after: { ...kept, source: TO_ASK } }];
  }
  const content = textContent(`${(low.given + high.given) / 2} ${low.unit}`).replace(/^'/, '');
  const span = low.given === high.given ? `${low.given}` : `${low.given} to ${high.given}`;
  return [{ at: hours, after: { ...kept, content, source: `default ${BY_THE_CROP}: ${textOfLine(stands)}, ${span} ${low.unit}` } }];
}
