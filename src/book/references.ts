/** Finds the references in a formula and in prose, and rewrites them; everything else stays as it stands, letter for letter. */
import { REFERENCE, type Reference, readReference, referenceOf, referenceText } from './address.ts';
import type { Shift } from './shift.ts';
import { shiftedPlace, shiftedSpan } from './shift.ts';

/** Stands for a cell that was deleted, as OpenFormula (OASIS, 2021, part 4, 5.11) writes it. */
export const LOST = '#REF!';

/** What a person sees of it, and may write: no name may be called so. */
export const LOST_WORD = 'lost_cell';

/** A stored formula with the word in place of the mark; texts in quotes stay. */
export const sayLost = (formula: string): string => formula.replaceAll(/"[^"]*"|#REF!/g, (found) => (found === LOST ? LOST_WORD : found));

/** Gives the reference anew, `undefined` where it stays as it is, or LOST. */
export type Rewrite = (reference: Reference) => Reference | typeof LOST | undefined;

/** What is no reference: a text in quotes, a word (function, name, table), a number (whose `e5` is no cell). */
export const OTHER = /"(?:[^"]|"")*"?|[\p{L}_][\p{L}\p{N}_.]*|\d+(?:\.\d*)?(?:[eE][-+]?\d+)?|./suy;

/** Gives a name anew, `undefined` where it stays as it is. */
export type RewriteName = (name: string) => string | undefined;

/**
 * The formula with its references, and names where that is asked, rewritten. Texts in quotes, units among them, are passed over.
 * `pattern`: how its references are written, where that is another way than ours.
 */
export function rewriteFormula(formula: string, rewrite: Rewrite, rewriteName?: RewriteName, pattern: RegExp = REFERENCE): string {
  let made = '';
  let at = 0;
  while (at < formula.length) {
    pattern.lastIndex = at;
    const match = pattern.exec(formula);
    if (match) {
      made += rewritten(match, rewrite);
      at += match[0].length;
      continue;
    }
    OTHER.lastIndex = at;
    const other = OTHER.exec(formula)?.[0] ?? formula.slice(at);
    at += other.length;
    // A word before a bracket is a function.
    const name = rewriteName && /^[\p{L}_]/u.test(other) && !/^\s*\(/u.test(formula.slice(at, at + 20)) ? rewriteName(other) : undefined;
    made += name ?? other;
  }
  return made;
}

function rewritten(match: RegExpExecArray, rewrite: Rewrite): string {
  const reference = referenceOf(match);
  const made = reference && rewrite(reference);
  if (made === undefined) return match[0];
  return made === LOST ? LOST : referenceText(made);
}

/** The references of a formula in the order in which it names them. */
export function referencesIn(formula: string): readonly Reference[] {
  const found: Reference[] = [];
  rewriteFormula(formula, (reference) => {
    found.push(reference);
    return undefined;
  });
  return found;
}

const CHIP = /\{\{(\s*)([^{}]*?)(\s*)\}\}/gu;

/** Prose with what stands in its chips (`{{Scenarios.B7}}`) made anew. */
export const overChips = (text: string, anew: (inner: string) => string): string =>
  text.replace(CHIP, (chip, before: string, inner: string, after: string) => {
    const made = anew(inner);
    return made === inner ? chip : `{{${before}${made}${after}}}`;
  });

/** Prose with the references in its chips rewritten. */
export const rewriteProse = (text: string, rewrite: Rewrite, rewriteName?: RewriteName): string =>
  overChips(text, (inner) => rewriteTarget(inner, rewrite, rewriteName));

/** A text that is one reference or something else, such as a name. */
export function rewriteTarget(text: string, rewrite: Rewrite, rewriteName?: RewriteName): string {
  const reference = readReference(text);
  if (!reference) return rewriteName?.(text) ?? text;
  const made = rewrite(reference);
  return made === undefined ? text : made === LOST ? LOST : referenceText(made);
}

/** The rewriting that follows from lines shifting in one table. `home`: the table in which the text stands, if any. */
export function followShift(table: string, axis: 'row' | 'column', shift: Shift, home: string | undefined): Rewrite {
  const lower = table.toLowerCase();
  return (reference) => {
    if ((reference.table ?? home)?.toLowerCase() !== lower) return undefined;
    const [a, b] = [reference.from[axis], reference.to[axis]];
    if (!reference.range) {
      const place = shiftedPlace(shift, a);
      if (place === undefined) return LOST;
      return place === a ? undefined : withEnds(reference, axis, place, place);
    }
    const span = shiftedSpan(shift, a, b);
    if (!span) return LOST;
    const [from, to] = a <= b ? span : [span[1], span[0]];
    return from === a && to === b ? undefined : withEnds(reference, axis, from, to);
  };
}

const withEnds = (reference: Reference, axis: 'row' | 'column', from: number, to: number): Reference => ({
  ...reference,
  from: { ...reference.from, [axis]: from },
  to: { ...reference.to, [axis]: to },
});

/** The rewriting that follows from a table's new name. */
export function followName(before: string, after: string): Rewrite {
  const lower = before.toLowerCase();
  return (reference) => (reference.table?.toLowerCase() === lower ? { ...reference, table: after } : undefined);
}
