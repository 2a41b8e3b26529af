import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import { type Book, CURRENT_VERSION } from '../../src/book/book.ts';
import { canonicalText } from '../../src/book/canonical.ts';
import type { Change } from '../../src/book/change.ts';
import { checkBook } from '../../src/book/check.ts';
import { type History, redo, undo } from '../../src/book/history.ts';
import { MIGRATIONS, migrate, migrateHistory } from '../../src/book/migrate.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { formatBook, parseBook } from '../../src/files/book/book-file.ts';
import { checksum } from '../../src/files/book/checksum.ts';

type Stored = Readonly<Record<string, unknown>>;

/** The same book twice, both written by hand: as version 3 wrote places, and as version 4 does. */
const read = (file: string): Stored => JSON.parse(readFileSync(new URL(file, import.meta.url), 'utf8')) as Stored;
const three = read('places-3.json');
const four = read('old/version-4.json');
/** Nothing of it is another since. */
const present = { ...four, version: CURRENT_VERSION };

function opened(stored: Stored): { readonly book: Book; readonly said: readonly string[] } {
  const migrated = migrate(stored);
  if (!migrated.ok) throw new Error(migrated.message);
  const checked = checkBook(migrated.book);
  if (!checked.ok) throw new Error(checked.problems.join(' '));
  return { book: checked.book, said: migrated.said };
}

describe('a book of version 3', () => {
  it('becomes what version 4 writes, place by place: formulas, texts, pictures, lists of choices, names and tables', () => {
    expect(opened(three).book).toEqual(present);
  });

  it('says each name that is another from now on, with the reason, once', () => {
    expect(opened(three).said).toEqual([
      'The name rail.v24 is rail_v24_2 now: it reads as cell V24 of a table called rail.',
      'The table rail.v12 is called rail_v12 now: it reads as cell V12 of a table called rail.',
      'The name other.b7 is other_b7 now: it reads as cell B7 of a table called other.',
      'The name old.b2 is old_b2 now: it reads as cell B2 of a table called old.',
    ]);
    const file = parseBook(JSON.stringify(three));
    expect(file.ok && file.said).toHaveLength(4);
    expect(parseBook(JSON.stringify(four))).toEqual({ ok: true, book: present });
  });

  it('has the values that its numbers give by hand, and that its twin has, bit for bit', async () => {
    const values = await createEngine().load(opened(three).book);
    expect(values).toEqual(await createEngine().load(opened(four).book));
    const by = (cell: string): unknown => {
      const value = values[`Scenarios.${cell}`];
      return value?.kind === 'number' ? value.base : value?.kind === 'text' ? value.text : value?.kind === 'error' ? value.word : undefined;
    };
    // 40 cm twice; 40 cm and 60 cm; 1 + 8; 1 + 2 + 4 + 8; 16 + 32; 3 × 64; 128; twice 24 V; 24 + 3; 40 cm by 2 m; 20240 + 100.
    for (const [cell, base] of Object.entries({ A2: 0.8, B2: 1, A3: 9, B3: 15, A4: 48, A5: 192, B5: 128, A6: 48, B6: 27, A7: 0.8, B7: 20_340 }))
      expect(by(cell), cell).toBeCloseTo(base, 12);
    expect([by('A8'), by('B8')]).toEqual(['Scenarios!A1 and rail.v24"1', '=Scenarios!A1']);
    expect(['A9', 'B9', 'A10', 'B10'].map(by)).toEqual(['no such name', 'too large', 'no such cell', 'no such cell']);
  });

  it('is brought on from a broken file too, with its names', () => {
    const cut = JSON.stringify(three).slice(0, -20);
    const found = parseBook(cut);
    expect(found.ok || found.rescued?.names).toEqual(four.names);
    expect(found.ok || found.message).toContain('The name rail.v24 is rail_v24_2 now');
  });

  it('has the checksum of the writing that it was saved in', () => {
    const saved = (checked: string) => parseBook(JSON.stringify({ ...three, checksum: checked }));
    expect(saved(checksum(canonicalText(three)))).toMatchObject({ ok: true, book: present });
    expect(saved(checksum(canonicalText(four)))).toMatchObject({ ok: false, problem: 'altered' });
  });

  it('hands on what is not as it should be, so that the check can say it', () => {
    for (const odd of [
      { tables: 7 },
      { tables: [null, { name: 3, cells: [1], rows: 'x' }] },
      { names: [] },
      { pages: [{ blocks: [{ kind: 'picture', reads: 5 }] }] },
    ])
      expect(migrate({ version: 3, ...odd }, MIGRATIONS, 4)).toEqual({ ok: true, book: { version: 4, ...odd }, said: [] });
    const sneaky = JSON.parse('{"version":3,"tables":[{"name":"T","cells":{"__proto__":{"c":{"content":"=T!A1"}}}}]}') as Stored;
    const migrated = migrate(sneaky);
    expect(JSON.stringify(migrated.ok && migrated.book)).toContain('"__proto__":{"c":{"content":"=T.A1"}}');
  });
});

