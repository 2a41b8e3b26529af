import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book/book.ts';
import { createEngine } from '../../src/engine/engine.ts';
import type { TraceNode } from '../../src/engine/types.ts';
import { book, table } from './helpers.ts';
import { faultsIn } from './recompute.ts';

const all = (node: TraceNode): readonly TraceNode[] => [node, ...node.from.flatMap(all)];

async function traced(cells: Parameters<typeof table>[1], at: string, names: Record<string, string> = {}) {
  const engine = createEngine();
  await engine.load(book([table('T', cells)], names));
  const node = await engine.trace(`T.${at}`);
  return { engine, node, expressions: node.steps.map((step) => step.expression ?? step.label) };
}

describe('expressions in printed numbers', () => {
  it.each([
    [
      'the factor of the result stands in a product',
      [['100 W'], ['16 h/d'], ['330 d/year'], [{ content: '=A1*A2*A3', unit: 'kWh/year' }]],
      'A4',
      '100 * 16 * 330 / 1000',
    ],
    ['a term in another unit is converted in sight', [['3 m'], [{ content: '=A1+UNIT(6,"cm")', unit: 'm' }]], 'A2', '3 + 6 / 100'],
    ['feet are worked in inches, without a rest', [['3 ft'], [{ content: '=A1+UNIT(6,"in")', unit: 'ft' }]], 'A2', '36 + 6'],
    ['two readings give a difference', [['77 °F'], ['=A1-UNIT(20,"°C")']], 'A2', '(77 - (20 * 9 / 5 + 32)) * 5 / 9'],
    ['a cell that points at another says its number', [['3 ft'], [{ content: '=A1', unit: 'm' }]], 'A2', '36 * 127 / 5000'],
    ['brackets are kept where they matter', [['2'], ['3'], ['=A1*(A2-1)/(A1+A2)^2']], 'A3', '2 * (3 - 1) / (2 + 3) ^ 2'],
    ['a ratio of two units is a plain number inside a function', [['3.6 m'], ['10 cm'], ['=ROUNDUP(A1/A2,0)+85 %']], 'A3', 'ceil(3.6 / 10 * 100) + 85 / 100'],
    ['a multiple is stepped to', [['7'], ['=CEILING(A1,2)-ROUNDDOWN(A1/2,1)']], 'A2', 'ceil(7 / 2) * 2 - fix((7 / 2) * 10 ^ 1) / 10 ^ 1'],
    ['a root keeps the factor of what is under it', [['9 m²'], ['4 cm²'], ['=SQRT(A1*A2)/SQRT(A2/A1)']], 'A3', 'sqrt(9 * 4) / sqrt(4 / 9)'],
    ['an angle goes to radians', [['30 °'], ['=SIN(A1)']], 'A2', 'sin(30 * pi / 180)'],
  ] as const)('%s', async (_, cells, at, expression) => {
    const { engine, node, expressions } = await traced(cells, at);
    expect(expressions.join('\n')).toContain(expression);
    expect(await faultsIn(node, engine)).toEqual([]);
  });

  it('writes a sum of a range out, and lists the terms of a long one', async () => {
    const short = await traced([['1 m'], ['2 ft'], ['=SUM(A1:A2)']], 'A3');
    expect(short.expressions).toEqual(['1 + 24 * 127 / 5000']);
    const long = await traced([...Array.from({ length: 40 }, (_, i) => [`${i + 1} m`]), ['=SUM(A1:A40)']], 'A41');
    expect(long.node.steps[0]).toMatchObject({ kind: 'sum', terms: { length: 40 } });
    expect(await faultsIn(long.node, long.engine)).toEqual([]);
  });

  it('tells an own function’s steps after the arguments that come in another unit', async () => {
    const { engine, node, expressions } = await traced([[`${Math.PI / 2} rad`], ['=BEAM.EXPONENT(A1)*2']], 'A2');
    expect(node.steps.map((step) => step.label)[0]).toBe('beam angle in °');
    expect(expressions.at(-1)).toBe('2 * 2');
    expect(await faultsIn(node, engine)).toEqual([]);
  });
});

it('says the caution of the functions that are called, once and after the steps', async () => {
  const { engine, node } = await traced([['60 W'], ['=CABLE.DROP(A1,24,6,WIRE.OHMS(1.5))']], 'A2');
  const said = node.steps.map((step) => step.label).filter((label) => label.startsWith('Caution'));
  expect(said).toEqual(['Caution: Calculates sizes only. Local codes and the makers’ data sheets decide; mains work is for a licensed electrician.']);
  expect(node.steps.at(-1)?.label).toBe(said[0]);
  expect(await faultsIn(node, engine)).toEqual([]);
  expect((await traced([['200'], ['=DLI(A1*UNIT(1,"µmol/m²/s"),16)']], 'A2')).expressions.join()).not.toContain('Caution');
});

