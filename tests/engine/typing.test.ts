/** What typed text becomes, how a stored content is shown for editing, and formulas that stand in no cell. */
import { describe, expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { book, loaded, short, table } from './helpers.ts';

const open = async () => {
  const engine = createEngine();
  await engine.load(
    book(
      [
        table(
          'Plan',
          [
            [{ content: '3 ft', unit: 'ft' }, '16 h/d'],
            ['200 µmol/m²/s', '=A1+UNIT(6,"in")'],
            ['x', '=DLI(A2,B1)'],
          ],
          [{}, {}, { unit: '%' }],
        ),
      ],
      { bench_length: 'Plan.A1' },
    ),
  );
  return engine;
};

describe('typing a number', () => {
  it('takes the cell’s unit where none is typed, and the typed one as the unit that is shown', async () => {
    const engine = await open();
    expect(await engine.read('Plan.A1', '4')).toMatchObject({ ok: true, content: '4 ft' });
    expect(await engine.read('Plan.A1', '36 in')).toMatchObject({ ok: true, content: '36 in', unit: 'in' });
    expect(await engine.read('Plan.A1', '1,5')).toMatchObject({ ok: true, content: '1.5 ft' });
  });

  it('refuses another quantity with what the cell takes', async () => {
    expect(await (await open()).read('Plan.A1', '5 kg')).toEqual({ ok: false, message: 'This cell takes a length in ft; 5 kg is a mass.' });
  });

  it('stores a text that looks like something else so that it stays a text', async () => {
    expect(await (await open()).read('Plan.A3', "'=1+1")).toMatchObject({ ok: true, content: "'=1+1" });
  });
});

describe('typing a formula', () => {
  it('writes the unit that is meant to a bare number, and says so', async () => {
    const engine = await open();
    expect(await engine.read('Plan.B2', '=DLI(200,16)')).toEqual({
      ok: true,
      content: '=DLI(UNIT(200,"µmol/m²/s"),UNIT(16,"h/d"))',
      said: '200 read as 200 µmol/m²/s, 16 read as 16 h/d',
    });
    expect(await engine.read('Plan.B2', '=A1+6 in')).toEqual({ ok: true, content: '=A1+UNIT(6,"in")' });
  });

  it.each([
    ['=DLII(200,16)', 'There is no function DLII. Did you mean DLI'],
    ['=benchlength', 'Did you mean bench_length?'],
    ['=(A1', 'not closed'],
    ['=SUM(A1,3 FT)', 'There is no unit “FT” here. Did you mean ft?'],
    ['=A1+8 µm', 'There is no unit “µm” here.'],
    ['=SUM(1 2,3)', 'can not be read at “2”'],
    ['=A1 * * 2', 'can not be read at “*”'],
    ['=🙂', 'can not be read at “🙂”'],
    ['=A1:A3*2', 'a cell holds one'],
    ['=TODAY()', 'the same book gives the same numbers on any day'],
  ])('refuses %s: %s', async (typed, says) => {
    const reading = await (await open()).read('Plan.B2', typed);
    expect(reading).toMatchObject({ ok: false, message: expect.stringContaining(says) });
  });
});

it('shows a stored formula for editing as people write it', async () => {
  const engine = await open();
  expect(await engine.editable('Plan.B2')).toBe('=A1+6 in');
  expect(await engine.editable('Plan.A1')).toBe('3 ft');
  expect(await engine.editable('Plan.C9')).toBe('');
});

describe('a formula in no cell', () => {
  it('takes bare numbers in the default units and gives the declared unit of its function', async () => {
    const engine = createEngine();
    expect(await engine.evaluate('DLI(200,16)')).toEqual({ kind: 'number', base: 11.52, unit: 'mol/m²/d' });
    expect(await engine.evaluate('=BEAM.EXPONENT(120)')).toEqual({ kind: 'number', base: 1, unit: '' });
  });

  it('gives the one default unit of its kind where no function declares one, in the book’s currency', async () => {
    const engine = createEngine();
    expect(await engine.evaluate('2 ft + 4 in')).toMatchObject({ unit: 'm' });
    expect(await engine.evaluate('60 W * 16 h/d * 330 d/year')).toMatchObject({ unit: 'kWh/year' });
    expect(await engine.evaluate('60 W * 16 h/d * 330 d/year * 0.25 EUR/kWh')).toMatchObject({ unit: 'EUR/year' });
  });

  it('reads the loaded book by table and by name', async () => {
    const engine = await open();
    expect(short(await engine.evaluate('bench_length*2'))).toBeCloseTo(1.8288, 12);
    expect(short(await engine.evaluate('SUM(Plan.A1,Plan.B2)'))).toBeCloseTo(0.9144 * 2 + 0.1524, 12);
  });

  it('says what is wrong in sentences', async () => {
    const engine = createEngine();
    expect(await engine.evaluate('1 m + 1 kg')).toMatchObject({ kind: 'error', word: 'unit error', message: 'This adds a length (1 m) to a mass (1 kg).' });
    expect(await engine.evaluate('BEAM.EXPONENT(200)')).toMatchObject({
      kind: 'error',
      word: 'refused',
      message: expect.stringContaining('BEAM.EXPONENT: beam is 200°'),
    });
    expect(await engine.evaluate('')).toMatchObject({ kind: 'error' });
    expect(await engine.evaluate('1/0')).toMatchObject({ kind: 'error', word: 'divides by zero' });
  });

  it('tells its steps', async () => {
    const node = await createEngine().evaluateWithSteps('DLI(200,16)*2');
    expect(node).toMatchObject({ kind: 'worked', formula: '=DLI(200 µmol/m²/s,16 h/d)*2', value: { base: 23.04, unit: 'mol/m²/d' } });
    expect(node).not.toHaveProperty('address');
    expect(node.steps.at(-1)).toMatchObject({ expression: '11.52 * 2' });
  });
});

describe('blanks in functions of this project', () => {
  it('are refused by name, and never counted as 0', async () => {
    const { at } = await loaded([['200 µmol/m²/s', null, '=DLI(A1,B1)', '']]);
    expect(at('C1')).toMatchObject({ kind: 'error', word: 'refused', message: expect.stringContaining('blank') });
  });

  it('are taken where a function says what they mean, answered or not', async () => {
    const { at } = await loaded([['1.22 A', null, '', '=CIRCUIT.COUNT(UNIT(16,"A"),A1,0.8,B1)', '=CIRCUIT.COUNT(UNIT(16,"A"),A1,0.8,C1)']]);
    expect(short(at('D1'))).toEqual(short(at('E1')));
    expect(short(at('D1'))).not.toContain('not answered');
  });

  it('are told apart from 0 in a range of readings', async () => {
    const readings = (c: string): readonly (string | null)[] => [
      '100 µmol/m²/s',
      '200 µmol/m²/s',
      '100 µmol/m²/s',
      '200 µmol/m²/s',
      '150 µmol/m²/s',
      c === '' ? '' : null,
    ];
    for (const last of ['', 'missing']) {
      const { at } = await loaded([[...readings(last), '=READINGS.MEAN(A1:F1)']]);
      expect(short(at('G1'))).toBeCloseTo(150e-6, 12);
    }
  });
});

it('gives the field for a picture, or why it can’t', async () => {
  const engine = createEngine();
  const layout = '8 (2×4) of 156 µmol/s 1.2×0 m 120° over 2.4×1.2 m';
  const field = await engine.field(layout, 0.4, 24, 12, 0.5);
  if ('refused' in field) throw new Error(field.refused);
  expect([field.nx, field.ny, field.length, field.width, field.values.length, field.fixtures.length]).toEqual([24, 12, 2.4, 1.2, 288, 8]);
  const mean = field.values.reduce((sum, value) => sum + value, 0) / 288;
  expect(mean).toBeCloseTo(0.5 * 1e6 * Number(short(await engine.evaluate(`BENCH.MEAN("${layout}",0.4,24,12)`))), 6);
  expect(await engine.field('nonsense', 0.4, 2, 2, 1)).toHaveProperty('refused');
  expect(await engine.field(layout, -1, 2, 2, 1)).toHaveProperty('refused');
  expect(await engine.field(layout, 0.4, 1e6, 2, 1)).toHaveProperty('refused');
});
