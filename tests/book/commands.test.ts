import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import { addScenario, copyScenario } from '../../src/book/commands/add-scenario.ts';
import { clearCells } from '../../src/book/commands/clear-cells.ts';
import { deleteLines } from '../../src/book/commands/delete-lines.ts';
import { dropScenario } from '../../src/book/commands/drop-scenario.ts';
import { insertLines } from '../../src/book/commands/insert-lines.ts';
import { moveLines } from '../../src/book/commands/move-lines.ts';
import { renameBook, renameTable, setHeading, setName } from '../../src/book/commands/rename.ts';
import { sameAsBase } from '../../src/book/commands/same-as-base.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { hasPrices, plainMoney, setCurrency } from '../../src/book/commands/set-currency.ts';
import { setPaper, setWires } from '../../src/book/commands/set-customs.ts';
import { setHabits } from '../../src/book/commands/set-habits.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { setNote } from '../../src/book/commands/set-note.ts';
import { setSource } from '../../src/book/commands/set-source.ts';
import { setRowUnit, setUnit } from '../../src/book/commands/set-unit.ts';
import { paperOf, wiresOf } from '../../src/book/customs.ts';
import { habitsOf } from '../../src/book/habits.ts';
import { invert } from '../../src/book/invert.ts';
import { rangeOf, sourceOf, standingOf, titleOf, unitOf } from '../../src/book/look-up.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';
import { formatBook } from '../../src/files/book/index.ts';
import { templateBook } from '../templates/open-template.ts';
import { sample } from './sample.ts';

function then(book: Book, answer: Answer): Book {
  if (isRefused(answer)) throw new Error(answer.message);
  return apply(book, answer);
}
const label = (answer: Answer): string => (isRefused(answer) ? `refused: ${answer.message}` : answer.label);
const content = (book: Book, address: string): string | undefined => cellAt(book, address)?.cell?.content;
const at = (book: Book, address: string) => {
  const found = cellAt(book, address);
  if (!found) throw new Error(`no ${address}`);
  return found;
};

