import { html, nothing, type TemplateResult } from 'lit';
import type { Shell } from './shell.ts';

/** What is amiss with saving, and the ways out. */
export function savingTrouble({ keeping, entering, doing }: Shell): TemplateResult | typeof nothing {
  const { miss, news } = keeping;
  if (!miss) return news ? html`<p class="trouble" role="status">${news}</p>` : nothing;
  const send = doing.acts('send-book');
  const elsewhere = miss.problem === 'changed elsewhere';
  return html`<div class="trouble" role="alert"><p>Not saved. ${miss.message}</p>
    <div class="do">
      <button type="button" class="btn" @click=${send.run}>${send.label}</button>
      ${elsewhere ? nothing : html`<button type="button" class="btn" @click=${() => void keeping.now()}>Try again</button>`}
      ${elsewhere ? html`<button type="button" class="btn" @click=${() => void entering.keepAsAnother()}>Keep this one as another book</button>` : nothing}
      ${miss.kept ? html`<button type="button" class="btn" @click=${() => void entering.open({ what: 'book', id: miss.kept?.id ?? '' })}>Open the one that was saved</button>` : nothing}
    </div></div>`;
}
