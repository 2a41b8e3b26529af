/** A crop and its stage are picked together: as one line, or the crop alone, and then what can only be meant follows and the rest is said. */
import { afterEach, describe, expect, test } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import { fitting, wholeLines } from '../../src/book/goes-with.ts';
import { misfits } from '../../src/book/misfits.ts';
import type { Session } from '../../src/session.ts';
import { openTemplate, slugs, templateBook } from '../templates/open-template.ts';

let session: Session;
afterEach(() => session?.close());

const named = (name: string): string => (session.book.names[name] ?? '').replaceAll('$', '');
const stands = (name: string): string => cellAt(session.book, named(name))?.cell?.content ?? '';
const saidBy = (name: string): string | undefined => cellAt(session.book, named(name))?.cell?.source ?? cellAt(session.book, named(name))?.row.source;
const type = (name: string, typed: string, source?: string) => session.type(named(name), typed, source);
/** What an answer that was taken leaves that does not go with it. */
const wrongAfter = async (name: string, typed: string): Promise<readonly string[]> => {
  const taken = await type(name, typed);
  return taken.ok ? misfits(session.book, taken.change) : [`refused: ${taken.message}`];
};

describe.each(slugs)('in %s', (slug) => {
  test('a line of Crops sets crop and stage as one change, and one step of undo takes both back', async () => {
    session = await openTemplate(slug);
    const before = [stands('crop'), stands('stage')];
    const typed = await type('crop', 'tomato, plug seedlings indoor', 'client, by telephone');
    expect(typed).toMatchObject({ ok: true });
    expect([stands('crop'), stands('stage')]).toEqual(['tomato', 'plug seedlings indoor']);
    expect([saidBy('crop'), saidBy('stage')]).toEqual(['client, by telephone', 'client, by telephone']);
    await session.settled();
    // Horticulturae 2024 10(7):730: from 10.8 to 12.96 mol/m²/d.
    expect(session.values[named('target_low')]).toMatchObject({ kind: 'number', base: 10.8 });
    session.undo();
    expect([stands('crop'), stands('stage')]).toEqual(before);
  });
});

test('a crop that is said alone takes the only stage that it has, and says so', async () => {
  session = await openTemplate('trade-bench');
  const typed = await type('crop', 'tecoma');
  expect(stands('stage')).toBe('seed propagation');
  expect(typed).toMatchObject({ ok: true, change: { label: 'Crop: sweet basil → tecoma; Stage of the crop: indoor → seed propagation' } });
  expect(saidBy('stage'), 'nobody has said it').toBe('default: there is no other for tecoma');
});

test('a crop that has the stage keeps it; one that has it not says which it has, and nothing is put in its place', async () => {
  session = await openTemplate('trade-bench');
  expect(await type('crop', 'lettuce')).toMatchObject({ ok: true });
  expect(stands('stage')).toBe('indoor');
  expect(await wrongAfter('crop', 'tomato')).toEqual(['Stage of the crop: “indoor” does not go with tomato. Pick plug seedlings indoor or fruiting']);
  expect(stands('stage')).toBe('indoor');
  await session.settled();
  expect(session.values[named('target_low')]).toMatchObject({ kind: 'error', message: expect.stringContaining('“plug seedlings indoor”, “fruiting”') });
  expect(await wrongAfter('stage', 'rooting'), 'the stage of another crop').toEqual([expect.stringContaining('“rooting” does not go with tomato')]);
  expect(await wrongAfter('stage', 'fruiting')).toEqual([]);
});

test('what is no line is refused with the line that holds every word of it', async () => {
  session = await openTemplate('trade-bench');
  expect(await type('crop', 'tomato seedlings')).toMatchObject({
    ok: false,
    message: expect.stringContaining('Did you mean “tomato, plug seedlings indoor”?'),
  });
  expect(stands('crop')).toBe('sweet basil');
});

test('a line is found by any of its words, in any order, one or many', () => {
  const book = templateBook('trade-bench');
  const at = cellAt(book, 'Brief.A4');
  const lines = (at && wholeLines(book, at)) ?? [];
  // One for each row of the template's own table.
  const rows = book.tables.find(({ name }) => name === 'Crops')?.rows.slice(1) ?? [];
  expect(lines).toHaveLength(rows.filter(({ id }) => book.tables.find(({ name }) => name === 'Crops')?.cells[id]?.a?.content).length);
  expect(fitting(lines, 'tomato seedlings')).toEqual(['tomato, plug seedlings indoor']);
  expect(fitting(lines, 'seedlings  TOMATO')).toEqual(['tomato, plug seedlings indoor']);
  expect(fitting(lines, 'basil seedlings')).toEqual(['sweet basil, seedling']);
  expect(fitting(lines, 'rose')[0]).toBe('rose, cut flowers');
  expect(fitting(lines, 'marble')).toEqual([]);
});

test('a crop that is pasted or brought alone is treated as one that is typed', async () => {
  const { putCells } = await import('../../src/book/commands/put-cells.ts');
  const { isRefused } = await import('../../src/book/refused.ts');
  session = await openTemplate('trade-bench');
  const put = putCells(session.book, { table: 'Brief', row: 3, column: 0, cells: [[{ content: 'tecoma' }]] });
  if (isRefused(put)) throw new Error(put.message);
  session.dispatch(put);
  expect([stands('crop'), stands('stage')]).toEqual(['tecoma', 'seed propagation']);
});

test('a stage that is another cell’s stays that cell’s', async () => {
  session = await openTemplate('trade-bench');
  await type('stage', '=Brief.A4');
  await type('crop', 'tecoma');
  expect(stands('stage')).toBe('=Brief.A4');
});
