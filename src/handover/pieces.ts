/** The small pieces of the sheet: a value with the address of its cell, lists of values, tables. */
import { html, nothing, type TemplateResult } from 'lit/html.js';
import { GAP } from '../../functions/number-text.ts';
import { sentence } from '../book/label.ts';
import { isLeft, mustBeAsked } from '../book/said-by.ts';
import { whyOf } from '../shown.ts';
import { isNoFuse } from './applies.ts';
import type { Found } from './reader.ts';

/** A value as its cell shows it. The address goes with it, so that print can be held against the book. */
export function shown(found: Found): TemplateResult {
  if (isNoFuse(found)) return html`<span class="val">no fuse</span>`;
  const { text, unit, state, word = '', address } = found;
  // A check of an earlier book may begin with another word for the same state.
  if (state)
    return html`<span class="check" data-cell=${address}><b class="word ${state}">${word}</b>${text.replace(/^\s*(?:close to limit|\p{L}+)/iu, '')}</span>`;
  const bare = unit === '' ? text : text.slice(0, -unit.length);
  return html`<span class=${`val ${found.value.kind === 'number' ? 'num' : breaking(text)}`} data-cell=${address}>${bare}${unit === '' ? nothing : html`<span class=${bare.endsWith(GAP) ? 'u apart' : 'u'}>${unit}</span>`}</span>`;
}

/** What nobody has answered, and what waits for it, has nothing to print within a sentence: it stands among what is still to be asked. */
export const answered = (found: Found | undefined): found is Found =>
  found !== undefined && found.value.kind !== 'blank' && !(found.value.kind === 'error' && found.value.word === 'not answered yet');

/** Only a word that no column could hold may be broken anywhere. */
export const breaking = (text: string): string => (/\S{25}/u.test(text) ? 'long' : '');

export const heading = (title: string, aside: unknown = nothing): TemplateResult =>
  html`<h2>${title}${aside === nothing ? nothing : html` <small>${aside}</small>`}</h2>`;

/** What stands in a section with a heading, in one piece where it can. */
export const section = (name: string, title: string, body: unknown, aside: unknown = nothing): TemplateResult =>
  html`<section class=${name}>${heading(title, aside)}${body}</section>`;

/** What stands there for the template's own client is said to be so until somebody answers for this one. */
export const notAgreed = ({ at, standing, value }: Found): unknown =>
  standing === 'given' && value.kind !== 'blank' && value.kind !== 'error' && isLeft(at) && mustBeAsked(at)
    ? html` <small>(from the template, not agreed)</small>`
    : nothing;

/** A drawing that is no smaller on a narrow screen than its figures can be read: there it is moved sideways, with keys too. */
export const sideways = (name: string, drawing: unknown): TemplateResult =>
  html`<div class="sideways" role="group" aria-label=${name} tabindex="0">${drawing}</div>`;

/** Why values of these lines are refused, each reason once, with what it is the reason of. */
export function reasons(lines: readonly Found[], without?: RegExp): readonly TemplateResult[] {
  const labels = new Map<string, Set<string>>();
  for (const { label, value } of lines) {
    const why = value.kind === 'error' ? sentence(whyOf(value.message).replace(without ?? '', '')) : '';
    if (why !== '') labels.set(why, (labels.get(why) ?? new Set()).add(label));
  }
  return [...labels].map(([why, of]) => html`<p class="why"><b>${[...of].join('; ')}:</b> ${why}</p>`);
}

/** Addresses of cells in a reason, which say nothing to a client. */
export const ADDRESS = / \([\p{L}\p{N}_ ]+\.[A-Z]+\d+\)/gu;

/** Labels at the left, values at the right; beneath them why a value is refused. */
export const list = (lines: readonly Found[]): TemplateResult => html`${pairs(lines)}${reasons(lines)}`;

export function pairs(lines: readonly Found[], after: (line: Found) => unknown = () => nothing): TemplateResult {
  return html`<table class="pairs"><tbody>${lines.map((line) => html`<tr><th scope="row" class=${breaking(line.label)}>${line.label}</th><td>${shown(line)}${after(line)}${notAgreed(line)}</td></tr>`)}</tbody></table>`;
}

/** The first cell of a row says what the row is of. */
export function table(name: string, heads: readonly string[], rows: readonly (readonly unknown[])[]): TemplateResult {
  return html`<table class=${name}><thead><tr>${heads.map((head) => (head === '' ? html`<td></td>` : html`<th scope="col">${head}</th>`))}</tr></thead><tbody>${rows.map(
    ([first, ...cells]) => html`<tr><th scope="row">${first}</th>${cells.map((cell) => html`<td>${cell}</td>`)}</tr>`,
  )}</tbody></table>`;
}
