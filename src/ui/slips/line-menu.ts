import { html, type TemplateResult } from 'lit';
import type { Act } from '../parts/index.ts';
import { Slip } from './slip.ts';

interface Menu {
  readonly name: string;
  readonly acts: readonly Act[];
}

/** What can be done with the chosen row or column, in one list: by finger, pointer or arrow keys. */
export class ObLineMenu extends Slip<Menu> {
  static override properties = { menu: { state: true } };
  declare menu: Menu;

  constructor() {
    super();
    this.menu = { name: '', acts: [] };
  }

  async open(menu: Menu): Promise<void> {
    this.menu = menu;
    await this.updateComplete;
    this.dialog?.showModal();
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

  #run(act: Act): void {
    this.close();
    act.run();
  }

  override render(): TemplateResult {
    const { name, acts } = this.menu;
    return html`<dialog class="slip-box line-menu" aria-label=${name} @click=${(e: Event) => e.target === e.currentTarget && this.close()}>
      <p class="lab">${name}</p>
      <div role="menu" aria-label=${name} @keydown=${this.#press}>
        ${acts.map((act) => html`<button type="button" role="menuitem" @click=${() => this.#run(act)}>${act.label}</button>`)}
      </div>
      <button type="button" class="btn for-touch" @click=${() => this.close()}>Leave</button>
    </dialog>`;
  }
}
customElements.define('ob-line-menu', ObLineMenu);
