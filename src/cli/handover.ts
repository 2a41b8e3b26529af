/// <reference types="vite/client" />

import { paperOf } from '../book/customs.ts';
import { sheetFile } from '../handover/file.ts';
import { PAPERS, type Paper } from '../handover/page-style.ts';
import { gather } from '../handover/sheet.ts';
import literata from '../ui/fonts/literata.woff2?inline';
import recursive from '../ui/fonts/recursive.woff2?inline';
import { openBook } from './open-book.ts';
import { deliver } from './output.ts';
import { spare } from './same-file.ts';
import type { Verb } from './verb.ts';
import { amongThese, Failure, WrongUse } from './wrong-use.ts';

const isPaper = (text: string): text is Paper => PAPERS.some((paper) => paper === text);

export const verb: Verb = {
  usage: 'BOOK [--scenario B] [--paper A4 | letter] [-o FILE.html]',
  about: 'Makes the hand-over sheet of a book: one file with everything in it, to read, print and pass on.',
  options: {
    scenario: { type: 'string', about: 'the letter of the scenario that is handed over; the recommended one unless said' },
    paper: { type: 'string', about: `${PAPERS.join(' or ')}; what goes with the book’s measures unless said` },
    output: { type: 'string', short: 'o', about: 'the file to write; standard output without it' },
  },
  async run(operands, options) {
    const [file, more] = operands;
    const asked = options.paper === undefined ? undefined : String(options.paper);
    if (file === undefined) throw new WrongUse('a book is missing');
    if (more !== undefined) throw new WrongUse(`one book at a time, not also ${more}`);
    if (asked !== undefined && !isPaper(asked)) throw new WrongUse(`paper is ${PAPERS.join(' or ')}, not ${asked}`);
    spare([file], [options.output as string | undefined]);
    const session = await openBook(file);
    try {
      const scenario = typeof options.scenario === 'string' ? options.scenario : undefined;
      const made = await gather(session.book, session.values, (question) => session.ask(question), scenario);
      const { letters, letter } = made.reader;
      if (scenario !== undefined && letter.toLowerCase() !== scenario.toLowerCase()) {
        throw new Failure(`${file} has no scenario ${scenario}; ${amongThese(scenario, letters)}`);
      }
      await deliver(sheetFile(made, asked ?? paperOf(session.book), { literata, recursive }), typeof options.output === 'string' ? options.output : undefined);
      return 0;
    } finally {
      session.close();
    }
  },
};
