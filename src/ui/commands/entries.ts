/** A new row of a look-up list, from its data sheet. */
import type { Table } from '../../book/book.ts';
import { plainText } from '../../book/content.ts';
import { inSentence } from '../../book/label.ts';
import { addressOf, sourceIn } from '../../book/look-up.ts';
import { type Command, inBook, type PageState } from './command.ts';

/** A plan can't be worked out without some of its columns: it is filled from data sheets. */
const fromSheets = (table: Table): boolean => table.form === 'list' && table.columns.some(({ needed }) => needed);

/** The list that the chosen cell is of, or takes its answer from. */
function listAt({ book, at }: PageState): Table | undefined {
  if (at?.table.form === 'list') return at.table.rows[0]?.head ? at.table : undefined;
  const list = book && at && sourceIn(book, at)?.list;
  return list && fromSheets(list) ? list : undefined;
}

function called(table: Table | undefined): string {
  const [first] = table?.columns ?? [];
  const heading = inSentence(plainText((first && table?.cells[table.rows[0]?.id ?? '']?.[first.id]?.content) ?? '') || 'row');
  return `Add ${/^[aeiou]/iu.test(heading) ? 'an' : 'a'} ${heading} ${table && fromSheets(table) ? 'from its data sheet ' : ''}…`;
}

const asks = (table: Table, pick?: string) =>
  ({ do: 'open slip', slip: 'entry', asked: { title: called(table).replace(/ …$/u, ''), table: table.id, pick } }) as const;

const WORDS = 'new own not in the list light lamp supply catalogue product insert';

export const entryCommands = [
  {
    id: 'new-entry',
    label: (state) => called(listAt(state)),
    words: WORDS,
    when: (state) => listAt(state) !== undefined,
    run: inBook((state) => {
      const list = listAt(state);
      return list ? asks(list, state.at && state.at.table !== list ? addressOf(state.at) : undefined) : [];
    }),
  },
] as const satisfies readonly Command[];

/** Into the lists that are not at hand. */
export const otherEntries = (state: PageState): readonly Command[] =>
  (state.book?.tables ?? [])
    .filter((table) => fromSheets(table) && table !== listAt(state))
    .map((table) => ({ id: `entry-${table.id}`, label: called(table), words: WORDS, when: () => true, run: () => asks(table) }));
