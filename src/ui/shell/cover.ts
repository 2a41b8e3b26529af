/** The strip across the top: whose plan it is, whether it is safe, and what is done with the whole of it. */
import { html, nothing, type TemplateResult } from 'lit';
import { command, labelOf } from '../commands/commands.ts';
import type { Desk } from '../parts/command.ts';

export interface CoverState {
  readonly desk: Desk;
  readonly title: string;
  readonly client: string;
  /** "saved 14:02", "saving …", "not saved: …". */
  readonly saved: string;
  readonly busy: boolean;
  readonly openDrawer: () => void;
}

export const mark = html`<svg viewBox="0 0 26 22" aria-hidden="true"><path d="M6 3.5h14" stroke="currentColor" stroke-width="3.4" stroke-linecap="round"/><path d="M8.5 7 3.4 17M17.5 7l5.1 10M13 7.4V17" stroke="var(--accent)" stroke-width="1.5" stroke-linecap="round"/><path d="M1 20h24" stroke="currentColor" stroke-width="2" stroke-linecap="round"/></svg>`;

export function cover(state: CoverState): TemplateResult {
  const { desk } = state;
  return html`<header class="cover">
    ${desk.bookOpen ? html`<button type="button" class="drawer-button" aria-label="Contents" @click=${state.openDrawer}><i></i><i></i><i></i></button>` : nothing}
    <div class="mark">${mark}<span>Overbench</span></div>
    ${desk.bookOpen ? html`<div class="whose"><h1>${state.title}</h1><div class="who">${state.client}</div></div>` : nothing}
    <span class="saved" role="status">${state.busy ? 'reckoning …' : state.saved}</span>
    <div class="acts">${actions(desk)}</div>
  </header>`;
}

/** In the drawer, for a finger: keys take the last change back elsewhere. */
export const drawerActions = (desk: Desk): TemplateResult =>
  html`${['undo', 'redo'].map(command).map((c) => html`<button type="button" ?disabled=${!c.when(desk)} @click=${() => c.run(desk)}>${labelOf(c, desk)}</button>`)}${actions(desk)}`;

/** The same at the head of the page and in the drawer. */
function actions(desk: Desk): TemplateResult {
  const find = command('find');
  return html`${
    desk.bookOpen
      ? html`<details class="menu" @click=${closeMenu}><summary>Send out</summary><div>${['send-book', 'send-wide', 'send-tidy'].map(command).map((c) => html`<button type="button" @click=${() => c.run(desk)}>${labelOf(c, desk)}</button>`)}</div></details>
        <button type="button" @click=${() => desk.bringIn()}>Bring in</button>
        <button type="button" @click=${() => desk.print()}>Print</button>
        <button type="button" @click=${() => desk.shelf()}>Books</button>`
      : nothing
  }
    <button type="button" @click=${() => desk.light()}>Day or night</button>
    <button type="button" @click=${() => desk.find()}>${labelOf(find, desk)} <kbd>${find.keys}</kbd></button>`;
}

function closeMenu(event: Event): void {
  const menu = event.currentTarget as HTMLDetailsElement;
  if ((event.target as HTMLElement).closest('button')) menu.open = false;
}
