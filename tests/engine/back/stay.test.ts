/** A given that is made to follow what is wanted: the formula, put in, gives it, and goes on giving it when something else changes. */
import { describe, expect, it } from 'vitest';
import { createEngine } from '../../../src/engine/engine.ts';
import type { Stay } from '../../../src/engine/types.ts';
import { book, put, table } from '../helpers.ts';
import { askBack, baseOf } from './ask.ts';

type Rows = Parameters<typeof table>[1];
type About = Parameters<typeof table>[2];

async function stayOf(rows: Rows, about: About, cell: string, wanted: string): Promise<Stay> {
  const worked = await askBack(rows, { cell, wanted, given: 'T.A1' }, about);
  if (!worked.ok || !worked.stay) throw new Error(JSON.stringify(worked));
  return worked.stay;
}

/** What a cell of the book comes to with the formula in A1, as it was and with other contents in some cells. */
async function then(rows: Rows, about: About, cell: string, formula: string, changed: Readonly<Record<string, string>>): Promise<readonly number[]> {
  const engine = createEngine();
  await engine.load(book([table('T', rows, about)]));
  const read = await engine.read('T.A1', formula);
  if (!read.ok) throw new Error(read.message);
  let now = put(book([table('T', rows, about)]), 'T', 'r1', 'c1', read.content).book;
  const found = [baseOf((await engine.load(now))[cell])];
  for (const [row, content] of Object.entries(changed)) now = put(now, 'T', row, 'c1', content).book;
  found.push(baseOf((await engine.load(now))[cell]));
  engine.close();
  return found;
}

const METRES = { kind: 'given', unit: 'm', decimals: 2, range: { low: 0.05, high: 10, unit: 'm' } } as const;

describe('a formula that makes it stay', () => {
  it.each([
    ['sums and differences', [['2'], ['7'], ['=A2-(3+A1)']], '1', '=(A2-1)-3', { r2: '9' }],
    ['products and quotients', [['2'], ['7'], ['=A2/(A1*4)']], '0.5', '=(A2/0.5)/4', { r2: '3' }],
    ['several cells on the way', [['2'], ['7'], ['=A1*A2'], ['=-A3+1']], '-13', undefined, { r2: '5' }],
    [
      'functions that go with what they are given',
      [['2 h/d'], ['200 µmol/m²/s'], ['=DLI(A2,A1)']],
      '12 mol/m²/d',
      '=12 mol/m²/d/DLI(A2,1 h/d)*1 h/d',
      { r2: '300 µmol/m²/s' },
    ],
    ['functions that go against it', [['200 V'], ['960 W'], ['=SUPPLY.AMPS(A2,A1)']], '5 A', undefined, { r2: '500 W' }],
    [
      'functions that go with it from another start',
      [['300 EUR'], ['80 EUR/year'], ['=PRESENT.COST(A1,A2,UNIT(5,"%/year"),UNIT(8,"year"))']],
      '1000 EUR',
      undefined,
      { r2: '60 EUR/year' },
    ],
  ] as const)('is made of %s', async (_, rows, wanted, formula, changed) => {
    const about = [{ kind: 'given', range: { low: 0, high: 1000, ...(/[^\d.]/.test(rows[0][0]) && { unit: rows[0][0].replace(/^[\d.]+ /, '') }) } }] as const;
    const cell = `T.A${rows.length}`;
    const engine = createEngine();
    // Written as people write it; stored with its units.
    await engine.load(book([table('T', rows, about)]));
    const stored: string[][] = [];
    for (const [i, [content]] of rows.entries()) {
      const read = await engine.read(`T.A${i + 1}`, content);
      stored.push([read.ok && content.startsWith('=') ? read.content : content]);
    }
    engine.close();
    const stay = await stayOf(stored, about, cell, wanted);
    if ('why' in stay) throw new Error(stay.why);
    expect(stay.exact).toBe(true);
    if (formula !== undefined) expect(stay.formula).toBe(formula);
    const [was, is] = await then(stored, about, cell, stay.formula, changed);
    const amount = baseOf(stay.tried.gives);
    expect(Math.abs((was ?? 0) - amount)).toBeLessThanOrEqual(1e-12 * Math.abs(amount));
    expect(Math.abs((is ?? 0) - amount)).toBeLessThanOrEqual(1e-12 * Math.abs(amount));
  });

  it('looks for the height of a mean over a bench, and follows the light that the fixtures then give', async () => {
    const layout = (ppf: number): string => `=LAYOUT(UNIT(${ppf},"µmol/s"),UNIT(1.2,"m"),UNIT(0.1,"m"),UNIT(120,"°"),2,3,UNIT(3,"m"),UNIT(1.5,"m"))`;
    const rows = [['0.5 m'], [layout(156)], ['=BENCH.MEAN(A2,A1)*0.9']];
    const stay = await stayOf(rows, [METRES], 'T.A3', '150');
    if ('why' in stay) throw new Error(stay.why);
    expect(stay.formula).toBe('=MOUNT.HEIGHT(A2,150 µmol/m²/s/0.9)');
    expect(stay.exact).toBe(true);
    const [was, is] = await then(rows, [METRES], 'T.A3', stay.formula, { r2: layout(200) });
    expect(was).toBeCloseTo(150e-6, 12);
    expect(is).toBeCloseTo(150e-6, 12);
  });

  it.each([
    ['what comes in twice', [['2'], ['=A1*(A1+3)']], '40', /comes into T\.A2 more than once/],
    ['a function that has no inverse here', [['2'], ['=SQRT(A1)']], '3', /SQRT has no inverse here/],
    ['a condition', [['2'], ['=IF(A1>1,A1*2,0)']], '8', /more than once|IF has no inverse/],
  ] as const)('is not put forward for %s, and the reason is said', async (_, rows, wanted, why) => {
    const stay = await stayOf(rows, [{ kind: 'given', range: { low: 0, high: 100 } }], 'T.A2', wanted);
    expect(stay).toEqual({ why: expect.stringMatching(why) });
  });

  it('is not put forward where both of two cells follow from the given; but where one does, it follows the other', async () => {
    const about = [{ kind: 'given', range: { low: 0, high: 100 } }] as const;
    const rows = [['2'], ['=A1*3'], ['=A1+10'], ['48']];
    expect(await stayOf(rows, about, 'T.A2', 'T.A3')).toEqual({ why: 'Both cells follow from it.' });
    expect(await stayOf(rows, about, 'T.A2', 'T.A4')).toMatchObject({ formula: '=T.A4/3', exact: true });
  });
});
