/** The places at which a meter reads: set once, all tables that have them follow. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isRefusal } from '../../functions/define.ts';
import { ppfdAt } from '../../functions/field/kernel.ts';
import { parseLayout } from '../../functions/field/layout-text.ts';
import { columnText, textOf } from '../../src/book/address.ts';
import type { Book, Cell, Table } from '../../src/book/book.ts';
import { putCells } from '../../src/book/commands/put-cells.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { setGrid } from '../../src/book/commands/set-grid.ts';
import { meterGrid } from '../../src/book/meter-grid.ts';
import { isRefused } from '../../src/book/refused.ts';
import type { Session } from '../../src/session.ts';
import { label, sound } from '../book/sound.ts';
import { runs } from '../cases.ts';
import { inside, templateBook } from './open-template.ts';

const book = templateBook('meter-check');
const MEAN = 1e-9;

const tableOf = (of: Book, name: string): Table => of.tables.find((table) => table.name === name) as Table;
const content = (of: Book, name: string, column: number, row: number): string => {
  const table = tableOf(of, name);
  return table.cells[table.rows[row]?.id ?? '']?.[table.columns[column]?.id ?? '']?.content ?? '';
};
/** What is written in a grid of readings, row by row. */
const written = (of: Book, name: string, along: number, across: number): string[][] =>
  Array.from({ length: across }, (_, r) => Array.from({ length: along }, (_x, c) => content(of, name, c + 1, r + 1)));

const number = (session: Session, address: string): number => {
  const value = session.values[address];
  if (value?.kind !== 'number') throw new Error(`${address}: ${JSON.stringify(value)}`);
  return value.base;
};
const named = (session: Session, name: string): number => number(session, session.book.names[name]?.replaceAll('$', '') ?? '');

/** Every reading that is blank is given a number of its own. */
function readAll(session: Session, along: number, across: number): void {
  for (const [name, start] of [
    ['Readings', 9000],
    ['Dark', 40],
  ] as const) {
    const cells = written(session.book, name, along, across).map((line, r) =>
      line.map((text, c): Cell | null => (text === '' ? { content: String(start + 37 * ((r * 7 + c * 3) % 11)) } : null)),
    );
    if (cells.flat().some(Boolean)) {
      const answer = session.run((of) => putCells(of, { table: name, row: 1, column: 1, cells }));
      if (isRefused(answer)) throw new Error(answer.message);
    }
  }
}

/** Holds every value of the five tables against what it should be, reckoned here. */
function judge(session: Session, along: number, across: number): void {
  const text = session.values['Scenarios.A13'];
  const layout = parseLayout(text?.kind === 'text' ? text.text : '');
  if (isRefusal(layout)) throw new Error('There is no layout.');
  const [length, width, height, dim] = ['Brief.A1', 'Brief.A2', 'Scenarios.A7', 'Scenarios.A8'].map((address) => number(session, address)) as [
    number,
    number,
    number,
    number,
  ];
  const one = named(session, 'one_shown');
  const planned: number[][] = [];
  const measured: number[][] = [];
  for (let r = 0; r < across; r++) {
    planned.push([]);
    measured.push([]);
    for (let c = 0; c < along; c++) {
      const plan = ppfdAt(layout, height, ((c + 0.5) * length) / along, ((r + 0.5) * width) / across);
      planned[r]?.push(plan * dim * 1e-6);
      measured[r]?.push(one * (Number(content(session.book, 'Readings', c + 1, r + 1)) - Number(content(session.book, 'Dark', c + 1, r + 1))));
      expect(number(session, textOf('Planned', c, r + 1)) / (plan * dim * 1e-6)).toBeCloseTo(1, 9);
      expect(number(session, textOf('Measured', c, r)) / (measured[r]?.[c] ?? 0)).toBeCloseTo(1, 9);
    }
  }
  const mean = (rows: number[][]): number => rows.flat().reduce((sum, each) => sum + each, 0) / (along * across);
  const ratios = measured.flatMap((line, r) => line.map((read, c) => read / (planned[r]?.[c] ?? 0))).sort((a, b) => a - b);
  const share = ((ratios[(ratios.length - 1) >> 1] ?? 0) + (ratios[ratios.length >> 1] ?? 0)) / 2;
  expect(Math.abs(named(session, 'planned_mean') / mean(planned) - 1)).toBeLessThan(MEAN);
  expect(Math.abs(named(session, 'measured_mean') / mean(measured) - 1)).toBeLessThan(MEAN);
  for (const [r, line] of measured.entries())
    for (const [c, read] of line.entries()) expect(number(session, textOf('Difference', c, r))).toBeCloseTo(read / (share * (planned[r]?.[c] ?? 0)) - 1, 9);
  expect([named(session, 'points_along'), named(session, 'points_across')]).toEqual([along, across]);
  for (const name of ['light_found', 'miss', 'suspects', 'weak_fixture']) expect(named(session, name)).toBeGreaterThanOrEqual(0);
  // A height is worked out where the pattern fits, from five readings or more.
  const explained = session.values[session.book.names.height_found?.replaceAll('$', '') ?? ''];
  const fits = named(session, 'miss') <= named(session, 'miss_limit');
  expect(explained?.kind).toBe(fits ? (along * across < 5 ? 'error' : 'number') : 'text');
}

