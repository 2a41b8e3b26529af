/** Givens not answered yet, blanks, allowed ranges, names and circles: what a person is told. */
import { describe, expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { book, loaded, put, short, table } from './helpers.ts';

const brief = (cells: Parameters<typeof table>[1]) => table('Brief', cells, [{ label: 'Bench length' }, { label: 'Bench width' }]);

describe('a given that is not answered yet', () => {
  const open = async () => {
    const engine = createEngine();
    const before = book([
      brief([
        ['3.6 m'],
        [''],
        ['=A1*A2'],
        ['=A3+UNIT(1,"m²")'],
        ['=ISBLANK(A2)'],
        ['=COUNT(A1:A2)'],
        ['=COUNTA(A1:A2)'],
        ['=COUNTBLANK(A1:A2)'],
        ['=SUM(A1:A2)'],
      ]),
    ]);
    return { engine, before, values: await engine.load(before) };
  };

  it('says so by its heading, wherever a number reads it', async () => {
    const { values } = await open();
    for (const cell of ['A2', 'A3', 'A4', 'A9']) {
      expect(values[`Brief.${cell}`]).toMatchObject({ kind: 'error', word: 'not answered yet', message: 'Bench width (Brief.A2) is not answered yet.' });
    }
    expect(values['Brief.A4']).toMatchObject({ from: 'Brief.A2' });
    expect(values['Brief.A2']).not.toHaveProperty('from');
  });

  it('is waited for where its row is one of givens and no cell stands in it', async () => {
    const engine = createEngine();
    const before = book([table('Prices', [['0.25 EUR/kWh'], ['=A1*UNIT(100,"kWh")']], [{ label: 'Electricity', unit: 'EUR/kWh', kind: 'given' }])]);
    expect(short((await engine.load(before))['Prices.A2'] ?? { kind: 'blank' })).toBe(25);
    const { book: cleared, change } = put(before, 'Prices', 'r1', 'c1', null);
    const waiting = { kind: 'error', word: 'not answered yet', message: 'Electricity (Prices.A1) is not answered yet.' };
    expect(await engine.apply([change], cleared)).toMatchObject({ 'Prices.A1': waiting, 'Prices.A2': { ...waiting, from: 'Prices.A1' } });
    expect(await createEngine().load(cleared)).toMatchObject({ 'Prices.A1': waiting, 'Prices.A2': waiting });
  });

  it('is waited for once its row becomes one of givens', async () => {
    const engine = createEngine();
    const before = book([table('Prices', [[null], ['=A1*2']], [{ label: 'Fee' }])]);
    expect(short((await engine.load(before))['Prices.A2'] ?? { kind: 'blank' })).toBe(0);
    const [prices] = before.tables;
    const [row] = prices?.rows ?? [];
    if (!prices || !row) throw new Error('no row');
    const after = { ...row, kind: 'given' as const };
    const edit = { at: 'row' as const, table: 'prices', index: 0, before: row, after };
    const changed = { ...before, tables: [{ ...prices, rows: prices.rows.with(0, after) }] };
    expect(await engine.apply([{ label: 'test', edits: [edit] }], changed)).toMatchObject({ 'Prices.A2': { word: 'not answered yet' } });
  });

  it('counts as blank', async () => {
    const { values } = await open();
    expect(['A5', 'A6', 'A7', 'A8'].map((cell) => short(values[`Brief.${cell}`] ?? { kind: 'blank' }))).toEqual([true, 1, 1, 1]);
  });

  it('gives way to its answer, and comes back when that is taken out', async () => {
    const { engine, before } = await open();
    const answered = put(before, 'Brief', 'r2', 'c1', '1.5 m');
    expect(short((await engine.apply([answered.change], answered.book))['Brief.A3'] ?? { kind: 'blank' })).toBeCloseTo(5.4, 12);
    const emptied = put(answered.book, 'Brief', 'r2', 'c1', '');
    expect((await engine.apply([emptied.change], emptied.book))['Brief.A4']).toMatchObject({ word: 'not answered yet' });
  });
});

it('takes a cell that is missing from the book as a plain blank, which a sum counts as nothing', async () => {
  const { at } = await loaded([['1', null, '=A1+B1', '=ISBLANK(B1)']]);
  expect([short(at('C1')), short(at('D1'))]).toEqual([1, true]);
});

describe('allowed ranges of a given', () => {
  const rows = [
    { label: 'Mount height', range: { low: 20, high: 120, unit: 'cm' } },
    { label: 'Stage', range: { oneOf: ['seedling', 'full'] } },
    { label: 'Fixture', range: { from: 'Fixtures.A1:A2' } },
  ];
  const open = async (height: string, stage: string, fixture: string) => {
    const engine = createEngine();
    const whole = book([table('Plan', [[{ content: height, unit: 'cm' }], [stage], [fixture], ['=A1*2']], rows), table('Fixtures', [['Bar 60'], ['Bar 120']])]);
    return { engine, whole, values: await engine.load(whole) };
  };

  it('refuses what is typed outside them, with the range', async () => {
    const { engine } = await open('50 cm', 'full', 'Bar 60');
    expect(await engine.read('Plan.A1', '150')).toEqual({ ok: false, message: 'Mount height: 150 cm is above what is allowed, from 20 to 120 cm.' });
    expect(await engine.read('Plan.A1', '2 m')).toMatchObject({ ok: false });
    expect(await engine.read('Plan.A1', '120')).toMatchObject({ ok: true, content: '120 cm' });
    expect(await engine.read('Plan.A2', 'ful')).toEqual({ ok: false, message: 'Stage: “ful” is not one of the choices: seedling, full. Did you mean full?' });
    expect(await engine.read('Plan.A3', 'Bar 90')).toMatchObject({ ok: false });
    expect(await engine.read('Plan.A3', 'Bar 120')).toMatchObject({ ok: true });
  });

  it('shows what a file holds outside them as an error, also to its readers', async () => {
    const { values } = await open('5 m', 'full', 'Bar 60');
    expect(values['Plan.A1']).toMatchObject({ kind: 'error', word: 'out of range' });
    expect(values['Plan.A4']).toMatchObject({ kind: 'error', word: 'out of range', from: 'Plan.A1' });
  });

  it("takes a row's limits in the row's unit, whatever the cell is shown in", async () => {
    const line = [{ label: 'Bench length', unit: 'm', range: { low: 0.2, high: 10 } }];
    const engine = createEngine();
    await engine.load(book([table('Plan', [[{ content: '150 cm', unit: 'cm' }]], line)]));
    expect(await engine.read('Plan.A1', '800')).toMatchObject({ ok: true, content: '800 cm' });
    expect(await engine.read('Plan.A1', '1100')).toEqual({
      ok: false,
      message: 'Bench length: 1100 cm is above what is allowed, from 20 to 1000 cm (0.2 to 10 m).',
    });
  });

  it('hold for what a formula gives, where it stands for a given, but not where it is worked', async () => {
    const line = (kind: 'given' | 'worked') => ({ label: 'Bench length', unit: 'm', kind, range: { low: 0.2, high: 50 } });
    const engine = createEngine();
    const start = book([
      table('Plan', [['=UNIT(70,"m")'], ['=UNIT(70,"m")'], [{ content: '40 m' }], ['=A3*2']], [line('given'), line('worked'), {}, line('given')]),
    ]);
    const values = await engine.load(start);
    const message = (given: string) => `Bench length: ${given} is above what is allowed, from 0.2 to 50 m.`;
    expect(values['Plan.A1']).toMatchObject({ kind: 'error', word: 'out of range', message: message('70 m') });
    expect(values['Plan.A2']).toMatchObject({ kind: 'number', base: 70 });
    expect(values['Plan.A4']).toMatchObject({ kind: 'error', word: 'out of range', message: message('80 m') });
    const less = put(start, 'Plan', 'r3', 'c1', '20 m');
    expect((await engine.apply([less.change], less.book))['Plan.A4']).toMatchObject({ kind: 'number', base: 40 });
  });

  it('hold for what reads such a given too: nothing reckons with what is not allowed', async () => {
    const line = { label: 'Bench length', unit: 'm', kind: 'given' as const, range: { low: 0.2, high: 50 } };
    const engine = createEngine();
    const start = book([
      table('Plan', [[{ content: '40 m' }], ['=A1*2'], ['=A2*2'], ['=IFERROR(A2,UNIT(1,"m"))'], ['=COUNT(A1:A2)']], [{}, line, { label: 'Area' }, {}, {}]),
    ]);
    const values = await engine.load(start);
    const message = 'Bench length: 80 m is above what is allowed, from 0.2 to 50 m.';
    expect(values['Plan.A2']).toEqual({ kind: 'error', word: 'out of range', message });
    expect(values['Plan.A3']).toEqual({ kind: 'error', word: 'out of range', message, from: 'Plan.A2' });
    expect(values['Plan.A4']).toMatchObject({ kind: 'number', base: 1 });
    expect(values['Plan.A5']).toMatchObject({ kind: 'number', base: 1 });
    const less = put(start, 'Plan', 'r1', 'c1', '20 m');
    const differ = await engine.apply([less.change], less.book);
    expect(differ['Plan.A2']).toMatchObject({ kind: 'number', base: 40 });
    expect(differ['Plan.A3']).toMatchObject({ kind: 'number', base: 80 });
    const again = put(less.book, 'Plan', 'r1', 'c1', '30 m');
    expect((await engine.apply([again.change], again.book))['Plan.A3']).toMatchObject({ word: 'out of range', from: 'Plan.A2' });
  });

  it('looks again when the list that it names changes', async () => {
    const { engine, whole, values } = await open('50 cm', 'full', 'Bar 90');
    expect(values['Plan.A3']).toMatchObject({ word: 'out of range' });
    const changed = put(whole, 'Fixtures', 'r2', 'c1', 'Bar 90');
    expect((await engine.apply([changed.change], changed.book))['Plan.A3']).toEqual({ kind: 'text', text: 'Bar 90' });
  });
});

describe('what is not known', () => {
  it.each([
    ['=BEAM.EXPONNT(UNIT(120,"°"))', 'Did you mean BEAM.EXPONENT?'],
    ['=bench_lenght', 'Did you mean bench_length?'],
    ['=Sum', 'SUM is a function: its arguments go in brackets.'],
    ['=Nowhere.A1', 'there is no table Nowhere'],
    ['=UNIT(3,"parsec")', 'there is no unit “parsec”'],
    ['=(1+2', 'not closed'],
    ['=1+', 'something is missing'],
  ])('%s: %s', async (formula, says) => {
    const { at } = await loaded([['1 m', formula]], { bench_length: 'T.A1' });
    expect(short(at('B1'))).toContain(says);
  });

  it('names every cell of a circle, in the order in which they read one another', async () => {
    const { at } = await loaded([['=B1+1', '=C1', '=SUM(A1:A1)', '=A1*2']]);
    expect(at('A1')).toMatchObject({ word: 'goes in a circle', message: expect.stringContaining('T.A1 reads T.B1 reads T.C1 reads T.A1') });
    expect(at('D1')).toMatchObject({ word: 'goes in a circle', from: 'T.A1' });
  });

  it('asks for the table of a cell in a formula that lies in none', async () => {
    const { engine } = await loaded([['1']]);
    expect(short(await engine.evaluate('A1+1'))).toContain('A1 needs the name of its table before it, such as T.A1');
  });
});
