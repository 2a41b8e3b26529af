import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readQuantity } from '../../functions/quantity-text.ts';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import { checkBook } from '../../src/book/check.ts';
import { invert } from '../../src/book/invert.ts';
import { placeOf } from '../../src/book/look-up.ts';
import { isRefused } from '../../src/book/refused.ts';
import { formatCsv } from '../../src/files/csv/csv.ts';
import { readHeading } from '../../src/files/csv/heading.ts';
import { formatNotPlaced, holdsNotPlaced } from '../../src/files/csv/kept.ts';
import type { Mapping } from '../../src/files/csv/mapped.ts';
import { type Plan, planCsv, type StageOptions, stageCsv } from '../../src/files/csv/staged.ts';
import { suggestMapping } from '../../src/files/csv/suggest.ts';
import { formatWide } from '../../src/files/csv/wide.ts';
import { sample } from '../book/sample.ts';
import { runs } from '../cases.ts';
import { handValues } from './hand-values.ts';
import { nastyText } from './nasty.ts';
import { readStrictly } from './rfc4180.ts';

const values = handValues(sample, { 'Scenarios.C1': { kind: 'number', base: 0.6, unit: 'cm' }, 'Scenarios.B2': { kind: 'number', base: 9, unit: '' } });

async function bringIn(file: string, mapping?: Mapping, options: Partial<StageOptions> = {}, book: Book = sample): Promise<Plan> {
  const staged = await stageCsv(file, { name: 'data.csv', ...options });
  const plan = await planCsv(book, staged, { mapping: mapping ?? suggestMapping(book, staged), read: readQuantity, values });
  if (isRefused(plan)) throw new Error(plan.message);
  expect(plan.placed + plan.notPlaced).toBe(plan.read);
  expect(checkBook(apply(book, plan.change))).toMatchObject({ ok: true });
  return plan;
}

/** Three rows of two readings, under headings. */
const withReadings: Book = {
  ...sample,
  tables: [
    ...sample.tables,
    {
      id: 'readings',
      name: 'Readings',
      form: 'list',
      columns: [
        { id: 'l', unit: 'lx' },
        { id: 'r', unit: 'lx' },
      ],
      rows: [{ id: 'head', head: true }, { id: 'r1' }, { id: 'r2' }, { id: 'r3' }],
      cells: {
        head: { l: { content: 'Left' }, r: { content: 'Right' } },
        r1: { l: { content: '10 lx', source: 'measured' }, r: { content: '11 lx', source: 'measured' } },
        r2: { l: { content: '20 lx' }, r: { content: '21 lx' } },
        r3: { l: { content: '30 lx' }, r: { content: '31 lx' } },
      },
    },
  ],
};

const contentAt = (plan: Plan, address: string, book: Book = sample): string | undefined => placeOf(apply(book, plan.change), address)?.cell?.content;

describe('a heading', () => {
  it('gives its unit in square or round brackets, in the book’s currency', () => {
    expect(readHeading('bench_length [ft]', 'EUR')).toEqual({ title: 'bench_length', unit: 'ft' });
    expect(readHeading(' Tariff (€/kWh) ', 'EUR')).toEqual({ title: 'Tariff', unit: 'EUR/kWh' });
    expect(readHeading('PPFD (µmol m-2 s-1)', 'EUR')).toEqual({ title: 'PPFD', unit: 'µmol/m²/s' });
    expect(readHeading('Height (guessed)', 'EUR')).toEqual({ title: 'Height (guessed)' });
    expect(readHeading('Height [ftt]', 'EUR')).toEqual({ title: 'Height', unknown: 'ftt' });
    expect(readHeading('Tariff [USD/kWh]', 'EUR')).toEqual({ title: 'Tariff', unknown: 'USD/kWh' });
  });
});

describe('a staged file', () => {
  it('says how it was read: delimiter, decimal mark, headings, and the records with their lines', async () => {
    const staged = await stageCsv('Readings of Tuesday\n\nx;y;PPFD\n1,5;0,5;118\n2,5;0,5;142\n', { name: 'readings.csv' });
    expect(staged).toMatchObject({ delimiter: ';', decimalMark: ',', headingsAt: 2, headings: ['x', 'y', 'PPFD'], tidy: false });
    expect(staged.records.map(({ line, fields }) => [line, fields[2]])).toEqual([
      [4, '118'],
      [5, '142'],
    ]);
  });

  it('has no headings where its first record holds numbers, and gives its columns numbers', async () => {
    expect(await stageCsv('118,142\n150,188\n', { name: 'grid.csv' })).toMatchObject({ headingsAt: 0, headings: ['column 1', 'column 2'] });
  });

  it('is read as it is told to be read', async () => {
    const staged = await stageCsv('a,b;c\n1,2;3\n', { name: 'x.csv', delimiter: ',', headingsAt: 0, decimalMark: ',' });
    expect(staged).toMatchObject({ delimiter: ',', headingsAt: 0, decimalMark: ',' });
    expect(staged.records[0]?.fields).toEqual(['a', 'b;c']);
  });
});

