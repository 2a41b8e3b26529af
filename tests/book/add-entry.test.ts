/** A row of a list as a data sheet has it: each field as its cell would read it, and what can't be worked out while one is blank. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import type { Book, Table } from '../../src/book/book.ts';
import { type AddEntry, addEntry, missingOf, readEntry } from '../../src/book/commands/add-entry.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { hangsOn } from '../../src/book/hangs-on.ts';
import { invert } from '../../src/book/invert.ts';
import { placeOf } from '../../src/book/look-up.ts';
import { isRefused } from '../../src/book/refused.ts';
import type { Session } from '../../src/session.ts';
import { inside, openTemplate, templateBook } from '../templates/open-template.ts';

const book = templateBook('trade-bench');
const list = (name: string, of: Book = book): Table => of.tables.find((table) => table.name === name) as Table;

/** By headings, as they stand on the slip. */
function typedIn(name: string, said: Readonly<Record<string, string>>): AddEntry['typed'] {
  const table = list(name);
  const column = (heading: string) => table.columns.find(({ id }) => table.cells.head?.[id]?.content === heading)?.id ?? heading;
  return Object.fromEntries(Object.entries(said).map(([heading, text]) => [column(heading), text]));
}

const BAR = { Fixture: 'Bar', 'Face length': '1.12', 'Face width': '0.05', Power: '230', Output: '640', Beam: '110', Feed: 'DC', Volts: '48', Price: '310' };

function added(to: Book, name: string, typed: AddEntry['typed']) {
  const change = addEntry(to, { table: name, typed });
  if (isRefused(change)) throw new Error(change.message);
  expect(apply(apply(to, change), invert(change))).toEqual(to);
  return { label: change.label, after: apply(to, change) };
}

const contents = (of: Book, name: string, row: number): readonly (string | undefined)[] => {
  const table = list(name, of);
  return table.columns.map(({ id }) => table.cells[table.rows[row]?.id ?? '']?.[id]?.content);
};

describe('a fixture of one’s own', () => {
  it('stands after the last of the list, each number in the unit of its column, with where it is from', () => {
    const { label, after } = added(book, 'Fixtures', typedIn('Fixtures', BAR));
    expect(label).toBe('Bar added to Fixtures, from the data sheet; still missing: Mass, Depth, L90');
    const row = contents(after, 'Fixtures', 7);
    expect(row.slice(0, 8)).toEqual(['Bar', '1.12 m', '0.05 m', '230 W', '640 µmol/s', '110 °', 'DC', '48 V']);
    expect(row.slice(17, 19)).toEqual(['310 EUR', 'from the data sheet']);
    expect(placeOf(after, 'Fixtures.E8')?.cell?.source).toBe('from the data sheet');
  });

  it.each([
    ['1120 mm', '1120 mm', 1.12],
    ['44 in', '44 in', 1.1176],
    ['3 ft 8 in', '44 in', 1.1176],
  ])('is %s long as its cell would read it', (typed, content) => {
    const { after } = added(book, 'Fixtures', typedIn('Fixtures', { ...BAR, 'Face length': typed }));
    expect(contents(after, 'Fixtures', 7)[1]).toBe(content);
  });

  it('may be said by its light for each joule and its power', () => {
    const typed = typedIn('Fixtures', { ...BAR, Output: '2.8 µmol/J' });
    const read = readEntry(book, list('Fixtures'), typed).get('e');
    // 2.8 µmol/J × 230 W, by hand.
    expect(read).toMatchObject({ ok: true, content: '644 µmol/s', said: 'Output: 644 µmol/s' });
    expect(contents(added(book, 'Fixtures', typed).after, 'Fixtures', 7)[4]).toBe('644 µmol/s');
    const alone = readEntry(book, list('Fixtures'), typedIn('Fixtures', { Fixture: 'Bar', Output: '2.8 µmol/J' })).get('e');
    expect(alone).toMatchObject({ ok: false });
  });

  it.each([
    ['Beam', '200', 'Bar, Beam: 200 ° is above what is allowed, from 1 to 179 °.'],
    ['Power', '230 V', 'Bar, Power: This cell takes a power in W; 230 V is a voltage.'],
    ['Feed', 'steam', 'Bar, Feed: “steam” is not one of the choices: DC, mains.'],
  ])('is refused as its cell would refuse it: %s %s', (heading, typed, message) => {
    const answer = addEntry(book, { table: 'Fixtures', typed: typedIn('Fixtures', { ...BAR, [heading]: typed }) });
    expect(answer).toMatchObject({ refused: true, message });
  });

  it('needs a name that the list does not have', () => {
    const named = (name: string) => addEntry(book, { table: 'Fixtures', typed: typedIn('Fixtures', { ...BAR, Fixture: name }) });
    expect(named(' ')).toMatchObject({ refused: true, message: 'Fixture: it needs a name.' });
    expect(named('rail  45')).toMatchObject({ refused: true, message: 'Fixtures has “rail  45” already.' });
  });

  it('in a book of feet is read in feet', () => {
    const change = setMeasures(book, { measures: 'US customary' });
    if (isRefused(change)) throw new Error(change.message);
    const feet = apply(book, change);
    const { after } = added(feet, 'Fixtures', typedIn('Fixtures', { ...BAR, 'Face length': '3.5', 'Face width': '2 in' }));
    expect(contents(after, 'Fixtures', 7).slice(1, 3)).toEqual(['3.5 ft', '2 in']);
  });

  it('finds room again and again, inside what formulas read', () => {
    let now = book;
    for (let n = 1; n <= 14; n++) now = added(now, 'Fixtures', typedIn('Fixtures', { ...BAR, Fixture: `Bar ${n}` })).after;
    expect(contents(now, 'Fixtures', 20)[0]).toBe('Bar 14');
    expect(placeOf(now, 'Scenarios.A1')?.row.range).toEqual({ from: 'Fixtures.A2:A22' });
  });
});

