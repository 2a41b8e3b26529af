import { takeIn } from '../book/commands/take-in.ts';
import { isRefused, refused } from '../book/refused.ts';
import { formatBook } from '../files/book/index.ts';
import { openBook } from './open-book.ts';
import { deliver } from './output.ts';
import { spare } from './same-file.ts';
import { laterEdition } from './templates.ts';
import type { Verb } from './verb.ts';
import { Failure, WrongUse } from './wrong-use.ts';

/** Brings a book of an earlier edition to what its template checks now; what its owner wrote stays. */
export const verb: Verb = {
  usage: 'BOOK [-o BOOK]',
  about: 'Brings a book of an earlier edition of its template to what the present one checks. What its owner wrote stays.',
  options: { output: { type: 'string', short: 'o', about: 'the file to write, another than the book; standard output without it' } },
  async run(operands, { output }) {
    const [file, more] = operands;
    if (file === undefined) throw new WrongUse('a book is missing');
    if (more !== undefined) throw new WrongUse(`one book at a time, not also ${more}`);
    spare([file], [output as string | undefined]);
    const session = await openBook(file);
    try {
      const later = await laterEdition(session.book);
      const answer = session.run((book) => (later ? takeIn(book, later.template, later.past) : refused('This book has all that its template checks.')));
      if (isRefused(answer)) throw new Failure(`${file}: ${answer.message}`);
      await session.settled();
      console.error(answer.label);
      await deliver(formatBook(session.book), output as string | undefined);
      return 0;
    } finally {
      session.close();
    }
  },
};
