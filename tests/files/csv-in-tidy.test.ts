import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readQuantity, textContent } from '../../functions/quantity-text.ts';
import { apply } from '../../src/book/apply.ts';
import type { Book, Cell, Range, Table } from '../../src/book/book.ts';
import { checkBook } from '../../src/book/check.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { invert } from '../../src/book/invert.ts';
import { addressOf, noteOf, placeOf, rangeOf, sourceOf, standingOf, unitOf } from '../../src/book/look-up.ts';
import { isRefused } from '../../src/book/refused.ts';
import { createEngine } from '../../src/engine/engine.ts';
import type { Values } from '../../src/engine/types.ts';
import { parseBook } from '../../src/files/book/book-file.ts';
import { formatCsv } from '../../src/files/csv/csv.ts';
import { type Plan, planCsv, stageCsv } from '../../src/files/csv/staged.ts';
import { formatTidy, placesOf } from '../../src/files/csv/tidy.ts';
import { sample } from '../book/sample.ts';
import { tableName, writingsOf } from '../book/writings.ts';
import { runs } from '../cases.ts';
import { handValues } from './hand-values.ts';
import { nastyText } from './nasty.ts';

async function bringIn(book: Book, file: Uint8Array | string, values = handValues(book, {})): Promise<Plan> {
  const plan = await planCsv(book, await stageCsv(file, { name: 'cells.csv' }), { read: readQuantity, values });
  if (isRefused(plan)) throw new Error(plan.message);
  return plan;
}

/** What a tidy file tells of each cell, taken from the book by hand. */
function cellsOf(book: Book): Record<string, unknown> {
  const told: Record<string, unknown> = {};
  for (const table of book.tables) {
    for (const at of placesOf(table)) {
      const standing = standingOf(at);
      if (standing === 'blank') continue;
      const content = at.cell?.content ?? '';
      const own = /^-?[\d.e+-]+ (.+)$/u.exec(content)?.[1];
      told[addressOf(at)] = {
        content,
        unit: unitOf(at) || own || '',
        kind: standing,
        range: rangeOf(at) ?? {},
        source: sourceOf(at) ?? '',
        note: noteOf(at) ?? '',
      };
    }
  }
  return told;
}

/** A book of the same client with nothing in it. */
const bare = (book: Book): Book => ({ ...book, pages: [], tables: [], names: {} });

const symbol = fc.constantFrom('m', 'cm', 'in', 'ft');
const number = fc.oneof(fc.integer({ min: -1e6, max: 1e6 }), fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 }));
const limits = fc.record({ low: fc.integer({ min: -9, max: 9 }), high: fc.integer({ min: -9, max: 9 }), unit: symbol }, { requiredKeys: ['low', 'unit'] });
const range = fc.oneof(
  limits,
  fc.record({ oneOf: fc.array(nastyText(5), { minLength: 1, maxLength: 3 }) }),
  limits.map((open) => ({ ...open, oneOf: ['10 m', '16 m'] })),
  fc.constant({ from: "'Fixture list'.A2:A4" }),
) as fc.Arbitrary<Range>;
const content = fc.oneof(
  fc.tuple(number, fc.oneof(symbol, fc.constantFrom('µmol/m²/s', 'h/d', '°C', '%', 'EUR/kWh'))).map(([n, s]) => `${n} ${s}`),
  number.map(String),
  nastyText(6).map((words) => textContent(words)),
  fc.constantFrom('TRUE', 'FALSE', '', '=B1', '=SUM(A1:B2)*UNIT(-5,"°F")', '=IF(A1>UNIT(1,"m"),"x, ""y""","=")', '3.60 m', '1e3 W', "'12", "'=1+1"),
);
const filledText = nastyText(6).filter((text) => text !== '');
const cell = fc.record(
  { content, source: filledText, note: filledText, range, kind: fc.constantFrom('given', 'worked', 'check') },
  { requiredKeys: ['content'] },
) as fc.Arbitrary<Cell>;
const line = fc.record({ source: filledText, note: filledText, range }, { requiredKeys: [] }) as fc.Arbitrary<Partial<Cell>>;

