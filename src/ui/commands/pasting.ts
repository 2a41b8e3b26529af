/** Puts down what was copied, from the first of the chosen cells on. It has a key of the table's own and stands in no list. */
import { placesOf } from '../../book/area.ts';
import { placeOfAt, type Wishes } from '../parts/index.ts';
import { fetchPasting } from '../table/index.ts';
import { onCells, type Run } from './command.ts';

export const pasting = (pasted: Wishes['paste']): Run =>
  onCells(async ({ book, area, ask }) => {
    // A block was chosen from any of its corners: what is pasted begins at its first.
    const at = placesOf(book, area)?.lines[0]?.[0];
    if (!at) return [];
    const { pasteInto } = await fetchPasting();
    const outcome = await pasteInto(ask, { book, at, area }, pasted);
    if ('typed' in outcome) return { do: 'type', place: placeOfAt(at), typed: outcome.typed };
    if ('ask' in outcome) return { do: 'open slip', slip: 'paste', asked: outcome.ask };
    return outcome.answer;
  });
