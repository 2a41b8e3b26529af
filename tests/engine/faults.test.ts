/** Faults of the calculator that are guarded here, and facts about it that this project leans on. A new version that changes one fails here. */
import { HyperFormula } from 'hyperformula';
import { describe, expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { long } from '../cases.ts';
import { book, calc, loaded, short, table } from './helpers.ts';

describe('numbers that reach a count', () => {
  it.each([
    ['INT(-3.5)', -4],
    ['INT(0.7/0.1)', 7],
    ['INT(1-0.9-0.1)', 0],
    ['ROUNDUP(4.2/1.4,0)', 3],
    ['ROUND(1.005,2)', 1.01],
    ['ROUND(-1.005,2)', -1.01],
    ['ROUND(1234.5,-2)', 1200],
    ['ROUNDUP(16.158,3)', 16.158],
    ['ROUNDDOWN(-2.405,4)', -2.405],
    ['CEILING(0.3/0.1,1)', 3],
    ['FLOOR(0.7/0.1,1)', 7],
    ['TRUNC(0.7/0.1)', 7],
    ['TRUNC(-4.35*100)', -435],
    ['TRUNC(-4.9)', -4],
    ['QUOTIENT(0.7,0.1)', 7],
    ['QUOTIENT(-7,2)', -3],
    ['MOD(1,0.1)', 0],
    ['MOD(7.3,2)', 1.3],
    ['MOD(-0.3,-0.1)', 0],
    ['MOD(UNIT(1,"m"),UNIT(10,"cm"))', 0],
    ['EVEN(0.1*3*20)', 6],
    ['ODD(4.35*100)', 435],
    ['ODD(-0.5)', -1],
  ])('%s is %d', async (formula, expected) => expect(await calc(formula)).toBe(expected));
});

describe('literals', () => {
  it.each([
    ['6.6E-34*1E34', 6.6],
    ['1E15', 1e15],
    ['1e15+0', 1e15],
    ['"a""b"', 'a"b'],
    ['LEN("a""b")', 3],
    ['TRUE', true],
    ['FALSE', false],
    ['IF(TRUE,1,2)', 1],
    ['SUM (1,2)', 3],
  ])('%s can be written', async (formula, expected) => expect(await calc(formula)).toBe(expected));
});

describe('precision', () => {
  it('keeps 14 digits or more of a third', async () => expect(await calc('1/3')).toBeCloseTo(1 / 3, 14));
  it('finds 0.1+0.2 equal to 0.3', async () => expect(await calc('0.1+0.2=0.3')).toBe(true));
  it('keeps small base values whole', async () => expect(await calc('1/3/1e8')).toBeCloseTo(1 / 3e8, 22));
});

describe('texts are never read as something else', () => {
  it.each(['1E15', '01/02/2024', '$5', '12%', '=1+1', "'quoted", '10:30', 'TRUE'])('keeps %s as text', async (text) => {
    const { at } = await loaded([[`'${text}`, '=A1&""', '=ISTEXT(A1)']]);
    expect(short(at('A1'))).toBe(text);
    expect(short(at('B1'))).toBe(text);
    expect(short(at('C1'))).toBe(true);
  });

  it('does not reckon with a text that looks like a date', async () => {
    const { at } = await loaded([["'01/02/2024", '=A1+1']]);
    expect(short(at('B1'))).toBe('unit error: A sum takes numbers; A1 is text.');
  });
});

describe('functions that the calculator offers and this project does not', () => {
  it.each([
    'NOW()',
    'TODAY()',
    'RAND()',
    'RANDBETWEEN(1,2)',
    'OFFSET(A1,1,1)',
    'TEXT(1,"0.00%")',
    'POISSON.DIST(1,1e9,TRUE)',
    'NEGBINOM.DIST(1,1e9,0.5,TRUE)',
    'CUMIPMT(0.1,1e9,1,1,1e9,0)',
    'MMULT({1},{1})',
    'VERSION()',
    'SEQUENCE(10000,10000)',
    'CELL.STATE()',
  ])('refuses %s by name', async (formula) => expect(await calc(formula)).toMatch(/^no such name: /));

  it('says why the clock is not offered', async () => expect(await calc('TODAY()')).toContain('the same book gives the same numbers on any day'));
});

describe('arrays', () => {
  it('multiplies a condition into a range inside SUMPRODUCT', async () => {
    const { at } = await loaded([['1', '2', '3', '=SUMPRODUCT((A1:C1>1)*A1:C1)']]);
    expect(short(at('D1'))).toBe(5);
  });

  it('refuses a formula that gives several values', async () => {
    const { at } = await loaded([['1', '2', '=A1:B1*2']]);
    expect(short(at('C1'))).toContain('more than one value');
  });
});

describe('hostile formulas', () => {
  it('stops REPT before the text grows', async () => expect(await calc('REPT("a",1e9)')).toContain('more than 32000 characters'));
  it('stops a text that is joined too long', async () => expect(await calc(`REPT("a",30000)&REPT("b",30000)`)).toContain('more than 32000 characters'));
  it.each(['MEDIAN(T.A1:CV20000)', 'SUM(T.A1:XFD40000)', 'SUM(T.A:A)'])('refuses %s before it is worked out', async (formula) => {
    const { engine } = await loaded([['1']]);
    const start = performance.now();
    expect(short(await engine.evaluate(formula))).toMatch(/^(too large|not understood|no such cell)/);
    if (long) expect(performance.now() - start).toBeLessThan(500);
  });
  it('takes stars in a look-up as stars', async () => {
    const { at } = await loaded([[`'${'a'.repeat(200)}`, `=COUNTIF(A1,"${'*a'.repeat(100)}*b")`]]);
    expect(short(at('B1'))).toBe(0);
  });
  it('refuses what nests deeper than 32', async () => expect(await calc(`${'ABS('.repeat(33)}1${')'.repeat(33)}`)).toContain('nested 33 deep'));
  it('works out what nests 32 deep', async () => expect(await calc(`${'ABS('.repeat(32)}1${')'.repeat(32)}`)).toBe(1));
  it('refuses a run of signs as deep nesting', async () => expect(await calc(`1${'-'.repeat(40)}1`)).toContain('nested'));
  it('refuses more than 2,000 characters', async () => expect(await calc(`1${'+1'.repeat(1000)}`)).toContain('2,002 characters'));
  it('works out a sum of 900 terms', async () => expect(await calc(`1${'+1'.repeat(899)}`)).toBe(900));
  it('refuses more than 256 references', async () => {
    const { engine } = await loaded([['1']]);
    expect(short(await engine.evaluate(`SUM(${Array(257).fill('T.A1').join(',')})`))).toContain('257');
  });
});

describe('table names', () => {
  it.each(['', 'a!b', '__proto__', 'constructor', "Bob's", 'Light map', 'A1', '1st'])('loads a table called %j and its cells', async (name) => {
    const engine = createEngine();
    const values = await engine.load(book([table(name, [['1', '=A1+1']])]));
    expect(Object.values(values).map(short)).toEqual([1, 2]);
  });

  it('loads two tables whose names differ in case only', async () => {
    const engine = createEngine();
    const values = await engine.load(book([table('A', [['1']]), { ...table('a', [['2']]), id: 'other' }]));
    expect(Object.values(values).map(short)).toEqual([1, 2]);
  });
});

describe('facts of the calculator', () => {
  it('counts a cell as on a circle even where the branch is not taken', async () => {
    const { at } = await loaded([['=IF(TRUE,1,A1)']]);
    expect(short(at('A1'))).toContain('goes in a circle');
  });

  it('takes no name that is shaped like a cell', () => {
    const hf = HyperFormula.buildEmpty({ licenseKey: 'gpl-v3' });
    expect(hf.isItPossibleToAddNamedExpression('ppfd1', '=1')).toBe(false);
    expect(hf.isItPossibleToAddNamedExpression('bench_length', '=1')).toBe(true);
  });
});

describe('a cell past the edge of its table', () => {
  it('is refused with the size of the table, not read as 0', async () => {
    const { at } = await loaded([
      ['3', '=T.A99*2'],
      ['4', '=C1'],
      ['5', '=ISBLANK(A4)'],
      [null, '=SUM(A1:A9)'],
    ]);
    expect(short(at('B1'))).toBe('no such cell: There is no cell T.A99: T has 4 rows and 2 columns, and ends at B4.');
    expect(short(at('B2'))).toBe('no such cell: There is no cell T.C1: T has 4 rows and 2 columns, and ends at B4.');
    expect(short(at('B3'))).toBe(true);
    expect(short(at('B4'))).toBe(12);
  });

  it('is refused when it is typed, and there once the row is', async () => {
    const engine = createEngine();
    await engine.load(book([table('T', [['3'], ['4']])]));
    expect(await engine.read('T.A2', '=A3+1')).toMatchObject({ ok: false, message: expect.stringContaining('There is no cell T.A3') });
    const longer = book([table('T', [['3'], ['=A3+1'], ['5']])]);
    expect(short((await engine.load(longer))['T.A2'] ?? { kind: 'blank' })).toBe(6);
  });
});
