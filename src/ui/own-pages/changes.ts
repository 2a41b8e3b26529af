import { html, type TemplateResult } from 'lit';
import type { History } from '../../book/history.ts';
import { type Acts, Part } from '../parts/index.ts';

/** What was done to the book, newest first, and what was taken back. */
export class ObChanges extends Part {
  static override properties = { history: { attribute: false }, acts: { attribute: false } };
  declare history: History;
  declare acts: Acts<'undo' | 'redo'>;

  override render(): TemplateResult {
    const { done, undone } = this.history;
    return html`
      <p class="prose">${done.length === 0 ? 'Nothing has been changed since this book was opened for the first time.' : `${done.length === 1 ? 'One change' : `${done.length} changes`}, the latest first. Each can be taken back, in this order.`}</p>
      <div class="do">
        ${(['undo', 'redo'] as const).map((id) => {
          const act = this.acts(id);
          return html`<button type="button" class="btn" ?disabled=${!act.usable} @click=${act.run}>${act.label}</button>`;
        })}
      </div>
      ${undone.length > 0 ? html`<h3 class="piece">Taken back</h3><ol class="changes undone">${undone.map((change) => html`<li>${change.label}</li>`)}</ol>` : ''}
      ${done.length > 0 ? html`<h3 class="piece">Done</h3><ol class="changes" reversed>${[...done].reverse().map((change) => html`<li>${change.label}</li>`)}</ol>` : ''}`;
  }
}
customElements.define('ob-changes', ObChanges);
