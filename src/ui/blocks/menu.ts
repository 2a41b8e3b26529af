/** A small menu of what can be done with a page or a piece of it. It opens in place, and closes on Escape and when it is left. */
import { html, type TemplateResult } from 'lit';
import type { Act } from '../parts/index.ts';

export interface Menu {
  readonly label: string;
  /** What it is of, for the ear: many menus on a page have the same label. */
  readonly of: string;
  readonly acts: readonly Act[];
}

export function menu({ label, of, acts }: Menu): TemplateResult {
  return html`<details class="menu" @keydown=${shut} @focusout=${left} @toggle=${show}>
    <summary aria-label="${label}: ${of}">${label}</summary>
    <div>${acts.map((act) => html`<button type="button" ?disabled=${!act.usable} @click=${(e: Event) => closeAnd(e, act.run)}>${act.label}</button>`)}</div>
  </details>`;
}

function closeAnd(event: Event, then: () => void): void {
  const found = (event.currentTarget as HTMLElement).closest('details');
  if (found) found.open = false;
  found?.querySelector('summary')?.focus();
  then();
}

/** At the foot of the page it would open out of sight. */
function show(event: Event): void {
  const found = event.currentTarget as HTMLDetailsElement;
  if (found.open) found.querySelector('div')?.scrollIntoView({ block: 'nearest' });
}

function shut(event: KeyboardEvent): void {
  const found = event.currentTarget as HTMLDetailsElement;
  if (event.key !== 'Escape' || !found.open) return;
  event.stopPropagation();
  found.open = false;
  found.querySelector('summary')?.focus();
}

function left(event: FocusEvent): void {
  const found = event.currentTarget as HTMLDetailsElement;
  // A click on the menu's own border goes to nothing that can have the focus, and does not leave it.
  if (event.relatedTarget && !found.contains(event.relatedTarget as Node)) found.open = false;
}
