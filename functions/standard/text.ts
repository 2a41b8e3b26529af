/**
 * LEN, LEFT, RIGHT, MID, FIND, REPLACE, SUBSTITUTE and TRIM. A character is a code point, so that no sign is cut in two; places and
 * lengths are taken down to whole numbers. Undefined: a place before the first character, or a length below 0.
 *
 * Source: OASIS, OpenDocument 1.4, Part 4 (OpenFormula), 2025, sections 6.20.9, 6.20.12, 6.20.13, 6.20.15, 6.20.17, 6.20.19, 6.20.21 and 6.20.24.
 */
import { int } from './rounding.ts';

const characters = (text: string): readonly string[] => Array.from(text);

export const len = (text: string): number => characters(text).length;

export const left = (text: string, length = 1): string | undefined => mid(text, 1, length);

export function right(text: string, length = 1): string | undefined {
  const count = int(length);
  return count < 0
    ? undefined
    : characters(text)
        .slice(Math.max(0, len(text) - count))
        .join('');
}

export function mid(text: string, start: number, length: number): string | undefined {
  const [from, count] = [int(start), int(length)];
  if (from < 0 || count < 0 || (from === 0 && count > 0)) return undefined;
  return characters(text)
    .slice(from - 1, from - 1 + count)
    .join('');
}

/** Where `wanted` stands in `text`, from `start` on, counted from 1; undefined where it does not. */
export function find(wanted: string, text: string, start = 1): number | undefined {
  const from = int(start);
  const before = characters(text).slice(0, Math.max(0, from - 1));
  if (from < 1 || from > len(text) + 1) return undefined;
  const found = text.indexOf(wanted, before.join('').length);
  return found < 0 ? undefined : len(text.slice(0, found)) + 1;
}

/** LEFT(text, start − 1) & added & MID(text, start + count, …). */
export function replace(text: string, start: number, count: number, added: string): string | undefined {
  if (int(start) < 1 || count < 0) return undefined;
  const all = characters(text);
  return all.slice(0, int(start) - 1).join('') + added + all.slice(int(start + count) - 1).join('');
}

/** How often `old` stands in a text, one after the other. */
export const times = (text: string, old: string): number => (old === '' ? 0 : text.split(old).length - 1);

/** Each `old` of a text made new, or only the one that `which` counts to. */
export function substitute(text: string, old: string, added: string, which?: number): string | undefined {
  if (which !== undefined && int(which) < 1) return undefined;
  if (old === '') return text;
  const parts = text.split(old);
  if (which === undefined) return parts.join(added);
  const at = int(which);
  if (at >= parts.length) return text;
  return parts.slice(0, at).join(old) + added + parts.slice(at).join(old);
}

/** Without spaces at either end, and with one space for several; a tab or the end of a line is a space too. */
export const trim = (text: string): string => text.replace(/^[\t\n\r ]+|[\t\n\r ]+$/g, '').replace(/[\t\n\r ]{2,}/g, ' ');
