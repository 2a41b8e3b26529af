/** The joined kind of a range of cells. */
import type { Position, Span } from '../addresses.ts';
import { any, digitsAsText, isQuantity, type Kind, text, yesOrNo } from './kind.ts';

/** What a range is with one more cell in it; undefined where the two don't go together. */
function joined(found: Kind, kind: Kind): Kind | undefined {
  if (found === kind || kind === any) return found;
  if (found === any) return kind;
  if (found.is === 'number' && kind.is === 'number') return undefined;
  const [number, other] = found.is === 'number' ? [found, kind] : [kind, found];
  // Texts and yes or no count only where there is no number; but the calculator would reckon with a text of digits.
  if (number.is === 'number') return other === digitsAsText && isQuantity(number) ? undefined : number;
  if (found === digitsAsText || kind === digitsAsText) return digitsAsText;
  return found === yesOrNo && kind === yesOrNo ? yesOrNo : text;
}

/** Joins the cells of `span` to what is known of the cells before it. A failure anywhere is the range's. */
export function joinSpan(before: Kind | undefined, { start, end }: Span, kindOf: (at: Position) => Kind): Kind {
  let found: Kind = before ?? any;
  let by: Position = start;
  if (found.is === 'fail') return found;
  for (let row = start.row; row <= end.row; row++) {
    for (let col = start.col; col <= end.col; col++) {
      const at = { sheet: start.sheet, row, col };
      const kind = kindOf(at);
      if (kind === found || kind === any) continue;
      if (kind.is === 'fail') return kind;
      if (found.is === 'mixed') continue;
      const both = joined(found, kind);
      if (both === undefined) found = { is: 'mixed', one: { at: by, kind: found }, other: { at, kind } };
      else if (both !== found) [found, by] = [both, at];
    }
  }
  return found;
}
