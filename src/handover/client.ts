/** What the client's own page says after the head, the verdict and the five figures: what the plan brings and costs, and what is still to be seen to. */
import { html, nothing, type TemplateResult } from 'lit/html.js';
import { lineOf } from '../shown.ts';
import { fails } from './front.ts';
import { answered, pairs, section, shown } from './pieces.ts';
import type { Found, Reader } from './reader.ts';

/** By the crop's own target, and by the first two checks of the book: those of the light. */
export function brings(reader: Reader): TemplateResult {
  const [crop, stage, low, high] = ['crop', 'stage', 'target_low', 'target_high'].map((name) => reader.named(name));
  const brought = reader.first(['dli', 'dli_mean', 'darkest_light']);
  const about = [low, high, brought].map((found) => (found?.value.kind === 'number' ? found.value.base : undefined));
  return section(
    'brings',
    'What it brings',
    html`${
      crop && low && brought
        ? html`<p>A day’s light (DLI) wanted for ${shown(crop)}${stage ? html`, ${shown(stage)}` : nothing}: ${shown(low)}${high?.value.kind === 'number' ? html` to ${shown(high)}` : ' or more'}. ${brought.label}: ${shown(brought)}${amount(about)}.</p>`
        : nothing
    }${pairs(reader.checks.filter(({ at }) => !at.row.strong).slice(0, 2), (check) => against(reader, check))}`,
    'more under The light in figures',
  );
}

/** The value and the limit that a check of one limit holds against each other. */
function against(reader: Reader, { at }: Found): unknown {
  const [, most, ...names] = /^=(?:CHECK\.NEAR\()?CHECK\.AT\.(LEAST|MOST)\(([\w.]+),([\w.]+)[,)]/.exec(at.cell?.content ?? '') ?? [];
  const [value, limit] = names.map((name) => reader.named(name) ?? reader.named(`${at.table.name}.${name}`));
  return value?.value.kind === 'number' && limit?.value.kind === 'number'
    ? html`: ${shown(value)}, and ${shown(limit)} at ${most === 'MOST' ? 'most' : 'least'} is asked`
    : nothing;
}

function amount([low, high, brought]: readonly (number | undefined)[]): string {
  if (low === undefined || brought === undefined) return '';
  return brought < low ? ', less than is wanted' : high !== undefined && brought > high ? ', more than is wanted' : ', as much as is wanted';
}

const PAID = ['buy', 'run_month', 'run', 'annual', 'saving', 'payback'];

/** What is paid first, by the month and by the year. A cost of a plan that fails is that of nothing that anybody should buy. */
export function paid(reader: Reader): TemplateResult | typeof nothing {
  const lines = reader.lines(PAID);
  if (lines.length === 0) return nothing;
  const run = reader.row('run_month') ? undefined : reader.row('run');
  return section(
    'paid',
    'What it costs',
    html`${pairs(lines)}${run?.value.kind === 'number' ? html`<p>${run.label} by the month: <span data-from=${run.address}>${lineOf({ ...run.value, unit: run.value.unit.replace('year', 'month') }, 0)}</span></p>` : nothing}`,
    fails(reader) ? 'of a plan that fails' : 'more under Costs',
  );
}

/** What nobody should order before. */
export function confirm(reader: Reader): TemplateResult {
  const entries = [...reader.entry('fixtures', reader.row('fixture')), ...reader.entry('supplies', reader.row('supply'))];
  const invented = entries.some(({ cell }) => /^invented/iu.test(cell.text));
  const v = (id: string): Found | undefined => reader.line(id);
  // What is not answered is left out, and the comma before what stands first then.
  const item = (before: string, ...parts: readonly (readonly [string, Found | undefined])[]): unknown => {
    const said = parts.flatMap(([word, found]) => (answered(found) ? [{ word, found }] : []));
    return parts.some(([, found]) => found)
      ? html`<li>${before}${said.length > 0 ? ': ' : nothing}${said.map(({ word, found }, i) => html`${i === 0 ? word.replace(/^[,;]? /, '') : word}${shown(found)}`)}.</li>`
      : nothing;
  };
  return section(
    'confirm',
    'To confirm before ordering',
    html`<ul>
      ${item('Sizes where it will hang', ['', v('bench_length')], [' by ', v('bench_width')], ['; lights over the leaf tops at ', v('height')])}
      ${item('Light, power, price and delivery, with the seller', ['', v('fixture')], [', ', v('supply')], ['; prices valid until ', v('plan_until')])}
      ${item('Room on the mains, with a licensed electrician', ['', v('amps')], [' at ', v('mains_volts')], [', circuits ', v('circuits')], [', breaker ', v('breaker_used')])}
      ${item('What holds the lights up, with the installer', ['hanger load ', v('hang')])}
      ${item('Electricity price, from the bill', ['', v('tariff')])}
      ${invented ? html`<li>Lights and supplies of the list are invented: no order is placed by them.</li>` : nothing}
    </ul>`,
    'more under Plan, What hangs and what feeds it, Supplies and circuits',
  );
}
