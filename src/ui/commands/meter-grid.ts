/** Asks how many places a meter is read at. */
import { counted } from '../../../functions/number-text.ts';
import type { Book } from '../../book/book.ts';
import { MOST_PLACES, readingsLost, setGrid } from '../../book/commands/set-grid.ts';
import { meterGrid } from '../../book/meter-grid.ts';
import type { Outcome } from './command.ts';

export function askPlaces(book: Book): Outcome {
  const grid = meterGrid(book);
  if (!grid) return [];
  const places = (given: (field: string) => string) => ({ along: Number(given('along')), across: Number(given('across')) });
  return {
    do: 'open slip',
    slip: 'form',
    asked: {
      name: 'Where the meter reads',
      says: 'What was read stays at its place and row. The tables that have these places, and the picture, follow.',
      fields: [
        { name: 'along', label: 'Places along the bench', value: String(grid.along), most: MOST_PLACES },
        { name: 'across', label: 'Rows across it', value: String(grid.across), most: MOST_PLACES },
      ],
      foretells: (given) => {
        const { along, across } = places(given);
        const n = readingsLost(grid, along, across);
        return n === 0 ? '' : `${counted(n, 'reading')} would be taken out, having no place there. Undo brings ${n === 1 ? 'it' : 'them'} back.`;
      },
      keep: 'Set it so',
      change: (now, given) => setGrid(now, places(given)),
    },
  };
}