describe('setting a cell', () => {
  it('is told in the words of the page', () => {
    expect(label(setCell(sample, { address: 'Scenarios.A1', content: '55 cm' }))).toBe('Mount height, A: 60 cm → 55 cm');
    expect(label(setCell(sample, { address: 'Scenarios.A1', content: '24 in', typed: '24' })), 'with the unit that was meant').toBe(
      'Mount height, A: 60 cm → 24 in',
    );
    expect(label(setCell(sample, { address: 'Scenarios.A1', content: '18 in', typed: '1 ft 6 in' })), 'as it was typed').toBe(
      'Mount height, A: 60 cm → 1 ft 6 in',
    );
    expect(label(setCell(sample, { address: 'Scenarios.C1', content: '55 cm' }))).toBe('Mount height, C: as A → 55 cm');
    expect(label(setCell(sample, { address: 'Scenarios.B4', content: '' }))).toBe('Beside A, B: =B3-A3 → blank');
    expect(label(setCell(sample, { address: "'Fixture list'.B2", content: '80 EUR' }))).toBe('Rail 45, Price: 79 EUR → 80 EUR');
  });

  it('keeps what is said of the cell, and what was typed only where it differs', () => {
    const once = then(sample, setCell(sample, { address: 'Scenarios.B1', content: '50 cm', typed: '50' }));
    expect(at(once, 'Scenarios.B1').cell).toEqual({ content: '50 cm', typed: '50', note: 'lower' });
    const twice = then(once, setCell(once, { address: 'Scenarios.B1', content: '51 cm', typed: '51 cm', unit: 'in', source: 'client' }));
    expect(at(twice, 'Scenarios.B1').cell).toEqual({ content: '51 cm', note: 'lower', unit: 'in', source: 'client' });
    const back = then(twice, setCell(twice, { address: 'Scenarios.B1', content: '51 cm', unit: 'cm' }));
    expect(at(back, 'Scenarios.B1').cell).not.toHaveProperty('unit');
  });

  it('says limits in the unit that the cell shows, rounded inwards, and as the range has them', () => {
    const inFeet = then(sample, setUnit(sample, { addresses: ['Brief.A1'], unit: 'ft' }));
    const answer = (text: string): string => label(setCell(inFeet, { address: 'Brief.A1', content: text }));
    // 0.3 m and 20 m by the foot of 0.3048 m (NIST Special Publication 811, 2008, appendix B.8): 0.98425… ft and 65.6167… ft.
    expect(answer('80 ft')).toBe('refused: Bench length: 80 ft is above what is allowed, from 11 7/8″ to 65′ 7 3/8″ (0.3 to 20 m).');
    expect(answer('25 m')).toBe('refused: Bench length: 25 m is above what is allowed, from 11 7/8″ to 65′ 7 3/8″ (0.3 to 20 m).');
    expect(answer('0.985 ft')).not.toMatch(/^refused/);
    expect(answer('65.6 ft')).not.toMatch(/^refused/);
    expect(answer('long')).toBe('refused: Bench length takes a number, from 11 7/8″ to 65′ 7 3/8″ (0.3 to 20 m); “long” is none.');
  });

  it('refuses what the allowed range does not hold, and says what it holds', () => {
    const answer = (address: string, text: string): string => label(setCell(sample, { address, content: text }));
    expect(answer('Brief.A1', '25 m')).toBe('refused: Bench length: 25 m is above what is allowed, from 0.3 to 20 m.');
    expect(answer('Brief.A1', '11 in')).toBe('refused: Bench length: 11 in is below what is allowed, from 0.3 to 20 m.');
    expect(answer('Brief.A1', '5 kg')).toBe('refused: Bench length takes a quantity in m or the like, from 0.3 to 20 m; 5 kg is not one.');
    expect(answer('Brief.A1', 'long')).toBe('refused: Bench length takes a number, from 0.3 to 20 m; “long” is none.');
    expect(answer('Brief.A2', 'Rail 9')).toBe(
      'refused: Fixture: “Rail 9” is not one of the choices: Rail 45, Rail 90, Puck 18. Did you mean Rail 90 or Rail 45?',
    );
    expect(answer('Brief.A9', '1')).toBe('refused: There is no cell Brief.A9 in this book.');
  });

  it('takes the limits themselves in any unit, a formula, and nothing', () => {
    for (const text of ['20 m', '2000 cm', '30 cm', '=B1', '']) expect(isRefused(setCell(sample, { address: 'Brief.A1', content: text })), text).toBe(false);
    expect(isRefused(setCell(sample, { address: 'Brief.A2', content: 'puck 18' }))).toBe(false);
  });

  it('refuses more than a cell may hold', () => {
    expect(label(setCell(sample, { address: 'Scenarios.A4', content: 'x'.repeat(32_001) }))).toBe(
      'refused: This text has 32,001 characters; at most 32,000 are allowed.',
    );
    expect(label(setCell(sample, { address: 'Scenarios.A4', content: `=${'1+'.repeat(1000)}1` }))).toBe(
      'refused: This formula has 2,002 characters; at most 2,000 are allowed.',
    );
  });

  it('makes no change of what is already so', () => {
    const answer = setCell(sample, { address: 'Brief.A1', content: '3.6 m' });
    expect(isRefused(answer) ? undefined : answer.edits).toEqual([]);
  });
});

describe('clearing cells', () => {
  it('takes content and source, and leaves unit, note and range', () => {
    const made = then(sample, clearCells(sample, { addresses: ['Scenarios.B1', 'Brief.A1'] }));
    expect(at(made, 'Scenarios.B1').cell).toEqual({ content: '', note: 'lower' });
    expect(at(made, 'Brief.A1').cell).toBeUndefined();
    expect(standingOf(at(made, 'Brief.A1'))).toBe('given');
    expect(label(clearCells(sample, { addresses: ['Scenarios.B1', 'Brief.A1'] }))).toBe('2 cells cleared');
  });
});

