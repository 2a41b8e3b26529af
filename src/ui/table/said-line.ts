import { html, nothing, type TemplateResult } from 'lit';
import type { At } from '../../book/address.ts';
import { rangeOf, sourceOf, titleOf } from '../../book/look-up.ts';
import { isLeft } from '../../book/said-by.ts';
import { allowedText } from '../parts/choices.ts';

/**
 * Under an answer: who said so, as a button that asks it, and what is allowed. The button is no tab stop, for the table has one of its own;
 * from the keyboard the same slip is opened by its command.
 */
export function saidLine(at: At, ask: () => void): TemplateResult {
  const range = rangeOf(at);
  const allowed = allowedText(at) || (range?.oneOf || range?.from ? 'pick from a list' : '');
  const left = isLeft(at);
  return html`<div class="by">
    <button type="button" class="teller ${left ? 'left' : ''}" tabindex="-1" aria-label="${titleOf(at)}: who said so?" @click=${ask}>${left ? html`<b>to ask</b> ` : nothing}${sourceOf(at) ?? 'who said so?'}</button>
    <span>${allowed}</span>
  </div>`;
}
