/** A formula for every function that formulas may call: compiled it gives what the engine gives, whatever stands in the cells that it reads. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { functions } from '../../../functions/index.ts';
import { fromBase, unit } from '../../../functions/units.ts';
import type { Book } from '../../../src/book/book.ts';
import { Sweeper } from '../../../src/engine/cone/index.ts';
import { OFFERED } from '../../../src/engine/offered.ts';
import { signatureOf } from '../../../src/engine/signatures.ts';
import type { Address } from '../../../src/engine/types.ts';
import { runs } from '../../cases.ts';
import { argumentsOf } from '../../functions/evaluate.ts';
import { book, table } from '../helpers.ts';
import { byEngine } from './variants.ts';

/** Rows of values that each set of formulas is tried on in the long run. */
const ROWS = 100;

interface Compared {
  /** How often a formula was compiled and gave something else than an error, by its address. */
  readonly worked: ReadonlyMap<Address, number>;
}

function compare(tried: Book, givens: readonly Address[], results: readonly Address[], row: fc.Arbitrary<string[]>, seed: number): Compared {
  const cone = new Sweeper(tried).cone(givens, results);
  expect(cone.refused).toBeUndefined();
  const engine = byEngine(tried);
  const worked = new Map<Address, number>();
  fc.assert(
    fc.property(row, (values) => {
      cone.put(values);
      const theirs = engine(givens, values, results);
      for (const [i, address] of results.entries()) {
        const own = cone.value(i);
        expect([address, own]).toStrictEqual([address, theirs[i]]);
        if (own.kind !== 'error' && cone.byEngineFor(i) === undefined) worked.set(address, (worked.get(address) ?? 0) + 1);
      }
    }),
    { ...runs(ROWS, seed), endOnFailure: true },
  );
  return { worked };
}

/** Cells that formulas read: numbers in A and B, texts in C, yes or no in D, and a list with its headings in E and F. */
const CELLS = [
  ['3', '1.5', 'basil', 'TRUE', 'name', 'count'],
  ['5', '2.5', 'Pear', 'FALSE', 'fig', '3'],
  ['2', '4', 'fig', 'TRUE', 'pear', '7'],
  ['8', '8.25', '14:30', 'FALSE', 'plum', '7'],
  ['45000', '0.2', '2026-05-21', 'TRUE', 'name', 'count'],
  ['45100', '0.9', 'b', 'TRUE', 'pear', '>2'],
] as const;
const VARIED = ['A1', 'A2', 'A3', 'B2', 'B3', 'C1', 'C2', 'D1', 'F2', 'F3', 'F6'] as const;

const number = fc.oneof(
  fc.integer({ min: -3, max: 12 }).map(String),
  fc.double({ min: -2, max: 30, noNaN: true }).map((x) => String(Number(x.toPrecision(6)))),
);
const odd = fc.constantFrom('', 'fig', 'TRUE', "'7", '0');
const mostly = (usual: fc.Arbitrary<string>): fc.Arbitrary<string> => fc.oneof({ weight: 12, arbitrary: usual }, { weight: 1, arbitrary: odd });
const VALUES: Readonly<Record<(typeof VARIED)[number], fc.Arbitrary<string>>> = {
  A1: mostly(number),
  A2: mostly(number),
  A3: mostly(fc.integer({ min: 1, max: 3 }).map(String)),
  B2: mostly(number),
  B3: mostly(number),
  C1: mostly(fc.constantFrom('basil', 'Basil', 'pear', 'fíg', '12', 'a longer text')),
  C2: mostly(fc.constantFrom('pear', 'x', 'basil')),
  D1: mostly(fc.constantFrom('TRUE', 'FALSE')),
  F2: mostly(number),
  F3: mostly(number),
  F6: mostly(fc.constantFrom('>2', '<5', '7', '=3')),
};

