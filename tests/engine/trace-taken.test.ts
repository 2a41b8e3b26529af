/** What a working lists of look-ups and branches. The entries are counted off by hand in the tables that stand here. */
import { describe, expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { book, table } from './helpers.ts';
import { faultsIn } from './recompute.ts';

/** Three invented lights: name, output, power, volts; sorted by power as LOOKUP wants it. */
const FIXTURES = {
  ...table(
    'Fixtures',
    [
      ['Bar S', '300 µmol/s', '100 W', '24 V'],
      ['Bar M', '450 µmol/s', '160 W', '24 V'],
      ['Bar L', '640 µmol/s', '230 W', '48 V'],
    ],
    [],
    ['Fixture', 'PPF', 'Power', 'Volts'],
  ),
  form: 'list' as const,
};
/** The same turned: a row of names, a row of outputs. */
const ACROSS = table('Across', [
  ['Bar S', 'Bar M', 'Bar L'],
  ['300 µmol/s', '450 µmol/s', '640 µmol/s'],
]);

async function traced(formula: string, givens: readonly string[] = ['Bar L', '2', '200 W', 'TRUE']) {
  const rows = [...givens.map((given) => [given]), [formula]];
  const labels = ['Light', 'Number', 'Watts', 'Long ones', 'Result'].map((label) => ({ label }));
  const engine = createEngine();
  await engine.load(book([table('T', rows, labels), FIXTURES, ACROSS]));
  const node = await engine.trace('T.A5');
  return { engine, node, listed: node.from.map((n) => n.address), said: node.steps.map((step) => step.label) };
}

describe('of a look-up only the entry is listed that it came to', () => {
  it.each([
    ['INDEX by a number', '=INDEX(Fixtures.B1:B3,A2)', ['T.A2', 'Fixtures.B2']],
    ['INDEX by row and column', '=INDEX(Fixtures.A1:D3,3,2)', ['Fixtures.B3']],
    ['INDEX by MATCH', '=INDEX(Fixtures.B1:B3,MATCH(A1,Fixtures.A1:A3,0))', ['T.A1', 'Fixtures.A3', 'Fixtures.B3']],
    ['INDEX in a row', '=INDEX(Across.A2:C2,1,MATCH(A1,Across.A1:C1,0))', ['T.A1', 'Across.C1', 'Across.C2']],
    ['INDEX of the cells that a condition chose', '=INDEX(IF(A4,Fixtures.B1:B3,Fixtures.B2:B3),A2)', ['T.A2', 'T.A4', 'Fixtures.B2']],
    ['MATCH of a sum', '=MATCH(A3+UNIT(30,"W"),Fixtures.C1:C3,0)', ['T.A3', 'Fixtures.C3']],
    ['VLOOKUP of a name', '=VLOOKUP(A1,Fixtures.A1:D3,2,FALSE())', ['T.A1', 'Fixtures.A3', 'Fixtures.B3']],
    ['VLOOKUP in sorted cells', '=VLOOKUP(A3,Fixtures.C1:D3,2)', ['T.A3', 'Fixtures.C2', 'Fixtures.D2']],
    ['HLOOKUP', '=HLOOKUP(A1,Across.A1:C2,2,FALSE())', ['T.A1', 'Across.C1', 'Across.C2']],
    ['LOOKUP', '=LOOKUP(A3,Fixtures.C1:C3,Fixtures.B1:B3)', ['T.A3', 'Fixtures.C2', 'Fixtures.B2']],
    ['a branch with a look-up in it', '=IF(A2>1,INDEX(Fixtures.B1:B3,A2),INDEX(Fixtures.B1:B3,1))', ['T.A2', 'Fixtures.B2']],
    ['CHOOSE', '=CHOOSE(A2,INDEX(Fixtures.C1:C3,1),A3,A3*A4)', ['T.A2', 'T.A3']],
    ['IFERROR whose first part stands', '=IFERROR(A3,INDEX(Fixtures.C1:C3,1))', ['T.A3']],
    ['IFERROR whose first part does not', '=IFERROR(INDEX(Fixtures.C1:C3,MATCH("Bar X",Fixtures.A1:A3,0)),A3)', [...abc('C'), ...abc('A'), 'T.A3']],
  ])('%s', async (_, formula, expected) => {
    const { engine, node, listed } = await traced(formula);
    expect([...listed].sort()).toEqual([...expected].sort());
    expect(await faultsIn(node, engine)).toEqual([]);
  });
});

describe('what a look-up and a condition say', () => {
  it('MATCH says which row of how many, and its name; INDEX says table, row, column and value', async () => {
    const { said } = await traced('=INDEX(Fixtures.B1:B3,MATCH(A1,Fixtures.A1:A3,0))*2');
    expect(said).toEqual(['Fixtures, row 3 of 3: Bar L', 'Fixtures, Bar L: PPF 640\u202fµmol/s', 'Result']);
    const { node } = await traced('=INDEX(Fixtures.B1:B3,MATCH(A1,Fixtures.A1:A3,0))*2');
    expect(node.steps.at(-1)).toMatchObject({ words: 'PPF of Bar L × 2', expression: '640 * 2' });
    expect(node.from.at(-1)).toMatchObject({ row: 'Bar L', column: 'PPF', address: 'Fixtures.B3' });
  });

  it('another entry is listed once another is asked for', async () => {
    expect((await traced('=INDEX(Fixtures.B1:B3,MATCH(A1,Fixtures.A1:A3,0))', ['bar s', '2', '200 W', 'TRUE'])).listed).toContain('Fixtures.B1');
  });

  it('IF says its condition with the numbers, then only the branch that it takes, in words', async () => {
    const { node } = await traced('=IF(A3>UNIT(150,"W"),A3*A2,A3/A2)');
    expect(node.steps.map(({ label, words, expression }) => [label, words, expression])).toEqual([
      ['Watts > 150 W: holds', undefined, '200 > 150'],
      ['Result', 'Watts × Number', '200 * 2'],
    ]);
    const other = await traced('=IF(A3>UNIT(150,"W"),A3*A2,A3/A2)', ['Bar L', '2', '100 W', 'TRUE']);
    expect(other.node.steps.map(({ label, words }) => words ?? label)).toEqual(['Watts > 150 W: does not hold', 'Watts ÷ Number']);
  });

  it('a condition that is one cell says yes or no; CHOOSE says which of how many', async () => {
    expect((await traced('=IF(A4,A3,0*A3)')).said[0]).toBe('Long ones: yes');
    expect((await traced('=CHOOSE(A2,A3*2,A3*3)')).said[0]).toBe('Number: choice 2 of 2');
  });

  it('a unit error lists both branches, since it comes out of each', async () => {
    const { node, listed } = await traced('=IF(A4,A3,A2+A3)');
    expect(node.value).toMatchObject({ kind: 'error', word: 'unit error' });
    expect([...listed].sort()).toEqual(['T.A2', 'T.A3', 'T.A4']);
  });
});

function abc(column: string): string[] {
  return [1, 2, 3].map((row) => `Fixtures.${column}${row}`);
}
