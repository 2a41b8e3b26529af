/** In which units and measures what is given is shown. */
import { paperOf, wiresOf } from '../../book/customs.ts';
import { addressOf, unitOf } from '../../book/look-up.ts';
import { bookOpen, type Command, inBook, type PageState } from './command.ts';

const fetchCustoms = () => import('../../book/commands/set-customs.ts');

/** The chosen cell holds, or is to hold, a number that has a unit or may have one. */
export function quantity({ at, book, values }: PageState): boolean {
  if (!at || !book) return false;
  const kind = values[addressOf(at)]?.kind ?? 'blank';
  return kind === 'number' || (kind === 'blank' && unitOf(at) !== undefined);
}

/** And its row is one quantity across several columns. */
const quantityRow = (state: PageState): boolean =>
  quantity(state) && state.at !== undefined && state.at.table.form !== 'list' && state.at.table.columns.length > 1;

export const unitCommands = [
  {
    id: 'unit',
    label: 'Show in another unit …',
    words: 'convert view inches centimetres',
    atOnce: true,
    when: quantity,
    run: () => ({ do: 'open slip', slip: 'unit', asked: 'cell' }),
  },
  {
    id: 'row-unit',
    label: 'Show the row in another unit …',
    words: 'convert view',
    atOnce: true,
    when: quantityRow,
    run: () => ({ do: 'open slip', slip: 'unit', asked: 'row' }),
  },
  {
    id: 'measures',
    label: ({ book }) => `Metric or US customary: ${book?.measures === 'metric' ? 'show US customary' : 'show metric'}`,
    words: 'units feet foot inches metres meters imperial si fahrenheit celsius convert',
    when: bookOpen,
    run: inBook(async ({ book }) => {
      const { setMeasures } = await import('../../book/commands/set-measures.ts');
      return setMeasures(book, { measures: book.measures === 'metric' ? 'US customary' : 'metric' });
    }),
  },
  {
    id: 'wires',
    label: ({ book }) => `Wires by area or by gauge: show ${book && wiresOf(book) === 'AWG' ? 'mm²' : 'AWG'}`,
    words: 'cable awg mm² size',
    when: bookOpen,
    run: inBook(async ({ book }) => (await fetchCustoms()).setWires(book, { wires: wiresOf(book) === 'AWG' ? 'mm²' : 'AWG' })),
  },
  {
    id: 'paper',
    label: ({ book }) => `Paper: print on ${book && paperOf(book) === 'A4' ? 'letter' : 'A4'}`,
    words: 'size page',
    when: bookOpen,
    run: inBook(async ({ book }) => (await fetchCustoms()).setPaper(book, { paper: paperOf(book) === 'A4' ? 'letter' : 'A4' })),
  },
] as const satisfies readonly Command[];
