/** A file into a list whose rows have names: what it knows is brought up to the file, the rest is added, and what the file lacks stays. */
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readQuantity } from '../../functions/quantity-text.ts';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import { checkBook } from '../../src/book/check.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { invert } from '../../src/book/invert.ts';
import { nameColumns } from '../../src/book/list-rows.ts';
import { placeOf } from '../../src/book/look-up.ts';
import { isRefused } from '../../src/book/refused.ts';
import { rowLines, rowsSaid } from '../../src/files/csv/list-text.ts';
import { type Plan, planCsv, stageCsv } from '../../src/files/csv/staged.ts';
import { suggestMapping } from '../../src/files/csv/suggest.ts';
import { formatWide } from '../../src/files/csv/wide.ts';
import type { Session } from '../../src/session.ts';
import { runs } from '../cases.ts';
import { openTemplate } from '../templates/open-template.ts';

type Open = Pick<Session, 'book' | 'values'>;

async function bringIn({ book, values }: Open, file: string, table: string): Promise<Plan> {
  const staged = await stageCsv(file, { name: 'colleague.csv' });
  const plan = await planCsv(book, staged, { mapping: suggestMapping(book, staged, { table }), read: readQuantity, values });
  if (isRefused(plan)) throw new Error(plan.message);
  expect(plan.placed + plan.notPlaced).toBe(plan.read);
  expect(checkBook(apply(book, plan.change))).toMatchObject({ ok: true });
  expect(apply(apply(book, plan.change), invert(plan.change))).toEqual(book);
  return plan;
}

const linesOf = (book: Book, plan: Plan): readonly string[] => (plan.rows ? rowLines(book, plan.rows, 50) : []);
const contentAt = (book: Book, plan: Plan, address: string): string | undefined => placeOf(apply(book, plan.change), address)?.cell?.content;

let metric: Session;
let customary: Session;

beforeAll(async () => {
  metric = await openTemplate('trade-bench');
  customary = await openTemplate('trade-bench');
  customary.run((book) => setMeasures(book, { measures: 'US customary' }));
  await customary.settled();
});
afterAll(() => {
  metric.close();
  customary.close();
});

const COLLEAGUE =
  'fixture,Power (W),Output (µmol/s),Face length,Price\r\nRail 45,45,122,115 cm,79\r\n rail  90 ,92,,1.15,145 EUR\r\nBar 230,230,640,1.12,310\r\n';

