/** A crop and its stage are picked together: as one line, or the crop alone, and then what can only be meant follows and the rest is said. */
import { afterEach, describe, expect, test } from 'vitest';
import { type At, cellAt } from '../../src/book/address.ts';
import { begin } from '../../src/book/begin.ts';
import { lightOfLines } from '../../src/book/crop-line.ts';
import { fitting, wholeLines } from '../../src/book/goes-with.ts';
import { placeOf } from '../../src/book/look-up.ts';
import { misfits } from '../../src/book/misfits.ts';
import { isRefused } from '../../src/book/refused.ts';
import { isLeft, mustBeAsked } from '../../src/book/said-by.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { openSession, type Session } from '../../src/session.ts';
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

test('a line is found by what it is also called, after all that say so themselves', () => {
  const book = templateBook('trade-bench');
  const at = cellAt(book, 'Brief.A4');
  const lines = (at && wholeLines(book, at)) ?? [];
  const found = fitting(lines, 'tomato');
  expect(found.slice(0, 3)).toEqual(['tomato cucumber pepper, transplants', 'tomato, plug seedlings indoor', 'tomato, fruiting']);
  expect(found.slice(3)).toContain('vegetable seedlings, before transplant');
  expect(found.slice(3)).toContain('fruiting vegetables, greenhouse');
  expect(fitting(lines, 'tomato seedlings')).toContain('vegetable seedlings, before transplant');
  expect(fitting(lines, 'arugula')).toContain('rocket, leaf production');
  expect(fitting(lines, 'eggplant')).toContain('vegetable seedlings, before transplant');
});

test('each line says beside its name the light that its crop asks for', () => {
  const book = templateBook('trade-bench');
  const at = cellAt(book, 'Brief.A4');
  const light = at ? lightOfLines(book, at) : new Map<string, string>();
  expect([...light.keys()]).toEqual((at && wholeLines(book, at)) ?? []);
  expect(light.get('tomato, plug seedlings indoor')).toBe('DLI 10.8 to 12.96 mol/m²/d');
  expect(light.get('tomato cucumber pepper, transplants')).toBe('DLI 13 mol/m²/d or more');
  expect(light.get('ornamentals, most finished')).toBe('DLI 12 mol/m²/d or less');
  expect(light.get('lettuce, head greenhouse')).toBe('DLI 17 mol/m²/d');
  expect(light.get('moth orchid, in flask')).toBe('PPFD 40 to 80 µmol/m²/s');
  expect([...light.values()].filter((text) => text === '')).toEqual([]);
});

test('hours that nobody has said follow the crop that is picked, and those that the client said stay', async () => {
  const begun = begin(templateBook('single-shelf'), { client: 'Somebody' });
  if (isRefused(begun)) throw new Error(begun.message);
  session = openSession(begun, createEngine());
  expect(stands('light_hours')).toBe('13 h/d');
  // Of 16 to 20 h/d; the violets of the example had 13.
  await type('crop', 'rose, cut flowers');
  expect(stands('light_hours')).toBe('18 h/d');
  // The crop has set it, which is no longer what the template put forward; somebody may say another still.
  expect(saidBy('light_hours')).toBe('default by the crop: rose, cut flowers, 16 to 20 h/d');
  expect(placeOf(session.book, 'light_hours')).toSatisfy((at) => isLeft(at as At) && !mustBeAsked(at as At));
  await type('crop', 'moth orchid, in flask');
  expect(stands('light_hours'), 'of this crop no hours are known').toBe('18 h/d');
  expect(saidBy('light_hours'), 'and those of another are not its own').toBe('default: to begin with, ask the client');
  session.undo();
  session.undo();
  expect(stands('light_hours')).toBe('13 h/d');
  expect(saidBy('light_hours')).toMatch(/ask the client/);
  // A crop said first and its stage after.
  await type('crop', 'tomato');
  await type('stage', 'fruiting');
  expect(stands('light_hours')).toBe('15.5 h/d');
  await type('light_hours', '12');
  await type('crop', 'rose, cut flowers');
  expect(stands('light_hours')).toBe('12 h/d');
});

test('a line is found by any of its words, in any order, one or many', () => {
  const book = templateBook('trade-bench');
  const at = cellAt(book, 'Brief.A4');
  const lines = (at && wholeLines(book, at)) ?? [];
  // One for each row of the template's own table.
  const rows = book.tables.find(({ name }) => name === 'Crops')?.rows.slice(1) ?? [];
  expect(lines).toHaveLength(rows.filter(({ id }) => book.tables.find(({ name }) => name === 'Crops')?.cells[id]?.a?.content).length);
  expect(fitting(lines, 'tomato seedlings')[0]).toBe('tomato, plug seedlings indoor');
  expect(fitting(lines, 'seedlings  TOMATO')[0]).toBe('tomato, plug seedlings indoor');
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

test('the default written anew is the client’s answer, said as such and taken back in one step', async () => {
  session = await openTemplate('trade-bench');
  const typed = await type('lowest_mount', '0.25 m');
  expect(typed).toMatchObject({ ok: true, change: { label: 'Lowest a light may hang: 0.25 m, said by the client' } });
  expect(saidBy('lowest_mount')).toBe('client');
  session.undo();
  expect(saidBy('lowest_mount')).toMatch(/^default/);
});
