/** What comes through the clipboard: text taken apart, its decimal mark, and cells that say they were copied here. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { placeOf } from '../../src/book/look-up.ts';
import type { Session } from '../../src/session.ts';
import { pasteInto, readCarried } from '../../src/ui/table/paste-cells.ts';
import { decimalMarkOf, gridOf, withoutThousands } from '../../src/ui/table/pasted-text.ts';
import { openTemplate } from '../templates/open-template.ts';

describe('text with tabs', () => {
  it('is taken apart into rows and cells, blanks kept in their places', () => {
    expect(gridOf('a\tb\r\n\tc\r\n')).toEqual([
      ['a', 'b'],
      ['', 'c'],
    ]);
    expect(gridOf('12')).toEqual([['12']]);
    expect(gridOf('a\t')).toEqual([['a', '']]);
  });

  it('may have tabs, line breaks and quotes inside quoted cells, and inches that are no quotes', () => {
    expect(gridOf('"two\nlines"\t"say ""on"""\n36"\t"open')).toEqual([
      ['two\nlines', 'say "on"'],
      ['36"', '"open'],
    ]);
  });
});

describe('the decimal mark of a block', () => {
  it('is what its numbers agree on', () => {
    expect(decimalMarkOf([['33,3', 'Rail 45', '12']])).toBe(',');
    expect(decimalMarkOf([['1.234,5 m']])).toBe(',');
    expect(decimalMarkOf([['1,234.5', '1,234']])).toBe('.');
    expect(decimalMarkOf([['1.234.567']])).toBe(',');
    expect(decimalMarkOf([['0,125']])).toBe(',');
  });

  it('is left open where they say nothing or contradict one another', () => {
    expect(decimalMarkOf([['1,234', '12', 'x']])).toBeUndefined();
    expect(decimalMarkOf([['33,3'], ['33.3']])).toBeUndefined();
    expect(decimalMarkOf([['=1,5']])).toBeUndefined();
  });

  it('tells what parts thousands', () => {
    expect(withoutThousands('1.234 W', ',')).toBe('1234 W');
    expect(withoutThousands('1.234.567,8', ',')).toBe('1234567,8');
    expect(withoutThousands('1,234.5', '.')).toBe('1234.5');
    expect(withoutThousands('1.5', ',')).toBe('1.5');
    expect(withoutThousands('0.45 m', '.')).toBe('0.45 m');
  });
});

describe('cells that were copied here', () => {
  const good = { book: 'b', table: 't', row: 0, column: 1, cells: [[{ content: '=A1', unit: 'm', note: 'n' }, null]] };

  it('are read as they were written', () => {
    expect(readCarried(JSON.stringify(good))).toEqual(good);
  });

  it('are none at all where anything about them is not just so', () => {
    for (const bad of [
      {},
      { ...good, row: -1 },
      { ...good, column: 1.5 },
      { ...good, cells: [] },
      { ...good, cells: [[{ content: 5 }]] },
      { ...good, cells: [[{ content: 'x', script: 'y' }]] },
      { ...good, cells: [[{ content: 'x'.repeat(40_000) }]] },
      { ...good, cells: [Array.from({ length: 101 }, () => null)] },
      { ...good, more: 1 },
      [good],
    ])
      expect(readCarried(JSON.stringify(bad)), JSON.stringify(bad).slice(0, 80)).toBeUndefined();
    expect(readCarried('{"book":')).toBeUndefined();
    expect(readCarried('['.repeat(200_000))).toBeUndefined();
  });
});

describe('a block of numbers put down on what names them', () => {
  let meter: Session;
  let trade: Session;
  beforeAll(async () => {
    meter = await openTemplate('meter-check');
    trade = await openTemplate('trade-bench');
  });
  afterAll(() => {
    meter.close();
    trade.close();
  });
  const paste = async (address: string, text: string, session = meter) => {
    const at = placeOf(session.book, address);
    if (!at) throw new Error(`no place ${address}`);
    const pasted = await pasteInto(session.ask.bind(session), { book: session.book, at, area: undefined }, { text, html: '' });
    return 'answer' in pasted ? pasted.answer : pasted;
  };
  const grid = Array.from({ length: 3 }, (_, r) => Array.from({ length: 6 }, (_, c) => 11000 + 10 * r + c).join('\t')).join('\n');

  it('goes where the numbers begin: names of rows and headings stay', async () => {
    for (const address of ['Readings.A2', 'Readings.A1', 'Readings.B1', 'Readings.B2']) {
      expect(await paste(address, grid), address).toMatchObject({ label: '18 cells pasted into Readings.B2:G4' });
    }
  });

  it('of another size than the meter reads at is asked about, from the first place on', async () => {
    const five = grid.replaceAll(/\t\d+$/gmu, '');
    expect(await paste('Readings.A2', five)).toMatchObject({ ask: { target: { at: { rowIndex: 1, columnIndex: 1 } }, places: { size: '5 × 3' } } });
  });

  it('stays where it was put down if it brings names itself, or where nothing is named', async () => {
    expect(await paste('Readings.A2', 'North\t11000\nSouth\t12000')).toMatchObject({ label: '4 cells pasted into Readings.A2:B3' });
    expect(await paste('Fixtures.A8', '45\t1.2 m', trade)).toMatchObject({ label: '2 cells pasted into Fixtures.A8:B8' });
    expect(await paste('Fixtures.A2', '24 Rail\t1.2 m\n48 Rail\t1.2 m', trade)).toMatchObject({ label: '4 cells pasted into Fixtures.A2:B3' });
  });
});
