import { html, nothing, type TemplateResult } from 'lit';
import { showNumber } from '../../../functions/number-text.ts';
import type { Value } from '../../engine/types.ts';
import { lineOf } from './cell-view.ts';

/** A value in a line of the margin or of a slip: its unit stands apart and is paler, as in the tables. */
export function valueLine(value: Value, decimals?: number): TemplateResult | string {
  if (value.kind !== 'number') return lineOf(value);
  const { sign, whole, fraction, unit } = showNumber(value.base, value.unit, decimals);
  return html`${sign}${whole}${fraction}${unit ? html` <span class="u">${unit}</span>` : nothing}`;
}
