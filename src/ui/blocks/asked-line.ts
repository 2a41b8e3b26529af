import { html, nothing, type TemplateResult } from 'lit';
import type { Book, Page } from '../../book/book.ts';
import { countLeft, LEFT, lackingIn, questionsOn } from '../../book/said-by.ts';
import type { Act } from '../parts/index.ts';
import { buttons } from './buttons.ts';

/** Above the brief: `18 questions, 5 left`, and the way to be asked one at a time; once the client has answered, the way to proposals too. */
export function askedLine(book: Book, page: Page, ask: Act, propose: Act): TemplateResult | typeof nothing {
  if (questionsOn(book, page).length === 0) return nothing;
  const { all, left } = countLeft(book, page);
  return html`<div class="asked-line"><p>${all} questions, ${left === 0 ? 'none left' : html`<b>${left} left</b>`}${left === 0 ? nothing : `: ${LEFT}`}.</p>
    <div class="do">${buttons(isReady(book) ? [ask, propose] : [ask])}</div></div>`;
}

const isReady = (book: Book): boolean => book.tables.some(({ form }) => form === 'scenarios') && lackingIn(book).length === 0;
