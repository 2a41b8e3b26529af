/** The calculator has a writing of its own for places: what the book writes must mean the same to it, and what it writes back must be the book's. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PlacesAnew } from '../../src/book/migrate-places.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { Hyper } from '../../src/engine/hyper.ts';
import { spot, tableName } from '../book/writings.ts';
import { runs } from '../cases.ts';
import { book, table } from './helpers.ts';

const AT = { sheet: 0, row: 2, col: 3 };
const quoted = (name: string): string => `'${name.replaceAll("'", "''")}'`;
/** The tree as plain data, without what it keeps of the writing: how often a range said its table, and the text of a range that is refused. */
const plain = (tree: unknown): string => JSON.stringify(tree, (key, value) => (key === 'sheetReferenceType' || key === 'rawInput' ? undefined : value));
const columns = (n: number): string => (n < 26 ? '' : String.fromCharCode(64 + Math.floor(n / 26))) + String.fromCharCode(65 + (n % 26));

/** A formula as version 3 wrote it, of a table called so: the calculator's own writing. */
const oldFormula = (name: string): fc.Arbitrary<string> => {
  const place = /^[A-Za-z_]\w*$/.test(name) ? fc.constantFrom(name, quoted(name)) : fc.constant(quoted(name));
  const cell = fc.tuple(spot, fc.constantFrom('', '$'), fc.constantFrom('', '$')).map(([{ column, row }, a, b]) => `${a}${columns(column)}${b}${row + 1}`);
  const reference = fc.oneof(
    cell,
    fc.tuple(place, cell).map(([t, c]) => `${t}!${c}`),
    fc.tuple(cell, cell).map(([a, b]) => `SUM(${a}:${b})`),
    fc.tuple(place, cell, cell).map(([t, a, b]) => `SUM(${t}!${a}:${b})`),
    fc.tuple(place, place, cell, cell).map(([t, u, a, b]) => `MAX(${t}!${a}:${u}!${b},1)`),
    fc.constantFrom('rail.v24', 'bench.low', '2024.5', '1e5', '"T!A1 T.A1"', 'UNIT(6,"in")', 'LOG10(2)', 'BENCH.MEAN(1)', '#REF!', '{1,2;3,4}'),
  );
  return fc
    .array(fc.tuple(reference, fc.constantFrom('+', '*', '&', '-', '<')), { minLength: 1, maxLength: 5 })
    .map((parts) => `=${parts.map(([text, sign], i) => (i === 0 ? text : sign + text)).join('')}`);
};