describe('a file into a new table', () => {
  it('becomes a list under its headings, with the units that these carry, on a page of its own', async () => {
    const plan = await bringIn("Article,Light [µmol/s],Shop price (EUR),Remark\nRail 45,122,79,'=1\nPuck 18,44.5,39 EUR,\n", undefined, {
      name: 'stock list.csv',
    });
    const after = apply(sample, plan.change);
    const table = after.tables.at(-1);
    expect(table).toMatchObject({ name: 'stock list', form: 'list', columns: [{}, { unit: 'µmol/s' }, { unit: 'EUR' }, {}] });
    expect(contentAt(plan, "'stock list'.B3")).toBe('44.5 µmol/s');
    expect(contentAt(plan, "'stock list'.C3")).toBe('39 EUR');
    expect(contentAt(plan, "'stock list'.D2")).toBe("'=1");
    expect(after.pages.at(-1)).toMatchObject({ title: 'stock list', blocks: [{ kind: 'table', table: table?.id }] });
    expect(apply(after, invert(plan.change))).toEqual(sample);
    expect([plan.of, plan.read, plan.notPlaced]).toEqual(['field', 7, 0]);
  });

  it('reads decimal commas where the file has them, and refuses what could be two numbers', async () => {
    const plan = await bringIn('Width [m];Watts\n1,5;1.234\n2,5;90\n');
    expect(contentAt(plan, 'data.A2')).toBe('1.5 m');
    expect(plan.problems.map(({ record, column, message }) => [record.line, column?.number, column?.heading, message])).toEqual([
      [2, 2, 'Watts', expect.stringMatching(/1234.*1,234/)],
    ]);
  });

  it('reads bare numbers in the unit of the others in their column, and says so; where it is taken away, that they stay plain', async () => {
    const file = 'Place;PPFD;Remark\nA;187,5 µmol/m²/s;12 rows\nB;231,2;3\nC;198,4;\n';
    const plan = await bringIn(file);
    expect(contentAt(plan, 'data.B3')).toBe('231.2 µmol/m²/s');
    expect(contentAt(plan, 'data.C2')).toBe('12 rows');
    expect(plan.said).toContain('PPFD: 1 has its own unit, 2 have none. Those without are read in µmol/m²/s.');
    const bare = await bringIn(file, { to: 'new table', name: 'data', page: 'data', columns: [{ from: 1, heading: 'PPFD' }] });
    expect(contentAt(bare, 'data.A3')).toBe('231.2');
    expect(bare.said).toEqual(['PPFD: 1 has its own unit, 2 have none. Those without are kept as plain numbers.']);
    // Of two kinds in a column none speaks for the rest.
    const kinds = await bringIn('Size;N\n2 m;1\n3 kg;2\n4;3\n');
    expect(contentAt(kinds, 'data.A4')).toBe('4');
    expect(kinds.said).toEqual([expect.stringContaining('kept as plain numbers')]);
  });

  it('counts all cells that something goes to, however few of them it names', async () => {
    const plan = await bringIn(`N\n${'7\n'.repeat(60)}`);
    expect([plan.cells, plan.preview.length < 60]).toEqual([60, true]);
  });
});

