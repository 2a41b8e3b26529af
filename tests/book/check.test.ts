import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Book, CURRENT_VERSION } from '../../src/book/book.ts';
import { checkBook } from '../../src/book/check.ts';
import { MIGRATIONS, migrate } from '../../src/book/migrate.ts';
import { sample } from './sample.ts';

// biome-ignore lint/suspicious/noExplicitAny: what comes from a file may be anything, and these tests make it so.
type Loose = Record<string, any>;

/** The sample with one thing changed, as it would come from a file. */
function changed(change: (book: Loose) => void): unknown {
  const book = JSON.parse(JSON.stringify(sample)) as Loose;
  change(book);
  return book;
}

function problems(change: (book: Loose) => void): readonly string[] {
  const checked = checkBook(changed(change));
  return checked.ok ? [] : checked.problems;
}

describe('the check of a book', () => {
  it('passes a sound book as it stands', () => {
    expect(checkBook(sample)).toEqual({ ok: true, book: sample });
  });

  it('says in a sentence where something of the wrong kind stands, what it must be and what it is', () => {
    expect(problems((b) => (b.title = 7))).toEqual(['Title must be text, but is 7.']);
    expect(problems((b) => delete b.currency)).toEqual(['Currency is missing.']);
    expect(problems((b) => (b.tables[1].rows[2].label = 5))).toEqual(['Table “Scenarios”, row 3: label must be text, but is 5.']);
    expect(problems((b) => (b.tables[0].cells.r1.c1.content = null))).toEqual(['Table “Brief”, cells, r1, c1: content must be text, but is null.']);
    expect(problems((b) => (b.tables[1].form = 'cube'))).toEqual(['Table “Scenarios”: form must be brief, scenarios, list, plain, but is “cube”.']);
    expect(problems((b) => (b.currency = 'euros'))).toEqual(['Currency must be a code of three letters, such as EUR.']);
    expect(problems((b) => (b.pages[0].blocks[0].kind = 'film'))).toEqual(['Page “Brief”, block 1: kind must be prose, table, picture, but is “film”.']);
  });

  it('takes nothing that a book does not have, so that nothing is lost in silence', () => {
    expect(problems((b) => (b.tables[0].rows[0].colour = 'red'))).toEqual(['Table “Brief”, row 1: colour is a field that a book does not have.']);
  });

  it('finds ids and names that stand twice, and what points nowhere', () => {
    expect(problems((b) => (b.tables[2].id = 'brief'))).toContain('Two of the tables have the same id: brief.');
    expect(problems((b) => (b.tables[0].rows[1].id = 'r1'))).toContain('Two of the rows of “Brief” have the same id: r1.');
    expect(problems((b) => (b.tables[2].name = 'BRIEF'))).toContain('Two tables are called “BRIEF”.');
    expect(problems((b) => (b.names.Bench_Length = 'Brief.A2'))).toEqual(['Two names differ in capitals only: “Bench_Length”.']);
    expect(problems((b) => (b.names.width = 'Gone.A2'))).toEqual(['The name “width” stands for “Gone.A2”, which is not a place in the book.']);
    expect(problems((b) => (b.pages[0].blocks[1].table = 'gone'))).toEqual(['A page shows the table gone, which is not in the book.']);
    expect(problems((b) => (b.tables[0].cells.r9 = { c1: { content: '1' } }))).toEqual(['Table “Brief” has cells in a row (r9) that is not there.']);
    expect(problems((b) => (b.tables[1].base = 'z'))).toEqual(['Table “Scenarios” is compared with a column that it does not have.']);
  });

  it('refuses names that formulas or objects would trip over', () => {
    for (const name of ['', ' Brief', 'a!b', "'a", 'A1', '__proto__', 'constructor', 'a"b', 'x'.repeat(61)]) {
      expect(problems((b) => (b.tables[2].name = name)).length, name).toBeGreaterThan(0);
    }
    for (const name of ['A1', 'm', 'TRUE', 'constructor', 'a b', '1x']) expect(problems((b) => (b.names[name] = 'Brief.A1')).length, name).toBeGreaterThan(0);
    const sneaky = JSON.parse(JSON.stringify(sample).replace('"c1":{"content":"3.6 m"', '"__proto__":{"content":"3.6 m"')) as unknown;
    expect(checkBook(sneaky).ok).toBe(false);
  });

  it('judges depth and size before anything that recurses sees them', () => {
    let deep: unknown = 'x';
    for (let i = 0; i < 200_000; i++) deep = [deep];
    expect(checkBook({ format: deep })).toEqual({ ok: false, problems: ['It is nested more than 20 deep, which no book is.'] });
    expect(checkBook(changed((b) => (b.pages = deep)))).toEqual({ ok: false, problems: ['It is nested more than 20 deep, which no book is.'] });
  });

  it('holds to the bounds of rows, columns, formulas and text', () => {
    expect(problems((b) => (b.tables[0].rows = Array.from({ length: 20_001 }, (_, i) => ({ id: `r${i}` }))))).toContain(
      'Table “Brief”: rows must be at most 20,000.',
    );
    expect(problems((b) => (b.tables[0].columns = Array.from({ length: 101 }, (_, i) => ({ id: `c${i}` }))))).toContain(
      'Table “Brief”: columns must be at most 100.',
    );
    expect(problems((b) => (b.tables[0].cells.r1.c1.content = 'x'.repeat(32_001)))).toEqual([
      'Table “Brief”, cells, r1, c1: content must have at most 32,000 characters.',
    ]);
    expect(problems((b) => (b.tables[0].cells.r1.c1.content = `=${'1+'.repeat(1000)}1`))).toEqual([
      'Table “Brief” has a formula of 2,002 characters; at most 2,000 are allowed.',
    ]);
    const many = problems((b) => {
      b.tables[0].columns = Array.from({ length: 100 }, (_, i) => ({ id: `c${i}` }));
      b.tables[0].rows = Array.from({ length: 4001 }, (_, i) => ({ id: `r${i}` }));
      const line = Object.fromEntries(Array.from({ length: 100 }, (_, i) => [`c${i}`, { content: '=1' }]));
      b.tables[0].cells = Object.fromEntries(Array.from({ length: 4001 }, (_, i) => [`r${i}`, line]));
    });
    expect(many.join(' ')).toMatch(
      /^The book has 400,1\d\d filled cells; at most 400,000 are allowed\. The book has 400,1\d\d formulas; at most 120,000 are allowed\.$/,
    );
  });

  it('passes no random piece of data, and never throws', () => {
    for (const value of [
      null,
      undefined,
      7,
      'x',
      [],
      {},
      [sample],
      { ...sample, version: 1.5 },
      { ...sample, tables: [null] },
      { ...sample, names: [] },
      new Date(),
    ]) {
      const checked = checkBook(value);
      expect(checked.ok).toBe(false);
      for (const problem of checked.ok ? [] : checked.problems) expect(problem).toMatch(/^[A-Z].+\.$/);
    }
  });
});