const random: fc.Arbitrary<Book> = fc
  .record({ grid: fc.array(fc.tuple(cell, fc.option(cell, { nil: undefined })), { minLength: 1, maxLength: 4 }), line, label: filledText })
  .map(({ grid, line: shared, label }) => {
    const rows = grid.map((_, i) => ({ id: `r${i}`, label: `${label} ${i}`, ...(i === 0 ? shared : {}) }) as Table['rows'][number]);
    const cells = Object.fromEntries(grid.map(([x, y], i) => [`r${i}`, { x, ...(y ? { y } : {}) }]));
    const table: Table = { id: 't', name: 'Some things', form: 'plain', columns: [{ id: 'x', label: 'A' }, { id: 'y' }], rows, cells };
    return { ...sample, names: {}, pages: [], tables: [table] };
  });

describe('a tidy file that comes back', () => {
  it('changes nothing in the book that it came from', async () => {
    const values = handValues(sample, {});
    const plan = await bringIn(sample, formatTidy(sample, values), values);
    expect(plan).toMatchObject({ of: 'cell', notPlaced: 0, problems: [] });
    expect(plan.read).toBe(Object.keys(cellsOf(sample)).length);
    expect(plan.change.edits).toEqual([]);
  });

  it('puts back what was changed meanwhile, in one step that can be undone', async () => {
    const file = formatTidy(sample, handValues(sample, {}));
    let other: Book = sample;
    for (const [address, typed] of [
      ['Brief.A1', '5 m'],
      ['Scenarios.C1', '80 cm'],
      ['Scenarios.A3', '=1+1'],
    ] as const) {
      const change = setCell(other, { address, content: typed, source: 'someone else' });
      if (isRefused(change)) throw new Error(change.message);
      other = apply(other, change);
    }
    const plan = await bringIn(other, file);
    const back = apply(other, plan.change);
    expect(cellsOf(back)).toEqual(cellsOf(sample));
    expect(apply(back, invert(plan.change))).toEqual(other);
  });

  it('makes the same cells, tables, labels, headings and names in a book that has none of them', async () => {
    const values = handValues(sample, {});
    const plan = await bringIn(bare(sample), formatTidy(sample, values));
    expect(plan.notPlaced).toBe(0);
    const made = apply(bare(sample), plan.change);
    expect(checkBook(made)).toMatchObject({ ok: true });
    const wanted = cellsOf(sample) as Record<string, { unit: string }>;
    const got = cellsOf(made) as Record<string, { unit: string }>;
    // The heading row of a list has no values; its column's unit is told of its cells alone. A worked cell shows the unit that it showed.
    expect(got).toEqual(wanted);
    expect(made.tables.map((table) => [table.name, table.form])).toEqual([
      ['Brief', 'plain'],
      ['Scenarios', 'scenarios'],
      ['Fixture list', 'list'],
    ]);
    expect(made.tables[1]?.columns.map((column) => column.label)).toEqual(['A', 'B', 'C']);
    expect(made.tables[1]?.rows.map((row) => row.label)).toEqual(sample.tables[1]?.rows.map((row) => row.label));
    expect(made.names.bench_length).toBe('Brief.A1');
    expect(made.pages.map((page) => page.title)).toEqual(['Brief', 'Scenarios']);
  });

  it('carries a whole template over into a book that has nothing, worked out again to the same file, cell for cell', async () => {
    const text = readFileSync('templates/trade-bench.json', 'utf8');
    const read = parseBook(text);
    if (!read.ok) throw new Error(read.message);
    const worked = async (book: Book): Promise<Values> => {
      const engine = createEngine();
      const values = { ...(await engine.load(book)) };
      engine.close();
      return values;
    };
    const file = formatTidy(read.book, await worked(read.book));
    const plan = await bringIn(bare(read.book), file, {});
    expect([plan.notPlaced, plan.said]).toEqual([0, []]);
    expect(plan.placed).toBeGreaterThan(500);
    const made = apply(bare(read.book), plan.change);
    expect(formatTidy(made, await worked(made)).split('\r\n')).toEqual(file.split('\r\n'));
  });

  it('lets a given that nobody has answered stand as one, where a value stood', async () => {
    const asked = (content: string): Book => ({
      ...bare(sample),
      tables: [{ id: 't', name: 'Asked', form: 'plain', columns: [{ id: 'a' }], rows: [{ id: 'r', label: 'Width' }], cells: { r: { a: { content } } } }],
    });
    const plan = await bringIn(asked('3 m'), formatTidy(asked(''), handValues(asked(''), {})));
    const after = apply(asked('3 m'), plan.change);
    expect(Object.values(cellsOf(after))).toMatchObject([{ content: '', kind: 'given' }]);
    expect(apply(after, invert(plan.change))).toEqual(asked('3 m'));
  });

  it('gives the same cells, over 1,000 random books of nasty text, numbers, units, ranges and formulas, into nothing and over something else', async () => {
    await fc.assert(
      fc.asyncProperty(random, random, async (book, other) => {
        const file = formatTidy(book, handValues(book, {}));
        const told = cellsOf(book);
        const plan = await bringIn(bare(book), file, {});
        expect(plan.problems).toEqual([]);
        expect(cellsOf(apply(bare(book), plan.change))).toEqual(told);
        const over = await bringIn(other, file);
        const after = apply(other, over.change);
        const { tables } = after;
        for (const { record, message } of over.problems) expect(`${message} ${record.fields.join()}`).toMatch(/is worked out here/);
        if (over.notPlaced === 0) expect(cellsOf({ ...after, tables: tables.slice(0, 1) })).toMatchObject(told);
        expect(over.placed + over.notPlaced).toBe(over.read);
        expect(apply(after, invert(over.change))).toEqual(other);
      }),
      runs(1000, 7),
    );
  });

  it('is read in UTF-16 and with semicolons too', async () => {
    const text = formatTidy(sample, handValues(sample, {})).replaceAll('\r\n', '\n');
    const buffer = new Uint8Array(2 + text.length * 2);
    new DataView(buffer.buffer).setUint16(0, 0xfeff, true);
    for (let i = 0; i < text.length; i++) new DataView(buffer.buffer).setUint16(2 + i * 2, text.charCodeAt(i), true);
    const staged = await stageCsv(buffer, { name: 'cells.csv' });
    expect(staged).toMatchObject({ encoding: 'utf-16le', tidy: true });
    expect((await bringIn(sample, buffer)).change.edits).toEqual([]);
    const semicolons = await stageCsv('table;address;value;unit\nBrief;Brief.A1;4;m\n', { name: 'cells.csv' });
    expect(semicolons).toMatchObject({ delimiter: ';', tidy: true });
  });
});

