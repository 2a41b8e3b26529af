/** What is done to cells, rows and columns at large: repeated, pasted, sorted, replaced, formatted, ranged, locked; scenarios copied and moved. */
import { describe, expect, it } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import { carriedCell, placesOf } from '../../src/book/area.ts';
import type { Book, Table } from '../../src/book/book.ts';
import { addScenario, copyScenario } from '../../src/book/commands/add-scenario.ts';
import { clearCells } from '../../src/book/commands/clear-cells.ts';
import { moveCells } from '../../src/book/commands/move-cells.ts';
import { moveLines } from '../../src/book/commands/move-lines.ts';
import { putCells, repeatCells } from '../../src/book/commands/put-cells.ts';
import { renameName, setHeading } from '../../src/book/commands/rename.ts';
import { replaceText } from '../../src/book/commands/replace-text.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { setDecimals, setWidth } from '../../src/book/commands/set-format.ts';
import { setLock } from '../../src/book/commands/set-lock.ts';
import { setRange } from '../../src/book/commands/set-range.ts';
import { setUnit } from '../../src/book/commands/set-unit.ts';
import { sortRows } from '../../src/book/commands/sort-rows.ts';
import { findText } from '../../src/book/find.ts';
import { standingOf } from '../../src/book/look-up.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';
import { sample } from './sample.ts';
import { label, sound } from './sound.ts';

const cell = (book: Book, address: string) => cellAt(book, address)?.cell;
const content = (book: Book, address: string): string | undefined => cell(book, address)?.content;
const column = (book: Book, table: string, letter: string, rows: number): (string | undefined)[] =>
  Array.from({ length: rows }, (_, r) => content(book, `${table}.${letter}${r + 1}`));
/** The sample with one more table. */
const withTable = (table: Table): Book => ({ ...sample, tables: [...sample.tables, table] });
const costs: Table = {
  id: 'costs',
  name: 'Costs',
  form: 'scenarios',
  columns: [
    { id: 'a', label: 'A' },
    { id: 'b', label: 'B' },
    { id: 'c', label: 'C' },
  ],
  rows: [{ id: 'r1', label: 'Twice' }],
  cells: { r1: { a: { content: '=2*Scenarios.A3' }, b: { content: '=2*Scenarios.B3' }, c: { content: '=2*Scenarios.C3' } } },
};

describe('repeating', () => {
  it('across takes formulas along, save what has a $ and tables with a single column', () => {
    const made = sound(sample, repeatCells(sample, { area: { table: 'scenarios', row: 2, column: 0, rows: 1, columns: 3 }, axis: 'column' }));
    expect(content(made, 'Scenarios.C3')).toBe("=C2*INDEX('Fixture list'.$B$2:$B$4,MATCH(Brief.A2,'Fixture list'.C2:C4,0))");
    expect(content(made, 'Scenarios.B3')).toContain("'Fixture list'.B2:B4");
  });

  it('down repeats values as they are, and formulas by one row more each time', () => {
    const book = sound(sample, setCell(sample, { address: "'Fixture list'.C2", content: '=B2*2' }));
    const made = sound(book, repeatCells(book, { area: { table: 'fixtures', row: 1, column: 1, rows: 3, columns: 2 }, axis: 'row' }));
    expect(column(made, "'Fixture list'", 'B', 4)).toEqual(['Price', '79 EUR', '79 EUR', '79 EUR']);
    expect(column(made, "'Fixture list'", 'C', 4)).toEqual(['Output', '=B2*2', '=B3*2', '=B4*2']);
  });

  it('says what would lie beyond the edge, and refuses one line alone, blanks and locked cells', () => {
    const up = sound(sample, setCell(sample, { address: "'Fixture list'.C4", content: '=B3' }));
    const pasted = putCells(up, { table: 'fixtures', row: 1, column: 2, cells: [[{ content: '=A2' }]], from: { table: 'fixtures', row: 3, column: 2 } });
    expect(label(pasted)).toBe("One cell pasted into 'Fixture list'.C2 (one formula reads a cell beyond the edge)");
    expect(content(sound(up, pasted), "'Fixture list'.C2")).toBe('=#REF!');
    const area = { table: 'scenarios', row: 0, column: 0, rows: 1, columns: 1 };
    expect(label(repeatCells(sample, { area, axis: 'row' }))).toBe('refused: Choose what to repeat together with the cells below it.');
    expect(label(repeatCells(sample, { area: { ...area, row: 3, columns: 1, rows: 2 }, axis: 'row' }))).toBe(
      'refused: There is nothing to repeat: the first cells are blank.',
    );
    expect(label(repeatCells(sample, { area: { ...area, row: 1, rows: 2 }, axis: 'row' }))).toMatch(/^refused: Cost, A is worked out and locked/);
  });
});

