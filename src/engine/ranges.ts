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

/** The texts that a range of cells lists; undefined where one of them is worked out, for that is not known here. */
function listed(from: string, grid: Grid, at: Place): readonly string[] | undefined {
  const written = readReference(from);
  const sheet = written?.table === undefined ? at.sheet : grid.sheet(written.table);
  if (!written || sheet === undefined) return undefined;
  const texts: string[] = [];
  for (let row = written.start.row; row <= written.end.row; row++) {
    for (let col = written.start.col; col <= written.end.col; col++) {
      const content = grid.cell({ sheet, row, col })?.content;
      if (content?.startsWith('=')) return undefined;
      if (content) texts.push(content.startsWith("'") ? content.slice(1) : content);
    }
  }
  return texts;
}

/** `shown` is the unit of the range's numbers where it names none of its own. */
export function rangeFault(content: Content, range: Range, shown: string | undefined, grid: Grid, at: Place): Fault | undefined {
  if (content.kind !== 'text' && content.kind !== 'number') return undefined;
  const allowed = range.from ? listed(range.from, grid, at) : range.oneOf;
  if (allowed && allowed.length > 0) return content.kind === 'text' ? choiceFault(content.text, allowed, range, grid.heading(at)) : undefined;
  if (range.low === undefined && range.high === undefined) return undefined;
  if (content.kind === 'text') {
    return {
      word: OUT_OF_RANGE,
      message: `${grid.heading(at)} takes a number, ${inWords(range, range.unit ?? shown ?? '')}; “${content.text.slice(0, 60)}” is none.`,
    };
  }
  const symbol = range.unit ?? shown ?? content.unit;
  const u = unit(symbol);
  // A plain 0 is no quantity in particular; any other number must be of the kind that the limits are.
  if (u && content.base !== 0 && unit(content.unit)?.dimension !== u.dimension) {
    return {
      word: OUT_OF_RANGE,
      message: `${grid.heading(at)} takes ${symbol ? `a quantity in ${symbol} or the like` : 'a plain number'}, ${inWords(range, symbol)}.`,
    };
  }
  const low = range.low !== undefined && u ? toBase(range.low, u) : Number.NEGATIVE_INFINITY;
  const high = range.high !== undefined && u ? toBase(range.high, u) : Number.POSITIVE_INFINITY;
  const below = content.base < low && !close(content.base, low);
  const above = content.base > high && !close(content.base, high);
  return below || above ? { word: OUT_OF_RANGE, message: `${grid.heading(at)} is allowed ${inWords(range, symbol)}.` } : undefined;
}

/** 36 in keeps a limit of 0.9144 m, however its binary form came about. */
const close = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));

function choiceFault(text: string, allowed: readonly string[], range: Range, heading: string): Fault | undefined {
  if (allowed.some((choice) => choice.toLowerCase() === text.toLowerCase())) return undefined;
  const choice = allowed.length <= 12 ? `one of ${allowed.join(', ')}` : `one of the ${allowed.length} in ${range.from ?? 'its list'}`;
  return { word: OUT_OF_RANGE, message: `${heading} is ${choice}; “${text.slice(0, 60)}” is not among them.${didYouMean(text, allowed)}` };
}
