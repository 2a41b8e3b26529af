/** What the plan rests on, by who said it, and what each check asks. */
import { html, nothing, type TemplateResult } from 'lit/html.js';
import { breaking, section, shown, table } from './pieces.ts';
import { type Found, type Reader, UNKNOWN } from './reader.ts';

/** Who said so, told from how the source of a given begins. The first that fits; the order is that of the sheet. */
const SAID: readonly { readonly who: string; readonly begins: RegExp }[] = [
  { who: 'The client said', begins: /^client\b[,:]?\s*/i },
  { who: 'Measured', begins: /^measured\b[,:]?\s*/i },
  { who: 'Ours, to be agreed', begins: /^ours\b(, to be agreed)?[,:]?\s*/i },
  { who: 'Default, until somebody says better', begins: /^default\b[,:]?\s*/i },
  { who: 'Common practice, no published source', begins: /^common practice, no published source\b[,:]?\s*/i },
  { who: 'From memory', begins: /^from memory\b[,:]?\s*/i },
  { who: 'Said elsewhere, or published', begins: /^/ },
];

interface Group {
  readonly who: string;
  readonly lines: { readonly found: Found; readonly more: string }[];
}

export function assumptions(reader: Reader): TemplateResult {
  const groups: Group[] = [{ who: 'Not answered yet', lines: [] }, ...SAID.map(({ who }) => ({ who, lines: [] }))];
  for (const found of givens(reader)) {
    const blank = found.value.kind === 'blank' || (found.value.kind === 'error' && (found.at.cell?.content ?? '') === '');
    const which = blank ? -1 : SAID.findIndex(({ begins }) => begins.test(found.source));
    groups[which + 1]?.lines.push({ found, more: blank ? found.source : found.source.replace(SAID[which]?.begins ?? '', '') });
  }
  return html`<section class="rests">
    <h2>What this rests on <small>and who said so</small></h2>
    ${target(reader)}
    <div class="columns">${groups.filter(({ lines }) => lines.length > 0).map(({ who, lines }) => groupTable(who, lines))}</div>
  </section>`;
}

/** Givens of the brief, of the tables that all scenarios share, and of the scenario itself; what the sheet says of itself stands at its head. */
function givens(reader: Reader): readonly Found[] {
  const own = reader.named('site')?.at.table;
  const shared = reader.book.tables.filter((t) => (t.form === 'brief' || t.form === 'plain') && t !== own).flatMap((t) => reader.grid(t).flat());
  const scenario = reader.scenarios?.rows.flatMap((row) => reader.row(row.id) ?? []) ?? [];
  return [...shared, ...scenario].filter(({ standing }) => standing === 'given' || standing === 'as');
}

const groupTable = (who: string, lines: Group['lines']): TemplateResult =>
  html`<table class="pairs grouped"><thead><tr><th scope="colgroup" colspan="2">${who}</th></tr></thead><tbody>${lines.map(
    ({ found, more }) =>
      html`<tr><th scope="row" class=${breaking(found.label)}>${found.label}${more ? html` <small>${more}</small>` : nothing}</th><td>${found.text === '' ? UNKNOWN : shown(found)}</td></tr>`,
  )}</tbody></table>`;

/** The light that the crop is to get decides the plan: who says so is said in full. */
function target(reader: Reader): TemplateResult | typeof nothing {
  const crop = reader.named('crop');
  const sources = reader.entry('crops', crop, reader.named('stage')).filter(({ heading }) => /source|how sure/i.test(heading));
  if (!crop || sources.length === 0) return nothing;
  return html`<p>Light for ${shown(crop)}, after ${sources.map(({ cell }, i) => html`${i > 0 ? ', ' : ''}${shown(cell)}`)}.</p>`;
}

/** Each check with its margin, and what it asks by which limit. */
export function checks(reader: Reader): TemplateResult | typeof nothing {
  const found = reader.checks;
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
  );
}