describe('pasting cells', () => {
  it('re-bases formulas within the table, and keeps unit, note and source', () => {
    const from = { table: 'scenarios', row: 3, column: 1 };
    const made = sound(
      sample,
      putCells(sample, { table: 'scenarios', row: 3, column: 0, cells: [[{ content: '=B3-A3', note: 'n' }]], from: { ...from, column: 2 } }),
    );
    expect(content(made, 'Scenarios.A4')).toBe('=#REF!-#REF!');
    const right = sound(
      sample,
      putCells(sample, { table: 'scenarios', row: 3, column: 2, cells: [[{ content: '=B3-A3', unit: 'EUR', note: 'n', source: 's' }]], from }),
    );
    expect(cell(right, 'Scenarios.C4')).toEqual({ content: '=C3-B3', unit: 'EUR', note: 'n', source: 's' });
  });

  it('into another table leaves formulas reading what they read', () => {
    const made = sound(
      sample,
      putCells(sample, { table: 'fixtures', row: 1, column: 2, cells: [[{ content: '=B3-Brief.A1' }]], from: { table: 'scenarios', row: 3, column: 1 } }),
    );
    expect(content(made, "'Fixture list'.C2")).toBe('=Scenarios.B3-Brief.A1');
  });

  it('carries the unit in which a cell is shown, and what was typed without one only where the unit is the same', () => {
    const found = placesOf(sample, { table: 'scenarios', row: 0, column: 1, rows: 1, columns: 1 });
    const copied = found?.lines.map((line) => line.map(carriedCell)) ?? [];
    expect(copied).toEqual([[{ content: '45 cm', typed: '45', note: 'lower', unit: 'cm' }]]);
    const same = sound(sample, putCells(sample, { table: 'scenarios', row: 0, column: 2, cells: copied }));
    expect(cell(same, 'Scenarios.C1')).toEqual({ content: '45 cm', typed: '45', note: 'lower' });
    const other = sound(sample, putCells(sample, { table: 'brief', row: 0, column: 0, cells: copied }));
    expect(cell(other, 'Brief.A1')).toEqual({ content: '45 cm', note: 'lower', unit: 'cm' });
  });

  it('leaves alone what is blank in the block, and refuses what does not fit, is locked or not allowed, all or nothing', () => {
    const put = (row: number, cells: Parameters<typeof putCells>[1]['cells']) => putCells(sample, { table: 'brief', row, column: 0, cells });
    const made = sound(sample, put(0, [[null], [{ content: 'Puck 18' }], [{ content: '' }]]));
    expect(column(made, 'Brief', 'A', 3)).toEqual(['3.6 m', 'Puck 18', '16 h/d']);
    expect(label(put(2, [[null], [{ content: '1' }]]))).toBe('refused: 2 × 1 cells do not fit there.');
    expect(label(put(0, [[{ content: '4 m' }], [{ content: 'Lamp' }]]))).toMatch(/^refused: Fixture: “Lamp” is not one of the choices.* Nothing was pasted\.$/);
    expect(label(put(0, [[null]]))).toBe('refused: There is nothing in that to paste.');
    expect(label(putCells(sample, { table: 'scenarios', row: 2, column: 0, cells: [[{ content: '5 EUR' }]] }))).toMatch(/locked/);
  });
});

