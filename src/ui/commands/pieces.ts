import type { Block } from '../../book/book.ts';
import { tableOfBlock } from '../../book/look-up.ts';
import { isRefused } from '../../book/refused.ts';
import type { Command, Run } from './command.ts';
import { fetchArranging, type OnPage, onPage, withPage } from './spot.ts';

/** What is added stands after the piece in hand; else last on the page. */
const after = ({ index, page }: OnPage): number => (index < 0 ? page.blocks.length : index + 1);

const isA =
  (kind: Block['kind']) =>
  ({ block }: OnPage): boolean =>
    block?.kind === kind;

/** Moving it takes the focus from it: it is taken up again. */
const movePiece = (by: 1 | -1): Run =>
  withPage(async ({ book, index, block }) => {
    if (!block) return [];
    const { moveBlock } = await fetchArranging();
    const answer = moveBlock(book, { block: block.id, to: index + by });
    return isRefused(answer) ? answer : [answer, { do: 'take up piece', block: block.id }];
  });

/** What is done with the pieces of the page that is shown: with the one in hand, and new ones after it. */
export const pieceCommands = [
  {
    id: 'add-text',
    label: 'Add a text here',
    words: 'new prose paragraph note comment remark insert',
    when: onPage(),
    run: withPage((on) => ({ do: 'write text', text: { at: after(on) } })),
  },
  {
    id: 'add-picture',
    label: 'Add a picture here',
    words: 'new map curve bars chart graph diagram insert',
    when: onPage(),
    run: withPage((on) => ({ do: 'open slip', slip: 'picture', asked: { page: on.page.id, at: after(on) } })),
  },
  {
    id: 'add-table',
    label: 'Add a table here',
    words: 'new list grid insert',
    when: onPage(),
    run: withPage(async (on) => {
      const [page, at] = [on.page.id, after(on)];
      const { addTable } = await fetchArranging();
      return {
        do: 'open slip',
        slip: 'form',
        asked: {
          name: 'Add a table',
          fields: [
            { name: 'name', label: 'Its name, as formulas say it' },
            {
              name: 'form',
              label: 'What it is',
              pick: [
                ['plain', 'Rows and columns with names of their own'],
                ['list', 'A list to look things up in, headings in its first row'],
                ['scenarios', 'The scenarios, side by side'],
              ],
            },
            { name: 'rows', label: 'Rows', value: '6', most: 20_000 },
            { name: 'columns', label: 'Columns (the scenarios have theirs)', value: '3', most: 100 },
          ],
          keep: 'Add it',
          change: (book, given) => {
            const form = given('form');
            const [rows, columns] = [Number(given('rows')), Number(given('columns'))];
            return addTable(book, { page, at, name: given('name'), form: form === 'list' || form === 'scenarios' ? form : 'plain', rows, columns });
          },
          after: (book) => ({ piece: book.pages.find((each) => each.id === page)?.blocks[at]?.id }),
        },
      };
    }),
  },
  {
    id: 'write-text',
    label: 'Write this text',
    words: 'edit prose',
    when: onPage(isA('prose')),
    run: withPage(({ block }) => ({ do: 'write text', text: { block: block?.id ?? '' } })),
  },
  {
    id: 'change-picture',
    label: 'Change this picture',
    words: 'edit caption cells kind',
    when: onPage(isA('picture')),
    run: withPage(({ block }) => ({ do: 'open slip', slip: 'picture', asked: { block: block?.id ?? '' } })),
  },
  {
    id: 'name-table',
    label: 'Name this table',
    words: 'rename',
    when: onPage(isA('table')),
    run: withPage(async ({ book, block }) => {
      const table = block?.kind === 'table' ? (tableOfBlock(book, block.table)?.name ?? '') : '';
      const { renameTable } = await fetchArranging();
      return {
        do: 'open slip',
        slip: 'form',
        asked: {
          name: 'Name this table',
          says: 'Formulas, texts and pictures that say its name say the new one from then on.',
          fields: [{ name: 'name', label: 'Its name', value: table }],
          keep: 'Keep',
          change: (now, given) => renameTable(now, { table, name: given('name') }),
        },
      };
    }),
  },
  { id: 'piece-up', label: 'Move this piece up', words: 'order text table picture earlier', when: onPage(({ index }) => index > 0), run: movePiece(-1) },
  {
    id: 'piece-down',
    label: 'Move this piece down',
    words: 'order text table picture later',
    when: onPage(({ index, page }) => index >= 0 && index < page.blocks.length - 1),
    run: movePiece(1),
  },
  {
    id: 'drop-piece',
    label: 'Take this piece away',
    words: 'delete remove text table picture',
    when: onPage(({ block }) => block !== undefined),
    run: withPage(async ({ book, page, index, block }) => {
      if (!block) return [];
      const piece = (page.blocks[index + 1] ?? page.blocks[index - 1])?.id;
      const { removeBlock, loss } = await fetchArranging();
      const answer = removeBlock(book, { block: block.id });
      if (block.kind !== 'table') return isRefused(answer) ? answer : [answer, { do: 'take up piece', block: piece }];
      return {
        do: 'open slip',
        slip: 'form',
        asked: {
          name: `Take the table ${tableOfBlock(book, block.table)?.name ?? ''} away?`,
          says: loss(book, answer, 1),
          keep: 'Take it away',
          change: (now) => removeBlock(now, { block: block.id }),
          after: () => ({ piece }),
        },
      };
    }),
  },
] as const satisfies readonly Command[];