describe('the unit in which cells are shown', () => {
  it('changes the view, never the content, and keeps the limits what they were', () => {
    const made = then(sample, setUnit(sample, { addresses: ['Brief.A3'], unit: 'min/d' }));
    expect(content(made, 'Brief.A3')).toBe('16 h/d');
    expect(unitOf(at(made, 'Brief.A3'))).toBe('min/d');
    expect(rangeOf(at(made, 'Brief.A3'))).toEqual({ low: 0, high: 24, unit: 'h/d' });
    const row = then(sample, setRowUnit(sample, { address: 'Brief.A3', unit: 'min/d' }));
    expect(unitOf(at(row, 'Brief.A3'))).toBe('min/d');
    expect(rangeOf(at(row, 'Brief.A3'))).toEqual({ low: 0, high: 24, unit: 'h/d' });
    expect(isRefused(setCell(row, { address: 'Brief.A3', content: '20 h/d' }))).toBe(false);
    expect(isRefused(setCell(row, { address: 'Brief.A3', content: '25 h/d' }))).toBe(true);
  });

  it('drops what was typed without a unit, which would be read in the new one', () => {
    const inches = then(sample, setUnit(sample, { addresses: ['Scenarios.B1'], unit: 'in' }));
    expect(at(inches, 'Scenarios.B1').cell).toEqual({ content: '45 cm', note: 'lower', unit: 'in' });
    const row = then(sample, setRowUnit(sample, { address: 'Scenarios.A1', unit: 'in' }));
    expect(at(row, 'Scenarios.B1').cell).toEqual({ content: '45 cm', note: 'lower' });
    const typed = then(sample, setCell(sample, { address: 'Scenarios.B1', content: '1.2 m', typed: '1,2 m' }));
    expect(at(then(typed, setRowUnit(typed, { address: 'Scenarios.A1', unit: 'in' })), 'Scenarios.B1').cell?.typed).toBe('1,2 m');
  });

  it('is refused where it is none, or of another kind', () => {
    expect(label(setUnit(sample, { addresses: ['Brief.A1'], unit: 'furlong' }))).toBe('refused: “furlong” is not a unit that is known here.');
    expect(label(setUnit(sample, { addresses: ['Brief.A1'], unit: 'kg' }))).toMatch(
      /^refused: Bench length holds a length, 3\.6 m; it can't be shown in kg\.$/,
    );
  });
});

describe('a note and a source', () => {
  it('are said of the cell, and taken away with an empty text', () => {
    const made = then(sample, setNote(sample, { address: 'Brief.A1', note: 'wall to wall', source: '' }));
    expect(at(made, 'Brief.A1').cell).toEqual({ content: '3.6 m', note: 'wall to wall' });
  });
});

