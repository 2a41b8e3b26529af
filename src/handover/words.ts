/** What the sheet says whatever the plan: cautions, what is not calculated, and room for names. */
import { html, nothing, type TemplateResult } from 'lit/html.js';
import { shown } from './pieces.ts';
import type { Reader } from './reader.ts';

const CAUTIONS = [
  'A planning estimate: confirm it by measurement after installation.',
  'Mains wiring, new circuits and protective devices: local codes, and a licensed electrician.',
  'Overhead loads: the installer answers for supports, hangers and shelf ratings.',
  'Bright sources: do not stare into them; follow the photobiological classification marked on the fixture.',
  'Wet places: equipment marked for them, with residual-current protection.',
  'Keep lights clear of foliage, fabric and film. Take care on ladders.',
  'The limits here are habits where they say “common practice” or “from memory”. They are not codes.',
];

export const cautions = (): TemplateResult =>
  html`<section class="cautions"><h2>Cautions</h2><ul>${CAUTIONS.map((text) => html`<li>${text}</li>`)}</ul></section>`;

/** Books begun earlier say reckoned. */
const NOT_CALCULATED = /^Not (?:calculated|reckoned) here/;

/** What the book says it does not calculate, in its own words. */
export function notCalculated(reader: Reader): TemplateResult | typeof nothing {
  const blocks = reader.book.pages.flatMap((page) => page.blocks);
  const found = blocks.find((block) => block.kind === 'prose' && NOT_CALCULATED.test(block.text));
  if (found?.kind !== 'prose') return nothing;
  return html`<section class="not"><h2>Not calculated</h2>${found.text.split(/\n{2,}/).map((paragraph) => html`<p>${prose(reader, paragraph)}</p>`)}</section>`;
}

/** Prose with the live values in it; of its marks only the strong ones are kept. */
function prose(reader: Reader, text: string): unknown {
  return text.split(/(\*\*.+?\*\*|\{\{.+?\}\})/).map((piece) => {
    if (piece.startsWith('**')) return html`<b>${piece.slice(2, -2)}</b>`;
    if (!piece.startsWith('{{')) return piece;
    const name = piece.slice(2, -2).trim();
    const found = reader.named(name);
    return found ? shown(found) : piece;
  });
}

const LINES = ['For the client', 'Advisor', 'Installed on', 'Measured on, by', 'Date'];

export const signing = (): TemplateResult =>
  html`<section class="signing"><h2>Agreed and handed over</h2><div>${LINES.map((text) => html`<p>${text}</p>`)}</div></section>`;
