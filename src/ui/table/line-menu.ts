import { html, type TemplateResult } from 'lit';
import { labelOf } from '../commands/commands.ts';
import { cellCommands, columnCommands, rowCommands } from '../commands/reshape-commands.ts';
import type { Desk } from '../parts/command.ts';
import { Part } from '../parts/part.ts';

const COMMANDS = { row: [...rowCommands, ...cellCommands], column: columnCommands };

/** What can be done with the chosen row or column, in one list: by finger, pointer or arrow keys. */
export class ObLineMenu extends Part {
  static override properties = { desk: { attribute: false }, what: { state: true } };
  declare desk: Desk;
  declare what: 'row' | 'column' | undefined;

  async open(what: 'row' | 'column'): Promise<void> {
    this.what = what;
    await this.updateComplete;
    this.querySelector('dialog')?.showModal();
    this.querySelector<HTMLElement>('[role=menuitem]')?.focus();
  }

  #press(event: KeyboardEvent): void {
    const buttons = [...this.querySelectorAll<HTMLElement>('[role=menuitem]')];
    const at = buttons.indexOf(document.activeElement as HTMLElement);
    const to = { ArrowDown: at + 1, ArrowUp: at - 1 + buttons.length, Home: 0, End: buttons.length - 1 }[event.key];
    if (to === undefined || buttons.length === 0) return;
    event.preventDefault();
    buttons[to % buttons.length]?.focus();
  }

  override render(): TemplateResult {
    const usable = this.what ? COMMANDS[this.what].filter((command) => command.when(this.desk)) : [];
    const name = this.what === 'column' ? 'What can be done with the column' : 'What can be done with the row and its cells';
    const close = (): void => this.querySelector('dialog')?.close();
    return html`<dialog class="slip-box line-menu" aria-label=${name} @click=${(e: Event) => e.target === e.currentTarget && close()}>
      <p class="lab">${name}</p>
      <div role="menu" aria-label=${name} @keydown=${this.#press}>
        ${usable.map(
          (command) =>
            html`<button type="button" role="menuitem" @click=${() => {
              close();
              command.run(this.desk);
            }}>${labelOf(command, this.desk)}</button>`,
        )}
      </div>
      <button type="button" class="btn for-touch" @click=${close}>Leave</button>
    </dialog>`;
  }
}
customElements.define('ob-line-menu', ObLineMenu);