describe('a file into rows of a table', () => {
  it('finds rows by the text of the first column, converts nothing, and keeps the units of the file', async () => {
    const plan = await bringIn('Fixture,Price\nRAIL 90,141\nPuck 18,45 EUR\nRail 45,79\nRail 46,80\n');
    expect(contentAt(plan, "'Fixture list'.B3")).toBe('141 EUR');
    expect(contentAt(plan, "'Fixture list'.B4")).toBe('45 EUR');
    // What the list lacks is added after its last row.
    expect(contentAt(plan, "'Fixture list'.A5")).toBe('Rail 46');
    expect(plan.change.edits.filter((edit) => edit.at === 'cell' && edit.table === 'fixtures').length).toBe(4);
    expect(plan.problems).toEqual([]);
  });

  it('puts records after the last filled row, and says what does not see them', async () => {
    const columns = ['name', 'price', 'output'].map((column, from) => ({ from, column }));
    const plan = await bringIn('Fixture,Price,Output\nRail 46,80,125\nRail 47,81,126\n', { to: 'rows', table: 'fixtures', into: 'end', columns });
    expect(contentAt(plan, "'Fixture list'.A5")).toBe('Rail 46');
    expect(contentAt(plan, "'Fixture list'.C6")).toBe('126 µmol/s');
    expect(plan.said).toEqual(['Fixture list is 2 rows longer. Formulas that read it up to row 4 do not see them.']);
  });

  it('goes over the readings that are there, row by row: a blank field empties its cell, and that is counted and said', async () => {
    const plan = await bringIn('Left,Right\n118,\n,155\n', undefined, {}, withReadings);
    expect([plan.read, plan.placed, plan.notPlaced]).toEqual([4, 4, 0]);
    const after = ['A2', 'B2', 'A3', 'B3', 'A4', 'B4'].map((cell) => contentAt(plan, `Readings.${cell}`, withReadings));
    expect(after).toEqual(['118 lx', undefined, undefined, '155 lx', '30 lx', '31 lx']);
    expect(plan.said).toEqual([
      'Line 2: Readings.B2 is emptied',
      'Line 3: Readings.A3 is emptied',
      'The file ends before Readings does: from row 4 on Readings stays as it was.',
    ]);
    expect(apply(apply(withReadings, plan.change), invert(plan.change))).toEqual(withReadings);
  });

  it('that finds its rows leaves a cell as it is where its field is blank, and says of how many', async () => {
    const plan = await bringIn('Fixture,Price,Output\nRail 90,141,\nPuck 18,,\n');
    expect(plan.change.edits.filter((edit) => edit.at === 'cell').length).toBe(1);
    expect(contentAt(plan, "'Fixture list'.C3")).toBe('243 µmol/s');
    expect(plan.said).toEqual(['3 blank fields leave their cells as before.']);
  });

  it('leaves what is the same as in the base the same as that where the value of before comes back, and never makes it the same as in another', async () => {
    const columns = ['a', 'b', 'c'].map((column, i) => ({ from: i + 1, column }));
    const mapping: Mapping = { to: 'rows', table: 'scenarios', into: { from: 0, column: 'label' }, columns };
    const plan = await bringIn('Row,one,two,three\nMount height,60,60,60\nFixtures,9,11,9\n', mapping);
    const after = ['A1', 'B1', 'C1', 'A2', 'B2', 'C2'].map((cell) => contentAt(plan, `Scenarios.${cell}`));
    expect(after).toEqual(['60 cm', '60 cm', '=A1', '9', '11', '9']);
  });

  it('answers a brief from labels and answers, each read as if it were typed there', async () => {
    const plan = await bringIn('Question,Answer\nBench length,12 ft\nHours,14\nFixture,Rail 45\nColour,white\n');
    expect(contentAt(plan, 'Brief.A1')).toBe('12 ft');
    expect(contentAt(plan, 'Brief.A3')).toBe('14 h/d');
    expect(placeOf(apply(sample, plan.change), 'Brief.A1')?.cell?.source).toBe('client');
    expect(plan.problems.map(({ record, message }) => [record.line, message])).toEqual([[5, 'Brief has no row “Colour”.']]);
  });

  it('refuses what the cell does not allow: kind, range, choice, words for a number', async () => {
    const plan = await bringIn('Question,Answer\nBench length,30 m\nBench length,3 kg\nHours,long\nFixture,Rail 46\n');
    expect(plan.placed).toBe(4); // the labels, which found their rows
    expect(plan.problems.map(({ record, column }) => [record.line, column?.number])).toEqual([
      [2, 2],
      [3, 2],
      [4, 2],
      [5, 2],
    ]);
    const said = plan.problems.map(({ message }) => message);
    expect(said[0]).toMatch(/above what is allowed, from 0.3 to 20 m/);
    expect(said[1]).toMatch(/a length/);
    expect(said[2]).toMatch(/takes a quantity in h\/d; “long” is none/);
    expect(said[3]).toMatch(/not one of the choices: Rail 45, Rail 90, Puck 18/);
  });

  it('takes a wide file back without a change, and never writes over what is worked out', async () => {
    for (const table of sample.tables) {
      const plan = await bringIn(formatWide(sample, values, { tables: [table.name] }));
      expect([table.name, plan.change.edits, plan.problems]).toEqual([table.name, [], []]);
    }
    const file = formatWide(sample, values, { tables: ['Scenarios'] });
    const lower = await bringIn(file.replace('cm,60,45,60', 'cm,55,45,60').replace(/Cost,.*/, 'Cost,EUR,1,1,1'));
    expect(lower.change.edits.map((edit) => edit.at === 'cell' && [edit.row, edit.column, edit.after?.content])).toEqual([['h', 'a', '55 cm']]);
  });
});

