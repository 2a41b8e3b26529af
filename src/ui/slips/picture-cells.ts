/** Which cells serve a picture: what a reference must be, which cells can be picked for it, and which it takes unless told otherwise. */
import { aQuantity, unit } from '../../../functions/units.ts';
import type { At } from '../../book/address.ts';
import type { Book } from '../../book/book.ts';
import { addressOf, placeOf, titleOf, unitOf } from '../../book/look-up.ts';
import { ownAddress } from '../../book/other-writing.ts';
import type { Values } from '../../engine/types.ts';
import { LAYOUT, type PictureRead, pictureKind } from '../../pictures/index.ts';
import { valueAt } from '../cells/index.ts';
import { type Choice, cellsIn, rowChoices, runChoices } from '../finding/index.ts';

/** Why a cell does not serve, or undefined. What has no value yet is judged by its unit, and else let through: the picture says what it lacks. */
function misfit(read: PictureRead, at: At, values: Values): string | undefined {
  const value = valueAt(values, addressOf(at));
  if (value.kind === 'error') return undefined;
  const title = titleOf(at);
  if (read.compared && at.table.form !== 'scenarios') return `${title} stands in ${at.table.name}, which compares no scenarios.`;
  if (read.takes === 'layout') return value.kind === 'text' && LAYOUT.test(value.text) ? undefined : `${title} is no layout, such as LAYOUT gives.`;
  if (read.takes === 'texts') return value.kind === 'text' ? undefined : `${title} is no text.`;
  if (value.kind !== 'number' && value.kind !== 'blank') return `${title} is no number.`;
  const has = value.kind === 'number' ? unit(value.unit) : unit(unitOf(at) ?? '1');
  const wants = unit(read.takes);
  if (read.takes === 'number' || !has || !wants || (has.dimension === wants.dimension && has.reading === wants.reading)) return undefined;
  return `${title} is ${aQuantity(has.dimension, has.reading)}; the ${read.name} is ${aQuantity(wants.dimension, wants.reading)}.`;
}

/** What is wrong with a reference that was written, or the reference as the picture keeps it. */
export function judge(read: PictureRead, written: string, book: Book, values: Values): { readonly wrong: string } | { readonly reference: string } {
  const text = ownAddress(written);
  if (text === '') return read.needed ? { wrong: `Choose a cell for the ${read.name}.` } : { reference: '' };
  if (read.run) {
    const cells = cellsIn(book, text);
    if (!cells) return { wrong: `“${text}” is no run of cells, such as Months.A2:A13.` };
    const wrong = cells.map((at) => misfit(read, at, values)).find((each) => each !== undefined);
    return wrong === undefined ? { reference: text } : { wrong };
  }
  const at = placeOf(book, text);
  if (!at) return { wrong: `There is no cell called “${text}”.` };
  const wrong = misfit(read, at, values);
  return wrong === undefined ? { reference: addressOf(at) } : { wrong };
}

/** Only what serves is offered. */
export function choicesFor(read: PictureRead, book: Book, values: Values, wanted: string | RegExp): readonly Choice[] {
  const serves = (at: At): boolean =>
    valueAt(values, addressOf(at)).kind !== 'error' && misfit(read, at, values) === undefined && (at.cell?.content ?? '') !== '';
  return read.run ? runChoices(book, wanted, serves) : rowChoices(book, values, wanted, serves);
}

/** As another picture of the book has it, else by what such rows are called. */
export function usualReads(kind: string, book: Book, values: Values): Readonly<Record<string, string>> {
  const others = book.pages.flatMap((page) => page.blocks.flatMap((block) => (block.kind === 'picture' ? [block] : [])));
  const reads: Record<string, string> = {};
  for (const read of pictureKind(kind)?.reads ?? []) {
    const theirs = others.filter(({ picture }) => pictureKind(picture)?.reads.some((each) => each.key === read.key && each.takes === read.takes));
    const found =
      theirs.map((block) => block.reads[read.key] ?? '').find((text) => text !== '' && 'reference' in judge(read, text, book, values)) ??
      choicesFor(read, book, values, read.called)[0]?.reference;
    if (found) reads[read.key] = found;
  }
  return reads;
}
