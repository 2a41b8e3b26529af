/** What goes with a book's measures unless it says otherwise: how wires are called, and the paper. */
import type { Book } from './book.ts';

export type Wires = NonNullable<Book['wires']>;
export type Paper = NonNullable<Book['paper']>;

export const wiresOf = ({ measures, wires }: Pick<Book, 'measures' | 'wires'>): Wires => wires ?? (measures === 'metric' ? 'mm²' : 'AWG');

export const paperOf = ({ measures, paper }: Pick<Book, 'measures' | 'paper'>): Paper => paper ?? (measures === 'metric' ? 'A4' : 'letter');