describe('scenarios', () => {
  it('begin as A: givens point at A, formulas read their own column, the difference still reads A', () => {
    const made = then(sample, addScenario(sample, { table: 'Scenarios' }));
    expect(made.tables[1]?.columns[3]).toMatchObject({ label: 'D' });
    expect(content(made, 'Scenarios.D1')).toBe('=A1');
    expect(content(made, 'Scenarios.D2')).toBe('=A2');
    expect(content(made, 'Scenarios.D3')).toBe("=D2*INDEX('Fixture list'.$B$2:$B$4,MATCH(Brief.A2,'Fixture list'.A2:A4,0))");
    expect(content(made, 'Scenarios.D4')).toBe('=D3-A3');
    expect(standingOf(at(made, 'Scenarios.D1'))).toBe('as');
    expect(titleOf(at(made, 'Scenarios.D1'))).toBe('Mount height, D');
  });

  it('come into every comparing table that has the same ones', () => {
    const costs = {
      ...sample.tables[1],
      id: 'costs',
      name: 'Costs',
      cells: { cost: { a: { content: '=Scenarios.A3' }, b: { content: '=Scenarios.B3' }, c: { content: '=Scenarios.C3' } } },
    };
    const book = { ...sample, tables: [...sample.tables, costs as Book['tables'][number]] };
    const made = then(book, addScenario(book, { table: 'scenarios', label: 'High' }));
    expect(content(made, 'Costs.D3')).toBe('=Scenarios.D3');
    expect(made.tables.map((table) => table.columns.length)).toEqual([1, 4, 3, 4]);
    const less = then(made, dropScenario(made, { table: 'scenarios', column: 0 }));
    expect(less.tables.map((table) => table.columns.length)).toEqual([1, 3, 3, 3]);
  });

  it('are reached by what ranges to the last of them, until they are taken away', () => {
    const reads = ['=MAX(Scenarios.$B$3:$C$3)', '=MAX(Scenarios.A3:B3)', '=SUM(Scenarios.$C$1:$C$3)'];
    const asking = reads.reduce<Book>((book, formula, i) => then(book, setCell(book, { address: `Brief.A${i + 1}`, content: formula })), sample);
    const book = then(asking, setCell(asking, { address: 'Scenarios.C4', content: '=C3-MIN($A3:$C3)' }));
    const made = then(book, addScenario(book, { table: 'scenarios' }));
    expect(reads.map((_, i) => content(made, `Brief.A${i + 1}`))).toEqual(['=MAX(Scenarios.$B$3:$D$3)', '=MAX(Scenarios.A3:B3)', '=SUM(Scenarios.$C$1:$C$3)']);
    expect(content(made, 'Scenarios.C4')).toBe('=C3-MIN($A3:$D3)');
    expect(content(made, 'Scenarios.D4')).toBe('=D3-MIN($A3:$D3)');
    expect(content(then(made, dropScenario(made, { table: 'scenarios', column: 3 })), 'Brief.A1')).toBe('=MAX(Scenarios.$B$3:$C$3)');
  });

  it('are put back as A', () => {
    const made = then(sample, sameAsBase(sample, { address: 'Scenarios.B1' }));
    expect(at(made, 'Scenarios.B1').cell).toEqual({ content: '=A1', note: 'lower' });
    expect(label(sameAsBase(sample, { address: 'Scenarios.B1' }))).toBe('Mount height, B: 45 cm → as A');
    expect(label(sameAsBase(sample, { address: 'Scenarios.A1' }))).toMatch(/^refused: Mount height, A is what the other scenarios are compared with/);
    expect(label(sameAsBase(sample, { address: 'Scenarios.B3' }))).toMatch(/^refused: Cost, B is worked out/);
    // C is as A already: with C as the base, A can't be as C too.
    const turned = { ...sample, tables: sample.tables.map((table) => (table.id === 'scenarios' ? { ...table, base: 'c' } : table)) };
    expect(label(sameAsBase(turned, { address: 'Scenarios.A1' }))).toMatch(/^refused: Mount height, C is itself the same as Mount height, A/);
    expect(label(sameAsBase(turned, { address: 'Scenarios.B1' }))).toBe('Mount height, B: 45 cm → as C');
  });

  it('hand their givens on when they go: the first that was as A has the value, the next are as that one', () => {
    const three = then(sample, sameAsBase(sample, { address: 'Scenarios.B1' }));
    const made = then(three, dropScenario(three, { table: 'scenarios', column: 0 }));
    expect(made.tables[1]?.columns.map((column) => column.label)).toEqual(['B', 'C']);
    expect(made.tables[1]?.base).toBe('b');
    expect(content(made, 'Scenarios.A1')).toBe('60 cm');
    expect(content(made, 'Scenarios.B1')).toBe('=A1');
    expect(content(made, 'Scenarios.A2')).toBe('9');
    expect(label(dropScenario(three, { table: 'scenarios', column: 0 }))).toBe('Scenario A taken away (2 formulas lost a cell that they read)');
  });

  it('are never all taken away', () => {
    let book = sample;
    for (let i = 0; i < 2; i++) book = then(book, dropScenario(book, { table: 'scenarios', column: 1 }));
    expect(label(dropScenario(book, { table: 'scenarios', column: 0 }))).toBe('refused: Scenarios must keep at least one scenario.');
  });
});

