/** Values as what one can go to: who seeks a target or a height means the cell that is called so, and no command. */
import { placeIn } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { baseColumn, standingOf } from '../../book/look-up.ts';
import type { Command, PageState } from './command.ts';

/** What people also say for what stands in the labels. */
const ALSO: Readonly<Record<string, string>> = { watt: 'power', wattage: 'power', amp: 'current', distance: 'height', budget: 'cost', bill: 'electricity' };

export const wordsOf = (text: string): readonly string[] => text.toLowerCase().match(/[\p{L}\p{N}²³]+/gu) ?? [];

/** One for several, and the labels' word for another. */
export const plainer = (words: readonly string[]): readonly string[] =>
  words.map((word) => {
    const one = word.replace(/(?<=..[^s])s$/u, '');
    return ALSO[one] ?? one;
  });

const MOST = 12;

/** Rows whose labels have these words; a row of the scenarios leads to the one at hand. */
export function values(book: Book, at: PageState['at'], sought: string): readonly Command[] {
  const said = wordsOf(sought);
  const words = plainer(said);
  if (words.length === 0) return [];
  return book.tables
    .flatMap((table) => {
      const column = at?.table.id === table.id ? at.columnIndex : table.form === 'scenarios' ? baseColumn(table) : 0;
      return table.rows.flatMap(({ label = '' }, row) => {
        const own = wordsOf(label);
        const found = words.every((word) => own.some((each) => each.startsWith(word))) ? placeIn(table, column, row) : undefined;
        if (!found) return [];
        const inFull = words.every((word, i) => own.includes(word) || own.includes(said[i] ?? ''));
        // Of those that are called so the scenarios' come first, then what can be filled in, then what begins with the word.
        const first = [inFull, table.form === 'scenarios', standingOf(found) === 'given', own[0] === words[0]];
        const rank = first.reduce((sum, is) => 2 * sum + Number(!is), 0);
        return [{ label: `Go to ${label} (${table.name})`, inFull, rank, table: table.id, near: { row, column } }];
      });
    })
    .toSorted((a, b) => a.rank - b.rank)
    .slice(0, MOST)
    .map(({ label, inFull, table, near }) => ({
      id: `${table} ${near.row}`,
      label,
      words: '',
      value: inFull ? 'called so' : 'begun so',
      when: () => true,
      run: () => ({ do: 'choose', table, near, follow: true }),
    }));
}
