/** What hangs, what feeds it, how it is set week by week, and what it costs. */
import { html, nothing, type TemplateResult } from 'lit/html.js';
import type { Table } from '../book/book.ts';
import { inSentence } from '../book/label.ts';
import { columnHeading } from '../book/look-up.ts';
import { applies, byGauge, hasOwnDriver, isNoFuse } from './applies.ts';
import { list, section, shown, table } from './pieces.ts';
import type { Found, Reader } from './reader.ts';

const value = (found: Found | undefined): unknown => (found ? shown(found) : nothing);

/** What a look-up table says of a thing, in one line; its price and its source stand elsewhere. */
function facts(reader: Reader, tableId: string, name: Found | undefined): unknown {
  const said = reader.entry(tableId, name).slice(1);
  return said
    .filter(({ heading }) => !/^(price|source)$/i.test(heading))
    .map(({ heading, cell }, i) => html`${i > 0 ? ', ' : ''}${i === 0 ? heading : inSentence(heading)} ${shown(cell)}`);
}

export function parts(reader: Reader): TemplateResult | typeof nothing {
  const fixture = reader.row('fixture');
  if (!fixture) return nothing;
  const supply = reader.row('supply');
  const ownDriver = hasOwnDriver(reader);
  const r = (id: string): unknown => value(reader.row(id));
  const n = (id: string): unknown => value(reader.named(id));
  const forEach = (id: string): unknown => (reader.named(id) ? html`${n(id)} for each light` : nothing);
  const rows: (readonly [string, readonly unknown[]] | undefined)[] = [
    [
      'fixture',
      [shown(fixture), html`<small>${facts(reader, 'fixtures', fixture)}</small>`, reader.row('count') ? r('count') : html`one`, r('price'), r('buy_fixtures')],
    ],
    supply && [
      'supply',
      ownDriver
        ? ['Supply', html`<small>none: each light has its own driver</small>`, nothing, nothing, r('buy_supplies')]
        : [
            shown(supply),
            html`<small>${facts(reader, 'supplies', supply)}</small>`,
            reader.row('supplies') ? r('supplies') : html`one`,
            r('supply_price'),
            r('buy_supplies'),
          ],
    ],
    line(reader, 'cable_length', [
      'Cable',
      html`<small>one run of ${n('cable_length')} at most to each light, ${ownDriver ? 'for the mains: an electrician says which' : wire(reader)}</small>`,
      nothing,
      n('cable_price'),
      r('buy_cable'),
    ]),
    ownDriver ? undefined : fuses(reader),
    line(reader, 'connector_price', ['Connectors', html`<small>${forEach('connectors_each')}</small>`, nothing, n('connector_price'), r('buy_connectors')]),
    line(reader, 'hanger_price', ['Hangers', html`<small>${forEach('hangers_each')}</small>`, nothing, n('hanger_price'), r('buy_hangers')]),
    whiteSides(reader),
    line(reader, 'fitting_price', ['Fittings', html`<small>${reader.named('fitting_price')?.label}</small>`, nothing, nothing, n('fitting_price')]),
    line(reader, 'labour_rate', ['Work', html`<small>${forEach('labour_each')}, without the electrician</small>`, nothing, n('labour_rate'), r('buy_labour')]),
    ...extras(reader),
    line(reader, 'buy_disposal', ['Old lamps', html`<small>taken down and away</small>`, nothing, nothing, r('buy_disposal')]),
    line(reader, 'buy', [html`<b>All</b>`, nothing, nothing, nothing, html`<b>${r('buy')}</b>`]),
  ];
  const source = reader.entry('fixtures', fixture).find(({ heading }) => /^source$/i.test(heading));
  return section(
    'parts',
    'What hangs and what feeds it',
    table(
      'wide parts',
      ['Part', 'What it is', 'Count', 'Each', 'Together'],
      rows.flatMap((row) => (row ? [row[1]] : [])),
    ),
    source ? html`data of the light: ${shown(source.cell)}` : nothing,
  );
}

/** What is bought or taken off besides, where there is any. */
const extras = (reader: Reader): (readonly [string, readonly unknown[]])[] =>
  ['buy_spares', 'buy_fitting', 'buy_rebate'].flatMap((id) => {
    const found = reader.row(id);
    if (!found || (found.value.kind === 'number' && found.value.base === 0)) return [];
    const count = id === 'buy_spares' ? value(reader.row('spare_count')) : nothing;
    return [[id, [found.label, nothing, count, nothing, html`${id === 'buy_rebate' ? '− ' : ''}${shown(found)}`]]];
  });

