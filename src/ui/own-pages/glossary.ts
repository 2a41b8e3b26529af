import { html, nothing, type PropertyValues, svg, type TemplateResult } from 'lit';
import { Part } from '../parts/index.ts';
import { GLOSSARY, type GlossaryWord } from './glossary-words.ts';

/** Words of the trade and of the book, explained; some with a drawing. */
export class ObGlossary extends Part {
  static override properties = { word: { attribute: false } };
  /** The one that it was opened at. */
  declare word: { readonly id: string } | undefined;

  override render(): TemplateResult {
    return html`<p class="feeds">${GLOSSARY.map(({ id, word }) => html`<button type="button" class="link" @click=${() => this.#go(id)}>${word}</button> `)}</p>
      <dl class="glossary">${GLOSSARY.map((each) => html`<dt id="word-${each.id}" tabindex="-1" class=${each.id === this.word?.id ? 'here' : ''}>${each.word}</dt><dd>${each.means}${each.picture ? drawing(each.picture) : nothing}</dd>`)}</dl>`;
  }

  override updated(changed: PropertyValues<this>): void {
    const { word } = this;
    // The page that is turned to puts the focus on its title first, in the same turn.
    if (changed.has('word') && word) setTimeout(() => this.#go(word.id));
  }

  #go(id: string): void {
    const found = this.querySelector<HTMLElement>(`#word-${id}`);
    found?.scrollIntoView({ block: 'center' });
    found?.focus({ preventScroll: true });
  }
}
customElements.define('ob-glossary', ObGlossary);

type Picture = NonNullable<GlossaryWord['picture']>;

const lamp = (x: number, y: number, w = 28): TemplateResult => svg`<path d="M${x - w / 2},${y}h${w}" stroke-width="4"/>`;
const bench = (from: number, to: number): TemplateResult => svg`<path d="M${from},62h${to - from}" stroke-width="2"/>`;
const faint = (d: string): TemplateResult => svg`<path d=${d} stroke-dasharray="3 3"/>`;
const text = (x: number, y: number, said: string): TemplateResult => svg`<text x=${x} y=${y} font-size="9" stroke="none" fill="currentColor">${said}</text>`;

/** Each says what its words say, so it is read aloud by nobody. */
const PICTURES: Readonly<Record<Picture, TemplateResult>> = {
  beam: svg`${lamp(80, 12)}${faint('M80,12L30,62M80,12L130,62')}<path d="M62,30Q80,42 98,30" />${text(66, 52, 'beam')}`,
  height: svg`${lamp(60, 12)}${bench(20, 140)}<path d="M100,14V60M96,18l4,-4l4,4M96,56l4,4l4,-4"/>${text(108, 40, 'height')}`,
  evenness: svg`${bench(20, 140)}<path d="M20,50C45,20 115,20 140,50"/>${faint('M20,33h120')}${text(112, 28, 'mean')}${text(22, 60, 'lowest')}`,
  spread: svg`${lamp(45, 14, 20)}${lamp(80, 14, 20)}${lamp(115, 14, 20)}${faint('M35,34h20M70,34h20M105,34h20')}${bench(27, 133)}<path d="M30,24h-12M130,24h12"/>`,
  ageing: svg`<path d="M25,10V62H140" /><path d="M25,18C60,24 100,34 138,42"/>${text(28, 14, 'day one')}${text(98, 56, 'maintained')}`,
  day: svg`<path d="M20,62H150M40,62V28H122V62"/>${text(48, 48, 'PPFD × hours')}${text(126, 58, 'day')}`,
  drop: svg`<path d="M14,30h24v22h-24zM38,36H120M38,46H120"/>${lamp(132, 41, 22)}${text(12, 22, 'supply')}${text(60, 28, 'there')}${text(60, 58, 'and back')}`,
  neighbours: svg`${lamp(32, 14, 22)}${lamp(80, 14, 22)}${lamp(128, 14, 22)}<path d="M12,62h40M60,62h40M108,62h40" stroke-width="2"/>${faint('M32,14L62,60M128,14L98,60')}`,
};

const drawing = (picture: Picture): TemplateResult =>
  html`<svg viewBox="0 0 160 70" width="160" height="70" aria-hidden="true" fill="none" stroke="currentColor" stroke-width="1.4">${PICTURES[picture]}</svg>`;