describe('sorting', () => {
  const sort = (args: Partial<Parameters<typeof sortRows>[1]>) => sortRows(sample, { table: 'fixtures', column: 1, ...args });

  it('puts rows in order by amount under their headings; names and lists of the whole go on as they are', () => {
    const made = sound(sample, sort({}));
    expect(column(made, "'Fixture list'", 'A', 4)).toEqual(['Fixture', 'Puck 18', 'Rail 45', 'Rail 90']);
    expect(made.names.prices).toBe("'Fixture list'.$B$2:$B$4");
    expect(made.tables[0]?.rows[1]?.range?.from).toBe("'Fixture list'.A2:A4");
    expect(column(sound(sample, sort({ downward: true })), "'Fixture list'", 'A', 4)).toEqual(['Fixture', 'Rail 90', 'Rail 45', 'Puck 18']);
    expect(label(sort({ column: 0 }))).toBe('Fixture list put in the order of Fixture');
  });

  it('has references follow their rows', () => {
    const book = sound(sample, setCell(sample, { address: 'Scenarios.A4', content: "='Fixture list'.B4" }));
    const one = sound(book, setCell(book, { address: "'Fixture list'.C4", content: '=B4/2' }));
    const made = sound(one, sortRows(one, { table: 'fixtures', column: 1 }));
    expect(content(made, 'Scenarios.A4')).toBe("='Fixture list'.B2");
    expect(content(made, "'Fixture list'.C2")).toBe('=B2/2');
  });

  it('takes what formulas give from whoever knows, and puts blanks last in either direction', () => {
    const book = sound(sample, setCell(sample, { address: "'Fixture list'.B3", content: '=7*8' }));
    const blank = sound(book, clearCells(book, { addresses: ["'Fixture list'.B2"] }));
    for (const downward of [false, true]) {
      const answer = sortRows(blank, { table: 'fixtures', column: 1, downward, worked: (address) => (address === "'Fixture list'.B3" ? 56 : undefined) });
      expect(column(sound(blank, answer), "'Fixture list'", 'A', 4)).toEqual([
        'Fixture',
        ...(downward ? ['Rail 90', 'Puck 18'] : ['Puck 18', 'Rail 90']),
        'Rail 45',
      ]);
    }
  });

  it('is refused where a formula reads a part of the list, and where rows stand in an order that means something', () => {
    const book = sound(sample, setCell(sample, { address: 'Scenarios.A4', content: "=SUM('Fixture list'.B3:B4)" }));
    expect(label(sortRows(book, { table: 'fixtures', column: 1 }))).toBe(
      'refused: Scenarios.A4 reads a part of Fixture list, which would be other rows afterwards. Let it read the whole list, or put the rows in order by hand.',
    );
    expect(label(sort({ table: 'scenarios' }))).toMatch(/^refused: Scenarios is not a plain list/);
  });
});

