import { html, nothing, type TemplateResult } from 'lit';
import { type ShownNumber, showDecimal } from '../../../functions/number-text.ts';
import type { Value } from '../../engine/types.ts';
import { numberOf } from '../../shown.ts';
import { lineOf } from './cell-view.ts';

/** A value in a line of the margin or of a slip: its unit stands apart and is paler, as in the tables. */
export function valueLine(value: Value, decimals?: number): TemplateResult | string {
  if (value.kind !== 'number') return lineOf(value);
  return parts(numberOf(value, decimals));
}

/** The same in a line of a working, with decimals, so that the line can be worked again. */
export const workedValue = (value: Value): TemplateResult | string => (value.kind === 'number' ? parts(showDecimal(value.base, value.unit)) : lineOf(value));

function parts({ sign, whole, fraction, unit }: ShownNumber): TemplateResult {
  return html`${sign}${whole}${fraction}${unit ? html` <span class="u">${unit}</span>` : nothing}`;
}
