import { describe, expect, test } from 'vitest';
import type { Cell } from '../../../src/book/book.ts';
import { createEngine } from '../../../src/engine/engine.ts';
import type { Value } from '../../../src/engine/types.ts';
import { book, loaded, put, short, table } from '../helpers.ts';

type Written = string | Partial<Cell>;

/** A column of cells A1, A2 … and the values the engine gives for them. */
async function column(...cells: readonly Written[]) {
  const engine = createEngine();
  const start = book([
    table(
      'T',
      cells.map((cell) => [cell]),
      cells.map((_, i) => ({ label: `Row ${i + 1}` })),
    ),
  ]);
  const values = await engine.load(start);
  return { engine, start, at: (row: number): Value => values[`T.A${row}`] ?? { kind: 'blank' } };
}

/** What typed cells become, one after the other, with units written to bare numbers. */
async function typed(cells: readonly string[], formula: string) {
  const { engine, start } = await column(...cells, { content: '' });
  const address = `T.A${cells.length + 1}`;
  const reading = await engine.read(address, formula);
  if (!reading.ok) throw new Error(reading.message);
  const { book: after, change } = put(start, 'T', `r${cells.length + 1}`, 'c1', reading.content);
  const values = await engine.apply([change], after);
  return { content: reading.content, said: reading.said, value: values[address] ?? { kind: 'blank' } };
}

const isUnitError = (value: Value): boolean => value.kind === 'error' && value.word === 'unit error';

