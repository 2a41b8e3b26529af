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
