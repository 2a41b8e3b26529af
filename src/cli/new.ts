import { randomUUID } from 'node:crypto';
import { cellAt } from '../book/address.ts';
import { begin } from '../book/begin.ts';
import type { Book } from '../book/book.ts';
import { wentSaid } from '../book/edition/said.ts';
import { breakersIn, type Habits, MEASURES, PAPERS, WIRES } from '../book/habits.ts';
import { addressOf, named, standingOf } from '../book/look-up.ts';
import { misfits } from '../book/misfits.ts';
import { ownAddress } from '../book/other-writing.ts';
import { isRefused } from '../book/refused.ts';
import { formatBook } from '../files/book/index.ts';
import type { Session } from '../session.ts';
import { openText } from './open-book.ts';
import { deliver } from './output.ts';
import { templateText } from './templates.ts';
import type { Verb } from './verb.ts';
import { amongThese, Failure, WrongUse } from './wrong-use.ts';

export const verb: Verb = {
  usage: 'TEMPLATE [--client NAME] [--title TITLE] [--set NAME=VALUE]… [-o BOOK]',
  about:
    'Begins a client’s book from a template, says what is usual where the client is, and answers some of its givens. What is not answered stands at the template’s numbers or is left blank, and says so.',
  options: {
    client: { type: 'string', about: 'whose plan it is; blank unless said' },
    title: { type: 'string', about: 'what the plan is called; as the template unless said' },
    measures: { type: 'string', about: `${MEASURES.map(quoted).join(' or ')}: the units in which the book is shown` },
    currency: { type: 'string', about: 'the code of the money, such as USD: the template’s amounts keep their numbers' },
    mains: { type: 'string', about: 'volts of the mains, such as 120; a client’s own answer goes by --set mains_volts' },
    breakers: { type: 'string', about: 'sizes of breakers that there are, such as "15, 20, 30": the one that is assumed is among them' },
    wires: { type: 'string', about: `${WIRES.join(' or ')}: how cable is marked` },
    paper: { type: 'string', about: `${PAPERS.join(' or ')}: on which the sheet is printed` },
    set: {
      type: 'string',
      multiple: true,
      about: 'a given by its name or address and its value, with or without a unit, such as plan_date=2027-01-08; as often as is wanted',
    },
    output: { type: 'string', short: 'o', about: 'the file for the book; standard output without it' },
  },
  async run(operands, { set, output, client, title, ...usual }) {
    const [slug, more] = operands;
    if (slug === undefined) throw new WrongUse('a template is missing; overbench templates lists them');
    if (more !== undefined) throw new WrongUse(`one template at a time, not also ${more}`);
    const said = { client: String(client ?? ''), ...(title === undefined ? {} : { title: String(title) }), habits: habitsSaid(usual) };
    const session = await openText(await templateText(slug), slug, (template) => {
      const book = begin(template, said);
      if (isRefused(book)) throw new WrongUse(book.message);
      return book;
    });
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

function quoted(text: string): string {
  return text.includes(' ') ? `"${text}"` : text;
}

/** Each as it was written on the command line. */
function habitsSaid(usual: Readonly<Record<string, unknown>>): Partial<Habits> {
  const text = (name: string): string | undefined => (typeof usual[name] === 'string' ? usual[name].trim() : undefined);
  const among = <T extends string>(name: string, all: readonly T[]): T | undefined => {
    const said = text(name);
    const found = all.find((one) => one.toLowerCase() === said?.toLowerCase());
    if (said !== undefined && found === undefined) throw new WrongUse(`--${name} is ${all.map(quoted).join(' or ')}, not ${said}`);
    return found;
  };
  const [measures, wires, paper] = [among('measures', MEASURES), among('wires', WIRES), among('paper', PAPERS)];
  const [currency, mains, sizes] = [text('currency')?.toUpperCase(), text('mains'), text('breakers')];
  const volts = mains === undefined ? undefined : Number(mains.replace(/ ?V$/iu, ''));
  const breakers = sizes === undefined ? undefined : breakersIn(sizes);
  if (volts !== undefined && !(volts > 0)) throw new WrongUse(`--mains ${mains} is no number of volts`);
  if (sizes !== undefined && breakers === undefined) throw new WrongUse(`--breakers ${sizes} is no list of sizes from 1 to 125 A, such as "15, 20, 30"`);
  return {
    ...(measures && { measures }),
    ...(currency && { currency }),
    ...(volts === undefined ? {} : { mains: volts }),
    ...(breakers && { breakers }),
    ...(wires && { wires }),
    ...(paper && { paper }),
  };
}

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
