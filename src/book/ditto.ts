/** A given that is "same as" another scenario's: what it stands for, and who follows whom. */
import { type At, placeIn, readReference } from './address.ts';
import { addressOf, pointsAt, standingOf } from './look-up.ts';

/** The cell beside it that a given of a scenario is the same as: of whichever scenario, not only of the one that all are compared with. */
export function sameAs(at: At): At | undefined {
  const points = at.table.form === 'scenarios' && standingOf(at) === 'as' ? pointsAt(at) : undefined;
  const reference = points === undefined ? undefined : readReference(points);
  const beside = reference && placeIn(at.table, reference.from.column, at.rowIndex);
  return beside && beside.column !== at.column && points === addressOf(beside) ? beside : undefined;
}

/** From one to the next, down to the one that has a value or a formula of its own. Where they go in a circle it ends. */
export function* followed(from: At): Generator<At> {
  const seen = new Set([from.column.id]);
  for (let at = sameAs(from); at && !seen.has(at.column.id); at = sameAs(at)) {
    seen.add(at.column.id);
    yield at;
  }
}

/** The cell whose value or formula a given stands for: its own, where it is the same as none. */
export const stoodFor = (at: At): At => [...followed(at)].at(-1) ?? at;
