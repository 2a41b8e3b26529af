/** What a call is told when its number of arguments, a place in a range, or a reference is wrong. */
import { HyperFormula } from 'hyperformula';
import { describe, expect, it } from 'vitest';
import { countFault } from '../../functions/check-args.ts';
import { functions } from '../../functions/index.ts';
import { apply } from '../../src/book/apply.ts';
import { deleteLines } from '../../src/book/commands/delete-lines.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { OFFERED } from '../../src/engine/offered.ts';
import { PUT_IN } from '../../src/engine/put-in.ts';
import { signatureOf } from '../../src/engine/signatures.ts';
import { book, calc, loaded, short, table } from './helpers.ts';

/** How many arguments the calculator itself takes, 0 to 9, asked of a fresh one. */
const hf = HyperFormula.buildFromArray([[1]], { licenseKey: 'gpl-v3' });
const taken = (name: string, count: number): boolean => {
  const value = hf.calculateFormula(`=${name}(${Array(count).fill('A1').join(',')})`, 0);
  return !(typeof value === 'object' && value !== null && 'message' in value && /wrong number/i.test(value.message));
};

describe('the number of arguments', () => {
  it('is known of every function offered', () => {
    expect([...OFFERED, ...functions.map((f) => f.name)].filter((name) => signatureOf(name) === undefined)).toEqual([]);
  });

  // NA takes what it is given and looks at none; what is put in here is not the calculator's.
  it.each([...OFFERED].filter((name) => name !== 'NA' && !PUT_IN.includes(name)))('of %s is the calculator’s own', (name) => {
    const signature = signatureOf(name);
    if (!signature) throw new Error(name);
    for (let count = 0; count <= 9; count++) expect(countFault(signature, count) === undefined, `${count}`).toBe(taken(name, count));
  });

  it.each([
    ['DLI()', 'refused: DLI takes 2 arguments: ppfd, hours. ppfd and hours are missing.'],
    ['DLI(UNIT(200,"µmol/m²/s"))', 'refused: DLI takes 2 arguments: ppfd, hours. hours is missing.'],
    ['DLI(1,2,3,4)', 'refused: DLI takes 2 arguments: ppfd, hours. 4 are given: the last 2 are too many.'],
    ['HANG.LOAD(5.8,2)', 'refused: HANG.LOAD takes 3 arguments: mass, [points], factor. factor is missing.'],
    ['ROUND()', 'refused: ROUND takes 1 or 2 arguments: number, [places]. number is missing.'],
    ['ROUND(1,2,3)', 'refused: ROUND takes 1 or 2 arguments: number, [places]. 3 are given: the last is too many.'],
    ['PI(1)', 'refused: PI takes no arguments. 1 is given: the last is too many.'],
    ['COLUMN(1,2)', 'refused: COLUMN takes at most 1 argument: [cell]. 2 are given: the last is too many.'],
    ['COUNTIFS(1,2,3)', 'refused: COUNTIFS takes 2 arguments or more: cells, criterion, … criterion is missing.'],
    [
      'RATE(1)',
      'refused: RATE takes 3 to 6 arguments: periods, payment, present value, [future value], [type], [guess]. payment and present value are missing.',
    ],
  ])('%s', async (formula, said) => expect(await calc(formula)).toBe(said));

  it('is told when a formula is typed', async () => {
    const { engine } = await loaded([['1', null]]);
    expect(await engine.read('T.B1', '=ROUND(A1,1,1)')).toMatchObject({ ok: false, message: expect.stringContaining('3 are given: the last is too many') });
  });
});

describe('nothing between two commas', () => {
  it.each([
    ['CHECK.DAY.LENGTH(,UNIT(16,"h/d"))', 'unknown, no day-length response is given'],
    ['METER.VERDICT(UNIT(145,"µmol/m²/s"),UNIT(150,"µmol/m²/s"),)', 'unknown, no tolerance given'],
    ['CHECK.AT.MOST(5,)', 'unknown, no limit given'],
    ['CHECK.IP(,65)', 'unknown, no marking given'],
    ['CIRCUIT.COUNT(UNIT(16,"A"),UNIT(1.22,"A"),0.8,)', 'unknown'],
    ['CIRCUIT.COUNT(UNIT(16,"A"),UNIT(1.22,"A"),,4)', 4],
    ['DLI(,UNIT(16,"h/d"))', 'refused: DLI: ppfd is blank; give a number in µmol/m²/s.'],
  ])('%s is a blank, or what is left out', async (formula, said) => expect(await calc(formula)).toBe(said));
});

