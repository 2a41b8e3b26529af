/** What lights, how many, how high: put forward by the program. */
import { bookOpen, type Command, inBook, type Outcome } from './command.ts';

/** Asked where something stands in the way, too: it is said what. */
const propose = (mode: 'fill' | 'try') =>
  inBook(async ({ book, values }): Promise<Outcome> => {
    const { notYet } = await import('./before-proposing.ts');
    return { do: 'open slip', slip: 'propose', asked: notYet(book, values) ?? mode };
  });

export const proposingCommands = [
  {
    id: 'propose',
    label: 'Propose scenarios',
    words: 'suggest find best cheapest even fewest lights arrangement search optimise fill A B C',
    keys: 'F8',
    presses: (e) => e.key === 'F8',
    settled: true,
    when: bookOpen,
    run: propose('fill'),
  },
  {
    id: 'try-layouts',
    label: 'Try layouts …',
    words: 'suggest find search arrangements fixtures counts heights cost evenness list compare options',
    settled: true,
    when: bookOpen,
    run: propose('try'),
  },
] as const satisfies readonly Command[];
