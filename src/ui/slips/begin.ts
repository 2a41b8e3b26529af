/** The slip on which a plan is begun for a client. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Habits } from '../../book/habits.ts';
import { Part } from '../parts/index.ts';
import { habitFields, habitsIn, remember, remembered } from './habit-fields.ts';

/** Until another is picked. */
const FIRST: Habits = { measures: 'metric', currency: 'EUR', mains: 230, breakers: [10, 13, 16, 20, 25, 32, 40], wires: 'mm²', paper: 'A4' };

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
    return html`<form class="begin" @submit=${this.#begin}>
      <label>Client <input name="client" type="text" required autocomplete="off" /></label>
      <label>Plan <input name="title" type="text" required autocomplete="off" .defaultValue=${this.template.title} /></label>
      ${habitFields({ ...FIRST, ...remembered() })}
      ${this.wrong ? html`<p class="wrong" role="alert">${this.wrong}</p>` : nothing}
      <button type="submit" class="btn first">Begin</button>
    </form>`;
  }
}
customElements.define('ob-begin', ObBegin);

/** By the clock of whoever sits here: year, month, day. */
function today(): string {
  const now = new Date();
  return [String(now.getFullYear()).padStart(4, '0'), ...[now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, '0'))].join('-');
}