describe('a list of a colleague', () => {
  const EVERYDAY = 'Name,Length (mm),Width (mm),PPF (µmol/s),Watts (W),Beam angle (°),Weight (kg),Cost,Efficacy (µmol/J)\r\n';

  it('knows the columns by what data sheets call them, so that no light is lost', async () => {
    const plan = await bringIn(metric, `${EVERYDAY}Rail 45,1150,60,130,45,120,1.4,81,2.9\r\nBar 230,1120,80,640,230,115,3.2,310,2.8\r\n`, 'fixtures');
    const at = (row: number): unknown => ['A', 'B', 'C', 'D', 'E', 'F', 'J', 'R'].map((column) => contentAt(metric.book, plan, `Fixtures.${column}${row}`));
    expect(contentAt(metric.book, plan, 'Fixtures.E2')).toBe('130 µmol/s');
    expect(at(8)).toEqual(['Bar 230', '1120 mm', '80 mm', '230 W', '640 µmol/s', '115 °', '3.2 kg', '310 EUR']);
  });

  it('names each column of the file that finds no place', async () => {
    const plan = await bringIn(metric, 'Name,Finish,Efficacy (µmol/J),Empty,Price\nRail 45,white,2.9,,81\n', 'fixtures');
    expect([plan.columnsOut, plan.leftOut]).toEqual([['Finish', 'Efficacy (µmol/J)'], 2]);
  });

  it('is known as fixtures without a word where no table has its very headings, and lets an own heading go before an everyday one', async () => {
    const mapping = async (file: string) => suggestMapping(metric.book, await stageCsv(file, { name: 'colleague.csv' }));
    expect(await mapping(`${EVERYDAY}Bar 230,1120,80,640,230,115,3.2,310,2.8\n`)).toMatchObject({ to: 'rows', table: 'fixtures' });
    expect(await mapping('Name,Length,Width\nNorth,2 m,1 m\n')).toMatchObject({ to: 'rows', table: 'benches' });
    const both = suggestMapping(metric.book, await stageCsv('Model,Fixture,PPF,Output\nM,Rail 45,1,2\n', { name: 'colleague.csv' }), { table: 'fixtures' });
    expect(both).toMatchObject({ into: { from: 1 }, columns: [{ from: 3, column: 'e' }] });
  });

  it('changes what differs, adds what is new, leaves the rest, and says each beforehand', async () => {
    const { book } = metric;
    const plan = await bringIn(metric, COLLEAGUE, 'fixtures');
    expect(linesOf(book, plan)).toEqual([
      'Rail 90 is changed: Power 90 W → 92 W; Price 139 EUR → 145 EUR (chosen: Fixture, B)',
      'Bar 230 is added: Power 230 W; Output 640 µmol/s; Face length 1.12 m; Price 310 EUR',
    ]);
    expect(plan.rows && rowsSaid(plan.rows)).toBe('Fixtures: 1 row changed, 1 added, 1 as before; 4 that the file lacks stay.');
    expect(plan.said).toContain('1 blank field leaves its cell as before.');
    expect(plan.change.label).toBe('colleague.csv: Fixtures: 1 row changed, 1 added, 1 as before; results change');
    expect([plan.problems, plan.notPlaced]).toEqual([[], 0]);
    // Six were there.
    expect(['A3', 'D3', 'E3', 'A8', 'E8'].map((cell) => contentAt(book, plan, `Fixtures.${cell}`))).toEqual([
      'Rail 90',
      '92 W',
      '243 µmol/s',
      'Bar 230',
      '640 µmol/s',
    ]);
  });

  it('says whose results change where a row that it changes is chosen', async () => {
    const { book } = metric;
    const plan = await bringIn(metric, 'Fixture,Price\nRail 45,81\n', 'fixtures');
    expect(linesOf(book, plan)).toEqual(['Rail 45 is changed: Price 79 EUR → 81 EUR (chosen: Fixture, A)']);
    expect(plan.change.label).toBe('colleague.csv: Fixtures: 1 row changed, 0 added, 0 as before; results change');
  });

  it('makes room inside what formulas read, with a blank row left at the foot', async () => {
    const { book } = metric;
    const names = Array.from({ length: 9 }, (_, i) => `New ${i + 1}`);
    const plan = await bringIn(metric, `Fixture,Power\n${names.map((name) => `${name},50\n`).join('')}`, 'fixtures');
    const after = apply(book, plan.change);
    const list = after.tables.find(({ id }) => id === 'fixtures');
    expect(list?.rows.slice(1).map(({ id }) => list.cells[id]?.a?.content ?? '')).toEqual([
      ...(book.tables
        .find(({ id }) => id === 'fixtures')
        ?.rows.slice(1, 7)
        .map(({ id }) => placeOfRow(book, id)) ?? []),
      ...names,
      '',
    ]);
    expect(placeOf(after, 'Scenarios.A1')?.row.range).toEqual({ from: 'Fixtures.A2:A17' });
    expect(placeOf(after, 'Scenarios.A86')?.cell?.content).toBe('=INDEX(Fixtures.$D$2:$D$17,A83)');
  });

  it('tells a name that stands twice in the file, and takes the first; of two rows of one name it changes none', async () => {
    const twice = await bringIn(metric, 'Fixture,Price\nBar,310\nBAR,320\nbár,330\n', 'fixtures');
    expect(twice.problems.map(({ record, message }) => [record.line, message])).toEqual([
      [3, '“BAR” stands in the file a second time; the first stands.'],
      [4, '“bár” stands in the file a second time; the first stands.'],
    ]);
    expect(contentAt(metric.book, twice, 'Fixtures.A8')).toBe('Bar');
    const doubled = apply(metric.book, (await bringIn(metric, 'Fixture,Price\nBar,310\n', 'fixtures')).change);
    const at = placeOf(doubled, 'Fixtures.A9');
    if (!at) throw new Error('no row');
    const two = apply(doubled, { label: '', edits: [{ at: 'cell', table: 'fixtures', row: at.row.id, column: 'a', before: null, after: { content: 'bar' } }] });
    const plan = await bringIn({ book: two, values: metric.values }, 'Fixture,Price\nBar,311\nNameless,5\n,7\n', 'fixtures');
    expect(plan.problems.map(({ message }) => message)).toEqual(['Two rows of Fixtures are called “Bar”.', 'It has no name.']);
  });

  it('finds a crop by its stage too', async () => {
    const file = 'Crop,Stage,DLI low,DLI high\nlettuce,head greenhouse,16,17\nlettuce,head in a cellar,12,14\n';
    const plan = await bringIn(metric, file, 'crops');
    expect(linesOf(metric.book, plan)).toEqual([
      'lettuce, head greenhouse is changed: DLI low 17 mol/m²/d → 16 mol/m²/d',
      'lettuce is added: Stage head in a cellar; DLI low 12 mol/m²/d; DLI high 14 mol/m²/d',
    ]);
  });
});

