/** What a cell's content says, without an engine: a formula, a number with its unit, yes or no, text, or nothing. */
import { toBase, type Unit, unit } from '../../functions/units.ts';

export type Content =
  | { readonly kind: 'empty' }
  | { readonly kind: 'formula'; readonly formula: string }
  | { readonly kind: 'number'; readonly number: number; readonly unit: Unit /** In coherent base units. */; readonly base: number }
  | { readonly kind: 'yes or no'; readonly yes: boolean }
  | { readonly kind: 'text'; readonly text: string };

export const isFormula = (content: string): boolean => content.startsWith('=');

/** A text as it is read, without the apostrophe that keeps it a text. */
export const plainText = (content: string): string => (content.startsWith("'") ? content.slice(1) : content);

const NUMBER = /^(-?\d+(?:\.\d+)?(?:e[-+]?\d+)?)(?: ?(\S.*))?$/iu;

/** Reads stored content, whose numbers have a decimal point and no thousands marks. What was typed goes through the engine's reading instead. */
export function readContent(content: string): Content {
  if (content === '') return { kind: 'empty' };
  if (isFormula(content)) return { kind: 'formula', formula: content };
  if (content === 'TRUE' || content === 'FALSE') return { kind: 'yes or no', yes: content === 'TRUE' };
  if (content.startsWith("'")) return { kind: 'text', text: content.slice(1) };
  const match = NUMBER.exec(content);
  const found = match && unit(match[2] ?? '');
  const number = Number(match?.[1]);
  if (!found || !Number.isFinite(number)) return { kind: 'text', text: content };
  return { kind: 'number', number, unit: found, base: toBase(number, found) };
}

/** The content that stores a text: with an apostrophe where it would otherwise be read as something else. */
export const textContent = (text: string): string => (text !== '' && (text.startsWith("'") || readContent(text).kind !== 'text') ? `'${text}` : text);

/** What was typed without a unit was meant in the unit shown then: it is no longer true in another, and what is stored says it in full. */
export function withoutBareTyped<T extends { readonly typed?: string }>(cell: T): T {
  if (cell.typed === undefined || /[\p{L}%°"'′″\p{Sc}]/u.test(cell.typed)) return cell;
  const { typed: _, ...rest } = cell;
  return rest as T;
}