/** What suits an argument, by what it is called; the second time with whole ranges or other cells. */
function fitting(name: string, argument: string, place: number, second: boolean): string {
  if (/^D[A-Z]/.test(name) && argument === 'list') return 'E1:F4';
  if (/^D[A-Z]/.test(name) && argument === 'criteria') return 'E5:F6';
  if (/^D[A-Z]/.test(name) && argument === 'column') return second ? '2' : '"count"';
  if (/criterion/.test(argument)) return second ? 'A1' : '">2"';
  if (/cells|amounts|known|coefficients|holidays|dates/.test(argument)) return ['A1:A4', 'B1:B4', 'F2:F4'][place % 3] as string;
  if (/text/.test(argument)) return second ? 'C2&C1' : 'C1';
  if (/condition/.test(argument)) return second ? 'D1:D3' : 'A1>A2';
  if (/^(day|date|first day|last day)$/.test(argument)) return second ? 'A5+A1' : 'A6';
  if (/row|column|which|places|type|form|mode|start|length/.test(argument)) return 'A3';
  if (argument === 'value') return second ? 'A1:B4' : place === 1 ? 'B2' : 'A1';
  return second ? (place === 0 ? 'A1+B2' : 'B3') : (['A1', 'B2', 'B3', 'A2'][place % 4] as string);
}

const SOURCES: Readonly<Record<string, readonly string[]>> = {
  NA: ['NA()&A1'],
  PI: ['PI()*A1'],
  TRUE: ['IF(TRUE(),A1,B2)'],
  FALSE: ['IF(FALSE(),A1,B2)'],
  LOOKUP: ['LOOKUP(A1,A2:A5)', 'LOOKUP(4,B1:B4,A1:A4)'],
  VLOOKUP: ['VLOOKUP(C2,E1:F4,2,FALSE())', 'VLOOKUP(A1,A2:B5,2)'],
  HLOOKUP: ['HLOOKUP("count",E1:F4,A3,FALSE())', 'HLOOKUP(C1,E1:F4,2,FALSE())'],
  MATCH: ['MATCH(C2,C1:C4,0)', 'MATCH(A1,A2:A5)', 'MATCH(C1,E1:E4,0)'],
  INDEX: ['INDEX(A1:B4,A3,2)', 'INDEX(A1:A4,A3)', 'INDEX(E1:F1,A3)', 'INDEX(A1:B4,B2,1)'],
  CHOOSE: ['CHOOSE(A3,A1,B2,C1)', 'CHOOSE(B2,"a","b")'],
  ROW: ['ROW(A3)*A1', 'ROW()+A1'],
  COLUMN: ['COLUMN(B2)*A1', 'COLUMN()+B2'],
  ROWS: ['ROWS(A1:A4)*A1', 'ROWS(A1:B3)'],
  COLUMNS: ['COLUMNS(A1:B3)*A1', 'COLUMNS(B2)'],
  IRR: ['IRR(B1:B4)', 'IRR({-10;4;5;6})*A1'],
  MIRR: ['MIRR(A1:A4,0.1,0.12)', 'MIRR({-10;4;5},B2/100,0.1)'],
  XIRR: ['XIRR({-100,40,80},{45000,45100,45200})*A1', 'XIRR(B1:B3,{45000;45100;45200})'],
  XNPV: ['XNPV(0.1,B1:B3,{45000;45100;45200})'],
  DATEVALUE: ['DATEVALUE(C5)+A1', 'DATEVALUE(C1)'],
  TIMEVALUE: ['TIMEVALUE(C4)*A1', 'TIMEVALUE(C2)'],
  VALUE: ['VALUE(A1&"")', 'VALUE(C1)'],
  SUMPRODUCT: ['SUMPRODUCT(A1:A4,B1:B4)', 'SUMPRODUCT((A1:A4>2)*B1:B4)'],
  IFERROR: ['IFERROR(A1/B2,"none")', 'IFERROR(VALUE(C1),A2)'],
  ISBLANK: ['ISBLANK(A1)', 'ISBLANK(C1)'],
  DSTDEV: ['DSTDEV(E1:F4,2,F5:F6)'],
  DVAR: ['DVAR(E1:F4,"count",F5:F6)'],
  FORECAST: ['FORECAST(A1,A1:A4,B1:B4)'],
  PERCENTILE: ['PERCENTILE(A1:A4,0.3)', 'PERCENTILE(B1:B4,A1/20)'],
};