describe('a row, a column or a choice', () => {
  const cells = [
    ['1', '10', '100', '2.7'],
    ['2', '20', '200', '=0.3/0.1'],
    ['3', '30', '300', '=1/3'],
  ];
  it.each([
    ['VLOOKUP(2,T.A1:C3,T.D1,FALSE)', 'refused: VLOOKUP: column is 2.7; it must be a whole number, such as 3.'],
    ['HLOOKUP(1,T.A1:C3,T.D1,FALSE)', 'refused: HLOOKUP: row is 2.7; it must be a whole number, such as 3.'],
    ['INDEX(T.A1:C3,T.D1,2)', 'refused: INDEX: row is 2.7; it must be a whole number, such as 3.'],
    ['INDEX(T.A1:C3,2,T.D1)', 'refused: INDEX: column is 2.7; it must be a whole number, such as 3.'],
    ['CHOOSE(T.D1,10,20,30)', 'refused: CHOOSE: which is 2.7; it must be a whole number, such as 3.'],
    ['MATCH(2,T.A1:A3,T.D3)', 'refused: MATCH: type is 0.333333; it must be a whole number, such as 0.'],
    ['SUM(VLOOKUP(2,T.A1:C3,{2,2.5},FALSE))', 'refused: VLOOKUP: column is 2.5; it must be a whole number, such as 3.'],
    ['VLOOKUP(2,T.A1:C3,"2.7",FALSE)', 'refused: VLOOKUP: column is 2.7; it must be a whole number, such as 3.'],
    ['VLOOKUP(2,T.A1:C3,2.5,FALSE)', 'unit error: VLOOKUP: 2.5 is no row or column; a whole number is needed.'],
  ])('that is not whole is refused: %s', async (formula, said) => {
    const { engine } = await loaded(cells);
    expect(short(await engine.evaluate(formula))).toBe(said);
  });

  it.each([
    ['VLOOKUP(2,T.A1:C3,T.D2,FALSE)', 200],
    ['VLOOKUP(2,T.A1:C3,0.3/0.1,FALSE)', 200],
    ['INDEX(T.A1:C3,T.D2,T.D2)', 300],
    ['CHOOSE(T.D2,7,8,9)', 9],
    ['SUM(VLOOKUP(2,T.A1:C3,{2,3},FALSE))', 220],
    ['VLOOKUP(2,T.A1:C3,"3",FALSE)', 200],
    ['INDEX(T.A1:C1,3)', 100],
    ['INDEX(T.B1:B3,3)', 30],
    ['INDEX({1,2;3,4},2,1)', 3],
  ])('that is whole but for binary noise is taken: %s', async (formula, expected) => {
    const { engine } = await loaded(cells);
    expect(short(await engine.evaluate(formula))).toBe(expected);
  });

  it.each([
    ['VLOOKUP(2,T.A1:C3,4,FALSE)', 'no such cell: VLOOKUP: column 4 is asked for, and the range has 3 columns: it can be 1 to 3.'],
    ['HLOOKUP(1,T.A1:C3,0,FALSE)', 'no such cell: HLOOKUP: row 0 is asked for, and the range has 3 rows: it can be 1 to 3.'],
    ['INDEX(T.A1:A3,4)', 'no such cell: INDEX: row 4 is asked for, and the range has 3 rows: it can be 1 to 3.'],
    ['INDEX(T.A1:C3,2)', 'refused: INDEX: the range has 3 rows and 3 columns: give the column too.'],
    ['CHOOSE(4,1,2,3)', 'refused: CHOOSE: number 4 is asked for, and 3 values are given.'],
    ['MATCH(2,T.A1:A3,2)', 'refused: MATCH: type is 2; it can be 1, 0 or -1.'],
  ])('that is not there is named: %s', async (formula, said) => {
    const { engine } = await loaded(cells);
    expect(short(await engine.evaluate(formula))).toBe(said);
  });
});

describe('where the standard goes further', () => {
  it.each([
    ['INDEX(T.A1:C3,0,1)', 'no such cell: INDEX: row 0 is asked for, and the range has 3 rows: it can be 1 to 3.'],
    ['VLOOKUP(2,{1,2;2,3},2)', 'refused: VLOOKUP looks in the cells of a table; of an array written out, INDEX gives a part.'],
    ['SUMIF(T.A1:A3,2,T.B1)', 'wrong kind: The ranges given here must have the same number of rows and columns.'],
    ['DCOUNT(T.A1:C3,,T.A1:A2)', 'wrong kind: An argument is of the wrong kind: a number, a text or a range is where another is needed.'],
    ['VALUE("1,000")', 'no number: VALUE finds no number in this text; it reads 1000, 5 % or 1 3/4.'],
    ['VALUE("3/4/2026")', 'no number: VALUE finds no number in this text; it reads 1000, 5 % or 1 3/4.'],
    ['DATEVALUE("3/4/2026")', 'no number: DATEVALUE finds no date in this text; it reads 2026-05-21.'],
    ['TIMEVALUE("half past two")', 'no number: TIMEVALUE finds no time in this text; it reads 14:30.'],
  ])('says what is taken instead: %s', async (formula, said) => {
    const { engine } = await loaded([
      ['1', '10', '100'],
      ['2', '20', '200'],
      ['3', '30', '300'],
    ]);
    expect(short(await engine.evaluate(formula))).toBe(said);
  });

  it('reads a date and a time out of a text', async () => {
    expect(await calc('DATEVALUE("2006-05-21 14:30")=DATE(2006,5,21)')).toBe(true);
    expect(await calc('TIMEVALUE("2006-05-21 06:00")')).toBe(0.25);
    expect(await calc('VALUE("5 %")')).toBe(0.05);
  });
});

describe('a reference to what is not there', () => {
  it('to a table names it, and the nearest', async () => {
    const { engine } = await loaded([['1']]);
    expect(short(await engine.evaluate('Tt.A1'))).toBe('no such cell: Tt.A1: there is no table Tt in this book. Did you mean T?');
    expect(short(await engine.evaluate("SUM('My lamps'.A1:B2)"))).toBe("no such cell: 'My lamps'.A1:B2: there is no table My lamps in this book.");
  });

  it('that was deleted names the argument that read it', async () => {
    const before = book([table('T', [['200 µmol/m²/s'], ['16 h/d'], ['=DLI(A1,A2)'], ['=A1*2'], ['=SUM(A1,A2)']])]);
    const change = deleteLines(before, { table: 'T', axis: 'row', at: 0 });
    if ('refused' in change) throw new Error(String(change.refused));
    const engine = createEngine();
    const values = await engine.load(apply(before, change));
    expect(Object.values(values).slice(1).map(short)).toEqual([
      'no such cell: What DLI read as its ppfd was deleted. Write another cell in place of lost_cell.',
      'no such cell: What this formula read was deleted. Write another cell in place of lost_cell.',
      'no such cell: What SUM read as its number was deleted. Write another cell in place of lost_cell.',
    ]);
  });
});
