import type { Mend, Value } from './types.ts';

/** Whether two values say the same, to the last digit and word. Numbers are compared as they are: 0 and −0 are one. */
export function sameValue(a: Value | undefined, b: Value | undefined): boolean {
  if (a === b || a === undefined || b === undefined) return a === b;
  if (a.kind === 'number') return b.kind === 'number' && a.base === b.base && a.unit === b.unit && a.shown === b.shown;
  if (a.kind === 'text') return b.kind === 'text' && a.text === b.text && a.shown === b.shown;
  if (a.kind === 'yes or no') return b.kind === 'yes or no' && a.yes === b.yes;
  if (a.kind === 'error') return b.kind === 'error' && a.word === b.word && a.message === b.message && a.from === b.from && sameMend(a.mend, b.mend);
  return a.kind === b.kind;
}

const sameMend = (a: Mend | undefined, b: Mend | undefined): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);
