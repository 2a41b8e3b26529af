import { randomUUID } from 'node:crypto';
import { cellAt } from '../book/address.ts';
import type { Book } from '../book/book.ts';
import { wentSaid } from '../book/edition/said.ts';
import { misfits } from '../book/goes-with.ts';
import { addressOf, named, standingOf } from '../book/look-up.ts';
import { ownAddress } from '../book/other-writing.ts';
import { asExample } from '../book/said-by.ts';
import { formatBook } from '../files/book/index.ts';
import type { Session } from '../session.ts';
import { openText } from './open-book.ts';
import { deliver } from './output.ts';
import { templateText } from './templates.ts';
import type { Verb } from './verb.ts';
import { amongThese, Failure, WrongUse } from './wrong-use.ts';

export const verb: Verb = {
  usage: 'TEMPLATE [--set NAME=VALUE]… [-o BOOK]',
  about: 'Begins a book from a template, and answers some of its givens. What is not answered stands as in the example, and says so.',
  options: {
    set: { type: 'string', multiple: true, about: 'a given by its name or address and its value, with or without a unit; as often as is wanted' },
    output: { type: 'string', short: 'o', about: 'the file for the book; standard output without it' },
  },
  async run(operands, { set, output }) {
    const [slug, more] = operands;
    if (slug === undefined) throw new WrongUse('a template is missing; overbench templates lists them');
    if (more !== undefined) throw new WrongUse(`one template at a time, not also ${more}`);
    const session = await openText(await templateText(slug), slug, asExample);
    try {
      const settings = (set as string[] | undefined) ?? [];
      const written: string[] = [];
      for (const setting of settings) written.push(await put(session, setting));
      await session.settled();
      // Once all are set: an answer may come after the one that it goes with.
      for (const word of misfits(session.book, { label: '', edits: session.history.done.flatMap(({ edits }) => edits) })) console.error(`${word}.`);
      for (const [i, address] of written.entries()) holds(session, settings[i] ?? '', address);
      await deliver(formatBook({ ...session.book, id: randomUUID() }), output as string | undefined);
      return 0;
    } finally {
      session.close();
    }
  },
};

/** Answers one given, just as if its value were typed into the cell; gives its address. */
export async function put(session: Session, setting: string): Promise<string> {
  const at = setting.indexOf('=');
  if (at < 1) throw new WrongUse(`--set ${setting} is not NAME=VALUE`);
  const name = setting.slice(0, at).trim();
  const address = givenCalled(session.book, name);
  const typed = await session.type(address, setting.slice(at + 1));
  if (!typed.ok) throw new WrongUse(`--set ${setting}: ${typed.message}`);
  if (typed.said) console.error(`${name}: ${typed.said}`);
  return address;
}

/** Whether a formula that was set can be worked out, and gives what the given may be, is known when all are set. */
function holds(session: Session, setting: string, address: string): void {
  const at = cellAt(session.book, address);
  const value = at && session.values[addressOf(at)];
  if (value?.kind === 'error' && value.word !== 'not answered yet') throw new Failure(`--set ${setting}: ${value.message}`);
}

function givenCalled(book: Book, name: string): string {
  const givens = Object.keys(book.names).filter((known) => isGiven(book, book.names[known] ?? ''));
  // What has no name, a scenario's own givens above all, is said by its address.
  const address = ownAddress(name);
  const target = named(book, name) ?? (cellAt(book, address) ? address : undefined);
  if (target !== undefined && isGiven(book, target)) return target;
  if (target !== undefined) throw new WrongUse(wentSaid(book, name) ?? `${name} is worked out, not given`);
  const went = wentSaid(book, name);
  if (went !== undefined) throw new WrongUse(went);
  throw new WrongUse(`no given is named ${name}; ${amongThese(name, givens)}`);
}

function isGiven(book: Book, address: string): boolean {
  const at = cellAt(book, address);
  return at !== undefined && ['given', 'as', 'blank'].includes(standingOf(at));
}
