/** What tables and cells may be called. Each gives the reason against a name, or undefined. */
import { unit } from '../../functions/units.ts';
import { LOST_WORD } from './references.ts';

/** Shaped like a cell (`A1`, `ppfd1`), which the grammar of formulas takes for one. */
const CELL_SHAPED = /^(?:[A-Za-z]+\d+|[Rr]\d*[Cc]\d*)$/u;
/** `rail.v24` reads as cell V24 of a table called rail. */
const PLACE_SHAPED = /\.[A-Za-z]+\d+$/u;
const LONGEST = 60;

export const looksLikePlace = (name: string): boolean => PLACE_SHAPED.test(name);

/** Why it is no name, as the end of a sentence. */
export const asPlace = (name: string): string => {
  const at = name.lastIndexOf('.');
  return `it reads as cell ${name.slice(at + 1).toUpperCase()} of a table called ${name.slice(0, at)}`;
};

/** A name that every object has: as a key it would find what nobody put there. */
const reserved = (name: string): boolean => name in {};

export function tableNameProblem(name: string): string | undefined {
  if (name === '' || name.trim() !== name) return 'A table needs a name that neither begins nor ends with a space.';
  if (name.length > LONGEST) return `“${name.slice(0, 20)}…” is too long for a table's name: at most ${LONGEST} characters.`;
  if (/[!:"[\]{}\\\p{Cc}]/u.test(name)) return `“${name}” can't name a table: leave out ! : " [ ] { } and \\.`;
  if (name.startsWith("'") || name.endsWith("'")) return `“${name}” can't name a table: it may not begin or end with an apostrophe.`;
  if (CELL_SHAPED.test(name)) return `“${name}” can't name a table: it looks like a cell's address.`;
  if (looksLikePlace(name)) return `“${name}” can't name a table: ${asPlace(name)}.`;
  if (reserved(name)) return `“${name}” can't name a table: choose another word.`;
  return undefined;
}

export function cellNameProblem(name: string): string | undefined {
  if (name.length > LONGEST) return `“${name.slice(0, 20)}…” is too long for a name: at most ${LONGEST} characters.`;
  if (!/^[A-Za-z_\u00C0-\u02AF][A-Za-z0-9_.\u00C0-\u02AF]*$/u.test(name))
    return `“${name}” can't be a name: it begins with a letter or _, and goes on with letters, digits, _ and points.`;
  if (CELL_SHAPED.test(name)) return `“${name}” can't be a name: it looks like a cell's address.`;
  if (looksLikePlace(name)) return `“${name}” can't be a name: ${asPlace(name)}.`;
  if (/^(?:true|false)$/iu.test(name) || name.toLowerCase() === LOST_WORD || reserved(name)) return `“${name}” can't be a name: choose another word.`;
  if (unit(name)) return `“${name}” can't be a name: it is a unit.`;
  return undefined;
}

/** Ids are keys of objects and are never shown. */
export const idIsGood = (id: string): boolean => /^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$/u.test(id) && !reserved(id) && id !== 'prototype';