describe('the places at which a meter reads', () => {
  test('are set from any number to any other: five tables follow, readings stay at their places, and undo gives the very book', async () => {
    const places = fc.tuple(fc.integer({ min: 2, max: 20 }), fc.integer({ min: 2, max: 20 }));
    await inside('meter-check', async (session) => {
      await fc.assert(
        fc.asyncProperty(places, places, async (first, second) => {
          while (session.undo());
          expect(session.book).toEqual(book);
          let [hadAlong, hadAcross] = [6, 3];
          for (const [along, across] of [first, second]) {
            const before = session.book;
            const answer = session.run((of) => setGrid(of, { along, across }));
            if (isRefused(answer)) throw new Error(answer.message);
            const after = session.book;
            expect(JSON.stringify(after)).not.toContain('#REF!');
            for (const name of ['Readings', 'Dark']) {
              const old = written(before, name, hadAlong, hadAcross);
              const kept = written(after, name, along, across).map((line, r) => line.map((text, c) => (r < hadAcross && c < hadAlong ? text : `new${text}`)));
              expect(kept).toEqual(kept.map((line, r) => line.map((_, c) => old[r]?.[c] ?? 'new')));
              expect(
                tableOf(after, name)
                  .columns.map((_, c) => content(after, name, c, 0))
                  .slice(1),
              ).toEqual([...Array.from({ length: along }, (_, c) => `Place ${c + 1}`), 'Source']);
              expect(
                tableOf(after, name)
                  .rows.map((_, r) => content(after, name, 0, r))
                  .slice(1),
              ).toEqual(Array.from({ length: across }, (_, r) => `Row ${r + 1}`));
            }
            const picture = after.pages.flatMap((page) => page.blocks).find((block) => block.id === 'readings-picture');
            expect(picture?.kind === 'picture' && [picture.reads.planned, picture.reads.measured, picture.reads.off]).toEqual([
              `Planned.A2:${columnText(along - 1)}${across + 1}`,
              `Measured.A1:${columnText(along - 1)}${across}`,
              `Difference.A1:${columnText(along - 1)}${across}`,
            ]);
            if (along !== hadAlong || across !== hadAcross) {
              session.undo();
              expect(session.book).toEqual(before);
              session.redo();
              expect(session.book).toEqual(after);
            }
            readAll(session, along, across);
            await session.settled();
            judge(session, along, across);
            [hadAlong, hadAcross] = [along, across];
          }
        }),
        {
          ...runs(20, 20_260_801),
          examples: [
            [
              [5, 3],
              [6, 3],
            ],
          ],
        },
      );
    });
  }, 120_000);

  test('are in older editions and where only lamps are read, too', () => {
    expect(meterGrid(book)?.parts.map(({ table, reads }) => [table.name, reads])).toEqual([
      ['Difference', 4],
      ['Measured', 2],
      ['Planned', 2],
      ['Readings', 0],
      ['Dark', 0],
    ]);
    const old = sound(templateBook('replace-old-lamps'), setGrid(templateBook('replace-old-lamps'), { along: 9, across: 2 }));
    expect(tableOf(old, 'Old').cells.old_light?.a?.content).toBe('=LUX.TO.PPFD(READINGS.MEAN(Readings.$B$2:$J$3),A2)');
    expect(tableOf(old, 'Readings').columns[9]).toMatchObject({ unit: 'lx', range: { high: 200_000 } });
    expect(content(old, 'Readings', 10, 0)).toBe('Source');
  });

  test('are told with what is lost; a range over a part of the places stays, and so does what was written over', () => {
    expect(label(setGrid(book, { along: 5, across: 2 }))).toBe('The meter reads at 5 × 2 places instead of 6 × 3, 16 readings taken out');
    expect(label(setGrid(book, { along: 1, across: 3 }))).toBe('refused: A meter is read at 2 to 20 places along and 2 to 20 rows across.');
    expect(label(setGrid(book, { along: 21, across: 3 }))).toMatch(/^refused/u);
    expect(label(setGrid(templateBook('trade-bench'), { along: 5, across: 3 }))).toBe('refused: This book has no places at which a meter reads.');
    const withSum = sound(book, setCell(book, { address: 'Checks.A16', content: '=READINGS.MEAN(Measured.A1:C3)+Measured.F3' }));
    const fixed = sound(withSum, setCell(withSum, { address: 'Measured.F1', content: '150 µmol/m²/s' }));
    const wide = sound(fixed, setGrid(fixed, { along: 8, across: 4 }));
    expect(content(wide, 'Checks', 0, 15)).toBe('=READINGS.MEAN(Measured.A1:C4)+Measured.F3');
    expect(content(wide, 'Measured', 5, 0)).toBe('150 µmol/m²/s');
    expect(content(wide, 'Measured', 7, 0)).toBe('=IF(LEN(Readings.I2)*LEN(Dark.I2)>0,one_shown*(Readings.I2-Dark.I2),Readings.$A$1)');
    expect(label(setGrid(withSum, { along: 5, across: 3 }))).toBe(
      'The meter reads at 5 × 3 places instead of 6 × 3, 6 readings taken out (one formula lost a cell that it read)',
    );
  });
});
