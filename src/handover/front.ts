/** The first page: what is planned for whom, whether it holds, and the five figures that a client reads first. */

import { html, nothing, type TemplateResult } from 'lit/html.js';
import { BESIDE } from '../book/bounds.ts';
import { lacksSaid } from '../book/edition/said.ts';
import { sentence } from '../book/label.ts';
import { titleOf } from '../book/look-up.ts';
import { isLeft, LEFT, questionsOn } from '../book/said-by.ts';
import { ADDRESS, answered, heading, notAgreed, reasons, shown, table } from './pieces.ts';
import type { Found, Reader } from './reader.ts';

/** Of each line the first that the book has. */
const HEADLINES = [['count', 'each'], ['height'], ['hours', 'window'], ['kept', 'day_one'], ['dli', 'dli_mean']];

/** The first of a line begins it, whatever it follows elsewhere. */
const begun = (words: string): string => words.replace(/^,? ?(.)/, (_, first: string) => first.toUpperCase());

export function head(reader: Reader, fingerprint: string): TemplateResult {
  const { book, letter, fellBack } = reader;
  // What is not answered yet is left out of these lines; it stands among what is still to be asked.
  const line = (...parts: readonly (readonly [string, string])[]): unknown => {
    const said = parts.flatMap(([before, name]) => {
      const found = reader.named(name);
      return answered(found) ? [{ before, found }] : [];
    });
    if (said.length === 0) return nothing;
    return html`${said.map(({ before, found }, i) => html`${i === 0 ? begun(before) : before} ${shown(found)}${notAgreed(found)}`)}.`;
  };
  return html`<header>
    <div>
      <h1>Light plan: ${book.title}</h1>
      <p>${book.client ? `Client: ${sentence(book.client)} ` : nothing}${line(['Site:', 'site'])}${letter ? ` ${fellBack ? `${fellBack}; scenario ${letter} is shown` : `Scenario ${letter}`}.` : ''}</p>
      <p>${line(['Version', 'plan_version'], [' of', 'plan_date'], [', valid until', 'plan_until'])} Book ${fingerprint}.</p>
    </div>
  </header>`;
}

/** What nobody has answered yet: until then the plan is not the client's. */
export function stillOpen({ book }: Reader): TemplateResult | typeof nothing {
  const asked = book.pages.flatMap((page) => questionsOn(book, page));
  const left = asked.filter(isLeft);
  const unnamed: TemplateResult | typeof nothing = book.client ? nothing : html`<p class="open">Nobody has said who the client is.</p>`;
  if (left.length === 0) return unnamed;
  const labels = left.map((at) => at.row.label ?? titleOf(at)).join('; ');
  return html`<p class="open"><b>${left.length} of ${asked.length} questions ${left.length === 1 ? 'is' : 'are'} still to be asked</b> (${LEFT}): ${labels}.</p>${unnamed}`;
}

/** What the plan was not held against: a sheet of an earlier edition must not look like one of the present. */
export function lacking({ book }: Reader): TemplateResult | typeof nothing {
  const said = lacksSaid(book);
  return said === '' ? nothing : html`<p class="open lacking"><b>Not all is checked:</b> ${said}</p>`;
}

const isFailing = ({ at, state, value }: Found): boolean => !at.row.strong && (state === 'fails' || value.kind === 'error');

export const fails = ({ checks }: Reader): boolean => checks.some(isFailing);

/** What fails and what nobody knows comes before all else; a plan that holds says so in one line. */
export function verdict(reader: Reader): TemplateResult | typeof nothing {
  const { checks } = reader;
  const found = reader.row('verdict');
  if (!found && checks.length === 0) return nothing;
  const verdicts = checks.filter((check) => check.at.row.strong);
  const singles = checks.filter((check) => !check.at.row.strong);
  const failing = singles.filter(isFailing);
  const open = singles.filter((check) => check.state === 'unknown' || check.value.kind === 'blank');
  const near = singles.filter((check) => check.state === 'look');
  const assumed = singles.filter((check) => check.state === 'assumed');
  const bad = failing.length > 0;
  return html`<section class="verdict ${bad ? 'bad' : ''}">
    ${heading(bad ? 'This plan fails' : open.length > 0 ? 'This plan can’t be judged yet' : 'Checks')}
    <p>${(verdicts.length > 0 ? verdicts : found ? [found] : []).map((v) => html`<span>${v.label}: ${singles.length > 0 ? counted(v) : shown(v)}.</span> `)}</p>
    ${bad ? html`<p>A plan that fails is not to be built as it stands, and is never called the cheapest. What fails, by how much, and what is asked:</p>` : nothing}
    ${failing.slice(0, MOST_ASKED).map((check) => html`<p>${check.label}: ${shown(check)}. ${asked(reader, check)}</p>`)}${group(failing.slice(MOST_ASKED), 'And')}${group(open, 'Not known')}${group(near, 'Close to its limit')}${group(assumed, 'Holds only if what is assumed is so')}${reasons(failing, ADDRESS)}
  </section>`;
}

