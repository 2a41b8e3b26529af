import { fromBase, unit } from '../../functions/units.ts';
import type { Value } from '../engine/types.ts';

/** A number in the unit it is to be shown in, or in base units where that unit is none of ours. */
export function numberIn(base: number, shown: string): number {
  const u = unit(shown);
  return u ? fromBase(base, u) : base;
}

/**
 * A value as text without its unit.
 * @param decimals fixed decimals; undefined: all digits there are, up to the 12th
 */
export function valueText(value: Value | undefined, decimals?: number): string {
  switch (value?.kind) {
    case undefined:
    case 'blank':
      return '';
    case 'number': {
      const x = numberIn(value.base, value.unit);
      return decimals === undefined ? String(Number(x.toPrecision(12))) : x.toFixed(decimals);
    }
    case 'text':
      return value.text;
    case 'yes or no':
      return value.yes ? 'yes' : 'no';
    case 'error':
      return `[${value.word}]`;
  }
}

export const unitText = (value: Value | undefined): string => (value?.kind === 'number' ? value.unit : '');

/** The value with its unit: `231.4 µmol/m²/s`. */
export const valueWithUnit = (value: Value | undefined, decimals?: number): string => `${valueText(value, decimals)} ${unitText(value)}`.trimEnd();