describe('Settled rules, on the engine', () => {
  test('0 joins any quantity', async () => {
    const { at } = await column('3.6 m', '=A1+0', '=IF(A1>UNIT(5,"m"),A1,0)');
    expect([short(at(2)), short(at(3))]).toEqual([3.6, 0]);
  });

  test('0 is no temperature reading: a comparison gets °C written to it', async () => {
    const { content, value } = await typed(['-5 °C'], '=A1<0');
    expect(content).toBe('=A1<UNIT(0,"°C")');
    expect(short(value)).toBe(true);
  });

  test('10% and TRUE are plain numbers', async () => {
    const { at } = await column('20', '=A1*10%', '=A1+TRUE', '3 m', '=A4+10%');
    expect([short(at(2)), short(at(3))]).toEqual([2, 21]);
    expect(isUnitError(at(5))).toBe(true);
  });

  test('a unit error goes through IF, its untaken branch too, IFERROR, ISERROR and COUNT', async () => {
    const { at } = await column('3 m', '60 W', '=A1+A2', '=IF(A1>UNIT(1,"m"),A1,A3)', '=IFERROR(A3,0)', '=COUNT(A1:A3)', '=ISERROR(A3)', '=A4*2');
    for (const row of [3, 4, 5, 6, 7, 8]) expect(isUnitError(at(row)), `A${row}`).toBe(true);
    expect(at(8)).toMatchObject({ from: 'T.A3', message: 'This adds a length (Row 1, A1) to a power (Row 2, A2).' });
  });

  test('a circle is said to be a circle, not a unit error', async () => {
    const { at } = await column('3 m', '60 W', '=A1+A2+A4', '=A3');
    expect(at(3)).toMatchObject({ kind: 'error', word: 'goes in a circle' });
  });

  test('a unit set on a worked cell is a claim that is checked, with what is missing', async () => {
    const { at } = await column('90 W', '16 h/d', '330 d/year', { content: '=A1*A2*A3', unit: 'EUR/year' }, { content: '=A1*A2*A3', unit: 'MJ/year' });
    expect(at(4)).toMatchObject({
      word: 'unit error',
      message:
        'Row 4 (T.A4) is set to money per year in EUR/year, and its formula gives energy per year in kWh/year. To be multiplied by a price of energy such as 1 EUR/kWh, perhaps?',
      mend: { label: 'show T.A4 in kWh/year', cell: 'T.A4', unit: 'kWh/year' },
    });
    expect(at(5)).toMatchObject({ kind: 'number', unit: 'MJ/year' });
  });

  test('a claim that other cells rely on is not given up for a mend', async () => {
    const { at } = await column('1.40 EUR/m', { content: '=A1*2', unit: 'EUR' }, '=A2*4');
    expect(at(2)).toMatchObject({ word: 'unit error', message: expect.stringContaining('its formula gives a price per length') });
    expect(at(2)).not.toHaveProperty('mend');
    expect(at(3)).toMatchObject({ from: 'T.A2' });
  });

  test('a given that is not of the quantity its cell is set to is an error with the mend', async () => {
    const { at } = await column({ content: '16', unit: 'h/d' }, { content: '3 W', unit: 'm' }, { content: '0', unit: 'm' });
    expect(at(1)).toMatchObject({ word: 'unit error', mend: { label: 'give T.A1 the unit h/d', cell: 'T.A1', content: '16 h/d' } });
    expect(at(2)).toMatchObject({ word: 'unit error', mend: { cell: 'T.A2', unit: 'W' } });
    expect(at(3)).toMatchObject({ kind: 'number', base: 0, unit: 'm' });
  });

  test('a bare number gets its unit on commit, beside + − and comparisons, and what was read is said', async () => {
    expect(await typed(['36 in'], '=A1+6')).toMatchObject({ content: '=A1+UNIT(6,"in")', said: '6 read as 6 in', value: { base: 1.0668, unit: 'in' } });
    expect(await typed(['200 µmol/m²/s'], '=DLI(A1,16)')).toMatchObject({ content: '=DLI(A1,UNIT(16,"h/d"))', value: { base: 11.52, unit: 'mol/m²/d' } });
    expect(await typed(['200 µmol/m²/s'], '=A1>160')).toMatchObject({ content: '=A1>UNIT(160,"µmol/m²/s")', value: { yes: true } });
  });

  test('a percent stands for a share per time or per kelvin where one is wanted, and for no other quantity', async () => {
    expect(await typed(['2400 EUR'], '=ANNUAL.CAPITAL(A1,6%,UNIT(8,"year"))')).toMatchObject({
      content: '=ANNUAL.CAPITAL(A1,UNIT(6,"%/year"),UNIT(8,"year"))',
      said: '6% read as 6 %/year',
      value: { kind: 'number', unit: 'EUR/year' },
    });
    expect(await typed(['200 µmol/m²/s'], '=DLI(A1,16%)')).toMatchObject({ content: '=DLI(A1,16%)', value: { word: 'unit error' } });
  });

  test('never inside × ÷ ^, and not when the formula would not check anyway', async () => {
    expect(await typed(['36 in'], '=A1*2')).toMatchObject({ content: '=A1*2' });
    expect(await typed(['36 in', '5 W'], '=A1+6+A2')).toMatchObject({ content: '=A1+6+A2', value: { word: 'unit error' } });
    expect(await typed(['36 in'], '=2*3+A1')).toMatchObject({ content: '=2*3+A1', value: { word: 'unit error' } });
  });

  test('a parameter’s unit is written even when another argument is wrong, and the other is named', async () => {
    expect(await typed(['7'], '=DLI(200,A1)')).toMatchObject({
      content: '=DLI(UNIT(200,"µmol/m²/s"),A1)',
      value: { word: 'unit error', message: expect.stringContaining('Row 1, A1 is a plain number'), mend: { label: 'give T.A1 the unit h/d' } },
    });
  });

  test('a later change elsewhere gives an error with a mend, never a rewriting', async () => {
    const { engine, start } = await column('36 in', '=A1+UNIT(6,"in")');
    const { book: after, change } = put(start, 'T', 'r1', 'c1', '90 W');
    const values = await engine.apply([change], after);
    expect(values['T.A2']).toMatchObject({ word: 'unit error', message: 'This adds a power (Row 1, A1) to a length (6 in).' });
    expect(await engine.editable('T.A2')).toBe('=A1+6 in');
  });

  test('criteria take the unit of the cells they are held against', async () => {
    const cells = ['118 µmol/m²/s', '142 µmol/m²/s', '150 µmol/m²/s', '171 µmol/m²/s'];
    expect(await typed(cells, '=COUNTIF(A1:A4,">142")')).toMatchObject({ content: '=COUNTIF(A1:A4,">"&UNIT(142,"µmol/m²/s"))', value: { base: 2 } });
    expect(await typed(cells, '=COUNTIF(A1:A4,142)')).toMatchObject({ value: { base: 1 } });
    expect(await typed(cells, '=SUMIF(A1:A4,"<=142")')).toMatchObject({ value: { base: 260e-6, unit: 'µmol/m²/s' } });
  });

  test('a criterion that is put together elsewhere is refused beside quantities: its number would have no unit', async () => {
    const { at } = await column(
      '200 µmol/m²/s',
      '150 µmol/m²/s',
      "'>160",
      "'160",
      "'none",
      '=COUNTIF(A1:A2,A3)',
      '=COUNTIF(A1:A2,">"&A4)',
      '=SUMIF(A1:A2,(">"&A4)&"")',
      '=COUNTIF(A1:A2,A5)',
    );
    for (const row of [6, 7, 8]) expect([isUnitError(at(row)), short(at(row))]).toEqual([true, expect.stringContaining('">"&C5')]);
    expect(short(at(9))).toBe(0);
  });

  test('a row or column that is written is a whole number', async () => {
    const { at } = await column('1 ft', '2 ft', '=INDEX(A1:A2,1.5)', '=VLOOKUP(A1,A1:A2,1.5,FALSE)', '=INDEX(A1:A2,2)');
    expect([isUnitError(at(3)), isUnitError(at(4))]).toEqual([true, true]);
    expect(at(5)).toMatchObject({ base: 0.6096, unit: 'ft' });
  });

  test('rounding refuses a quantity and takes its plain number; UNIT gives it back', async () => {
    const { at } = await column('93.5 cm', '=ROUND(A1,0)', '=ROUND(NUMBER.IN(A1,"in"),0)', '=UNIT(ROUND(NUMBER.IN(A1,"in"),0),"in")', '="at "&SHOW(A1,"in")');
    expect(at(2)).toMatchObject({ word: 'unit error', mend: { content: '=ROUND(NUMBER.IN(A1,"cm"),0)' } });
    expect(short(at(3))).toBe(37);
    expect(at(4)).toMatchObject({ unit: 'in' });
    expect(short(at(5))).toBe('at 36.81 in');
  });

  test('temperature readings and differences are two kinds', async () => {
    const { at } = await column('77 °F', '15 °C', '=A1-A2', '=A2+A3', '=A1+A2', '=AVERAGE(A1,A2)', '=A1*2');
    expect([short(at(3)), short(at(4)), short(at(6))]).toEqual([10, 25, 20]);
    expect(at(3)).toMatchObject({ unit: 'K' });
    expect(at(4)).toMatchObject({ unit: '°C' });
    expect([isUnitError(at(5)), isUnitError(at(7))]).toEqual([true, true]);
  });

  test('an angle is shown in degrees; SIN takes an angle, or a plain number as radians', async () => {
    const { at } = await column('30 °', '=SIN(A1)', '=SIN(0.5)', '=ATAN(1)');
    expect(short(at(2))).toBeCloseTo(0.5, 12);
    expect(short(at(3))).toBeCloseTo(Math.sin(0.5), 12);
    expect(at(4)).toMatchObject({ unit: '°' });
    expect(short(at(4))).toBeCloseTo(Math.PI / 4, 12);
  });

  test('the calendar: lamp life over hours a year is years, and energy, money and interest go by the year', async () => {
    const { at } = await column(
      '36000 h',
      '16 h/d',
      '330 d/year',
      '=A1/(A2*A3)',
      '90 W',
      '=A5*A2*A3',
      '0.25 EUR/kWh',
      '=A6*A7',
      '950.4 EUR',
      '=A9/A8',
      '=1/A10',
      '=A2+A3',
    );
    expect(at(4)).toMatchObject({ unit: 'year', base: expect.closeTo(36000 / (16 * 330), 12) });
    expect(at(6)).toMatchObject({ unit: 'kWh/year', base: expect.closeTo(475.2 * 3.6e6, 3) });
    expect(at(8)).toMatchObject({ unit: 'EUR/year', base: expect.closeTo(118.8, 10) });
    expect(at(10)).toMatchObject({ unit: 'year', base: expect.closeTo(8, 10) });
    expect(at(11)).toMatchObject({ unit: '/year' });
    expect(isUnitError(at(12))).toBe(true);
  });

  test('a mixed range is an error in SUM and may be read by INDEX where written numbers pick one kind', async () => {
    const engine = createEngine();
    const values = await engine.load(
      book([
        table('T', [
          ['Rail', '45 W', '79 EUR'],
          ['Tile', '150 W', '229 EUR'],
          ['=SUM(B1:C2)', '=INDEX(A1:C2,2,3)', '=INDEX(A1:C2,2,MATCH("x",A1:C1,0))'],
        ]),
      ]),
    );
    expect(isUnitError(values['T.A3'] ?? { kind: 'blank' })).toBe(true);
    expect(values['T.B3']).toMatchObject({ base: 229, unit: 'EUR' });
    expect(values['T.C3']).toMatchObject({ word: 'unit error', message: expect.stringContaining('write the number of the row or column') });
  });

  test('a number kept as text, which the calculator would reckon with in base units, is found out beside quantities', async () => {
    const engine = createEngine();
    const formulas = [
      '=A1+A2',
      '=IF(A1>UNIT(1,"W"),"36",A1)*2',
      '=IF(A1>UNIT(1,"W"),A2,A1)',
      '=INDEX(A1:A3,1+1)*2',
      '=SUM(A1:A3)',
      '=A1="36"',
      '=IF(A1>UNIT(1,"W"),"no",A1)',
      '=MAX(A3,A1,A4)',
    ];
    const values = await engine.load(book([table('T', [['45 W'], ["'36"], ['90 W'], ['Rail'], ...formulas.map((formula) => [formula])])]));
    const errors = formulas.map((_, i) => isUnitError(values[`T.A${i + 5}`] ?? { kind: 'blank' }));
    expect(errors).toEqual([true, true, true, true, true, true, false, false]);
    expect(values['T.A8']).toMatchObject({ message: expect.stringContaining('a number kept as text (A2)') });
  });

  test('a name carries the unit of what it names, across tables', async () => {
    const engine = createEngine();
    const values = await engine.load(
      book(
        [
          table('Brief', [['3.6 m']]),
          table(
            'T',
            [['=bench_length*2', '=bench_length+60 W']].map((line) => line.map((f) => f.replace('60 W', 'UNIT(60,"W")'))),
          ),
        ],
        { bench_length: 'Brief.A1' },
      ),
    );
    expect(values['T.A1']).toMatchObject({ base: 7.2, unit: 'm' });
    expect(values['T.B1']).toMatchObject({ word: 'unit error', message: expect.stringContaining('Brief.A1') });
  });

  test('the shown unit: the cell’s own, else the first operand’s, else the function’s, else the one of its kind', async () => {
    const { at } = await column(
      '36 in',
      '1 m',
      '=A1+A2',
      { content: '=A1+A2', unit: 'cm' },
      '=DLI(UNIT(200,"µmol/m²/s"),UNIT(16,"h/d"))',
      '=A1*A2',
      '=60 W*1 h'.replace('60 W', 'UNIT(60,"W")').replace('1 h', 'UNIT(1,"h")'),
    );
    expect([3, 4, 5, 6, 7].map((row) => (at(row) as { unit?: string }).unit)).toEqual(['in', 'cm', 'mol/m²/d', 'm²', 'kWh']);
  });

  test('a formula that stands in no cell has its unit and its mistakes too', async () => {
    const { engine } = await column('1');
    expect(await engine.evaluate('=DLI(200,16)')).toEqual({ kind: 'number', base: 11.52, unit: 'mol/m²/d' });
    expect(await engine.evaluate('=DLI(UNIT(200,"umol/m2/s"),UNIT(960,"min/d"))')).toEqual({ kind: 'number', base: 11.52, unit: 'mol/m²/d' });
    expect(await engine.evaluate('=UNIT(6,"in")+UNIT(1,"ft")')).toEqual({ kind: 'number', base: 0.4572, unit: 'm' });
    expect(await engine.evaluate('=UNIT(100,"W")*UNIT(16,"h/d")*UNIT(330,"d")')).toEqual({ kind: 'number', base: 528 * 3.6e6, unit: 'kWh' });
    expect(await engine.evaluate('=UNIT(1,"m")+UNIT(1,"W")')).toMatchObject({ word: 'unit error', message: 'This adds a length (1 m) to a power (1 W).' });
  });
});

