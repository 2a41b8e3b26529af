/** Stored contents as plain text: for what needs no reading of numbers and units (see functions/quantity-text.ts). */

export const isFormula = (content: string): boolean => content.startsWith('=');

/** A text as it is read, without the apostrophe that keeps it a text. */
export const plainText = (content: string): string => (content.startsWith("'") ? content.slice(1) : content);

/** What was typed without a unit was meant in the unit shown then: it is no longer true in another, and what is stored says it in full. */
export function withoutBareTyped<T extends { readonly typed?: string }>(cell: T): T {
  if (cell.typed === undefined || /[\p{L}%°"'′″\p{Sc}]/u.test(cell.typed)) return cell;
  const { typed: _, ...rest } = cell;
  return rest as T;
}

/** `WIRE.AREA` in `=WIRE.AREA(18)`; nothing where more than one call makes up the formula. */
export function wholeCall(formula: string): string | undefined {
  const match = /^=?\s*([A-Z][A-Z0-9.]*)\s*\(/i.exec(formula.trim());
  if (!match) return undefined;
  const text = formula.trim();
  let depth = 0;
  let quoted = false;
  for (let i = match[0].length - 1; i < text.length; i++) {
    const c = text[i];
    if (c === '"') quoted = !quoted;
    else if (quoted) continue;
    else if (c === '(') depth++;
    else if (c === ')' && --depth === 0) return i === text.length - 1 ? match[1]?.toUpperCase() : undefined;
  }
  return undefined;
}
