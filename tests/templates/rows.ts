/** Cells of the scenarios by row id, as tests ask for them. */
import { expect } from 'vitest';
import { fromBase, need } from '../../functions/units.ts';
import { textOf } from '../../src/book/address.ts';
import type { Session } from '../../src/session.ts';

/** `Scenarios.B12`, by the row's id. */
export function cellOf(session: Session, id: string, letter = 'A'): string {
  const row = session.book.tables.find((t) => t.form === 'scenarios')?.rows.findIndex((r) => r.id === id) ?? -1;
  if (row < 0) throw new Error(`There is no row ${id}.`);
  return textOf('Scenarios', letter.charCodeAt(0) - 65, row);
}

export const has = (session: Session, id: string): boolean => session.book.tables.find((t) => t.form === 'scenarios')?.rows.some((r) => r.id === id) === true;

/** The place of a cell in a list, by its heading and the first cell of its row. */
export function entryOf(session: Session, name: string, key: string, heading: string): string {
  const table = session.book.tables.find((t) => t.name === name);
  const text = (r: number, c: number): string => table?.cells[table.rows[r]?.id ?? '']?.[table.columns[c]?.id ?? '']?.content ?? '';
  const row = table?.rows.findIndex((_, r) => r > 0 && text(r, 0) === key) ?? -1;
  const column = table?.columns.findIndex((_, c) => text(0, c) === heading) ?? -1;
  if (row < 0 || column < 0) throw new Error(`${name} has no ${heading} of ${key}.`);
  return textOf(name, column, row);
}

/** What a cell says: its text, or its number in the unit. */
export function said(session: Session, address: string, symbol = ''): string | number {
  const value = session.values[address];
  if (value?.kind === 'number') return fromBase(value.base, need(symbol));
  return value?.kind === 'text' ? value.text : JSON.stringify(value);
}

export const row = (session: Session, id: string, symbol = '', letter = 'A'): string | number => said(session, cellOf(session, id, letter), symbol);

/** Types into cells, by name, row id or address, one after the other. */
export async function fill(session: Session, ...givens: readonly (readonly [string, string])[]): Promise<void> {
  for (const [where, typed] of givens) {
    const address = /\.[A-Z]+\d+$/.test(where) ? where : (session.book.names[where]?.replaceAll('$', '') ?? cellOf(session, where));
    expect(await session.type(address, typed), `${where} takes ${typed}`).toMatchObject({ ok: true });
  }
  await session.settled();
}