describe('a table of several kinds', () => {
  // By hand: 18 to 22 h and 6 to 10 h at the day’s price, 22 to 6 h at the night’s, half a kilowatt on 330 days.
  const cost = 0.5 * 330 * (8 * 0.36 + 8 * 0.18);

  test('written out takes the unit of each column, or has its own', async () => {
    const { engine } = await column('1');
    for (const bands of ['{6,0.36;22,0.18}', '{"from","price";6,0.36;22,0.18}', '{6 h,0.36 EUR/kWh;22 h,0.18 EUR/kWh}', '{360 min,0.36;22,180 EUR/MWh}']) {
      const value = await engine.evaluate(`=RUN.COST.BANDS(500,18,10,${bands},330)`);
      expect(value, bands).toMatchObject({ kind: 'number', unit: 'EUR/year' });
      expect((value as { base: number }).base, bands).toBeCloseTo(cost, 9);
    }
    expect(short(await engine.evaluate('=STAGE.ON.DAY({"dark",3;"lit",1 week},10)'))).toBe('lit');
    expect(short(await engine.evaluate('=RUN.COST.BANDS(500,18,10,{6 m,0.36},330)'))).toMatch(
      /^unit error: RUN\.COST\.BANDS \(bands\) needs a time such as 1 h; 6 m/,
    );
    const crops = '{"crop","stage","PPFD low","PPFD high","hours limit";"basil","indoor",200 µmol/m²/s,300 µmol/m²/s,16}';
    expect(await engine.evaluate(`=CROP.PPFD(${crops},"basil","indoor")`)).toMatchObject({ kind: 'number', unit: 'µmol/m²/s' });
    expect(short(await engine.evaluate(`=CROP.HOURS.LIMIT(${crops},"basil","indoor")`))).toMatch(/“hours limit” is 0\.00444444 h\/d; .*written with its unit/);
  });

  test('in cells a column without its unit is a mistake, not seconds and money a joule', async () => {
    const wrong = await loaded([
      ['from', 'price', '=RUN.COST.BANDS(UNIT(500,"W"),UNIT(18,"h"),UNIT(10,"h"),A1:B3,UNIT(330,"d/year"))'],
      ['6 h', '0.2'],
      ['22 h', '0.1'],
    ]);
    expect(short(wrong.at('C1'))).toBe('unit error: RUN.COST.BANDS (bands) needs a price of energy such as 1 EUR/kWh in column 2; it holds a plain number.');
    const right = await loaded([
      ['from', 'price', '=RUN.COST.BANDS(UNIT(500,"W"),UNIT(18,"h"),UNIT(10,"h"),A1:B3,UNIT(330,"d/year"))'],
      ['6 h', '0.36 EUR/kWh'],
      ['22 h', '0.18 EUR/kWh'],
    ]);
    expect(short(right.at('C1'))).toBeCloseTo(cost, 9);
  });
});

test('an amount in another currency is an error at its cell and wherever it is read, not a text that SUM passes over', async () => {
  const { at } = await column('5 USD', '10 EUR', '=SUM(A1:A2)', '=A1*2', '=A1&""', '0.2 USD/kWh', "'Quoted in USD", '=A7&"."');
  const message = 'Row 1 (T.A1) is 5 USD, and this book is in EUR: USD can’t be converted, as a book has no rate of exchange.';
  expect(at(1)).toEqual({ kind: 'error', word: 'unit error', message });
  for (const row of [3, 4, 5]) expect(at(row), `A${row}`).toEqual({ kind: 'error', word: 'unit error', message, from: 'T.A1' });
  expect(isUnitError(at(6))).toBe(true);
  expect(short(at(8))).toBe('Quoted in USD.');
});