describe('find and replace', () => {
  it('finds contents, headings, notes and prose, in the order of the pages', () => {
    const found = findText(sample, { text: 'rail' });
    expect(found.map((hit) => [hit.in, hit.text, hit.times])).toEqual([
      ['cell', 'Rail 90', 1],
      ['cell', 'Rail 45', 1],
      ['cell', 'Rail 90', 1],
    ]);
    expect(findText(sample, { text: 'rail', capitals: true })).toEqual([]);
    expect(findText(sample, { text: 'LOWER' }).map((hit) => hit.in)).toEqual(['note']);
    expect(findText(sample, { text: 'hangs' }).map((hit) => hit.in)).toEqual(['prose']);
    expect(findText(sample, { text: 'mount' }).map((hit) => hit.in)).toEqual(['heading']);
    expect(findText(sample, { text: '(' }).length).toBe(5);
  });

  it('replaces everywhere as one change and says how often, in one table, or in one place', () => {
    const rails = sound(sample, setRange(sample, { addresses: ['Brief.A2'], range: { oneOf: ['Beam 90', 'Rail 90'] } }));
    const all = replaceText(rails, { text: 'Rail', with: 'Beam' });
    expect(label(all)).toBe('“Rail” → “Beam”, 3 times');
    const made = sound(rails, all);
    expect([content(made, 'Brief.A2'), content(made, "'Fixture list'.A2"), content(made, "'Fixture list'.A3")]).toEqual(['Beam 90', 'Beam 45', 'Beam 90']);
    const one = sound(rails, replaceText(rails, { text: 'Rail', with: '$1', only: 1 }));
    expect([content(one, 'Brief.A2'), content(one, "'Fixture list'.A2")]).toEqual(['Rail 90', '$1 45']);
    expect(label(replaceText(sample, { text: 'Rail', with: 'Beam', table: 'fixtures' }))).toBe('“Rail” → “Beam”, 2 times');
  });

  it('works on formulas and numbers, which stay what they are, and on prose and headings', () => {
    const made = sound(sample, replaceText(sample, { text: 'IF(', with: 'IFERROR(', table: 'scenarios' }));
    expect(content(made, 'Scenarios.A5')).toBe('=IFERROR(bench_length>UNIT(1,"m"),"holds","A1 fails")');
    expect(content(sound(sample, replaceText(sample, { text: '243', with: '250' })), "'Fixture list'.C3")).toBe('250 µmol/s');
    expect(label(replaceText(sample, { text: '243 µmol', with: 'some', table: 'fixtures' }))).toBe(
      'refused: Rail 90, Output would hold “some/s”, which is no number any longer. Nothing was replaced.',
    );
    const prose = sound(sample, replaceText(sample, { text: 'hangs at', with: 'is at' }));
    expect(prose.pages[0]?.blocks[0]).toMatchObject({ text: expect.stringContaining('B is at {{Scenarios.B1}}') });
    expect(sound(sample, replaceText(sample, { text: 'mount', with: 'Hanging' })).tables[1]?.rows[0]?.label).toBe('Hanging height');
  });

  it('refuses what a range does not allow, what is too long and what stands nowhere', () => {
    expect(label(replaceText(sample, { text: 'Rail 90', with: 'Lamp', table: 'brief' }))).toMatch(
      /^refused: Fixture: “Lamp” is not one.* Nothing was replaced\.$/,
    );
    expect(label(replaceText(sample, { text: 'zebra', with: '' }))).toBe('refused: “zebra” is not found here.');
    expect(label(replaceText(sample, { text: '', with: 'x' }))).toBe('refused: Say which text is to be replaced.');
    expect(label(replaceText(sample, { text: 'Mount', with: 'x'.repeat(250) }))).toBe(
      'refused: A text would have more than 200 characters. Nothing was replaced.',
    );
  });
});

describe('formats', () => {
  it('set decimals on cells, and none where the row says the same', () => {
    const made = sound(sample, setDecimals(sample, { addresses: ['Scenarios.A3', 'Scenarios.B3'], decimals: 2 }));
    expect([cell(made, 'Scenarios.A3')?.decimals, cell(made, 'Scenarios.B3')?.decimals]).toEqual([2, 2]);
    expect(cell(sound(made, setDecimals(made, { addresses: ['Scenarios.A3'], decimals: null })), 'Scenarios.A3')).toEqual(cell(sample, 'Scenarios.A3'));
    expect(label(setDecimals(sample, { addresses: ['Scenarios.A3'], decimals: 1 }))).toBe('Cost, A: shown with 1 decimal');
    expect(label(setDecimals(sample, { addresses: ['Scenarios.A3'], decimals: 16 }))).toBe('refused: A number shows from 0 to 15 decimals.');
  });

  it('show a plain number as a per cent without changing it', () => {
    const half = sound(sample, setCell(sample, { address: 'Scenarios.A4', content: '0.5' }));
    expect(cell(sound(half, setUnit(half, { addresses: ['Scenarios.A4'], unit: '%' })), 'Scenarios.A4')).toEqual({ content: '0.5', unit: '%' });
  });

  it('set the width of a column, and give it back its share', () => {
    const made = sound(sample, setWidth(sample, { table: 'fixtures', column: 1, width: 120 }));
    expect(made.tables[2]?.columns[1]).toEqual({ id: 'price', unit: 'EUR', width: 120 });
    expect(sound(made, setWidth(made, { table: 'fixtures', column: 1, width: null }))).toEqual(sample);
    expect(label(setWidth(sample, { table: 'fixtures', column: 1, width: 20 }))).toBe('refused: A column is from 40 to 1200 wide.');
  });
});

