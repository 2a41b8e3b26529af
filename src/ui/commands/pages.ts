import { isRefused } from '../../book/refused.ts';
import { bookOpen, type Command, inBook, type Run } from './command.ts';
import { fetchArranging, onPage, pageIn, withPage } from './spot.ts';

const movePageBy = (by: 1 | -1): Run =>
  withPage(async ({ book, page, pageIndex }) => (await fetchArranging()).movePage(book, { page: page.id, to: pageIndex + by }));

/** What is done with the page that is shown, and a new one. */
export const pageCommands = [
  {
    id: 'add-page',
    label: 'Add a page',
    words: 'new contents',
    when: bookOpen,
    run: inBook(async (state) => {
      const on = pageIn(state);
      const at = on ? on.pageIndex + 1 : state.book.pages.length;
      const group = on?.page.group;
      const { addPage } = await fetchArranging();
      return {
        do: 'open slip',
        slip: 'form',
        asked: {
          name: 'Add a page',
          fields: [{ name: 'title', label: 'Its title' }],
          keep: 'Add it',
          change: (book, given) => addPage(book, { title: given('title'), at, ...(group === undefined ? {} : { group }) }),
          after: (book) => ({ page: book.pages[at]?.id ?? state.pageId }),
        },
      };
    }),
  },
  {
    id: 'name-page',
    label: 'Name this page',
    words: 'rename title',
    when: onPage(),
    run: withPage(async ({ page }) => {
      const { renamePage } = await fetchArranging();
      return {
        do: 'open slip',
        slip: 'form',
        asked: {
          name: 'Name this page',
          fields: [{ name: 'title', label: 'Its title', value: page.title }],
          keep: 'Keep',
          change: (book, given) => renamePage(book, { page: page.id, title: given('title') }),
        },
      };
    }),
  },
  { id: 'page-up', label: 'Move this page up', words: 'order earlier contents', when: onPage(({ pageIndex }) => pageIndex > 0), run: movePageBy(-1) },
  {
    id: 'page-down',
    label: 'Move this page down',
    words: 'order later contents',
    when: onPage(({ book, pageIndex }) => pageIndex < book.pages.length - 1),
    run: movePageBy(1),
  },
  {
    id: 'drop-page',
    label: 'Take this page away',
    words: 'delete remove',
    when: onPage(({ book }) => book.pages.length > 1),
    run: withPage(async ({ book, page, pageIndex }) => {
      const next = (book.pages[pageIndex + 1] ?? book.pages[pageIndex - 1])?.id ?? '';
      const { removePage, loss } = await fetchArranging();
      const answer = removePage(book, { page: page.id });
      if (page.blocks.length === 0) return isRefused(answer) ? answer : [answer, { do: 'show page', page: next }];
      return {
        do: 'open slip',
        slip: 'form',
        asked: {
          name: `Take the page ${page.title} away?`,
          says: loss(book, answer, page.blocks.length),
          keep: 'Take it away',
          change: (now) => removePage(now, { page: page.id }),
          after: () => ({ page: next }),
        },
      };
    }),
  },
] as const satisfies readonly Command[];