function formulasOf(name: string): readonly string[] {
  const own = SOURCES[name];
  const signature = signatureOf(name);
  if (own || !signature) return own ?? [];
  const once = (second: boolean, all: boolean): string =>
    `${name}(${signature.takes
      .filter((arg) => all || !arg.optional)
      .map((arg, i) => fitting(name, arg.name, i, second))
      .join(',')})`;
  return [...new Set([once(false, false), once(true, false), once(false, true), once(true, true)])];
}

/** What operators do, and names, and ranges where one value is meant. */
const OTHERS = [
  'A1+B2-A2*B3/A3^2',
  '-A1',
  '+C1',
  'A1%',
  'A1%+B2%',
  'A1&C1',
  'C1=C2',
  'A1<>B2',
  'A1>=A2',
  'C1<A1',
  'some+1',
  'SUM(several)',
  'MAX(several,A1)',
  'A1:A1*2',
  '(A1+B2)&""',
  'SUM(A1:A4*B1:B4)',
  'A1-A1',
  '0.1+A1-0.1-A1',
  'IF(D1,A1)',
  'IF(A1,B2,C1)',
  'IF(C1,1,2)',
  '10^A1^A2',
  'MAX(C1,A1)',
  'SUM(A1,C1:D2)',
  'MIN(several)',
  'SUM(A1:A2)+SUM(A1:A3)+SUM(A1:A4)',
];

describe('of the standard', () => {
  const names = [...OFFERED];
  const formulas = [...names.flatMap((name) => formulasOf(name).map((formula) => ({ name, formula }))), ...OTHERS.map((formula) => ({ name: '', formula }))];
  const labels = Array.from({ length: formulas.length }, (_, i) => ({ label: `row ${i + 1}` }));
  const lines = formulas.map(({ formula }, i) => [...(CELLS[i] ?? [null, null, null, null, null, null]), `=${formula}`]);
  const tried = book([table('T', lines, labels)], { some: 'T.A1', several: 'T.A1:B4' });
  const results = formulas.map((_, i) => `T.G${i + 1}`);
  const givens = VARIED.map((cell) => `T.${cell}`);
  let compared: Compared;

  it('a formula gives what the engine gives', () => {
    compared = compare(tried, givens, results, fc.tuple(...VARIED.map((cell) => VALUES[cell])), 4_021);
  });

  it.each(names)('%s is tried on what it takes', (name) => {
    const own = results.filter((_, i) => formulas[i]?.name === name);
    expect(own.length).toBeGreaterThan(0);
    if (name !== 'NA') expect(own.some((address) => (compared.worked.get(address) ?? 0) > 0)).toBe(true);
  });
});

const unitOf = (unit: string): string => (['1', 'any', 'mixed', 'text', 'yes or no'].includes(unit) ? '' : unit.replace('money', 'EUR'));