describe('a book of version 4', () => {
  it('stays as it is when it is opened and written again, and so does every part of it', () => {
    const migrated = migrate(four, MIGRATIONS, 4);
    expect(migrated.ok && migrated.book).toBe(four);
    const again = parseBook(formatBook(opened(four).book));
    expect(again.ok && again.book).toEqual(present);
  });
});

describe('changes that were kept with a book of version 3', () => {
  const cell = (content: string) => ({ content });
  const change = (edits: Change['edits'], label = 'x'): Change => ({ label, edits });
  const history: History = {
    done: [
      change([
        { at: 'cell', table: 'scenarios', row: 'r2', column: 'b', before: cell("='Light map'!A1+rail.v24"), after: cell('=SUM(Scenarios!A1:Scenarios!B1)') },
      ]),
      change([{ at: 'name', name: 'rail.v24', before: "'rail.v12'!$A$1", after: "'rail.v12'!$A$2" }]),
      change([{ at: 'table fields', table: 'rail', before: { name: 'rail' }, after: { name: 'rail.v12' } }]),
    ],
    undone: [
      change([
        { at: 'row', table: 'scenarios', index: 0, before: { id: 'h', range: { from: 'Lists!A2:A3' } }, after: { id: 'h', range: { from: 'Lists!A1' } } },
        { at: 'block', page: 'p1', index: 2, before: null, after: { id: 'b9', kind: 'prose', text: '{{rail.v24}} at {{Scenarios!A1}}' } },
      ]),
    ],
  };

  it('are taken back and made again in the writing of the book', () => {
    const anew = migrateHistory(history, three);
    expect(anew.done.map(({ edits }) => edits[0])).toEqual([
      { at: 'cell', table: 'scenarios', row: 'r2', column: 'b', before: cell("='Light map'.A1+rail_v24_2"), after: cell('=SUM(Scenarios.A1:B1)') },
      { at: 'name', name: 'rail_v24_2', before: 'rail_v12.$A$1', after: 'rail_v12.$A$2' },
      { at: 'table fields', table: 'rail', before: { name: 'rail' }, after: { name: 'rail_v12' } },
    ]);
    expect(anew.undone[0]?.edits).toEqual([
      { at: 'row', table: 'scenarios', index: 0, before: { id: 'h', range: { from: 'Lists.A2:A3' } }, after: { id: 'h', range: { from: 'Lists.A1' } } },
      { at: 'block', page: 'p1', index: 2, before: null, after: { id: 'b9', kind: 'prose', text: '{{rail_v24_2}} at {{Scenarios.A1}}' } },
    ]);
    const { book } = opened(three);
    const back = undo({ ...anew, done: anew.done.slice(0, 2) });
    expect(back && apply(book, back.change).names.rail_v24_2).toBe('rail_v12.$A$1');
    expect(redo(anew)?.change).toBe(anew.undone[0]);
  });

  it('are left as they are in a book of version 4', () => {
    expect(migrateHistory(history, four)).toBe(history);
  });
});