describe('the place of a cell in a tidy file', () => {
  it('is the same, of any table and in any writing: it goes out and comes back to where it was', async () => {
    await fc.assert(
      fc.asyncProperty(tableName, fc.nat({ max: 3 }), fc.nat({ max: 9 }), async (name, column, row) => {
        const rows = Array.from({ length: 10 }, (_, i) => ({ id: `r${i}` }));
        const columns = Array.from({ length: 4 }, (_, i) => ({ id: `c${i}` }));
        const at = { [`r${row}`]: { [`c${column}`]: { content: '7' } } };
        const book: Book = { ...sample, pages: [], names: {}, tables: [{ id: 't', name, form: 'plain', columns, rows, cells: at }] };
        const file = formatTidy(book, handValues(book, {}));
        const empty = { ...book, tables: book.tables.map((table) => ({ ...table, cells: {} })) };
        expect((await bringIn(book, file)).change.edits).toEqual([]);
        expect(apply(empty, (await bringIn(empty, file)).change).tables[0]?.cells).toEqual(at);
        for (const written of writingsOf(name, { column, row })) {
          const hand = formatCsv([
            ['table', 'address', 'value', 'formula'],
            [name, written, 7, null],
          ]);
          const plan = await bringIn(empty, hand);
          expect([plan.problems, apply(empty, plan.change).tables[0]?.cells], written).toEqual([[], at]);
        }
      }),
      runs(300, 1804),
    );
  });

  it('stands in formulas and lists of choices too, which come in in our writing', async () => {
    const file = [
      'table,address,value,low,high,formula',
      "Scenarios,Scenarios!B1,,from,'Fixture list'!A2:A4,=[Brief.A1]*2",
      'Scenarios,[Scenarios.C1],,,,"=SUM(Brief!A1;[.A1])"',
      "Fixture list,'Fixture list'.B2,80 EUR,,,",
    ].join('\n');
    const plan = await bringIn(sample, file);
    expect(plan.problems).toEqual([]);
    const after = apply(sample, plan.change);
    expect(placeOf(after, 'Scenarios.B1')?.cell).toMatchObject({ content: '=Brief.A1*2', range: { from: "'Fixture list'.A2:A4" } });
    expect(placeOf(after, 'Scenarios.C1')?.cell?.content).toBe('=SUM(Brief.A1,A1)');
    expect(placeOf(after, "'Fixture list'.B2")?.cell?.content).toBe('80 EUR');
  });

  it('is no name: one that would read as a place is refused with its reason, and its cell comes in', async () => {
    const plan = await bringIn(sample, 'table,address,name,value\nBrief,Brief.A1,rail.v24,4 m\n');
    expect(plan.said).toEqual(["Line 2: “rail.v24” can't be a name: it reads as cell V24 of a table called rail."]);
    expect(placeOf(apply(sample, plan.change), 'Brief.A1')?.cell?.content).toBe('4 m');
  });
});

