/** The slip on which a plan is begun for a client. */
import { html, nothing, type TemplateResult } from 'lit';
import { Part } from '../parts/index.ts';
import { goAlong, habitFields, habitsIn, remember, remembered, USUAL } from './habit-fields.ts';
import { today } from './today.ts';

export interface Begun {
  readonly slug: string;
  readonly title: string;
}

export class ObBegin extends Part {
  static override properties = { template: { attribute: false }, wrong: { state: true } };
  declare template: Begun;
  declare wrong: string;

  constructor() {
    super();
    this.wrong = '';
  }

  override firstUpdated(): void {
    this.querySelector('input')?.focus();
  }

  #begin(event: Event): void {
    event.preventDefault();
    const data = new FormData(event.target as HTMLFormElement);
    const habits = habitsIn(data);
    if (typeof habits === 'string') {
      this.wrong = habits;
      return;
    }
    remember(habits);
    const { slug, title } = this.template;
    const said = (name: string): string => String(data.get(name) ?? '').trim();
    this.say('open', { what: 'template', slug, title: said('title') || title, client: said('client'), date: today(), habits });
  }

  override render(): TemplateResult {
    return html`<form class="begin" @submit=${this.#begin} @change=${goAlong}>
      <label>Client <input name="client" type="text" required autocomplete="off" /></label>
      <label>Plan <input name="title" type="text" required autocomplete="off" .defaultValue=${this.template.title} /></label>
      ${habitFields({ ...USUAL.metric, ...remembered() })}
      ${this.wrong ? html`<p class="wrong" role="alert">${this.wrong}</p>` : nothing}
      <button type="submit" class="btn first">Begin</button>
    </form>`;
  }
}
customElements.define('ob-begin', ObBegin);
