import { expect, test } from 'vitest';
import { cellAt, textOf } from '../../src/book/address.ts';
import { apply } from '../../src/book/apply.ts';
import { begin } from '../../src/book/begin.ts';
import type { Book } from '../../src/book/book.ts';
import { clearCells } from '../../src/book/commands/clear-cells.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { setSource } from '../../src/book/commands/set-source.ts';
import { invert } from '../../src/book/invert.ts';
import { sourceOf } from '../../src/book/look-up.ts';
import { readPlain } from '../../src/book/read-plain.ts';
import type { Answer } from '../../src/book/refused.ts';
import { isRefused } from '../../src/book/refused.ts';
import { countLeft, isLeft, questionsOn, saidBy, sourceText, tellerOfTyped } from '../../src/book/said-by.ts';
import { slugs, templateBook } from '../templates/open-template.ts';
import { sample } from './sample.ts';

function done(book: Book, answer: Answer): Book {
  if (isRefused(answer)) throw new Error(answer.message);
  expect(apply(apply(book, answer), invert(answer))).toEqual(book);
  return apply(book, answer);
}

function at(book: Book, address: string) {
  const found = cellAt(book, address);
  if (!found) throw new Error(address);
  return found;
}

function begun(book: Book): Book {
  const made = begin(book, { client: 'Two sisters' });
  if (isRefused(made)) throw new Error(made.message);
  return made;
}

const brief = (book: Book) => book.pages.find((page) => questionsOn(book, page).length > 0) ?? { id: 'none', title: 'none', blocks: [] };

test('a source is read as one of four tellers and what they add', () => {
  expect(saidBy('client, by telephone')).toEqual({ teller: 'client', agreed: false, how: 'by telephone' });
  expect(saidBy('default: no sides')).toEqual({ teller: 'default', agreed: false, how: 'no sides' });
  expect(saidBy('default, agreed, by letter')).toEqual({ teller: 'default', agreed: true, how: 'by letter' });
  expect(saidBy('ours, to be agreed')).toMatchObject({ teller: 'ours', agreed: false });
  for (const other of [undefined, '', 'clients of others', 'data sheet', 'from memory']) expect(saidBy(other), other).toBeUndefined();
  for (const teller of ['client', 'measured', 'default', 'ours'] as const) {
    expect(saidBy(sourceText(teller, ' with a tape '))).toEqual({ teller, agreed: teller === 'default', how: 'with a tape' });
    expect(saidBy(sourceText(teller, ''))?.how).toBe('');
  }
});

test('blank answers and defaults that nobody agreed to are left', () => {
  const book = sample;
  expect(countLeft(book, brief(book))).toEqual({ all: 3, left: 1 });
  expect(isLeft(at(book, 'Brief.A3'))).toBe(true);
  const agreed = done(book, setSource(book, { address: 'Brief.A3', teller: 'default', how: '' }));
  expect(countLeft(agreed, brief(agreed)).left).toBe(0);
  const blank = done(agreed, setCell(agreed, { address: 'Brief.A1', content: '' }));
  expect(countLeft(blank, brief(blank)).left).toBe(1);
});

test('who said so is one change, which says it in words', () => {
  const book = sample;
  const answer = setSource(book, { address: 'Brief.A1', teller: 'measured', how: 'with a tape' });
  expect(answer).toMatchObject({ label: 'Bench length: said by measured, with a tape' });
  expect(sourceOf(at(done(book, answer), 'Brief.A1'))).toBe('measured, with a tape');
  expect(isRefused(setSource(book, { address: 'Brief.Z1', teller: 'ours', how: '' }))).toBe(true);
});

test('what is typed over a default of the brief is the client’s word; over anything else the source stays', () => {
  const book = sample;
  expect(tellerOfTyped(at(book, 'Brief.A3'), '14 h/d')).toBe('client');
  expect(tellerOfTyped(at(book, 'Brief.A3'), '16 h/d'), 'the same answer, written anew').toBe('client');
  expect(tellerOfTyped(at(book, 'Brief.A3'), ''), 'cleared').toBeUndefined();
  expect(tellerOfTyped(at(book, 'Brief.A1'), '4 m')).toBeUndefined();
  expect(tellerOfTyped(at(book, 'Scenarios.A1'), '4')).toBeUndefined();
});

test('what is typed into what is to be asked beside the brief is the client’s word; the dates of the plan stay ours', () => {
  const book = begun(templateBook('trade-bench'));
  expect(tellerOfTyped(at(book, 'Sheet.A1'), 'North shed')).toBe('client');
  expect(tellerOfTyped(at(book, 'Electrics.A12'), '15 A')).toBe('client');
  expect(tellerOfTyped(at(book, 'Sheet.A3'), '2027-01-08')).toBeUndefined();
  expect(sourceOf(at(book, 'Sheet.A3'))).toBe('ours');
  expect(tellerOfTyped(at(book, 'Electrics.A18'), '10 kW'), 'not said until now').toBe('client');
  expect(tellerOfTyped(at(book, 'Prices.A1'), '0.17 EUR/kWh'), 'a habit, of which the client is to be asked').toBe('client');
  expect(tellerOfTyped(at(book, 'Prices.A3'), '5 %/year'), 'a habit that is no example').toBeUndefined();
});