describe('rows and columns', () => {
  it('put in above a referenced row take every reference with them', () => {
    const made = then(sample, insertLines(sample, { table: 'scenarios', axis: 'row', at: 0 }));
    expect(content(made, 'Scenarios.B5')).toBe('=B4-A4');
    const blocks = made.pages.flatMap((page) => page.blocks);
    expect(blocks[0]).toMatchObject({ text: 'The bench is {{bench_length}} long; B hangs at {{Scenarios.B2}}, {{ Scenarios.$B$4 }} in all.' });
    expect(blocks[4]).toMatchObject({ reads: { height: 'Scenarios.B2', prices: "'Fixture list'.B2:B4" } });
  });

  it('put into a list of choices widen it, and its names', () => {
    const made = then(sample, insertLines(sample, { table: 'fixtures', axis: 'row', at: 2, count: 2 }));
    expect(made.names.prices).toBe("'Fixture list'.$B$2:$B$6");
    expect(made.tables[0]?.rows[1]?.range?.from).toBe("'Fixture list'.A2:A6");
  });

  it('taken out say in the label what was lost, and a name goes with its cell', () => {
    const answer = deleteLines(sample, { table: 'brief', axis: 'row', at: 0 });
    expect(label(answer)).toBe(
      'Row 1 taken out of Brief (one formula lost a cell that it read; a text or a picture lost a cell that it showed; the name bench_length goes too)',
    );
    const made = then(sample, answer);
    expect(made.names).toEqual({ prices: "'Fixture list'.$B$2:$B$4" });
    expect(content(made, 'Scenarios.A3')).toContain('MATCH(Brief.A1,');
    // B1 goes: the text shows it, and the picture reads it.
    expect(label(deleteLines(sample, { table: 'scenarios', axis: 'row', at: 0 }))).toBe(
      'Row 1 taken out of Scenarios (2 texts and pictures lost a cell that they showed)',
    );
    const many = { ...sample, names: { ...sample.names, hours: 'Brief.A3', day: 'Brief.A3', shift: 'Brief.A3', light: 'Brief.A3' } };
    expect(label(deleteLines(many, { table: 'brief', axis: 'row', at: 2 }))).toBe('Row 3 taken out of Brief (the names hours, day, shift and 1 more go too)');
    expect(label(deleteLines(sample, { table: 'scenarios', axis: 'row', at: 1 }))).toBe('Row 2 taken out of Scenarios (4 formulas lost a cell that they read)');
    expect(label(deleteLines(sample, { table: 'brief', axis: 'row', at: 0, count: 3 }))).toBe('refused: Brief must keep at least one row.');
  });

  it('moved keep their cells and what points at them', () => {
    const made = then(sample, moveLines(sample, { table: 'scenarios', axis: 'column', at: 1, to: 2 }));
    expect(made.tables[1]?.columns.map((column) => column.label)).toEqual(['A', 'C', 'B']);
    expect(content(made, 'Scenarios.C4')).toBe('=C3-A3');
  });

  it('are refused beyond what a table may have', () => {
    expect(label(insertLines(sample, { table: 'brief', axis: 'column', at: 0, count: 100 }))).toBe(
      'refused: Brief would have more than 100 columns, which is the most a table may have.',
    );
  });
});

describe('names', () => {
  it('of a table change in every formula, in quotes where needed', () => {
    const made = then(sample, renameTable(sample, { table: 'fixtures', name: 'Lights' }));
    expect(content(made, 'Scenarios.A3')).toBe('=A2*INDEX(Lights.$B$2:$B$4,MATCH(Brief.A2,Lights.A2:A4,0))');
    expect(made.names.prices).toBe('Lights.$B$2:$B$4');
    const back = then(made, renameTable(made, { table: 'Lights', name: 'Fixture list' }));
    expect(content(back, 'Scenarios.A3')).toBe(content(sample, 'Scenarios.A3'));
  });

  it('that formulas could not tell apart are refused', () => {
    const rename = (name: string): string => label(renameTable(sample, { table: 'fixtures', name }));
    expect(rename('SCENARIOS')).toBe('refused: There is already a table called “Scenarios”.');
    for (const name of ['', ' x', 'a!b', '__proto__', 'A1', "'x", 'a"b', 'x'.repeat(61), 'a\nb', '{{x}}']) expect(rename(name), name).toMatch(/^refused: /);
    const name = (text: string): string => label(setName(sample, { name: text, address: 'Brief.A2' }));
    for (const text of ['', 'ppfd1', 'm', 'true', 'lost_cell', 'constructor', '2x', 'a b', 'Bench_Length', 'kWh'])
      expect(name(text), text).toMatch(/^refused: /);
  });

  it('of cells are absolute', () => {
    const made = then(sample, setName(sample, { name: 'fixture', address: 'Brief.A2' }));
    expect(made.names.fixture).toBe('Brief.$A$2');
    expect(then(made, setName(made, { name: 'fixture', address: null })).names).toEqual(sample.names);
  });

  it('of the book, the client and headings are set', () => {
    expect(then(sample, renameBook(sample, { title: 'Basil', client: 'A kitchen' }))).toMatchObject({ title: 'Basil', client: 'A kitchen' });
    expect(label(renameBook(sample, { title: ' ' }))).toBe('refused: A book needs a title.');
    expect(then(sample, setHeading(sample, { table: 'brief', axis: 'row', at: 0, label: 'Length' })).tables[0]?.rows[0]?.label).toBe('Length');
  });
});

