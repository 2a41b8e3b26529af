import { cellAt } from '../book/address.ts';
import type { Book } from '../book/book.ts';
import { addressOf, namesOf, placeOf, titleOf } from '../book/look-up.ts';
import { ownAddress } from '../book/other-writing.ts';
import type { Tried, Value, WayBack, WorkedBack } from '../engine/types.ts';
import type { Session } from '../session.ts';
import { turnOf } from '../shown.ts';
import { openBook } from './open-book.ts';
import { print } from './output.ts';
import { valueWithUnit } from './say-value.ts';
import type { Verb } from './verb.ts';
import { WrongUse } from './wrong-use.ts';

/** So many givens are put forward to whoever named none. */
const MOST_NAMED = 12;

export const verb: Verb = {
  usage: 'BOOK CELL=VALUE --by GIVEN [--by GIVEN]… [--from LOW] [--to HIGH]',
  about:
    'Works back from what a worked cell should be: every value of a given that makes it so, within what that given may be, and which checks turn. VALUE is typed as on the page, or another cell that it is to equal. The book is only read.',
  options: {
    by: { type: 'string', multiple: true, about: 'a given that may move, by its name or address; with several, each is tried alone' },
    from: { type: 'string', about: 'from where it may move; the least that it may be unless said' },
    to: { type: 'string', about: 'to where it may move; the most that it may be unless said' },
  },
  async run(operands, { by, from, to }) {
    const [file, wish, more] = operands;
    if (file === undefined) throw new WrongUse('a book is missing');
    if (wish === undefined) throw new WrongUse('what should be is missing, such as Scenarios.B14=220');
    if (more !== undefined) throw new WrongUse(`one cell at a time, not also ${more}`);
    const parted = wish.indexOf('=');
    if (parted < 1) throw new WrongUse(`${wish} is not CELL=VALUE`);
    const session = await openBook(file);
    try {
      const cell = addressIn(session.book, file, wish.slice(0, parted));
      const wanted = wish.slice(parted + 1).trim();
      const givens = ((by as string[] | undefined) ?? []).map((name) => addressIn(session.book, file, name));
      if (givens.length === 0) throw new WrongUse(`say which given may move, with --by. ${await mayMove(session, cell)}`);
      const ends = { ...(typeof from === 'string' && { from }), ...(typeof to === 'string' && { to }) };
      await print(`${called(session.book, cell)} = ${valueWithUnit(session.values[cell])}; it should be ${wanted}\n`);
      let found = true;
      for (const given of givens) {
        const worked = await session.ask((engine) => engine.back({ cell, wanted, given, ...ends }));
        found &&= worked.ok && worked.ways.length > 0;
        await print(`${lines(session, cell, given, worked).join('\n')}\n`);
      }
      return found ? 0 : 1;
    } finally {
      session.close();
    }
  },
};

function addressIn(book: Book, file: string, name: string): string {
  const at = placeOf(book, ownAddress(name.trim()));
  if (!at) throw new WrongUse(`${file} has no cell ${name.trim()}; a cell is said as Table.B7, or by its name`);
  return addressOf(at);
}

async function mayMove(session: Session, cell: string): Promise<string> {
  const givens = await session.ask((engine) => engine.givensOf(cell));
  if (givens.length === 0) return `No given feeds ${cell}`;
  const said = givens.slice(0, MOST_NAMED).map((given) => {
    const at = cellAt(session.book, given);
    return (at && namesOf(session.book, at)[0]) ?? given;
  });
  const more = givens.length - said.length;
  return `It follows from ${said.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}

function called(book: Book, address: string): string {
  const at = cellAt(book, address);
  return at ? `${titleOf(at)} (${address})` : address;
}

function lines(session: Session, cell: string, given: string, worked: WorkedBack): string[] {
  const { book, values } = session;
  if (!worked.ok) return [`by ${called(book, given)}:`, `  ${worked.message}`];
  const { searched, ways, more, untold, lowest, highest, apart, stay } = worked;
  const where = 'choices' in searched ? `in each of its ${searched.choices} choices` : `from ${valueWithUnit(searched.from)} to ${valueWithUnit(searched.to)}`;
  const head = `by ${called(book, given)} = ${valueWithUnit(values[given])}, looked for ${where}:`;
  const told = ways.flatMap((way) => wayLines(session, cell, way));
  if (more > 0) told.push(`  and ${more} more`);
  if (apart) told.push(`  the two are never equal: whatever it is, they are ${valueWithUnit(apart)} apart`);
  else if (ways.length === 0) told.push('  nothing there makes it so', ...(lowest && highest ? [`  ${reach(lowest, highest)}`] : []));
  if (untold !== undefined) told.push(`  of ${untold} further cells that follow from it, it is not told whether they change`);
  if (stay && 'formula' in stay)
    told.push(`  ${stay.formula} as its formula makes it stay so${stay.exact ? '' : ', nearly'}: ${said(stay.tried.value)} gives ${said(stay.tried.gives)}`);
  else if (stay) told.push(`  it can’t be made to stay so. ${stay.why}`);
  return [head, ...told];
}

function reach(lowest: Tried, highest: Tried): string {
  if (lowest.against === undefined) return `lowest: ${gives(lowest)}; highest: ${gives(highest)}`;
  return `the two are never equal: ${gives(lowest)}; ${gives(highest)}`;
}

function gives(tried: Tried): string {
  const { content, value, against } = tried;
  const other = against ? `, the other ${said(against)}` : '';
  return `${value.kind === 'number' ? content : said(value)} gives ${said(tried.gives)}${other}`;
}

const said = (value: Value): string => (value.kind === 'error' ? `[${value.word}] ${value.message}` : valueWithUnit(value));

function wayLines(session: Session, cell: string, way: WayBack): string[] {
  const turns = (tried: Tried): string[] => turnLines(session, cell, tried);
  switch (way.kind) {
    case 'exact': {
      const { exact, rounded } = way;
      return [`  ${gives(exact)}`, ...turns(exact), ...(rounded ? [`  as short as it is shown, ${gives(rounded)}`] : [])];
    }
    case 'stretch':
      return [`  from ${said(way.from.value)} to ${said(way.to.value)}: ${gives(way.from)}`, ...turns(way.from)];
    case 'step':
      return [`  it goes by steps: ${gives(way.from)}; ${gives(way.to)}`];
    case 'nearest':
      return [`  nearest: ${[way.below, way.above].flatMap((one) => (one ? [gives(one)] : [])).join('; ')}`];
  }
}

/** Checks that then stand otherwise, and how many other cells change. */
function turnLines(session: Session, cell: string, { others }: Tried): string[] {
  const turned = others.flatMap(({ address, before, after }) => {
    const turn = address === cell ? undefined : turnOf(before, after);
    return turn ? [`    ${called(session.book, address)} turns: ${turn.from.word} → ${said(after)}`] : [];
  });
  return [...turned, `    ${others.length} other ${others.length === 1 ? 'cell changes' : 'cells change'}`];
}