/** A table in which the arguments of an example stand in cells of their own: the formula in A1, single values beside it, ranges beneath. */
function tableOf(name: string, record: (typeof functions)[number]): { readonly table: Book['tables'][number]; readonly varied: readonly string[] } {
  const args = argumentsOf((record.examples[0] as { readonly formula: string }).formula);
  const lines: (string | null)[][] = [[]];
  const varied: string[] = [];
  const put = (row: number, col: number, value: unknown, unit: string): void => {
    while (lines.length <= row) lines.push([]);
    const line = lines[row] as (string | null)[];
    while (line.length <= col) line.push(null);
    if (value === null || value === undefined) return;
    const text = typeof value === 'number' ? `${value} ${unitOf(unit)}`.trim() : typeof value === 'boolean' ? String(value).toUpperCase() : `'${String(value)}`;
    line[col] = text;
    if (row < 5) varied.push(`${String.fromCharCode(65 + col)}${row + 1}`);
  };
  let next = 1;
  const written = args.map((arg, i) => {
    const param = record.params[i] ?? record.params.at(-1);
    if (arg === undefined) return '';
    if (!Array.isArray(arg)) {
      put(0, next, arg, param?.unit ?? '1');
      return `${String.fromCharCode(65 + next++)}1`;
    }
    const rows = arg as readonly (readonly unknown[])[];
    const first = next;
    next += rows[0]?.length ?? 1;
    for (const [r, row] of rows.entries()) {
      for (const [c, value] of row.entries()) {
        // The reader of examples gives what stands in a column with a unit in base units.
        const column = unit(unitOf(param?.columns?.[c] ?? ''));
        put(r + 2, first + c, typeof value === 'number' && column ? fromBase(value, column) : value, param?.columns?.[c] ?? param?.unit ?? '1');
      }
    }
    return `${String.fromCharCode(65 + first)}3:${String.fromCharCode(64 + next)}${rows.length + 2}`;
  });
  const line = lines[0] as (string | null)[];
  while (line.length === 0) line.push(null);
  line[0] = `=${record.name}(${written.join(',')})`;
  const labels = lines.map((_, i) => ({ label: `row ${i + 1}` }));
  return { table: table(name, lines, labels), varied };
}

/** Around what stands there; now and then nothing at all, or something else of the same kind. */
function around(content: string): fc.Arbitrary<string> {
  const found = /^(-?[\d.]+(?:e[-+]?\d+)?)(.*)$/.exec(content);
  const [, written = '', unit = ''] = found ?? [];
  const strange = fc.constantFrom('', "'unknown", ...(found ? ['0', `-4${unit}`, `1e7${unit}`] : []));
  const whole = unit === '' && /^\d+$/.test(written);
  const scaled = fc
    .double({ min: 0.6, max: 1.5, noNaN: true })
    .map((factor) => `${whole ? Math.round(Number(written) * factor) : Number((Number(written) * factor).toPrecision(6))}${unit}`);
  return fc.oneof(
    { weight: 20, arbitrary: fc.constant(content) },
    { weight: found ? 20 : 0, arbitrary: found ? scaled : fc.constant(content) },
    { weight: 1, arbitrary: strange },
  );
}

/** The unit of an argument must be written out in the formula, so that the kind of what comes of it is known. */
const WRITTEN: Readonly<Record<string, readonly [formula: string, given: string]>> = {
  UNIT: ['=UNIT(B1,"ft")', '3'],
  'NUMBER.IN': ['=NUMBER.IN(B1,"ft")', '3 m'],
  SHOW: ['=SHOW(B1,"m",1)', '3 m'],
  CONVERT: ['=CONVERT(B1,"ft","m")', '3'],
};

describe('of ours', () => {
  const made = functions.map((record, i) => {
    const own = WRITTEN[record.name];
    return own ? { table: table(`fn_${i}`, [[...own]], [{ label: 'row' }]), varied: ['B1'] } : tableOf(`fn_${i}`, record);
  });
  const cells = made.flatMap(({ table: { name, cells: own }, varied }) =>
    varied.map((cell) => ({ address: `${name}.${cell}`, content: own[`r${cell.slice(1)}`]?.[`c${cell.charCodeAt(0) - 64}`]?.content ?? '' })),
  );
  let compared: Compared;

  it('a formula gives what the engine gives', () => {
    compared = compare(
      book(made.map((one) => one.table)),
      cells.map(({ address }) => address),
      made.map((one) => `${one.table.name}.A1`),
      fc.tuple(...cells.map(({ content }) => around(content))) as fc.Arbitrary<string[]>,
      7_001,
    );
  });

  it.each(functions.map((record, i) => [record.name, i] as const))('%s is tried on what it takes', (_, i) => {
    expect(compared.worked.get(`fn_${i}.A1`) ?? 0).toBeGreaterThan(0);
  });
});
