/** An open book as it stands on the page: its contents, the page of it that is shown, and the working in the margin. */
import { html, nothing, type TemplateResult } from 'lit';
import { ref } from 'lit/directives/ref.js';
import type { Page } from '../../book/book.ts';
import type { Address } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import type { PageCommand } from '../blocks/index.ts';
import type { WorkingCommand } from '../margin/index.ts';
import { OWN_PAGES } from '../own-pages/index.ts';
import type { Acts } from '../parts/index.ts';
import { drawerActions } from './cover.ts';
import { savingTrouble } from './saving-trouble.ts';
import type { Shell } from './shell.ts';

/** While a formula is written its letters are on the page, and the margin has none. */
const UNLETTERED: ReadonlyMap<Address, string> = new Map();

export function openBook(shell: Shell, session: Session): TemplateResult {
  const { book, values } = session;
  const { doing, tracing, drawer, sheet, citing } = shell;
  const { at, pageId } = shell.whereabouts;
  const page = book.pages.find((each) => each.id === pageId);
  const own = OWN_PAGES.find((each) => each.id === pageId);
  const acts: Acts<WorkingCommand> = doing.acts;
  return html`
    <nav class="contents" aria-label="Contents">
      <div class="drawer-head"><b>Contents</b><button type="button" @click=${() => shell.toggleDrawer()}>Close</button></div>
      <ob-contents .book=${book} .values=${values} .page=${pageId} .changes=${session.history.done.length} .acts=${doing.acts}></ob-contents>
      <div class="drawer-acts">${drawer ? drawerActions(doing.acts) : nothing}</div>
    </nav>
    <main class="page">
      <div class="print-head">${book.title}${book.client ? `, ${book.client}` : ''}</div>
      <h2 class="title" tabindex="-1">${page?.title ?? own?.title ?? ''}</h2>
      ${session.trouble ? html`<p class="trouble" role="alert">${session.trouble}</p>` : nothing}
      ${savingTrouble(shell)}${shell.fetching.trouble(shell.keeping)}
      ${page ? ofTheBook(shell, session, page) : ofItsOwn(shell, session, own?.id)}
      <p class="print-foot">A planning estimate, to be confirmed by measurement. Mains wiring and protective devices: local codes and a licensed electrician.</p>
    </main>
    <aside class="working" aria-label="The working" tabindex="0">
      <button type="button" class="grab" aria-expanded=${sheet} aria-label="The working, ${sheet ? 'lower it' : 'raise it'}" @click=${() => shell.toggleSheet()}></button>
      <ob-working .book=${book} .values=${values} .at=${at} .told=${tracing.told} .letters=${citing ? UNLETTERED : tracing.letters} .acts=${acts}></ob-working>
    </aside>
    ${drawer ? html`<div class="shade" @click=${() => shell.toggleDrawer()}></div>` : nothing}`;
}

function ofTheBook({ whereabouts, typing, tracing, doing, citing, ask, takePage }: Shell, { book, values }: Session, page: Page): TemplateResult {
  const acts: Acts<PageCommand> = doing.acts;
  return html`<ob-page ${ref(takePage)} .book=${book} .page=${page} .values=${values} .chosen=${whereabouts.chosen} .anchor=${whereabouts.anchor} .letters=${citing ?? tracing.letters} .pending=${typing.pending} .refusal=${typing.refusal} .acts=${acts} .ask=${ask}></ob-page>`;
}

function ofItsOwn({ whereabouts, doing, ask }: Shell, { book, values, history }: Session, id: string | undefined): TemplateResult {
  if (id === 'functions') return html`<ob-functions .ask=${ask} .at=${whereabouts.at}></ob-functions>`;
  if (id === 'glossary') return html`<ob-glossary .word=${whereabouts.word}></ob-glossary>`;
  if (id === 'hand-over') return html`<ob-handover .book=${book} .values=${values} .ask=${ask}></ob-handover>`;
  const acts: Acts<'undo' | 'redo'> = doing.acts;
  return html`<ob-changes .history=${history} .acts=${acts}></ob-changes>`;
}
