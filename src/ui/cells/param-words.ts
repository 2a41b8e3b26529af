/** What a function's record says of an argument, in words. */

import type { Param } from '../../../functions/define.ts';

/** `layout`, `[points along]`, `value …` */
export const signature = (p: Param): string => `${p.optional ? '[' : ''}${p.name}${p.repeats ? ' …' : ''}${p.optional ? ']' : ''}`;

/** Its meaning, its unit and what it may be, in one sentence: a unit keeps its own small or great letter. */
export function paramText(p: Param): string {
  const limits = [
    p.above !== undefined ? `above ${p.above}` : p.atLeast !== undefined ? `at least ${p.atLeast}` : '',
    p.below !== undefined ? `below ${p.below}` : p.atMost !== undefined ? `at most ${p.atMost}` : '',
    p.whole ? 'whole' : '',
    p.oneOf ? `one of ${p.oneOf.join(', ')}` : '',
    p.fallback !== undefined ? `${p.fallback} if left out` : '',
  ].filter(Boolean);
  const unit = p.unit === '1' ? 'a plain number' : p.unit === 'any' ? 'any quantity' : p.unit;
  return `${p.meaning}; ${[unit, ...limits].join(', ')}.`;
}