describe('money and measures', () => {
  it('change the currency in givens, units and formulas, and keep the numbers', () => {
    const book = then(sample, setCell(sample, { address: 'Scenarios.A4', content: '=UNIT(5,"EUR/kWh")&"EUR or not"&SHOW(A3,"EUR")' }));
    const made = then(book, setCurrency(book, { currency: 'USD' }));
    expect(made.currency).toBe('USD');
    expect(content(made, 'Scenarios.A4')).toBe('=UNIT(5,"USD/kWh")&"EUR or not"&SHOW(A3,"USD")');
    expect(content(made, "'Fixture list'.B2")).toBe('79 USD');
    expect(unitOf(at(made, 'Scenarios.A3'))).toBe('USD');
    expect(label(setCurrency(sample, { currency: 'eur' }))).toMatch(/^refused: /);
  });

  it('are converted by a rate that is given: prices in lists, givens, limits and amounts written into formulas, in one step', () => {
    const start = templateBook('trade-bench');
    // By hand: 0.25 × 1.08, 40 × 1.08, and a limit of 10 EUR/kWh.
    const written = then(
      start,
      setCell(start, { address: 'Prices.A10', content: '=UNIT(4,"EUR")+UNIT(-0.5,"EUR")*UNIT(2,"kWh")*UNIT(3,"kWh/EUR")*UNIT(5,"EUR/kWh")*1' }),
    );
    const made = then(written, setCurrency(written, { currency: 'USD', rate: 1.08 }));
    expect(content(made, 'Prices.A1')).toBe('0.27 USD/kWh');
    expect(content(made, 'Prices.A12')).toBe('43.2 USD/h');
    expect(rangeOf(at(made, 'Prices.A1'))).toEqual({ low: 0, high: 10.8, unit: 'USD/kWh' });
    expect(content(made, 'Prices.A10')).toBe('=UNIT(4.32,"USD")+UNIT(-0.54,"USD")*UNIT(2,"kWh")*UNIT(2.77777777778,"kWh/USD")*UNIT(5.4,"USD/kWh")*1');
    const [priced] = made.tables.flatMap((t) => (t.name === 'Fixtures' ? t.rows.slice(1).map((row) => row.id) : []));
    const price = (book: Book): string[] =>
      Object.values(book.tables.find((t) => t.name === 'Fixtures')?.cells[priced ?? ''] ?? {}).map((cell) => cell.content);
    const [before, after] = [price(written), price(made)].map((all) => all.find((text) => / (EUR|USD)$/.test(text)) ?? '');
    expect(Number.parseFloat(after ?? '')).toBeCloseTo(Number.parseFloat(before ?? '') * 1.08, 9);
    expect(formatBook(made)).not.toMatch(/\bEUR\b/);
    expect(label(setCurrency(start, { currency: 'USD', rate: 0 }))).toMatch(/^refused: A rate is a number above 0/);
  });

  it('know whether a book has prices, and which formulas make money of plain numbers', () => {
    const start = templateBook('trade-bench');
    expect([hasPrices(start), hasPrices({ ...start, tables: start.tables.filter((t) => t.form === 'brief') })]).toEqual([true, false]);
    expect(plainMoney(start)).toEqual([]);
    const plain = then(start, setCell(start, { address: 'Prices.A10', content: '=UNIT(Prices.A7*2,"EUR")' }));
    expect(plainMoney(plain)).toEqual(['Prices.A10']);
  });

  it('change together with what else is usual where the client is, as one step of undo', () => {
    const start = templateBook('trade-bench');
    const change = setHabits(start, { currency: 'GBP', rate: 0.85, mains: 240, wires: 'AWG', paper: 'letter', measures: 'US customary', breakers: [15, 20] });
    const made = then(start, change);
    expect(isRefused(change) || apply(made, invert(change))).toEqual(start);
    expect(habitsOf(made)).toEqual({ measures: 'US customary', currency: 'GBP', mains: 240, breakers: [15, 20], wires: 'AWG', paper: 'letter' });
    expect(content(made, 'Prices.A1')).toBe('0.2125 GBP/kWh');
    expect(setHabits(made, habitsOf(made))).toMatchObject({ edits: [] });
    // The client has said the voltage: a habit does not take that word from them.
    const said = then(start, setSource(start, { address: 'Brief.A6', teller: 'client', how: 'by letter' }));
    expect(sourceOf(at(then(said, setHabits(said, { mains: 120 })), 'Brief.A6'))).toBe('client, by letter');
  });

  it('change the shown units only, keep limits, and come back', () => {
    const made = then(sample, setMeasures(sample, { measures: 'US customary' }));
    expect(unitOf(at(made, 'Brief.A1'))).toBe('ft');
    expect(unitOf(at(made, 'Scenarios.B1'))).toBe('in');
    expect(rangeOf(at(made, 'Scenarios.B1'))).toEqual({ low: 10, high: 200, unit: 'cm' });
    expect(content(made, 'Brief.A1')).toBe('3.6 m');
    const { typed: _, ...lower } = at(sample, 'Scenarios.B1').cell ?? { content: '' };
    expect(at(made, 'Scenarios.B1').cell).toEqual(lower);
    const whole = then(sample, setCell(sample, { address: 'Scenarios.B1', content: '45 cm' }));
    const there = then(whole, setMeasures(whole, { measures: 'US customary' }));
    expect(then(there, setMeasures(there, { measures: 'metric' }))).toEqual(whole);
  });

  it('say how wires are called and what is printed on, unless the book says otherwise', () => {
    const us = then(sample, setMeasures(sample, { measures: 'US customary' }));
    expect([wiresOf(sample), paperOf(sample), wiresOf(us), paperOf(us)]).toEqual(['mm²', 'A4', 'AWG', 'letter']);
    const own = then(then(us, setWires(us, { wires: 'mm²' })), setPaper(us, { paper: 'A4' }));
    expect([own.wires, own.paper]).toEqual(['mm²', 'A4']);
    expect(label(setPaper(us, { paper: 'A4' }))).toBe('Paper: letter → A4');
    expect(then(then(own, setWires(own, { wires: 'AWG' })), setPaper(own, { paper: 'letter' })), 'what is usual is not written down').toEqual(us);
  });
});

