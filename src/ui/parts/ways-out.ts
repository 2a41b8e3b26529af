import { html, nothing, type TemplateResult } from 'lit';

/** The ways out of what is being written in a cell: keys, and for a finger two buttons. `also`: further keys, said before them. */
export function waysOut(keep: () => void, leave: () => void, also: unknown = nothing): TemplateResult {
  // The press must not take the focus from what is written: that alone would keep it.
  const stay = (event: Event): void => {
    event.preventDefault();
    event.stopPropagation();
  };
  const on = (act: () => void) => (event: Event) => {
    event.stopPropagation();
    act();
  };
  return html`<p class="keys">${also}<span class="by-key"><kbd>Enter</kbd> keeps it</span> <span class="by-key"><kbd>Esc</kbd> leaves it as it was</span></p>
    <div class="do for-touch" @pointerdown=${stay} @mousedown=${stay}>
      <button type="button" class="btn first" tabindex="-1" @click=${on(keep)}>Keep</button>
      <button type="button" class="btn" tabindex="-1" @click=${on(leave)}>Leave</button>
    </div>`;
}
