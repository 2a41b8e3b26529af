import { NOT_PLACED } from '../../book/free-title.ts';
import { bookOpen, type Command } from './command.ts';
import { control, controlAlone } from './keys.ts';

/** What is done with the whole of a book: it is named, sent out, brought in, printed, put away. */
export const bookCommands = [
  {
    id: 'rename',
    label: 'Name the plan, its client and what is usual there',
    words:
      'title rename client book settings options money currency convert exchange rate euro dollar pound mains volts breakers wire gauge paper letter measures units',
    atOnce: true,
    when: bookOpen,
    run: () => ({ do: 'open slip', slip: 'plan name', asked: undefined }),
  },
  {
    id: 'send-book',
    label: 'Send out the book as a file',
    words: 'save download export share mail json backup copy',
    keys: 'Ctrl S',
    presses: (e) => controlAlone(e, 's'),
    // What was typed goes out whether or not it can be worked out.
    atOnce: true,
    when: bookOpen,
    run: () => ({ do: 'send out', what: 'book' }),
  },
  {
    id: 'send-wide',
    label: 'Send out the scenarios as CSV, side by side',
    words: 'export download wide people table spreadsheet',
    atOnce: true,
    settled: true,
    when: bookOpen,
    run: () => ({ do: 'send out', what: 'wide' }),
  },
  {
    id: 'send-tidy',
    label: 'Send out every cell as CSV, one a line',
    words: 'export download tidy data',
    atOnce: true,
    settled: true,
    when: bookOpen,
    run: () => ({ do: 'send out', what: 'tidy' }),
  },
  {
    id: 'bring-in',
    // A table can only come into a book.
    label: (state) => (bookOpen(state) ? 'Bring in a book file or a table (CSV) …' : 'Bring in a book file …'),
    words: 'open import load merge add update readings list spreadsheet',
    keys: 'Ctrl O',
    presses: (e) => control(e, 'o'),
    atOnce: true,
    when: () => true,
    run: () => ({ do: 'bring in' }),
  },
  {
    id: 'send-not-placed',
    label: 'Send out what found no place, as CSV',
    words: 'export rejected records mend import',
    atOnce: true,
    settled: true,
    when: ({ book }) => book?.pages.some((page) => page.title === NOT_PLACED) ?? false,
    run: () => ({ do: 'send out', what: 'not placed' }),
  },
  {
    id: 'print',
    label: 'Print this page',
    words: 'paper pdf output',
    keys: 'Ctrl P',
    presses: (e) => controlAlone(e, 'p'),
    atOnce: true,
    when: bookOpen,
    run: () => ({ do: 'print' }),
  },
  {
    id: 'shelf',
    label: 'Other books and templates',
    words: 'shelf start new close exit home',
    atOnce: true,
    when: bookOpen,
    run: () => ({ do: 'go to shelf' }),
  },
] as const satisfies readonly Command[];