describe('the trade bench', () => {
  it('takes a new scenario in which every given of the comparison is as A', () => {
    const bench = JSON.parse(readFileSync(new URL('../../templates/trade-bench.json', import.meta.url), 'utf8')) as Book;
    const made = then(bench, addScenario(bench, { table: 'Scenarios' }));
    const table = made.tables.find((each) => each.name === 'Scenarios');
    const givens = table?.rows.map((_, r) => at(made, `Scenarios.D${r + 1}`)).filter((place) => place.row.kind === 'given') ?? [];
    expect(givens.length).toBeGreaterThan(5);
    expect(new Set(givens.map(standingOf))).toEqual(new Set(['as']));
  });

  it('takes more than five scenarios, and says of each that they are narrow on paper', () => {
    let bench = JSON.parse(readFileSync(new URL('../../templates/trade-bench.json', import.meta.url), 'utf8')) as Book;
    const said: string[] = [];
    for (let count = 4; count <= 7; count++) {
      const answer = count < 7 ? addScenario(bench, { table: 'Scenarios' }) : copyScenario(bench, { table: 'Scenarios', column: 1 });
      said.push(isRefused(answer) ? answer.message : answer.label);
      bench = then(bench, answer);
    }
    const narrow = ' (more than 5 are narrow on paper)';
    expect(said).toEqual(['Scenario D added', 'Scenario E added', `Scenario F added${narrow}`, `Scenario G: a copy of B${narrow}`]);
  });
});