describe('what could not be placed', () => {
  it('is kept on its page with line and reason, and comes out again as a file with the headings and the reasons', async () => {
    const plan = await bringIn('Question,Answer\nBench length,"30\nm"\nColour,"white, warm"\n"broken,1\nHours,14\n');
    const table = apply(sample, plan.change).tables.find(holdsNotPlaced);
    if (!table) throw new Error('nothing was kept');
    const rows = readStrictly(formatNotPlaced(table));
    expect(rows.map((row) => row.slice(0, 2))).toEqual([
      ['Question', 'Answer'],
      ['Bench length', '30\nm'],
      ['Colour', 'white, warm'],
      ['"broken,1', ''],
    ]);
    expect(rows[0]?.[2]).toBe('not placed because');
    expect(rows[2]?.[2]).toBe('Line 4, record 3: Brief has no row “Colour”.');
    expect(rows[3]?.[2]).toMatch(/^Line 5, record 4: A quote opens/);
  });

  it('is whole, over 500 random files of nasty text mapped to a brief that has none of it', async () => {
    const body = fc.array(fc.tuple(nastyText(6), nastyText(40)), { minLength: 1, maxLength: 6 });
    const mapping: Mapping = { to: 'rows', table: 'brief', into: { from: 0, column: 'label' }, columns: [{ from: 1, column: 'c1' }] };
    await fc.assert(
      fc.asyncProperty(body, async (rows) => {
        const file = formatCsv([['Question', 'Answer'], ...rows]);
        const plan = await bringIn(file, mapping, { delimiter: ',', headingsAt: 1 });
        expect(plan.placed).toBe(0);
        const filled = readStrictly(file)
          .slice(1)
          .filter((row) => row.some((field) => field.trim() !== ''));
        const table = apply(sample, plan.change).tables.find(holdsNotPlaced);
        const kept = table ? readStrictly(formatNotPlaced(table)).slice(1) : [];
        expect(kept.map((row) => row.slice(0, 2))).toEqual(filled);
      }),
      runs(500, 4),
    );
  });
});

describe('a large file', () => {
  const rows = 100_000;
  const big = `x,y,PPFD\n${Array.from({ length: rows }, (_, i) => `${i % 400},${Math.floor(i / 400)},${100 + (i % 150)}`).join('\n')}\n`;

  it('of 100,000 rows tells its progress; what a table has no room for is counted, kept and said', async () => {
    const told: number[] = [];
    const staged = await stageCsv(big, { name: 'readings.csv', progress: (done, of) => told.push(done / of) });
    expect(staged.records.length).toBe(rows);
    const plan = await planCsv(sample, staged, {
      mapping: suggestMapping(sample, staged),
      read: readQuantity,
      values,
      progress: (done, of) => told.push(1 + done / of),
    });
    if (isRefused(plan)) throw new Error(plan.message);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect(told.length).toBeGreaterThan(20);
    expect(told.at(-1)).toBe(2);
    // A table has 20,000 rows, of which the headings take one.
    expect([plan.read, plan.placed, plan.notPlaced]).toEqual([300_000, 3 * 19_999, 3 * 80_001]);
    const after = apply(sample, plan.change);
    const kept = after.tables.filter(holdsNotPlaced);
    expect(kept.reduce((n, table) => n + table.rows.length - 2, 0)).toBe(80_001);
    expect(plan.problems[0]?.message).toBe('A table has at most 20,000 rows.');
  });

  it('is stopped by its signal, and then there is no change', async () => {
    const stop = new AbortController();
    const staging = stageCsv(big, { name: 'readings.csv', signal: stop.signal, progress: () => stop.abort(new Error('stopped')) });
    await expect(staging).rejects.toThrow('stopped');
    const staged = await stageCsv(big, { name: 'readings.csv' });
    const stopAgain = new AbortController();
    const planning = planCsv(sample, staged, {
      mapping: suggestMapping(sample, staged),
      read: readQuantity,
      values,
      signal: stopAgain.signal,
      progress: () => stopAgain.abort(new Error('stopped')),
    });
    await expect(planning).rejects.toThrow('stopped');
  });
});
