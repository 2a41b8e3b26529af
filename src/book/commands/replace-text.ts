/** Replaces a text everywhere it stands, or in one place, as one change: all of it or, with the reason, nothing. */
import { readContent, textContent } from '../../../functions/quantity-text.ts';
import { notAllowed } from '../allowed.ts';
import type { Book, Cell } from '../book.ts';
import { BOUNDS, count, noRoomFor } from '../bounds.ts';
import type { Edit } from '../change.ts';
import { type CellHit, findText, type OtherHit, patternOf, type Wanted } from '../find.ts';
import { lineEdit, linesOf } from '../lines.ts';
import { lockedProblem } from '../locked.ts';
import { addressOf, titleOf } from '../look-up.ts';
import { ownContent, ownProse } from '../other-writing.ts';
import { type Answer, isRefused, type Refused, refused } from '../refused.ts';
import { cellEdit } from './set-cell.ts';

export interface ReplaceText extends Wanted {
  readonly with: string;
  /** Only this one of the places that `findText` gives, from 0; left out: all of them. */
  readonly only?: number;
}

/** The edits are of the stored contents. A formula that is no formula any longer says so in its cell, as a typed one would. */
export function replaceText(book: Book, args: ReplaceText): Answer {
  if (args.text === '') return refused('Say which text is to be replaced.');
  const all = findText(book, args);
  const hits = args.only === undefined ? all : all.slice(args.only, args.only + 1);
  if (hits.length === 0) return refused(`“${args.text}” is not found here.`);
  const find = patternOf(args);
  // A `$` in the new text is a `$`.
  const made = (text: string): string => text.replace(find, () => args.with);
  const lines = new Map<string, Edit>();
  const cells = new Map<string, { readonly hit: CellHit; readonly cell: Cell }>();
  const edits: Edit[] = [];
  for (const hit of hits) {
    const text = made(hit.text);
    if ('at' in hit) {
      const before = cells.get(addressOf(hit.at))?.cell ?? hit.at.cell ?? { content: '' };
      const cell = hit.in === 'cell' ? withContent(book, hit, before, text) : said(before, hit.in, text);
      if (isRefused(cell)) return cell;
      cells.set(addressOf(hit.at), { hit, cell });
      continue;
    }
    const edit = elsewhere(hit, text, lines);
    if (isRefused(edit)) return edit;
    if (edit) edits.push(edit);
  }
  for (const { hit, cell } of cells.values()) edits.push(...cellEdit(hit.at, cell));
  const times = hits.reduce((n, hit) => n + hit.times, 0);
  return { label: `“${short(args.text)}” → “${short(args.with)}”, ${times === 1 ? 'once' : `${count(times)} times`}`, edits: [...lines.values(), ...edits] };
}

const short = (text: string): string => (text.length > 30 ? `${text.slice(0, 29)}…` : text);

function withContent(book: Book, { at }: CellHit, before: Cell, text: string): Cell | Refused {
  const old = readContent(before.content, book.currency);
  const content = old.kind === 'text' ? textContent(text, book.currency) : ownContent(text);
  const now = readContent(content, book.currency);
  if (now.kind !== old.kind && now.kind !== 'blank')
    return refused(
      `${titleOf(at)} would hold “${short(text)}”, which is no ${old.kind === 'yes or no' ? 'yes or no' : old.kind} any longer. Nothing was replaced.`,
    );
  const problem = lockedProblem(at, content) ?? noRoomFor(book, content, before.content) ?? notAllowed(book, at, content);
  if (problem !== undefined) return refused(`${problem} Nothing was replaced.`);
  const { typed: _, ...kept } = before;
  return { ...kept, content };
}

function said(before: Cell, key: 'note' | 'source', text: string): Cell | Refused {
  if (text.length > BOUNDS.text) return tooLong(BOUNDS.text);
  const { [key]: _, ...kept } = before;
  return text === '' ? kept : { ...kept, [key]: text };
}

const tooLong = (most: number): Refused => refused(`A text would have more than ${count(most)} characters. Nothing was replaced.`);

/** Headings and help of one row come into one edit, which `lines` holds. */
function elsewhere(hit: OtherHit, text: string, lines: Map<string, Edit>): Edit | Refused | undefined {
  if (hit.in === 'prose' || hit.in === 'caption') {
    if (text.length > BOUNDS.text) return tooLong(BOUNDS.text);
    const after = hit.in === 'prose' ? { ...hit.block, text: ownProse(text) } : { ...hit.block, caption: text };
    return { at: 'block', page: hit.page.id, index: hit.index, before: hit.block, after };
  }
  if (hit.in === 'heading' && text.length > BOUNDS.title) return tooLong(BOUNDS.title);
  if (hit.in === 'help' && text.length > BOUNDS.text) return tooLong(BOUNDS.text);
  const axis = hit.in === 'help' ? 'row' : hit.axis;
  const before = linesOf(hit.table, axis)[hit.index];
  if (!before) return undefined;
  const key = `${hit.table.id} ${axis} ${hit.index}`;
  const known = lines.get(key);
  const now = known && (known.at === 'row' || known.at === 'column') && known.after ? known.after : before;
  lines.set(key, lineEdit(hit.table, axis, hit.index, before, hit.in === 'help' ? { ...now, help: text } : { ...now, label: text }));
  return undefined;
}