describe('what a missing field stops', () => {
  const stops = hangsOn(book, list('Fixtures'));
  const of = (heading: string) => stops(list('Fixtures').columns.findIndex(({ id }) => list('Fixtures').cells.head?.[id]?.content === heading));

  it('is what reads it and what reads that, by the rows of the tables', () => {
    expect(of('Beam').slice(0, 3)).toEqual(['Layout', 'Fixtures', 'Maintained mean PPFD']);
    expect(of('Mass').slice(0, 2)).toEqual(['Load on one hanger', 'Hanging load']);
    expect(of('Price')).toContain('Cost to buy, all');
    expect(of('Price')).not.toContain('Layout');
    expect(of('Depth')).toEqual([]);
  });

  it('may be a check, and that is told apart', () => {
    const checks = (heading: string) =>
      stops(
        list('Fixtures').columns.findIndex(({ id }) => list('Fixtures').cells.head?.[id]?.content === heading),
        'check',
      );
    expect(checks('IP')).toEqual(['IP of the fixture', 'Verdict']);
    expect(checks('Ambient to')).toEqual(['Air at the lights', 'Verdict']);
    expect(checks('Most on one 16 A')).toEqual(['Circuits free', 'Verdict']);
    expect(checks('Depth')).toEqual([]);
  });

  it('is what the engine can’t work out then, and nothing that is worked out hangs on it', async () => {
    const full = { ...BAR, Mass: '4', Depth: '0.08', L90: '50000', IP: '65', 'Ambient to': '40' };
    const failing = async (without: string): Promise<readonly string[]> => {
      const found: string[] = [];
      await inside('trade-bench', async (session) => {
        session.run((b) => addEntry(b, { table: 'Fixtures', typed: typedIn('Fixtures', { ...full, [without]: '' }) }));
        await session.type('Scenarios.A1', 'Bar');
        await session.settled();
        // After the verdict and what is bought stand the rows that look the fixture up.
        const rows = list('Scenarios', session.book).rows.slice(0, 82);
        for (const [r, row] of rows.entries()) if (session.values[`Scenarios.A${r + 1}`]?.kind === 'error') found.push(row.label ?? '');
      });
      return found;
    };
    const anyway = await failing('none');
    for (const heading of ['Beam', 'Mass', 'Price']) {
      const fails = await failing(heading);
      const told = of(heading);
      expect(fails.length, heading).toBeGreaterThan(anyway.length);
      expect(fails, heading).toEqual(expect.arrayContaining([...told.slice(0, 2)]));
      expect(
        fails.filter((label) => !told.includes(label) && !anyway.includes(label)),
        heading,
      ).toEqual([]);
    }
  });
});

describe('the bar and a supply of one’s own, chosen in C', () => {
  let session: Session;
  beforeAll(async () => {
    session = await openTemplate('trade-bench');
  });
  afterAll(() => session.close());

  it('are worked out there as their data sheets have them', async () => {
    const supply = {
      Supply: 'Own 48/1000',
      Rating: '1000',
      Volts: '48',
      Outputs: '4',
      'One output': '250',
      Efficiency: '0.94',
      'Power factor': '0.97',
      'Derates from': '50',
      Derating: '0.02',
      Price: '190',
    };
    session.run((b) => addEntry(b, { table: 'Fixtures', typed: typedIn('Fixtures', { ...BAR, L90: '50000', Mass: '4', Depth: '0.08' }) }));
    session.run((b) => addEntry(b, { table: 'Supplies', typed: typedIn('Supplies', supply) }));
    expect(missingOf(list('Supplies'), typedIn('Supplies', supply))).toEqual([]);
    for (const [cell, typed] of [
      // As many as fit side by side on its bench.
      ['C2', '3'],
      ['C1', 'Bar'],
      ['C10', 'Own 48/1000'],
    ] as const)
      expect(await session.type(`Scenarios.${cell}`, typed)).toMatchObject({ ok: true });
    await session.settled();
    const base = (cell: string) => session.values[`Scenarios.${cell}`];
    expect(base('C87')).toMatchObject({ kind: 'number', base: expect.closeTo(640e-6, 12) });
    expect(base('C97')).toMatchObject({ kind: 'number', base: 1000 });
    expect(base('C24')).toMatchObject({ kind: 'number' });
    expect(base('C53')).toMatchObject({ kind: 'number' });
    // By hand: so many bars at 310 and 230 W each.
    const count = Number((base('C13') as { readonly base: number }).base);
    expect(count).toBe(3 * Number((base('C3') as { readonly base: number }).base));
    expect(base('C76')).toMatchObject({ base: 310 * count });
    expect(base('C111')).toMatchObject({ base: expect.closeTo((230 * count) / 0.94, 6) });
  });
});