/** The wire by its gauge where one is chosen, else by its area. */
function wire(reader: Reader): TemplateResult {
  const gauge = reader.named('wire_gauge');
  return gauge && byGauge(reader) ? html`wire of AWG ${shown(gauge)}` : html`wire of ${value(reader.named('wire_area'))}`;
}

/** What the light of a plan hangs on is bought or built with it; nobody has a price for it here. */
function whiteSides(reader: Reader): readonly [string, readonly unknown[]] | undefined {
  const sides = reader.row('sides') ?? reader.named('wall_reflectance');
  if (sides?.value.kind !== 'number' || sides.value.base <= 0) return undefined;
  return [
    'sides',
    ['Reflecting sides', html`<small>along every edge, returning ${shown(sides)} of the light; without a price here</small>`, nothing, nothing, nothing],
  ];
}

/** Each run of cable has one, or the plan says that it has none. */
function fuses(reader: Reader): readonly [string, readonly unknown[]] | undefined {
  const fuse = reader.row('fuse');
  if (!fuse) return undefined;
  const kind = reader.named('fuse_kind');
  const what = isNoFuse(fuse)
    ? html`none: what an output lets through is to be safe for the wire`
    : html`${shown(fuse)}${kind ? html`, kind ${shown(kind)}` : nothing}, one where each run of cable leaves its supply, for direct current`;
  const count = reader.row('fuses') ? value(reader.row('fuses')) : nothing;
  return ['fuse', ['Fuses', html`<small>${what}</small>`, count, value(reader.named('fuse_price')), value(reader.row('buy_fuses'))]];
}

const line = (reader: Reader, needs: string, cells: readonly unknown[]): readonly [string, readonly unknown[]] | undefined =>
  reader.line(needs) ? [needs, cells] : undefined;

const SETTINGS = [
  'height',
  'lift_every',
  'first_lift',
  'lifts',
  'gap_least',
  'dim',
  'dim_to',
  'hours',
  'lamps_on',
  'lamps_off',
  'window',
  'lamp_hours',
  'lit_months',
  'dark_where',
  'dark_days',
  'lit_days',
  'turn_days',
  'lamp_days',
  'days_a_year',
  'aim_dim',
  'aim_hours',
];
const ELECTRICS = [
  'supplies',
  'load',
  'output_load',
  'output_amps',
  'wire_carries',
  'fuse',
  'fuses',
  'drop',
  'drop_share',
  'amps_each',
  'amps',
  'per_circuit',
  'circuits',
  'breaker',
  'mains_volts',
  'heat',
  'hang',
  'top_air',
  'latent_heat',
  'heat_air',
  'moisture_air',
  'air_changes',
];
const COSTS = [
  'tariff',
  'tariff_date',
  'peak_share',
  'price_paid',
  'energy',
  'co_two_year',
  'demand',
  'run_lamps',
  'lift_work',
  'run',
  'run_month',
  'buy',
  'interest',
  'plan_years',
  'capital',
  'replace_years',
  'replace_year',
  'annual',
  'plan_cost',
  'mean_kept',
  'per_mol',
  'tray_energy',
  'tray_cost',
  'saving',
  'payback',
  'payback_interest',
  'tariff_even',
  'lost_heat',
];
const UPKEEP = ['wipe_every', 'measure_again', 'years_kept', 'hours_run', 'maintenance', 'l90', 'life'];

const listed =
  (name: string, title: string, ids: readonly string[], aside: unknown = nothing) =>
  (reader: Reader): TemplateResult | typeof nothing => {
    const lines = reader.lines(ids).filter((found) => applies(reader, found));
    return lines.length === 0 ? nothing : section(name, title, list(lines), aside);
  };

export const settings = listed('settings', 'Weekly settings', SETTINGS);
export const electrics = listed('electrics', 'Supplies and circuits', ELECTRICS);
export const costs = listed('costs', 'Costs', COSTS);
export const upkeep = listed('upkeep', 'Upkeep', UPKEEP);

