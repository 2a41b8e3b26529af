/** The strip across the top: whose plan it is, whether it is safe, and what is done with the whole of it. */
import { html, nothing, type TemplateResult } from 'lit';
import type { CommandId } from '../commands/index.ts';
import type { Act, Acts } from '../parts/index.ts';

export interface CoverState {
  readonly acts: Acts<CommandId>;
  readonly bookOpen: boolean;
  readonly title: string;
  readonly client: string;
  /** "saved 14:02", "saving …", "not saved: …". */
  readonly saved: string;
  readonly openDrawer: () => void;
}

export const mark = html`<svg viewBox="0 0 26 22" aria-hidden="true"><path d="M6 3.5h14" stroke="currentColor" stroke-width="3.4" stroke-linecap="round"/><path d="M8.5 7 3.4 17M17.5 7l5.1 10M13 7.4V17" stroke="var(--accent)" stroke-width="1.5" stroke-linecap="round"/><path d="M1 20h24" stroke="currentColor" stroke-width="2" stroke-linecap="round"/></svg>`;

export function cover(state: CoverState): TemplateResult {
  return html`<header class="cover">
    ${state.bookOpen ? html`<button type="button" class="drawer-button" aria-label="Contents" @click=${state.openDrawer}><i></i><i></i><i></i></button>` : nothing}
    <div class="mark">${mark}<span>Overbench</span></div>
    ${state.bookOpen ? html`<div class="whose"><h1>${state.title}</h1><div class="who">${state.client}</div></div>` : nothing}
    <span class="saved" role="status">${state.saved}</span>
    <div class="acts">${actions(state)}</div>
  </header>`;
}

/** In the drawer, for a finger: keys take the last change back elsewhere. */
export const drawerActions = (acts: Acts<CommandId>): TemplateResult =>
  html`${(['undo', 'redo'] as const).map((id) => button(acts(id)))}${actions({ acts, bookOpen: true })}`;

const button = (act: Act, label = act.label): TemplateResult => html`<button type="button" ?disabled=${!act.usable} @click=${act.run}>${label}</button>`;

/** The same at the head of the page and in the drawer. */
function actions({ acts, bookOpen }: Pick<CoverState, 'acts' | 'bookOpen'>): TemplateResult {
  const find = acts('find');
  return html`${
    bookOpen
      ? html`<details class="menu" @click=${closeMenu}><summary>Send out</summary><div>${(['send-book', 'send-wide', 'send-tidy'] as const).map((id) => button(acts(id)))}</div></details>
        ${button(acts('bring-in'), 'Bring in')}
        ${button(acts('print'), 'Print')}
        ${button(acts('shelf'), 'Books')}`
      : nothing
  }
    ${button(acts('light'), 'Day or night')}
    <button type="button" @click=${find.run}>${find.label} <kbd>${find.keys}</kbd></button>`;
}

function closeMenu(event: Event): void {
  const menu = event.currentTarget as HTMLDetailsElement;
  if ((event.target as HTMLElement).closest('button')) menu.open = false;
}
