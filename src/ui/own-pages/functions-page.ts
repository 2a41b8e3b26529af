import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { byFamily } from '../../../functions/family.ts';
import type { At } from '../../book/address.ts';
import type { FunctionCard } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import { paramText, signature } from '../cells/index.ts';
import { Part } from '../parts/index.ts';
import { anotherCell } from './function-try.ts';

/** Every function, from its record alone: to be searched by word, by unit and by family. */
export class ObFunctions extends Part {
  static override properties = {
    ask: { attribute: false },
    at: { attribute: false, hasChanged: anotherCell },
    wanted: { state: true },
    cards: { state: true },
  };
  declare ask: Session['ask'];
  /** The chosen cell, into which an example can be put. */
  declare at: At | undefined;
  declare wanted: string;
  declare cards: readonly FunctionCard[];

  constructor() {
    super();
    this.wanted = '';
    this.cards = [];
  }

  override firstUpdated(): void {
    // The records live with the engine: a second copy on the page would weigh as much as the rest of it.
    this.ask((engine) => engine.functions()).then(
      (cards) => {
        this.cards = cards;
      },
      () => {}, // The engine's trouble is told above the page.
    );
  }

  override render(): TemplateResult {
    const words = this.wanted.toLowerCase().split(/\s+/).filter(Boolean);
    const found = this.cards.filter((f) => words.every((word) => haystack(f).includes(word)));
    return html`
      <label class="seek inline"><span>Look for a word, a unit or a family</span>
        <input type="text" autocomplete="off" spellcheck="false" @input=${(e: Event) => {
          this.wanted = (e.target as HTMLInputElement).value;
        }} /></label>
      <p class="count" role="status">${found.length === this.cards.length ? `${found.length} functions` : `${found.length} of ${this.cards.length} functions`}</p>
      ${repeat(
        byFamily(found),
        ([family]) => family,
        ([family, list]) =>
          html`<h3 class="piece">${family}</h3>${repeat(
            list,
            (f) => f.name, // What was written to try one function must not land on another.
            (f) => this.#entry(f),
          )}`,
      )}`;
  }

  #entry(f: FunctionCard): TemplateResult {
    return html`<section class="function" aria-label=${f.name}>
      <h4><code>${f.name}(${f.params.map(signature).join(', ')})</code></h4>
      <p class="prose">${f.summary}</p>
      <dl class="said">
        ${f.params.map((p) => html`<dt><code>${p.name}</code></dt><dd>${paramText(p)}</dd>`)}
        <dt>Gives</dt><dd>${f.returns.quantity}${unitText(f.returns.unit)}</dd>
        <dt>Formula</dt><dd><code>${f.formula}</code></dd>
        <dt>Use</dt><dd>${f.use}</dd>
        ${f.caution ? html`<dt>Caution</dt><dd><strong>${f.caution}</strong></dd>` : nothing}
        <dt>Source</dt><dd>${f.source}</dd>
        ${f.examples.map((example) => html`<dt>Example</dt><dd><code>=${example.formula}</code> gives ${typeof example.gives === 'number' ? Number(example.gives.toPrecision(6)) : String(example.gives)}${unitText(f.returns.unit)}</dd>`)}
      </dl>
      <ob-try .name=${f.name} .formula=${f.examples[0]?.formula ?? `${f.name}()`} .ask=${this.ask} .at=${this.at}></ob-try>
    </section>`;
  }
}
customElements.define('ob-functions', ObFunctions);

const unitText = (unit: string): string => (unit === '1' || unit === 'text' || unit === '' ? '' : ` ${unit}`);
const haystack = (f: FunctionCard): string =>
  [f.name, f.family, f.summary, f.use, f.returns.quantity, f.returns.unit, ...f.params.flatMap((p) => [p.name, p.quantity, p.unit])].join(' ').toLowerCase();