/** `gap_january`, `mount_3`: rows of one thing, period by period. */
const PERIOD = /^(.+)_(\d+|january|february|march|april|may|june|july|august|september|october|november|december)$/;

/** What is set or expected in each week, month or year, where the book reckons so far. */
export function periods(reader: Reader): readonly TemplateResult[] {
  const things = new Map<string, { readonly thing: string; readonly cells: Map<string, Found> }>();
  for (const row of reader.scenarios?.rows ?? []) {
    const [, thing = '', period = ''] = PERIOD.exec(row.id) ?? [];
    const found = period === '' ? undefined : reader.row(row.id);
    if (!found) continue;
    const known = things.get(thing) ?? { thing, cells: new Map() };
    known.cells.set(period, found);
    things.set(thing, known);
  }
  const several = [...things.values()].filter(({ cells }) => cells.size >= 3);
  // Things that go over the same periods share a table.
  const tables = new Map<string, Map<string, Found>[]>();
  for (const { cells } of several) {
    const span = [...cells.keys()].join();
    tables.set(span, [...(tables.get(span) ?? []), cells]);
  }
  return [...tables.entries()].map(([span, columns]) => {
    const names = columns.map((cells) => split([...cells.values()][0]?.label ?? ''));
    const rows = span.split(',').map((period) => {
      const first = columns[0]?.get(period);
      return [split(first?.label ?? '').period, ...columns.map((cells) => value(cells.get(period)))];
    });
    return section(
      'periods',
      `${/^\d/.test(span) ? (names[0]?.period.startsWith('week') ? 'Week by week' : 'Year by year') : 'Month by month'}`,
      table('wide', ['', ...names.map((name) => name.thing)], rows),
    );
  });
}

/** "Maintained DLI, week 3" is of a thing and a period; "Room over the leaf tops, end of week 3" too. */
function split(label: string): { readonly thing: string; readonly period: string } {
  const at = label.lastIndexOf(', ');
  return at < 0 ? { thing: label, period: '' } : { thing: label.slice(0, at), period: label.slice(at + 2).replace(/^(end of|after) /, '') };
}

/** Look-up tables that say what is supposed or was read, and are no catalogue. */
const CATALOGUES = new Set(['crops', 'fixtures', 'supplies', 'checks']);

export function supposed(reader: Reader): readonly TemplateResult[] {
  const lists = reader.book.tables.filter((t) => t.form === 'list' && !CATALOGUES.has(t.id));
  return lists.flatMap((t) => {
    const made = listTable(reader, t);
    return made === nothing ? [] : [section('supposed', t.name, html`${made}${t.id === 'benches' ? together(reader) : nothing}`)];
  });
}

/** What the lines of such a list come to stands right under them. */
function together(reader: Reader): TemplateResult | typeof nothing {
  const sums = reader.book.tables.find((t) => t.id === 'together');
  return sums ? list(reader.grid(sums).flat()) : nothing;
}

/** No paper has room for more columns side by side. */
const MOST_COLUMNS = 10;

/** Who says so stands in a smaller hand. */
function inList(found: Found): unknown {
  if (found.value.kind === 'blank') return '';
  return /^source$/i.test(columnHeading(found.at)) ? html`<small>${shown(found)}</small>` : shown(found);
}

function listTable(reader: Reader, t: Table): TemplateResult | typeof nothing {
  const says = ({ value, text }: Found): boolean => value.kind !== 'blank' && text !== '';
  const rows = reader.grid(t).filter((cells) => cells[0] && !cells[0].at.row.head && cells.some(says));
  if (rows.length === 0) return nothing;
  const labelled = t.rows.some((row) => row.label);
  const heads = rows[0]?.map((found) => columnHeading(found.at)) ?? [];
  if (!labelled && heads.length > MOST_COLUMNS) {
    const lines = rows.map(([first, ...cells]) => [
      first && shown(first),
      cells.filter(says).map((cell, i) => html`${i > 0 ? ', ' : ''}${inSentence(columnHeading(cell.at))} ${shown(cell)}`),
    ]);
    return table('wide', [heads[0] ?? '', 'What it is'], lines);
  }
  return table(
    'wide',
    labelled ? ['', ...heads] : heads,
    rows.map((cells) => [...(labelled ? [cells[0]?.at.row.label ?? ''] : []), ...cells.map(inList)]),
  );
}