const placeOfRow = (book: Book, row: string): string => book.tables.find(({ id }) => id === 'fixtures')?.cells[row]?.a?.content ?? '';

describe.each([
  ['metric units', () => metric],
  ['US customary ones', () => customary],
])('a list in %s', (_, open) => {
  it('that goes out as CSV and comes back has nothing new to say', async () => {
    const { book, values } = open();
    const lists = book.tables.filter((table) => nameColumns(table).length > 0);
    expect(lists.map(({ name }) => name)).toEqual(['Benches', 'Checks', 'Crops', 'Fixtures', 'Supplies']);
    for (const table of lists) {
      const plan = await bringIn({ book, values }, formatWide(book, values, { tables: [table.name] }), table.id);
      expect(plan.change.edits, table.name).toEqual([]);
      expect(plan.problems, table.name).toEqual([]);
      // Nobody has filled in a line of benches yet, and there is no name to know one by.
      if (table.name === 'Benches') continue;
      expect(plan.rows, table.name).toMatchObject({ changed: [], added: [], stay: 0 });
      expect(plan.rows?.same, table.name).toBeGreaterThan(3);
    }
  });

  it('takes any file once: brought in again it changes nothing, and rows that it lacks are as they were', async () => {
    const { book, values } = open();
    const field = fc.option(fc.integer({ min: 1, max: 400 }), { nil: undefined, freq: 4 });
    const known =
      book.tables
        .find(({ id }) => id === 'fixtures')
        ?.rows.slice(1, 7)
        .map(({ id }) => placeOfRow(book, id)) ?? [];
    const name = fc.oneof(
      fc.constantFrom(...known),
      fc.integer({ min: 1, max: 30 }).map((n) => `Light ${n}`),
    );
    const record = fc.record({ name, power: field, length: field, price: field });
    await fc.assert(
      fc.asyncProperty(fc.uniqueArray(record, { selector: ({ name: one }) => one, maxLength: 12 }), async (records) => {
        const lines = records.map(({ name: one, power, length, price }) => [one, power, length === undefined ? '' : `${length} cm`, price].join(','));
        const file = `Fixture,Power [W],Face length,Price\n${lines.join('\n')}\n`;
        const once = await bringIn({ book, values }, file, 'fixtures');
        const after = apply(book, once.change);
        expect((once.rows?.changed.length ?? 0) + (once.rows?.added.length ?? 0) + (once.rows?.same ?? 0)).toBe(records.length);
        const again = await bringIn({ book: after, values: asGiven(after) }, file, 'fixtures');
        expect(again.change.edits).toEqual([]);
        const list = after.tables.find(({ id }) => id === 'fixtures');
        for (const row of list?.rows.slice(1) ?? []) {
          const its = records.find(({ name: one }) => one === list?.cells[row.id]?.a?.content);
          if (!its) expect(list?.cells[row.id]).toEqual(book.tables.find(({ id }) => id === 'fixtures')?.cells[row.id]);
          else if (its.power !== undefined) expect(list?.cells[row.id]?.d?.content).toBe(`${its.power} W`);
        }
      }),
      runs(200, 3811),
    );
  });
});

/** The values of the list's givens, which an engine would give. */
function asGiven(book: Book): Session['values'] {
  const table = book.tables.find(({ id }) => id === 'fixtures');
  const values: Record<string, Session['values'][string]> = {};
  for (const [r, row] of table?.rows.entries() ?? []) {
    for (const [c, column] of table?.columns.entries() ?? []) {
      const content = table?.cells[row.id]?.[column.id]?.content;
      const read = content === undefined ? undefined : readQuantity(content, { currency: book.currency });
      const address = `Fixtures.${String.fromCharCode(65 + c)}${r + 1}`;
      if (read?.kind === 'number') values[address] = { kind: 'number', base: read.base, unit: read.unit };
      if (read?.kind === 'text') values[address] = { kind: 'text', text: read.content };
    }
  }
  return values;
}