test('the dates of a book that was begun with the example’s are ours once they are typed', () => {
  const old = templateBook('trade-bench');
  const tables = old.tables.map((table) =>
    table.id === 'sheet'
      ? { ...table, cells: { ...table.cells, plan_date: { a: { content: '2026-11-25', source: 'default: as in the example, set it anew' } } } }
      : table,
  );
  expect(tellerOfTyped(at({ ...old, tables }, 'Sheet.A3'), '2027-01-08')).toBe('ours');
});

test('an example’s answers are nobody’s word in the book of another client', () => {
  const book = begun(sample);
  expect(countLeft(book, brief(book)).left).toBe(2);
  expect(at(book, 'Brief.A1').cell?.content).toBe('3.6 m');
  expect(saidBy(sourceOf(at(book, 'Brief.A1')))?.teller).toBe('default');
});

test('what an example’s client measured, where it hangs and its dates are to be asked anew', () => {
  const book = begun(templateBook('meter-check'));
  const source = (address: string): string | undefined => sourceOf(at(book, address));
  expect([source('Sheet.A1'), at(book, 'Sheet.A1').cell?.content]).toEqual(['default, ask the client', '']);
  expect([source('Meter.A25'), at(book, 'Meter.A25').cell?.content]).toEqual(['default: to begin with, ask the client', '']);
  expect(['Sheet.A3', 'Sheet.A4'].map((address) => [source(address), at(book, address).cell?.content])).toEqual([
    ['ours', ''],
    ['ours, to be agreed', ''],
  ]);
  expect(source('Sheet.A2'), 'ours stays ours').toBe('ours');
  for (const address of ['Readings.H2', 'Readings.H4', 'Dark.H2']) expect(at(book, address).cell?.content).toBe('default: to begin with, ask the client');
  expect(at(book, 'Readings.H1').cell?.content).toBe('Source');
  expect(at(book, 'Readings.B2').cell?.content, 'nobody has read it').toBe('');
  expect(at(book, 'Readings.A2').cell?.content).toBe('Row 1');
});

test('a given that holds words goes on holding words, and says so where a quantity was typed', () => {
  const book = templateBook('trade-bench');
  const typed = (address: string, text: string) => readPlain(book, at(book, address), text, '');
  expect(typed('Sheet.A1', '12 feet')).toMatchObject({ ok: true, content: "'12 feet", said: expect.stringMatching(/^Kept as text/) });
  expect(typed('Sheet.A1', '12 Long Lane')).toEqual({ ok: true, content: '12 Long Lane' });
  expect(typed('Sheet.A1', '')).toEqual({ ok: true, content: '' });
  expect(typed('Brief.A1', '12 ft')).toMatchObject({ ok: true, content: '12 ft' });
});

test('yes and no are read where one of the two is asked for, or stands; elsewhere they are words', () => {
  const template = templateBook('trade-bench');
  const asked = template.tables.flatMap((table) => table.rows.flatMap((row, r) => (row.range?.oneOf?.includes('TRUE') ? [textOf(table.name, 0, r)] : [])));
  expect(asked).toHaveLength(1);
  const [turned = ''] = asked;
  const typed = (address: string, text: string) => readPlain(template, at(template, address), text, '');
  expect(typed(turned, 'yes')).toEqual({ ok: true, content: 'TRUE' });
  expect(typed(turned, ' No ')).toEqual({ ok: true, content: 'FALSE' });
  expect(typed(turned, 'false')).toEqual({ ok: true, content: 'FALSE' });
  expect(typed(turned, 'perhaps')).toMatchObject({ ok: false, message: expect.stringMatching(/“perhaps” is not one of the choices: yes, no\.$/) });
  expect(typed('Sheet.A1', 'yes')).toEqual({ ok: true, content: 'yes' });
  // Where nothing is said of what is allowed, what stands there says it.
  const place = { ...at(template, 'Sheet.A1'), row: { id: 'new' }, cell: { content: 'TRUE' } };
  expect(readPlain(template, place, 'no', '')).toEqual({ ok: true, content: 'FALSE' });
});

test.each(slugs)('a given for words is one after it was emptied, too, in %s', (slug) => {
  let book = templateBook(slug);
  const words = book.tables.flatMap((table) => table.rows.flatMap((row, r) => (row.holds === 'text' ? [textOf(table.name, 0, r)] : [])));
  expect(words).toEqual(expect.arrayContaining(['Sheet.A1', 'Sheet.A3']));
  for (const address of words) {
    const cleared = clearCells(book, { addresses: [address] });
    if (isRefused(cleared)) throw new Error(cleared.message);
    book = apply(book, cleared);
    expect(at(book, address).cell?.content ?? '').toBe('');
    for (const text of ['12 feet', '4', 'TRUE']) {
      const read = readPlain(book, at(book, address), text, '');
      expect(read, `${address}: ${text}`).toMatchObject({ ok: true, content: `'${text}`, said: 'Kept as text: words are asked for here.' });
    }
  }
});
