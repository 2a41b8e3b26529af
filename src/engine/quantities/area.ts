/** The joined kind of a range of cells. */
import type { Place } from '../addresses.ts';
import type { Area } from './host.ts';
import { any, type Kind, text, yesOrNo } from './kind.ts';

/**
 * Joins the cells of `area` to what is known of the cells before it. Texts and blanks join anything; yes and no
 * count as such only where there are no numbers. A failure anywhere is the range's.
 */
export function joinArea(before: Kind | undefined, { start, end }: Area, kindOf: (at: Place) => Kind): Kind {
  let found: Kind = before ?? any;
  let by: Place = start;
  if (found.is === 'fail') return found;
  for (let row = start.row; row <= end.row; row++) {
    for (let col = start.col; col <= end.col; col++) {
      const at = { sheet: start.sheet, row, col };
      const kind = kindOf(at);
      if (kind === found || kind === any) continue;
      if (kind.is === 'fail') return kind;
      if (found.is === 'mixed' || kind.is === 'mixed') continue;
      if (found === any || found === text || found === yesOrNo) {
        if (kind !== text || found === any) [found, by] = [kind === yesOrNo && found === text ? text : kind, at];
      } else if (kind.is === 'number' && found.is === 'number') found = { is: 'mixed', one: { at: by, kind: found }, other: { at, kind } };
    }
  }
  return found;
}