describe('moving cells', () => {
  const area = (table: string, row: number, column: number, rows = 1, columns = 1) => ({ table, row, column, rows, columns });

  it('puts them there and leaves their places to be answered again, as one change', () => {
    const moved = moveCells(sample, { area: area('scenarios', 0, 1, 2), table: 'scenarios', row: 0, column: 2 });
    const made = sound(sample, moved);
    expect(label(moved)).toBe('2 cells moved to Scenarios.C1:C2');
    expect([content(made, 'Scenarios.C1'), content(made, 'Scenarios.C2')], 'a formula reads what it read').toEqual(['45 cm', '=A2']);
    expect(cell(made, 'Scenarios.C1')?.note).toBe('lower');
    expect([content(made, 'Scenarios.B1'), content(made, 'Scenarios.B2') ?? '']).toEqual(['', '']);
    expect(content(made, 'Scenarios.B3'), 'what reads the places goes on reading them').toBe(content(sample, 'Scenarios.B3'));
    expect(cellAt(made, 'Scenarios.B1')?.row.range).toEqual({ low: 10, high: 200, unit: 'cm' });
  });

  it('by less than their own height loses none of them', () => {
    const made = sound(sample, moveCells(sample, { area: area('fixtures', 1, 1, 2), table: 'fixtures', row: 2, column: 1 }));
    expect(column(made, "'Fixture list'", 'B', 4).map((text) => text ?? '')).toEqual(['Price', '', '79 EUR', '139 EUR']);
    const blanks = sound(sample, clearCells(sample, { addresses: ["'Fixture list'.B2"] }));
    const after = sound(blanks, moveCells(blanks, { area: area('fixtures', 1, 1, 2), table: 'fixtures', row: 2, column: 1 }));
    expect(column(after, "'Fixture list'", 'B', 4).map((text) => text ?? '')).toEqual(['Price', '', '', '139 EUR']);
  });

  it('into another table lets formulas read what they read, by its name', () => {
    const book = sound(sample, setCell(sample, { address: "'Fixture list'.C2", content: '=B2*2' }));
    const open = sound(book, setLock(book, { addresses: ["'Fixture list'.C2"], locked: false }));
    const made = sound(open, moveCells(open, { area: area('fixtures', 1, 2), table: 'scenarios', row: 3, column: 0 }));
    expect(content(made, 'Scenarios.A4')).toBe("='Fixture list'.B2*2");
    expect(content(made, "'Fixture list'.C2")).toBe('');
  });

  it('is refused for worked cells, for places that are locked, and for what is not allowed there', () => {
    const refusal = (move: Parameters<typeof moveCells>[1]): string => label(moveCells(sample, move));
    expect(refusal({ area: area('scenarios', 2, 0), table: 'scenarios', row: 3, column: 0 })).toMatch(
      /^refused: Cost, A is worked out and locked: .* Nothing was moved\.$/,
    );
    expect(refusal({ area: area('scenarios', 0, 1), table: 'scenarios', row: 2, column: 0 })).toMatch(/^refused: Cost, A is worked out and locked/);
    expect(refusal({ area: area('fixtures', 1, 1), table: 'brief', row: 0, column: 0 })).toMatch(/^refused: Bench length takes a quantity in m/);
    expect(refusal({ area: area('fixtures', 1, 1), table: 'fixtures', row: 9, column: 0 })).toBe('refused: 1 × 1 cells do not fit there.');
  });
});