describe('a formula of version 3 and what it is rewritten to', () => {
  const fresh = (name: string): Hyper => {
    const hyper = new Hyper(['Here', name], { state: () => ({ word: '', message: '' }) });
    for (const known of ['rail.v24', 'rail_v24', 'bench.low']) hyper.name(known, 'Here', { start: { col: 0, row: 0 }, end: { col: 0, row: 0 } });
    return hyper;
  };

  it('have one tree: any formula, of any table', () => {
    let parsed = 0;
    fc.assert(
      fc.property(
        tableName.chain((name) => fc.tuple(fc.constant(name), oldFormula(name))),
        ([name, old]) => {
          const hyper = fresh(name);
          const anew = new PlacesAnew({ tables: [{ name: 'Here' }, { name }], names: { 'rail.v24': 'Here!A1' } }).change({
            label: '',
            edits: [{ at: 'cell', table: 't', row: 'r', column: 'c', before: null, after: { content: old } }],
          }).edits[0] as { readonly after: { readonly content: string } };
          const now = anew.after.content;
          const [then, made] = [
            hyper.parse(
              old.replaceAll(/"[^"]*"|rail\.v24/g, (found) => (found === 'rail.v24' ? 'rail_v24' : found)),
              AT,
            ),
            hyper.parse(now, AT),
          ];
          expect(then.errors, old).toEqual([]);
          parsed++;
          // The one name that would read as a place now has another, and nothing else differs.
          expect(JSON.parse(plain(made.ast)), `${old} → ${now}`).toEqual(JSON.parse(plain(then.ast)));
          expect(now.replaceAll(/"[^"]*"|#REF!/g, '')).not.toContain('!');
          hyper.dispose();
        },
      ),
      runs(400, 1802),
    );
    expect(parsed).toBeGreaterThan(30);
  });

  it('have one tree: each formula of a template as it was kept', () => {
    const stored = JSON.parse(readFileSync(new URL('../templates/old/trade-bench.1.json', import.meta.url), 'utf8')) as {
      readonly tables: readonly { readonly name: string; readonly cells: Readonly<Record<string, Readonly<Record<string, { readonly content: string }>>>> }[];
    };
    const hyper = new Hyper(
      stored.tables.map(({ name }) => name),
      { state: () => ({ word: '', message: '' }) },
    );
    const rewritten = (new PlacesAnew(stored).book(stored) as typeof stored).tables;
    let formulas = 0;
    for (const [sheet, { cells }] of stored.tables.entries()) {
      for (const [row, line] of Object.entries(cells)) {
        for (const [column, { content }] of Object.entries(line)) {
          if (!content.startsWith('=')) continue;
          const now = rewritten[sheet]?.cells[row]?.[column]?.content ?? '';
          formulas++;
          expect(JSON.stringify(hyper.parse(now, { ...AT, sheet }).ast), content).toBe(JSON.stringify(hyper.parse(content, { ...AT, sheet }).ast));
        }
      }
    }
    expect(formulas).toBeGreaterThan(250);
    hyper.dispose();
  });
});

describe('what the calculator is given and gives back', () => {
  it('is the same place: any cell of any table, read by a formula, by a name, and said when it has gone wrong', async () => {
    await fc.assert(
      fc.asyncProperty(tableName, async (name) => {
        const engine = createEngine();
        const where = `${/^[A-Za-z_\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u02AF][\w\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u02AF]*$/.test(name) ? name : quoted(name)}.`;
        const home = table('Home', [[`=${where}B2*2`, '=there', `=SUM(${where}$A$1:B2)`, `=${where}A2+1`, `=${where}Z9`]]);
        const values = await engine.load(
          book(
            [
              { ...home, id: 'home' },
              {
                ...table('T', [
                  ['1', '2'],
                  ['=1/0', '4'],
                ]),
                id: 'other',
                name,
              },
            ],
            { there: `${where}$B$2` },
          ),
        );
        if (name.toLowerCase() === 'home') return;
        expect([values['Home.A1'], values['Home.B1']]).toMatchObject([{ base: 8 }, { base: 4 }]);
        expect(values['Home.C1']).toMatchObject({ kind: 'error', from: `${where}A2` });
        expect(values['Home.D1']).toMatchObject({ word: 'divides by zero', from: `${where}A2` });
        expect(values['Home.E1']).toMatchObject({ message: expect.stringContaining(`There is no cell ${where}Z9`) });
        const node = await engine.trace('Home.A1');
        expect([node.formula, node.from[0]?.address]).toEqual([`=${where}B2*2`, `${where}B2`]);
        expect(JSON.stringify(values)).not.toMatch(/[A-Za-z0-9']!\$?[A-Z]+\$?\d/);
        engine.close();
      }),
      runs(200, 1803),
    );
  });

  it('says a table that is not there, a whole column and a range over two tables in the writing of the book', async () => {
    const engine = createEngine();
    await engine.load(book([table('T', [['1']]), table('U', [['2']])]));
    for (const [typed, message] of [
      ['=Nowhere!A1', 'Nowhere.A1: there is no table Nowhere in this book.'],
      ['=[Nowhere.A1:.B2]', 'Nowhere.A1:B2: there is no table Nowhere in this book.'],
      ['=2024!A1', "'2024'.A1: there is no table 2024 in this book."],
      ['=SUM(U!A:A)', 'A whole row or column can not be read: say from which cell to which, such as A1:A20.'],
      ['=SUM(U!A1:T!A1)', 'A range lies in one table: both its corners must.'],
      ['=U!A1 T!A1', 'This formula can not be read at “T.A1”.'],
    ] as const)
      expect(await engine.read('T.A1', typed), typed).toEqual({ ok: false, message });
    expect(await engine.read('T.A1', '=[U.A1]*2+SUM([.A1];U!A1)')).toMatchObject({ ok: true, content: '=U.A1*2+SUM(A1,U.A1)' });
    expect(await engine.read('T.A1', '=MAX(0,5;1)')).toEqual({ ok: false, message: 'The arguments of a function are separated by commas.' });
    engine.close();
  });

  it.each([
    ['=A1!B1', 'an intersection'],
    ['=SUM(A1~B1)', 'a union'],
    ['=$$rate', 'a name with its marks'],
    ["='Height'!!'Bench'", 'the crossing of two headings'],
    ["=['file:///b.ods'#T.A1]", 'a cell of another file'],
    ['=SUM([T.A1:U.B2])', 'a range over two tables'],
    ['=SUM([.A:.A])', 'a whole column'],
    ['=SUM({1;2|3;4})', 'a list with its own marks'],
    ['=#N/A', 'an error'],
    ['=5%%', 'a second sign of per cent'],
  ])('%s is refused aloud: %s of OpenFormula, which is not read here', async (typed) => {
    const engine = createEngine();
    await engine.load(book([table('T', [['1', '2']]), table('U', [['2']])]));
    expect(await engine.read('T.B1', typed)).toMatchObject({ ok: false, message: expect.stringMatching(/^[A-Z].{10,}\.$/) });
    engine.close();
  });
});
