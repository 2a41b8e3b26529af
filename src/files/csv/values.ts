/** Values as files write them: plain numbers in full precision in the shown unit. */
import { fromBase, unit } from '../../../functions/units.ts';
import { type At, textOf } from '../../book/address.ts';
import type { Value, Values } from '../../engine/types.ts';
import type { CsvValue } from './csv.ts';

export const valueAt = (values: Values, at: At): Value => values[textOf(at.table.name, at.columnIndex, at.rowIndex)] ?? { kind: 'blank' };

/** An error is written as its word, so that it can never be taken for a number. */
export function fieldOf(value: Value, shown?: string): CsvValue {
  switch (value.kind) {
    case 'number':
      return numberIn(value, shown ?? value.unit);
    case 'text':
      return value.text;
    case 'yes or no':
      return value.yes;
    case 'error':
      return value.word;
    case 'blank':
      return null;
  }
}

/** A number's value in a unit of its own kind; in base units where the text is no unit. The engine keeps 14 digits: 60° come out of it as 60.0000000000001°. */
function numberIn(value: Value & { kind: 'number' }, symbol: string): number {
  const found = unit(symbol);
  if (!found) return value.base;
  const exact = fromBase(value.base, found);
  const short = Number(exact.toPrecision(13));
  return Math.abs(short - exact) <= 1e-13 * Math.abs(exact) ? short : exact;
}
