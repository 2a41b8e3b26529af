/** What a plan asks for: to be mended, to be asked for, to be fitted to readings, to be brought up to its template. */
import { type At, cellAt } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, placeOf } from '../../book/look-up.ts';
import type { Mend } from '../../engine/types.ts';
import { placeOfAt } from '../parts/index.ts';
import { type Command, inBook, onCells, type PageState } from './command.ts';
import { controlAlone, controlShift } from './keys.ts';

/** What would put the chosen cell right, where one key can do it. */
function mendOf({ at, values }: PageState): Mend | undefined {
  const value = at && values[addressOf(at)];
  const mend = value?.kind === 'error' ? value.mend : undefined;
  return mend?.content !== undefined || mend?.unit !== undefined ? mend : undefined;
}

/** Where a book asks for it: what was read, or with which meter. */
const luxIn = (book: Book): At | undefined => placeOf(book, 'lux_read') ?? placeOf(book, 'meter_kind');

/** Whether a formula asks for the mean of readings, or the like: then there are places at which they were taken. */
const takesReadings = ({ tables }: Book): boolean =>
  tables.some(({ cells }) => Object.values(cells).some((line) => Object.values(line).some(({ content }) => content.includes('READINGS.'))));

export const planCommands = [
  {
    id: 'mend',
    label: 'Make the suggested correction',
    words: 'fix error repair',
    keys: 'Ctrl M',
    presses: (e) => controlAlone(e, 'm'),
    when: (state) => mendOf(state) !== undefined,
    run: onCells(async (state) => {
      const { content, unit, cell } = mendOf(state) ?? {};
      const target = (cell !== undefined && cellAt(state.book, cell)) || state.at;
      if (content !== undefined) return { do: 'type', place: placeOfAt(target), typed: content };
      if (unit === undefined) return [];
      // The unit that is set contradicts what is worked out: the view is mended, the formula stays.
      const { setUnit } = await import('../../book/commands/set-unit.ts');
      return setUnit(state.book, { addresses: [addressOf(target)], unit });
    }),
  },
  {
    id: 'ask',
    label: 'Ask one question at a time',
    words: 'brief answer questions client interview who said so source left',
    atOnce: true,
    when: ({ book }) => book?.tables.some((table) => table.form === 'brief') ?? false,
    // At the first that is left: the cell that is chosen is often the question that was asked last. The sign beside an answer asks that one.
    run: () => ({ do: 'open slip', slip: 'brief', asked: undefined }),
  },
  {
    id: 'enquiry',
    label: 'Read what the client wrote',
    words: 'enquiry mail text letter paste words understood answers again',
    atOnce: true,
    when: ({ book }) => book?.tables.some((table) => table.form === 'brief') ?? false,
    run: () => ({ do: 'open slip', slip: 'enquiry', asked: undefined }),
  },
  {
    id: 'lux',
    label: 'Say what a lux meter showed',
    words: 'lumens reading measured foot-candles ppfd',
    atOnce: true,
    when: ({ book }) => book !== undefined && luxIn(book) !== undefined,
    run: inBook(({ book }) => {
      const at = luxIn(book);
      return { do: 'open slip', slip: 'brief', asked: at && placeOfAt(at) };
    }),
  },
  {
    id: 'meter-grid',
    label: 'Set how many places the meter reads …',
    words: 'grid readings points rows along across size number',
    when: ({ book }) => book !== undefined && takesReadings(book),
    run: inBook(async ({ book }) => (await import('./meter-grid.ts')).askPlaces(book)),
  },
  {
    id: 'carry-fit',
    label: 'Use the result of the readings in the scenarios',
    words: 'meter fit factor readings measured light apply',
    keys: 'Ctrl Shift L',
    presses: (e) => controlShift(e, 'l'),
    // What is carried is what the readings give now, not what they gave before the last of them was written.
    settled: true,
    when: ({ book }) => book !== undefined && placeOf(book, 'light_carried') !== undefined,
    run: inBook(async ({ book, values }) => (await import('./carry-fit.ts')).carryFound(book, values)),
  },
  {
    id: 'take-in',
    label: 'Take in what the template checks now',
    words: 'edition older newer update checks lacking template upgrade',
    when: ({ book }) => book?.template?.lacks !== undefined,
    run: inBook(async ({ book }) => (await import('./renewing.ts')).taken(book)),
  },
] as const satisfies readonly Command[];