describe('the tree', () => {
  const cells = [['5 m'], ['2 m'], ['=IF(A1>A2,A1,A4)'], ['=A2*2'], ['=SUM(bench)+A3'], [{ content: '=A1', kind: 'given' as const }]];

  it('tells what the branch reads that was taken, and nothing of the other', async () => {
    const { node } = await traced(cells, 'A3');
    expect(node.from.map((n) => n.address)).toEqual(['T.A1', 'T.A2']);
    expect(node.steps.map((step) => step.words ?? step.label)).toEqual(['row 1 > row 2: holds', 'row 1']);
  });

  it('goes down to the givens, tells each cell once, and keeps the name that a formula used', async () => {
    const { node } = await traced(cells, 'A5', { bench: 'T.A1:A2' });
    expect(node.from.map((n) => [n.address, n.name])).toEqual([
      ['T.A1', 'bench'],
      ['T.A2', 'bench'],
      ['T.A3', undefined],
    ]);
    const told = all(node).filter((n) => n.formula !== undefined && !n.again);
    expect(new Set(told.map((n) => n.address)).size).toBe(told.length);
  });

  it('calls a given that points at another cell “as”', async () => expect((await traced(cells, 'A6')).node.kind).toBe('as'));

  it('says source, note, headings and unit of each cell', async () => {
    const engine = createEngine();
    await engine.load(book([table('T', [[{ content: '3 m', source: 'client', note: 'measured twice' }, '=A1*2']], [{ label: 'Bench length' }], ['A', 'B'])]));
    const node = await engine.trace('T.B1');
    expect(node).toMatchObject({ row: 'Bench length', column: 'B', kind: 'worked', formula: '=A1*2', value: { unit: 'm' } });
    expect(node.from[0]).toMatchObject({ row: 'Bench length', column: 'A', kind: 'given', source: 'client', note: 'measured twice' });
  });

  it('sums up a range beyond ten cells by its extremes, with the cells behind it; ten are listed', async () => {
    // 40 values; the lowest is put into the sixth row, the highest into the thirtieth.
    const column = Array.from({ length: 40 }, (_, i) => [i === 5 ? '0.3 m' : i === 29 ? '2.1 m' : '1 m']);
    const { node } = await traced([...column, ['=SUM(A1:A40)+MAX(A1:A10)']], 'A41');
    const [range, ...single] = node.from;
    expect(range).toMatchObject({ kind: 'range', row: 'T.A1:A40', value: { text: '40 values, lowest 0.3\u202fm (A6), highest 2.1\u202fm (A30)' } });
    expect([range?.from.length, range?.from[5]?.address, range?.more]).toEqual([40, 'T.A6', undefined]);
    expect(single.map((n) => n.address)).toEqual(Array.from({ length: 10 }, (_, i) => `T.A${i + 1}`));
  });

  it('says of a long range only how many values there are where they are texts or of several kinds, and counts those that are not told', async () => {
    const texts = await traced([...Array.from({ length: 100 }, () => ['x']), ['=COUNTA(A1:A100)']], 'A101');
    expect(texts.node.from[0]).toMatchObject({ value: { text: '100 values' }, from: { length: 60 }, more: 40 });
    const mixed = await traced([...Array.from({ length: 6 }, () => ['1 m']), ...Array.from({ length: 6 }, () => ['2 W']), ['=COUNT(A1:A12)']], 'A13');
    expect(mixed.node.from[0]?.value).toEqual({ kind: 'text', text: '12 values' });
  });

  it('follows a chain of 1,000 cells without running out of stack', async () => {
    const { node } = await traced([['1'], ...Array.from({ length: 1000 }, (_, i) => [`=A${i + 1}+1`])], 'A1001');
    expect(node.value).toMatchObject({ base: 1001 });
  });

  it('names what a cell feeds, directly and in all, also through ranges and names', async () => {
    const engine = createEngine();
    await engine.load(book([table('T', [['1', '=SUM(A1:A2)', '=bench*2', '=C1+1', '5']])], { bench: 'T.A1' }));
    expect(await engine.feeds('T.A1')).toEqual({ directly: ['T.B1', 'T.C1'], all: ['T.B1', 'T.C1', 'T.D1'] });
    expect(await engine.feeds('T.E1')).toEqual({ directly: [], all: [] });
  });

  it('shows the unit error of a cell, its mend, and where it began', async () => {
    const { node } = await traced([['5 m'], ['2 W'], ['=A1+A2'], ['=IFERROR(A3,1)']], 'A4');
    expect(node.value).toMatchObject({ kind: 'error', word: 'unit error', from: 'T.A3' });
    expect(node.steps).toEqual([]);
  });
});

it('tells every number of the demo book in steps that can be reckoned again, down to its givens', async () => {
  const demo = JSON.parse(readFileSync(new URL('../../templates/trade-bench.json', import.meta.url), 'utf8')) as Book;
  const engine = createEngine();
  const values = await engine.load(demo);
  const faults: string[] = [];
  let told = 0;
  for (const [address, value] of Object.entries(values)) {
    if (value.kind !== 'number') continue;
    const node = await engine.trace(address);
    if (node.formula === undefined) continue;
    told++;
    faults.push(...(await faultsIn(node, engine)));
    expect(
      all(node)
        .filter((n) => n.from.length === 0 && n.formula !== undefined && !n.again)
        .map((n) => `${n.address} ${n.formula}`),
    ).toEqual([]);
  }
  expect(faults).toEqual([]);
  expect(told).toBeGreaterThan(100);
});