describe('a tidy file made by hand', () => {
  it('of a name that went is told what took its place, and does not land in what stands there now', async () => {
    const address = Object.values(sample.names)[0]?.replaceAll('$', '') ?? '';
    const book: Book = { ...sample, went: { shelf_amps: 'Its size says now what the wire carries.' } };
    const table = address.slice(0, address.indexOf('.'));
    const plan = await bringIn(book, `table,address,name,value\r\n${table},${address},shelf_amps,7\r\n`);
    expect(plan.problems.map(({ message }) => message)).toEqual(['shelf_amps is no longer given. Its size says now what the wire carries.']);
    expect(plan.placed).toBe(0);
  });

  it('leaves alone what it has no column for, and takes a bare number in the unit of its cell', async () => {
    const plan = await bringIn(sample, 'table,address,value\nBrief,Brief.A1,4.2\n');
    const at = placeOf(apply(sample, plan.change), 'Brief.A1');
    expect(at?.cell).toEqual({ content: '4.2 m', source: 'client' });
  });

  it('tells what it could not place with line and reason, keeps it in the book, and the counts add up', async () => {
    const file =
      'table,address,kind,value,unit\nBrief,Brief.A1,given,4,m\nBrief,Brief.A1,given,5,m\nScenarios,Scenarios.A3,worked,12,EUR\nBrief,somewhere,given,4,m\nBrief,Brief.A3,guess,4,m\nBrief,Brief.A2\n';
    const plan = await bringIn(sample, file);
    expect([plan.read, plan.placed, plan.notPlaced]).toEqual([6, 1, 5]);
    expect(plan.problems.map(({ record, message }) => `${record.line}: ${message}`)).toEqual([
      '3: Brief.A1 is told a second time; the first stands.',
      '4: Scenarios.A3 is worked out here, and the file gives its value without a formula.',
      "5: “somewhere” is no cell's address.",
      expect.stringMatching(/^6: “guess” is not a kind of cell/),
      '7: It has 2 fields, the headings are 5.',
    ]);
    const after = apply(sample, plan.change);
    expect(after.pages.at(-1)?.title).toBe('Not placed');
    expect(Object.keys(after.tables.at(-1)?.cells ?? {}).length).toBe(1 + 1 + 5);
  });

  it('puts rows and columns after the last ones where an address is beyond them', async () => {
    const plan = await bringIn(sample, 'table,address,row,scenario,kind,value,unit\nScenarios,Scenarios.D7,Colour,D,given,white,\n');
    const at = placeOf(apply(sample, plan.change), 'Scenarios.D7');
    expect([at?.row.label, at?.column.label, at?.cell?.content]).toEqual(['Colour', 'D', 'white']);
  });
});