describe('an allowed range', () => {
  it('is set on a given and holds at once, in its own unit', () => {
    const made = sound(sample, setRange(sample, { addresses: ['Scenarios.A1'], range: { low: 1, high: 3, unit: 'ft' } }));

    expect(isRefused(setCell(made, { address: 'Scenarios.A1', content: '50 cm' }))).toBe(false);
    expect(label(setCell(made, { address: 'Scenarios.A1', content: '100 cm' }))).toMatch(/above what is allowed, from 30.5 to 91.4 cm \(1 to 3 ft\)/);
    expect(label(setRange(sample, { addresses: ['Scenarios.A1'], range: { low: 1, high: 3, unit: 'ft' } }))).toBe('Mount height, A: allowed → from 1 to 3 ft');
    expect(sound(made, setRange(made, { addresses: ['Scenarios.A1'], range: null }))).toEqual(sample);
  });

  it('is a list, or cells whose texts are the choices', () => {
    const list = sound(sample, setRange(sample, { addresses: ['Scenarios.A2'], range: { oneOf: ['9', '12'] } }));
    expect(label(setCell(list, { address: 'Scenarios.A2', content: '10' }))).toMatch(/not one of the choices: 9, 12/);
    const from = sound(sample, setRange(sample, { addresses: ['Scenarios.A2'], range: { from: "'Fixture list'.C2:C4" } }));
    expect(isRefused(setCell(from, { address: 'Scenarios.A2', content: '44 µmol/s' }))).toBe(false);
    expect(isRefused(setCell(from, { address: 'Scenarios.A2', content: '45 µmol/s' }))).toBe(true);
  });

  it('that says nothing, two things at once or nonsense is refused', () => {
    const set = (range: Parameters<typeof setRange>[1]['range']): string => label(setRange(sample, { addresses: ['Scenarios.A1'], range }));
    expect(set({})).toMatch(/one of the three/);
    expect(set({ low: 1, oneOf: ['x'] })).toMatch(/one of the three/);
    expect(set({ low: 3, high: 1 })).toBe('refused: The least, 3, is more than the greatest, 1.');
    expect(set({ low: 3, unit: 'kg' })).toBe("refused: Mount height, A is a length; its range can't be in kg.");
    expect(set({ low: 3, unit: 'furlong' })).toMatch(/not a unit/);
    expect(set({ low: Number.NaN })).toMatch(/must be numbers/);
    expect(set({ oneOf: [] })).toMatch(/at least one choice/);
    expect(set({ from: 'Nowhere.A1:A3' })).toMatch(/names no cells/);
  });
});

describe('a locked worked cell', () => {
  it('is not cleared, and lets itself be once it is unlocked', () => {
    const clear = (book: Book): Answer => clearCells(book, { addresses: ['Scenarios.A1', 'Scenarios.B3'] });
    expect(label(clear(sample))).toBe(
      'refused: Cost, B is worked out and locked: it takes another formula, but is neither cleared nor written over until you unlock it.',
    );
    const open = sound(sample, setLock(sample, { addresses: ['Scenarios.B3'], locked: false }));
    expect(standingOf(cellAt(open, 'Scenarios.B3') ?? (undefined as never))).toBe('worked');
    expect(content(sound(open, clear(open)), 'Scenarios.B3')).toBe('');
    expect(sound(open, setLock(open, { addresses: ['Scenarios.B3'], locked: true }))).toEqual(sample);
  });

  it('that its row says is a check is one again when it is locked', () => {
    const open = sound(sample, setLock(sample, { addresses: ['Scenarios.A5'], locked: false }));
    expect(label(setLock(sample, { addresses: ['Scenarios.A5'], locked: false }))).toBe('Fits, A: unlocked');
    expect(sound(open, setLock(open, { addresses: ['Scenarios.A5'], locked: true }))).toEqual(sample);
    expect(label(setLock(sample, { addresses: ['Scenarios.A1'], locked: false }))).toBe('Nothing unlocked');
  });
});

