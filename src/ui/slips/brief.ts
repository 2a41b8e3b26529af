/** The brief on its page: how much is left to ask, and beneath each answer who said so. */
import { html, nothing, type TemplateResult } from 'lit';
import type { At } from '../../book/address.ts';
import type { Book, Page } from '../../book/book.ts';
import { rangeOf, sourceOf, titleOf } from '../../book/look-up.ts';
import { countLeft, isLeft, LEFT, questionsOn } from '../../book/said-by.ts';
import { command, labelOf } from '../commands/commands.ts';
import { allowedText } from '../parts/choices.ts';
import type { Desk } from '../parts/command.ts';

/** `18 questions, 5 left`, and the way to be asked one at a time. */
export function askedLine(book: Book, page: Page, desk: Desk): TemplateResult | typeof nothing {
  if (questionsOn(book, page).length === 0) return nothing;
  const { all, left } = countLeft(book, page);
  const ask = command('ask');
  return html`<div class="asked-line"><p>${all} questions, ${left === 0 ? 'none left' : html`<b>${left} left</b>`}${left === 0 ? nothing : `: ${LEFT}`}.</p>
    <div class="do"><button type="button" class="btn" @click=${() => ask.run(desk)}>${labelOf(ask, desk)}</button></div></div>`;
}

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