describe('books of older versions', () => {
  it('of every version there has been still open', () => {
    const files = readdirSync(new URL('old/', import.meta.url));
    expect(files.length).toBe(CURRENT_VERSION);
    for (const file of files) {
      const migrated = migrate(JSON.parse(readFileSync(new URL(`old/${file}`, import.meta.url), 'utf8')));
      const checked = migrated.ok ? checkBook(migrated.book) : undefined;
      expect(checked?.ok ? [] : checked?.problems, file).toEqual([]);
      expect(migrated.ok && (migrated.book as unknown as Book).version).toBe(CURRENT_VERSION);
    }
  });

  it('go through one migration for each version since', () => {
    expect(MIGRATIONS.length).toBe(CURRENT_VERSION - 1);
    const steps = [(b: object) => ({ ...b, two: true }), (b: object) => ({ ...b, three: true })];
    expect(migrate({ version: 1 }, steps, 3)).toEqual({ ok: true, book: { version: 3, two: true, three: true }, said: [] });
    expect(migrate({ version: 2 }, steps, 3)).toEqual({ ok: true, book: { version: 3, three: true }, said: [] });
  });

  it('from before editions count as the first one of the template that their purpose, title or id names', () => {
    const origin = (stored: object): unknown => {
      const migrated = migrate({ version: 2, ...stored });
      return migrated.ok ? migrated.book.template : migrated;
    };
    const purpose = 'Which lights, how many and how high over one bench, on which supplies, and at what cost: up to five ways side by side.';
    expect(origin({ id: 'trade-bench' })).toEqual({ slug: 'trade-bench', edition: 1 });
    expect(origin({ id: '7b1f', title: 'Bench by the door', purpose })).toEqual({ slug: 'trade-bench', edition: 1 });
    expect(origin({ id: '7b1f', title: 'Single shelf' })).toEqual({ slug: 'single-shelf', edition: 1 });
    expect(origin({ id: '7b1f', title: 'Something else' })).toBeUndefined();
    expect(origin({ id: 'constructor', title: 'toString' })).toBeUndefined();
  });

  it('and newer ones are told apart from what says no version', () => {
    expect(migrate({ version: CURRENT_VERSION + 1 })).toMatchObject({ ok: false, newer: true });
    for (const version of [undefined, '1', 0, 1.5]) expect(migrate({ version })).toMatchObject({ ok: false, newer: false });
  });
});
