import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Desk, desk, overbench } from './run.ts';

let at: Desk;
beforeEach(async () => {
  at = desk();
  // A project of someone's own, which has the package installed.
  mkdirSync(at.path('node_modules'));
  symlinkSync(resolve('.'), at.path('node_modules/overbench'));
  writeFileSync(at.path('package.json'), '{ "type": "module" }');
  await overbench(['new', 'trade-bench', '-o', at.path('club.json')]);
});
afterEach(() => at.clear());

/** Runs a module that prints JSON. */
function run(source: string): unknown {
  writeFileSync(at.path('main.js'), source);
  const { stdout, stderr } = spawnSync(process.execPath, ['main.js'], { cwd: at.path('.'), encoding: 'utf8' });
  expect(stderr).toBe('');
  return JSON.parse(stdout);
}

describe('the package', () => {
  it('evaluates a formula', async () => {
    // 200 µmol/m²/s over 16 h is 200 · 16 · 3600 / 10⁶ = 11.52 mol/m²/d.
    expect(run(`import { evaluate } from 'overbench'; console.log(JSON.stringify([await evaluate('=DLI(200,16)'), await evaluate('=1/0')]));`)).toEqual([
      { kind: 'number', value: 11.52, unit: 'mol/m²/d' },
      { kind: 'error', word: expect.any(String), message: expect.any(String) },
    ]);
  });

  it('opens a book, sets givens as if they were typed, and gives values, CSV, working and the book file', async () => {
    const told = run(`
      import { readFileSync } from 'node:fs';
      import { openBook } from 'overbench';
      const book = await openBook(readFileSync('club.json', 'utf8'));
      const set = [await book.set('bench_length', '12 ft'), await book.set('Brief.A2', 1.2), await book.set('bench_length', '900 m')];
      const area = book.value('area');
      const { row, kind, from } = await book.working('area');
      const wide = book.csv('wide', ['Brief']);
      const again = await openBook(JSON.parse(book.json()));
      console.log(JSON.stringify({ title: book.title, set, area, working: { row, kind, from: from.map((one) => one.value) }, wide, again: again.value('area') }));
      book.close();
      again.close();
    `) as Record<string, never>;
    const area = { kind: 'number', value: expect.closeTo(12 * 0.3048 * 1.2, 12), unit: 'm²' };
    expect(told.set).toEqual([{ ok: true, said: '12 ft is 3.6576 m' }, { ok: true }, { ok: false, message: expect.stringContaining('Bench length') }]);
    expect(told.area).toEqual(area);
    expect(told.again).toEqual(area);
    expect(told.working).toEqual({
      row: 'Area',
      kind: 'worked',
      from: [
        { kind: 'number', value: 12, unit: 'ft' },
        { kind: 'number', value: 1.2, unit: 'm' },
      ],
    });
    expect(told.wide).toMatch(/^Brief,/);
  });

  it('works a book out for one row of values after another, as if each were typed, and leaves it as it is', () => {
    const told = run(`
      import { readFileSync } from 'node:fs';
      import { openBook } from 'overbench';
      const book = await openBook(readFileSync('club.json', 'utf8'));
      const rows = [[4.5, 0.9], [3, 0.25], ['12 ft', '30 cm']];
      const swept = await book.sweep(['bench_length', 'Scenarios.A7'], rows, ['area', 'Scenarios.A75', 'Scenarios.A12']);
      const before = book.value('area').value;
      const typed = [];
      for (const [length, height] of rows) {
        await book.set('bench_length', length);
        await book.set('Scenarios.A7', height);
        typed.push([book.value('area').value, book.value('Scenarios.A75'), book.value('Scenarios.A12')]);
      }
      const said = await book.sweep(['bench_length'], [['900 m']], ['area']).catch((error) => error.message);
      console.log(JSON.stringify({ swept: swept.map(([area, ...more]) => [area.value, ...more]), typed, before, said }));
      book.close();
    `) as Record<string, readonly unknown[]>;
    expect(told.before).toBeCloseTo(3.6 * 1.5, 12);
    expect(told.swept).toEqual(told.typed);
    expect(told.swept).toHaveLength(3);
    expect(told.said).toContain('Bench length');
  });

  it('works a cell back by several givens, in plain values, and leaves the book as it is', () => {
    const told = run(`
      import { readFileSync } from 'node:fs';
      import { openBook } from 'overbench';
      const book = await openBook(readFileSync('club.json', 'utf8'));
      const before = book.json();
      const [tariff, few] = await book.back('Scenarios.A50', '300 EUR/year', ['tariff', 'Scenarios.A2']);
      const [count] = await book.back('Scenarios.A50', 1000, ['Scenarios.A2']);
      const energy = book.value('Scenarios.A49').value;
      const same = book.json() === before;
      await book.set('tariff', tariff.ways[0].exact.content);
      console.log(JSON.stringify({ tariff, few, count, energy, same, then: book.value('Scenarios.A50') }));
      book.close();
    `) as {
      readonly tariff: { readonly ways: readonly [{ readonly exact: { readonly value: { readonly value: number } } }] };
      readonly few: object;
      readonly count: object;
      readonly energy: number;
      readonly same: boolean;
      readonly then: { readonly value: number };
    };
    expect(told.same).toBe(true);
    expect(told.tariff).toMatchObject({ ok: true, given: 'Prices.A1', moves: 'freely', searched: { from: { value: 0 }, to: { value: 10, unit: 'EUR/kWh' } } });
    expect(told.tariff.ways[0].exact.value.value).toBeCloseTo(300 / told.energy, 12);
    expect(told.then.value).toBeCloseTo(300, 9);
    expect(told.count).toMatchObject({ ok: true, moves: 'by whole numbers', ways: [{ kind: 'step', from: { content: '2' }, to: { content: '3' } }] });
    // One row of six lights costs more than that already, and a fourth has no room along the bench.
    expect(told.few).toMatchObject({ ok: true, ways: [], lowest: { content: '1' }, highest: { content: '3' } });
  });

  it('proposes lights for a book, which stays as it is', async () => {
    const told = run(`
      import { readFileSync } from 'node:fs';
      import { openBook } from 'overbench';
      const book = await openBook(readFileSync('club.json', 'utf8'));
      const before = book.json();
      const found = await book.propose({ fixtures: ['Rail 90'], turned: 'no', along: { low: 2, high: 3 }, across: { low: 2, high: 4 }, heights: { step: 0.1 }, all: true });
      const said = await book.propose({ fixtures: ['Lamp'] }).catch((error) => error.message);
      const [{ aim, layout, cells, values, why }] = found.proposals;
      console.log(JSON.stringify({ aims: found.proposals.map((one) => one.aim), aim, layout, cells, annual: values.annual, why, hold: [found.counts.hold, found.all.length], same: book.json() === before, said }));
      book.close();`) as {
      aims: string[];
      layout: Record<string, unknown>;
      cells: Record<string, string>;
      annual: unknown;
      why: string;
      hold: number[];
      same: boolean;
      said: string;
    };
    expect(told.aims).toEqual(['cheapest', 'most even', 'fewest lights']);
    expect(told.layout).toMatchObject({ fixture: 'Rail 90', turned: false });
    expect(told.layout).not.toHaveProperty('place');
    expect(told.annual).toEqual({ kind: 'number', value: expect.closeTo(Number(told.layout.annual), 6), unit: 'EUR/year' });
    expect(told.cells).toMatchObject({ fixture: 'Rail 90', turned: 'FALSE' });
    expect(told.why).toMatch(/^Cheapest by the year of/);
    expect(told.hold[0]).toBe(told.hold[1]);
    expect(told.same).toBe(true);
    expect(told.said).toBe('Fixture, A: “Lamp” is not one of the choices.');
  });

  it('takes an address in other writings too, and says what a book of an earlier version calls otherwise now', () => {
    const old = resolve('tests/book/places-3.json');
    expect(
      run(`
      import { readFileSync } from 'node:fs';
      import { openBook } from 'overbench';
      const book = await openBook(readFileSync(${JSON.stringify(old)}, 'utf8'));
      console.log(JSON.stringify([...["Scenarios.A3", "Scenarios!A3", "[Scenarios.A3]"].map((cell) => book.value(cell).value), book.value("2024!A2").value, book.names.rail_v24_2, book.said.length]));
      book.close();`),
    ).toEqual([9, 9, 9, 32, 'rail_v12.$A$2', 4]);
  });

  it('throws an error in words for what is no book and for a cell that is not there', async () => {
    expect(
      run(`
      import { readFileSync } from 'node:fs';
      import { openBook } from 'overbench';
      const message = async (act) => { try { await act(); } catch (error) { return error.message; } };
      const book = await openBook(readFileSync('club.json', 'utf8'));
      console.log(JSON.stringify([await message(() => openBook('{}')), await message(() => openBook('')), await message(() => book.value('Nowhere.A1'))]));
      book.close();`),
    ).toEqual([expect.stringMatching(/not a book that Overbench has made/), 'The file is empty.', 'There is no cell Nowhere.A1 in this book.']);
  });

  it('ships types with which a strict program compiles, and one that misuses it does not', async () => {
    const compile = (source: string): string => {
      writeFileSync(at.path('main.ts'), source);
      const options = ['--noEmit', '--strict', '--target', 'es2022', '--module', 'nodenext', '--exactOptionalPropertyTypes', '--types', ''];
      return spawnSync(process.execPath, [resolve('node_modules/typescript/bin/tsc'), ...options, 'main.ts'], { cwd: at.path('.'), encoding: 'utf8' }).stdout;
    };
    const use = `import { evaluate, openBook, type OpenBook, type Value } from 'overbench';
      const book: OpenBook = await openBook({});
      const value: Value = book.value('area');
      export const text: string = value.kind === 'number' ? value.value.toFixed(2) + value.unit : value.kind === 'error' ? value.message : value.kind;
      export const all: Value[] = [await evaluate('=1'), ...Object.values(book.values())];\n`;
    expect(compile(use)).toBe('');
    expect(compile(`${use}book.values().x.base;`)).toMatch(/error TS2339/);
    expect(readFileSync('dist/index.d.ts', 'utf8')).toBe(readFileSync('src/overbench.d.ts', 'utf8'));
  });
});