describe('names and headings', () => {
  it('of cells change in every formula and text that says them', () => {
    const made = sound(sample, renameName(sample, { name: 'bench_length', to: 'long_side' }));
    expect(content(made, 'Scenarios.A5')).toBe('=IF(long_side>UNIT(1,"m"),"holds","A1 fails")');
    expect(made.pages[0]?.blocks[0]).toMatchObject({ text: expect.stringContaining('{{long_side}}') });
    expect(made.names).toEqual({ long_side: 'Brief.A1', prices: "'Fixture list'.$B$2:$B$4" });
    for (const to of ['prices', 'A1', 'm']) expect(label(renameName(sample, { name: 'bench_length', to }))).toMatch(/^refused: /);
  });

  it('leave alone functions, tables and texts of the same letters', () => {
    const book = sound(
      { ...sample, names: { sum: 'Brief.A1' } },
      setCell({ ...sample, names: { sum: 'Brief.A1' } }, { address: 'Scenarios.A4', content: '=SUM(A1:A2)+sum+"sum"' }),
    );
    expect(content(sound(book, renameName(book, { name: 'sum', to: 'total' })), 'Scenarios.A4')).toBe('=SUM(A1:A2)+total+"sum"');
  });

  it('of a scenario are the same in every table that compares it', () => {
    const book = withTable(costs);
    const made = sound(book, setHeading(book, { table: 'Costs', axis: 'column', at: 1, label: 'Low' }));
    expect(made.tables.map((table) => table.columns[1]?.label)).toEqual([undefined, 'Low', undefined, 'Low']);
    expect(label(setHeading(book, { table: 'Costs', axis: 'column', at: 1, label: 'C' }))).toBe('refused: There is already a scenario C.');
    expect(label(setHeading(book, { table: 'Costs', axis: 'column', at: 1, label: '' }))).toBe('refused: A scenario needs a name.');
  });
});

describe('scenarios', () => {
  it('are copied with their givens, and with formulas of their own, in every table', () => {
    const book = withTable(costs);
    const made = sound(book, copyScenario(book, { table: 'scenarios', column: 1 }));
    expect(column(made, 'Scenarios', 'D', 4)).toEqual(['45 cm', '9', content(sample, 'Scenarios.B3')?.replace('B2*', 'D2*'), '=D3-A3']);
    expect(content(made, 'Costs.D1')).toBe('=2*Scenarios.D3');
    const base = sound(book, copyScenario(book, { table: 'scenarios', column: 0, label: 'High' }));
    expect(column(base, 'Scenarios', 'D', 4)).toEqual(['60 cm', '9', content(sample, 'Scenarios.C3')?.replace('C2*', 'D2*'), '=D3-A3']);
    expect(label(copyScenario(book, { table: 'scenarios', column: 1 }))).toBe('Scenario D: a copy of B');
    expect(sound(book, addScenario(book, { table: 'scenarios' })).tables[1]?.cells.h?.c1).toEqual({ content: '=A1' });
  });

  it('are moved in every table that compares them', () => {
    const book = withTable(costs);
    const made = sound(book, moveLines(book, { table: 'scenarios', axis: 'column', at: 1, to: 0 }));
    expect(made.tables.map((table) => table.columns.map((c) => c.label ?? c.id).join(''))).toEqual(['c1', 'BAC', 'namepriceoutput', 'BAC']);
    expect(content(made, 'Costs.A1')).toBe('=2*Scenarios.A3');
    expect(content(made, 'Scenarios.A1')).toBe('45 cm');
    expect(content(made, 'Scenarios.A2')).toBe('=B2');
  });
});
