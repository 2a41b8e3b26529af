/** The allowed values of a given: a sentence where its content lies outside them. */

import type { Content } from '../../functions/quantity-text.ts';
import { toBase, unit } from '../../functions/units.ts';
import type { Range } from '../book/book.ts';
import { type Place, readReference } from './addresses.ts';
import { didYouMean, type Fault, OUT_OF_RANGE } from './errors.ts';
import type { Grid } from './grid.ts';

const withUnit = (n: number, symbol: string): string => (symbol ? `${n} ${symbol}` : String(n));

function inWords(range: Range, symbol: string): string {
  const { low, high } = range;
  if (low !== undefined && high !== undefined) return `from ${withUnit(low, symbol)} to ${withUnit(high, symbol)}`;
  return low !== undefined ? `at least ${withUnit(low, symbol)}` : `at most ${withUnit(high ?? 0, symbol)}`;
}

/** The texts that a range of cells lists. */
function listed(from: string, grid: Grid, at: Place): readonly string[] {
  const written = readReference(from);
  const sheet = written?.table === undefined ? at.sheet : grid.sheet(written.table);
  if (!written || sheet === undefined) return [];
  const texts: string[] = [];
  for (let row = written.start.row; row <= written.end.row; row++) {
    for (let col = written.start.col; col <= written.end.col; col++) {
      const content = grid.cell({ sheet, row, col })?.content;
      if (content) texts.push(content.startsWith("'") ? content.slice(1) : content);
    }
  }
  return texts;
}

/** `shown` is the unit of the range's numbers where it names none of its own. */
export function rangeFault(content: Content, range: Range, shown: string | undefined, grid: Grid, at: Place): Fault | undefined {
  if (content.kind === 'number' && (range.low !== undefined || range.high !== undefined)) {
    const symbol = range.unit ?? shown ?? content.unit;
    const u = unit(symbol);
    const low = range.low !== undefined && u ? toBase(range.low, u) : Number.NEGATIVE_INFINITY;
    const high = range.high !== undefined && u ? toBase(range.high, u) : Number.POSITIVE_INFINITY;
    // The limit itself is allowed, however its binary form came about.
    const slack = 1e-12 * Math.max(Math.abs(low === Number.NEGATIVE_INFINITY ? 0 : low), Math.abs(high === Number.POSITIVE_INFINITY ? 0 : high));
    if (content.base < low - slack || content.base > high + slack) {
      return { word: OUT_OF_RANGE, message: `${grid.heading(at)} is allowed ${inWords(range, symbol)}.` };
    }
  }
  if (content.kind !== 'text') return undefined;
  const allowed = range.from ? listed(range.from, grid, at) : range.oneOf;
  if (!allowed || allowed.length === 0 || allowed.includes(content.text)) return undefined;
  const choice = allowed.length <= 12 ? `one of ${allowed.join(', ')}` : `one of the ${allowed.length} in ${range.from ?? 'its list'}`;
  return { word: OUT_OF_RANGE, message: `${grid.heading(at)} is ${choice}; “${content.text}” is not among them.${didYouMean(content.text, allowed)}` };
}
