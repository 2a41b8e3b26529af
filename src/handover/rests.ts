/** What the plan rests on, by who said it, and what each check asks. */
import { html, nothing, type TemplateResult } from 'lit/html.js';
import { saidBy } from '../book/said-by.ts';
import type { Address } from '../engine/types.ts';
import { applies, hasOwnDriver } from './applies.ts';
import { breaking, reasons, section, shown, table } from './pieces.ts';
import { type Found, type Reader, UNKNOWN } from './reader.ts';
import { moved, reach, type Swing } from './swing.ts';

/** The order in which the sheet says who said so. */
const WHO = {
  blank: 'Not answered yet',
  client: 'The client said',
  measured: 'Measured',
  ours: 'Ours, to be agreed',
  agreed: 'Default, agreed',
  default: 'Default, until somebody gives better',
  practice: 'Common practice, no published source',
  memory: 'From memory',
  elsewhere: 'Said elsewhere, or published',
} as const;
type Who = keyof typeof WHO;
const PRACTICE = /^common practice, no published source\b[,:]?\s*/i;
const MEMORY = /^from memory\b[,:]?\s*/i;

/** Who said so, and what more the source says. */
function sayer(found: Found): { readonly who: Who; readonly more: string } {
  const { source, value, at } = found;
  if (value.kind === 'blank' || (value.kind === 'error' && (at.cell?.content ?? '') === '')) return { who: 'blank', more: source };
  const said = saidBy(source);
  if (said) return { who: said.agreed ? 'agreed' : said.teller, more: said.how.replace(/^to be agreed[,:]?\s*/iu, '') };
  if (PRACTICE.test(source)) return { who: 'practice', more: source.replace(PRACTICE, '') };
  if (MEMORY.test(source)) return { who: 'memory', more: source.replace(MEMORY, '') };
  return { who: 'elsewhere', more: source };
}

interface Group {
  readonly who: string;
  readonly lines: { readonly found: Found; readonly more: string }[];
}

/** What moves the plan most stands first in each. */
function groups(reader: Reader, swings: ReadonlyMap<Address, Swing>, keys = Object.keys(WHO) as readonly Who[]): readonly Group[] {
  const told = givens(reader).map((found) => ({ found, ...sayer(found) }));
  const all = keys.map((key): Group => ({ who: WHO[key], lines: told.filter((line) => line.who === key) }));
  for (const { lines } of all) lines.sort((a, b) => reach(swings.get(b.found.address)) - reach(swings.get(a.found.address)));
  return all.filter(({ lines }) => lines.length > 0);
}

/** What the plan takes for granted, for the client: of each kind what moves it most. */
export function granted(reader: Reader, swings: ReadonlyMap<Address, Swing>): TemplateResult {
  const kinds = groups(reader, swings, ['blank', 'ours', 'default', 'practice', 'memory']);
  return section(
    'granted',
    'Not answered, or assumed',
    kinds.map(
      ({ who, lines }) =>
        html`<p><b>${who}:</b> ${lines
          .slice(0, MOST_GRANTED)
          .map(({ found }) => found.label)
          .join('; ')}${lines.length > MOST_GRANTED ? '; and others' : ''}.</p>`,
    ),
    'all under What this rests on',
  );
}
const MOST_GRANTED = 3;

export function assumptions(reader: Reader, swings: ReadonlyMap<Address, Swing>): TemplateResult {
  return html`<section class="rests">
    <h2>What this rests on <small>and who said so</small></h2>
    ${target(reader)}
    <div class="columns">${groups(reader, swings).map(({ who, lines }) => groupTable(who, lines))}</div>
  </section>`;
}

const MOST_RANKED = 10;
/** A change below this is none. */
const NONE = 5e-5;

/** What is most worth asking about again stands first. */
export function ranked(reader: Reader, swings: ReadonlyMap<Address, Swing>): TemplateResult | typeof nothing {
  const results = moved(reader);
  const first = givens(reader)
    .filter(({ address }) => reach(swings.get(address)) > NONE)
    .sort((a, b) => reach(swings.get(b.address)) - reach(swings.get(a.address)))
    .slice(0, MOST_RANKED);
  if (first.length === 0) return nothing;
  return section(
    'swings',
    'What moves the plan most',
    table(
      'wide',
      ['Input', 'Now', 'Changed to', ...results.map(({ label }) => label)],
      first.map((found) => {
        const { step = '', shares = [] } = swings.get(found.address) ?? {};
        return [
          found.label,
          shown(found),
          step,
          ...shares.map((share, i) => html`<span data-from=${`${found.address} ${results[i]?.address}`}>${perCent(share)}</span>`),
        ];
      }),
    ),
    'one at a time, the others as they are',
  );
}

const perCent = (share: number): string =>
  Math.abs(share) <= NONE ? 'same' : `${share < 0 ? '−' : '+'}${(Math.abs(share) * 100).toFixed(Math.abs(share) < 0.0995 ? 1 : 0)} %`;

/** Givens of the brief, of the tables that all scenarios share, and of the scenario itself, but for what has no bearing on it; what the sheet says of itself stands at its head. */
export function givens(reader: Reader): readonly Found[] {
  const own = reader.named('site')?.at.table;
  const shared = reader.book.tables.filter((t) => (t.form === 'brief' || t.form === 'plain') && t !== own).flatMap((t) => reader.grid(t).flat());
  const scenario = reader.scenarios?.rows.flatMap((row) => reader.row(row.id) ?? []) ?? [];
  return [...shared, ...scenario].filter((found) => (found.standing === 'given' || found.standing === 'as') && applies(reader, found));
}

const groupTable = (who: string, lines: Group['lines']): TemplateResult =>
  html`<table class="pairs grouped"><thead><tr><th scope="colgroup" colspan="2">${who}</th></tr></thead><tbody>${lines.map(
    ({ found, more }) =>
      html`<tr><th scope="row" class=${breaking(found.label)}>${found.label}${more ? html` <small>${more}</small>` : nothing}</th><td>${found.text === '' ? UNKNOWN : shown(found)}</td></tr>`,
  )}</tbody></table>${reasons(lines.flatMap(({ found }) => (found.value.kind === 'error' && found.at.cell?.content ? [found] : [])))}`;

/** The light that the crop is to get decides the plan: who says so is said in full. */
function target(reader: Reader): TemplateResult | typeof nothing {
  const crop = reader.named('crop');
  const sources = reader.entry('crops', crop, reader.named('stage')).filter(({ heading }) => /source|how sure/i.test(heading));
  if (!crop || sources.length === 0) return nothing;
  return html`<p>Light for ${shown(crop)}, after ${sources.map(({ cell }, i) => html`${i > 0 ? ', ' : ''}${shown(cell)}`)}.</p>`;
}

/** Each check with its margin, and what it asks by which limit. */
export function checks(reader: Reader): TemplateResult | typeof nothing {
  const found = reader.checks.filter((check) => applies(reader, check));
  if (found.length === 0) return nothing;
  return section(
    'checks',
    'Checks',
    table(
      'wide',
      ['Check', 'Says', 'Asks', 'Limit from'],
      found.map((check) => {
        const [, asks, source] = reader.entry('checks', { ...check, text: check.label });
        return [
          check.label,
          shown(check),
          asks ? html`<small>${shown(asks.cell)}</small>` : nothing,
          source ? html`<small>${shown(source.cell)}</small>` : nothing,
        ];
      }),
    ),
    hasOwnDriver(reader) ? 'those of a supply do not apply: each light has its own driver' : nothing,
  );
}
