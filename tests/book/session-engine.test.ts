/** The session over the real engine: after any run of changes, what it shows is what a fresh build of the book gives. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Table } from '../../src/book/book.ts';
import { canonicalText } from '../../src/book/canonical.ts';
import { addScenario } from '../../src/book/commands/add-scenario.ts';
import { dropScenario } from '../../src/book/commands/drop-scenario.ts';
import { setNote } from '../../src/book/commands/set-note.ts';
import { findText } from '../../src/book/find.ts';
import { createEngine } from '../../src/engine/engine.ts';
import type { Values } from '../../src/engine/types.ts';
import { parseBook } from '../../src/files/book/book-file.ts';
import { openSession, type Session } from '../../src/session.ts';
import { runs } from '../cases.ts';
import { command } from './arbitrary.ts';
import { sample } from './sample.ts';

async function opened(book: Book): Promise<Session> {
  const session = openSession(book, createEngine());
  await session.settled();
  expect(session.trouble).toBeUndefined();
  return session;
}

const other = createEngine();
const fresh = (book: Book): Promise<Values> => other.load(book);

function bench(): Book {
  const read = parseBook(readFileSync(new URL('../../templates/trade-bench.json', import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(read.message);
  return read.book;
}

describe('the session over the engine', () => {
  it('shows what a fresh build gives, after any run of changes, undone and redone', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.oneof({ weight: 5, arbitrary: command }, fc.constantFrom('undo', 'redo', 'wait' as const)), { minLength: 1, maxLength: 12 }),
        async (steps) => {
          const session = await opened(sample);
          for (const step of steps) {
            if (typeof step === 'function') session.run(step);
            else if (step === 'undo') session.undo();
            else if (step === 'redo') session.redo();
            else await session.settled();
          }
          await session.settled();
          expect(session.trouble).toBeUndefined();
          expect(session.values).toEqual(await fresh(session.book));
          session.close();
        },
      ),
      runs(60, 31),
    );
  });

  it('gives the same where a note is written, be the cell worked out, blank or waiting for its answer', async () => {
    const [brief, scenarios, fixtures] = sample.tables as [Table, Table, Table];
    const { f2, ...others } = fixtures.cells;
    const waiting = { ...fixtures, cells: { ...others, f2: { ...f2, output: { content: '' } } } };
    const reads = { ...scenarios, cells: { ...scenarios.cells, diff: { b: { content: '=A4+1' }, c: { content: "='Fixture list'.C3*2" } } } };
    const session = await opened({ ...sample, tables: [brief, reads, waiting] });
    const before = session.values;
    expect(before['Scenarios.B4']).toMatchObject({ kind: 'number', base: 1 });
    expect(before['Scenarios.C4']).toMatchObject({ kind: 'error', word: 'not answered yet' });
    for (const address of ['Scenarios.A4', 'Scenarios.B4', "'Fixture list'.C3", "'Fixture list'.A1", 'Brief.A1']) {
      expect(session.run((book) => setNote(book, { address, note: 'look again' }))).toMatchObject({ label: expect.stringContaining('look again') });
      await session.settled();
      expect(session.values).toEqual(before);
    }
    expect(session.values).toEqual(await fresh(session.book));
    expect(findText(session.book, { text: 'look again' }).map((hit) => hit.in)).toEqual(['note', 'note', 'note', 'note', 'note']);
    for (const address of ['Scenarios.A4', "'Fixture list'.C3"]) session.run((book) => setNote(book, { address, note: '' }));
    await session.settled();
    expect(session.values).toEqual(before);
    session.close();
  });

  it('works a new scenario of the trade bench out to what A gives, in every row', async () => {
    const session = await opened(bench());
    const before = { ...session.values };
    session.run((book) => addScenario(book, { table: 'Scenarios' }));
    await session.settled();
    const rows = session.book.tables.find((table) => table.name === 'Scenarios')?.rows.length ?? 0;
    expect(rows).toBeGreaterThan(50);
    for (let row = 1; row <= rows; row++) expect(session.values[`Scenarios.D${row}`], `row ${row}`).toEqual(session.values[`Scenarios.A${row}`]);
    for (const [address, value] of Object.entries(before)) if (/^Scenarios\.[A-C]/.test(address)) expect(session.values[address], address).toEqual(value);
    session.close();
  });

  it('leaves B and C of the trade bench what they were when A, which they point at, is taken away', async () => {
    const session = await opened(bench());
    const before = { ...session.values };
    session.run((book) => dropScenario(book, { table: 'Scenarios', column: 0 }));
    await session.settled();
    const rows = session.book.tables.find((table) => table.name === 'Scenarios')?.rows ?? [];
    for (const [r, row] of rows.entries()) {
      if (row.kind !== 'given') continue;
      expect(session.values[`Scenarios.A${r + 1}`], row.label).toEqual(before[`Scenarios.B${r + 1}`]);
      expect(session.values[`Scenarios.B${r + 1}`], row.label).toEqual(before[`Scenarios.C${r + 1}`]);
    }
    session.undo();
    await session.settled();
    expect(session.values).toEqual(before);
    expect(canonicalText(session.book)).toBe(canonicalText(bench()));
    session.close();
  });

  it('reads what is typed with its unit, and refuses what the range does not hold', async () => {
    const session = await opened(bench());
    expect(await session.type('Brief.A1', '12 ft')).toMatchObject({ ok: true });
    await session.settled();
    expect(session.values['Brief.A1']).toMatchObject({ kind: 'number', base: 3.6576 });
    const refused = await session.type('Brief.A1', '5 kg');
    expect(refused).toMatchObject({ ok: false });
    expect(!refused.ok && refused.message).toMatch(/length/);
    session.close();
  });
});
