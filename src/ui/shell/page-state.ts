/** What commands see of the page: made here and nowhere else. */

import type { Session } from '../../session.ts';
import type { PageState } from '../commands/index.ts';
import { OWN_PAGES } from '../own-pages/index.ts';
import type { Typing } from './typing.ts';
import type { Whereabouts } from './whereabouts.ts';

export interface Seen {
  readonly session: Session | undefined;
  readonly whereabouts: Whereabouts;
  readonly typing: Typing;
}

const CLOSED: PageState = {
  book: undefined,
  values: {},
  at: undefined,
  typedAt: undefined,
  area: undefined,
  drawnWidth: undefined,
  pageId: '',
  piece: undefined,
  pages: [],
  canUndo: false,
  canRedo: false,
  canReturn: false,
  ask: () => Promise.reject(new Error('No book is open.')),
};

/** `piece`: as if this one were in hand. `busy`: something that was asked for is still being done. */
export function pageState({ session, whereabouts, typing }: Seen, busy: boolean, piece = whereabouts.piece): PageState {
  if (!session) return CLOSED;
  const { book, values, history } = session;
  const { at, area, pageId, canReturn } = whereabouts;
  return {
    book,
    values,
    at,
    typedAt: typing.last && whereabouts.atPlace(typing.last),
    area,
    // Asked only by what needs it: the page is laid out for the answer.
    get drawnWidth() {
      return at && document.getElementById(`cell-${book.tables.indexOf(at.table)}-${at.rowIndex}-${at.columnIndex}`)?.offsetWidth;
    },
    pageId,
    piece,
    pages: [...book.pages, ...OWN_PAGES],
    // What is still being read or done is a change by the time at which it is taken back.
    canUndo: history.done.length > 0 || typing.isReading || busy,
    canRedo: history.undone.length > 0,
    canReturn,
    ask: session.ask.bind(session),
  };
}