const NAMES = /(\b(?:(?:fails|unknown|close to limit|assumed) \d+|\d+ assumed)): [^;]*/g;

/** A verdict without the names that it lists: each check stands by its name beneath it. */
const counted = ({ state, word = '', text, address }: Found): TemplateResult =>
  html`<span class="check" data-from=${address}><b class="word ${state ?? ''}">${word}</b>${text.replace(NAMES, '$1').slice(word.length)}</span>`;

/** So many failures have what they ask beside them; more would not go on the page. */
const MOST_ASKED = 4;

/** What the check asks, in the book's own words. */
const asked = (reader: Reader, check: Found): unknown => {
  const asks = reader.entry('checks', { ...check, text: check.label })[1];
  return asks ? html`<small>${shown(asks.cell)}</small>` : nothing;
};

const group = (checks: readonly Found[], title: string): unknown =>
  checks.length === 0 ? nothing : html`<p><b>${title}:</b> ${checks.map((check, i) => html`${i > 0 ? '; ' : ''}${check.label}: ${shown(check)}`)}.</p>`;

export function headlines(reader: Reader): TemplateResult {
  const found = HEADLINES.flatMap((ids) => reader.first(ids) ?? []);
  const fixture = reader.row('fixture');
  return html`<div class="headlines">${found.map((one, i) => html`<div><b>${shown(one)}</b><span>${one.label}${i === 0 && fixture && /^(count|each)$/.test(one.at.row.id) ? html`, ${shown(fixture)}` : nothing}</span></div>`)}</div>`;
}

const COMPARED = ['fixture', 'count', 'height', 'kept', 'dli', 'dli_mean', 'buy', 'annual', 'verdict'];

/** All scenarios in the order of the book: none is ranked here, and a failing one says that it fails. */
export function compared(reader: Reader): TemplateResult | typeof nothing {
  const { letters, column } = reader;
  if (letters.length < 2) return nothing;
  const rows = COMPARED.flatMap((id) => reader.row(id) ?? []);
  return html`<section class="compared">
    ${heading('The scenarios side by side', ranking(reader))}
    ${table(
      letters.length > BESIDE ? 'wide many' : 'wide',
      ['', ...letters.map((letter, i) => (i === column ? `${letter}, handed over` : letter))],
      rows.map((row) => [row.label, ...letters.map((_, c) => cell(reader.row(row.at.row.id, c)))]),
    )}
    ${reasons(rows.flatMap((row) => letters.flatMap((_, c) => reader.row(row.at.row.id, c) ?? [])))}
  </section>`;
}

/** Which is the cheapest; without a letter, that none holds, or why nobody can say so. */
function ranking(reader: Reader): unknown {
  const cheapest = reader.named('cheapest');
  if (!cheapest || (cheapest.value.kind === 'text' && !reader.letters.includes(cheapest.text))) return 'none of them holds, so none is ranked';
  const left = reader.letters.filter((_, c) => {
    const [found, cost] = [reader.row('verdict', c), reader.row('annual', c)];
    return found?.state !== 'fails' && found?.state !== 'unknown' && (found?.value.kind === 'error' || cost?.value.kind === 'error');
  });
  return html`${cheapestLabel(reader)} ${shown(cheapest)}${left.length > 0 ? `; not ranked, as not all of it can be worked out: ${left.join(', ')}` : nothing}`;
}

const cell = (found: Found | undefined): unknown => (found ? shown(found) : nothing);

function cheapestLabel(reader: Reader): string {
  const place = reader.named('cheapest_place');
  return `${place?.label.toLowerCase() ?? 'cheapest that works'}:`;
}
