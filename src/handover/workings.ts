/** How the headline results come about, in lines that can be worked again with a pocket calculator and the values beside them. */
import { html, nothing, type TemplateResult } from 'lit/html.js';
import { titleOf } from '../book/look-up.ts';
import type { TraceNode, TraceStep } from '../engine/types.ts';
import { workedLine } from '../shown.ts';
import { shown } from './pieces.ts';
import type { Reader } from './reader.ts';

/** Results whose working is printed, where the book has them. */
export const WORKED = [
  'layout',
  'full',
  'day_one',
  'maintenance',
  'kept',
  'dli',
  'ppfd_low',
  'evenness',
  'supplies',
  'load',
  'drop',
  'amps',
  'hang',
  'heat',
  'energy',
  'run',
  'buy',
  'capital',
  'annual',
  'per_mol',
  'saving',
  'payback',
  'verdict',
];

/** Longer than this a line helps nobody with a pen: the book has it. */
const LONGEST = 150;
/** Digits that are printed of a number in a line. */
const DIGITS = 6;
const MOST_READ = 14;

export function workings(reader: Reader, traces: readonly TraceNode[]): TemplateResult | typeof nothing {
  if (traces.length === 0) return nothing;
  return html`<section class="workings">
    <h2>Calculations to check by hand <small>numbers in the lines are cut to ${DIGITS} digits; what is missing is in the book, in the working of the cell</small></h2>
    ${traces.map((trace) => working(reader, trace))}
  </section>`;
}

function working(reader: Reader, trace: TraceNode): unknown {
  const found = trace.address === undefined ? undefined : reader.named(trace.address);
  if (!found) return nothing;
  return html`<div class="work">
    <p><b>${found.label}</b> <span class="address">${trace.address}</span> ${shown(found)}</p>
    ${trace.formula ? html`<p class="work-formula">${trace.formula.replace(/^=\s*/, '= ')}</p>` : nothing}
    ${trace.from.length > 0 && trace.from.length <= MOST_READ ? html`<p class="work-reads">with ${trace.from.map((node, i) => read(reader, node, i))}</p>` : nothing}
    ${trace.steps.flatMap((step) => {
      const text = step.label === titleOf(found.at) && !step.expression ? undefined : lineOfStep(step);
      return text === undefined ? [] : [html`<p class="work-step">${text}</p>`];
    })}
  </div>`;
}

function read(reader: Reader, node: TraceNode, i: number): unknown {
  if (node.kind === 'range') return html`${i > 0 ? '; ' : ''}${node.row}: ${workedLine(node.value)}`;
  const found = node.address === undefined ? undefined : reader.named(node.address);
  if (!found) return nothing;
  return html`${i > 0 ? '; ' : ''}${node.name ?? node.address} = ${shown(found)}`;
}

function lineOfStep(step: TraceStep): string | undefined {
  const value = step.value ? short(workedLine(step.value)) : '';
  switch (step.kind) {
    case 'note':
      return step.label;
    case 'expression': {
      const text = short(step.expression ?? '')
        .replaceAll(' * ', ' × ')
        .replaceAll(' / ', ' ÷ ');
      // A line that only says its result again, or one that no pen would follow.
      if (text === '' || text.length > LONGEST) return undefined;
      const said = `${step.label}: ${step.words} = ${text} = ${value}`;
      return step.words !== undefined && said.length <= LONGEST ? said : `${step.label}: ${text} = ${value}`;
    }
    case 'sum':
      return `${step.label}: ${step.scale === undefined || step.scale === 1 ? '' : `${Number(step.scale.toPrecision(DIGITS))} × `}the sum of ${step.terms?.length ?? 0} numbers = ${value}`;
    case 'search':
      return `${step.label}: ${value}, found by trying; there ${short(step.checkShown ?? step.check ?? '')} = ${step.equals ? workedLine(step.equals) : ''}`;
  }
}

const short = (text: string): string => text.replace(/\d+\.\d{4,}(?:e-?\d+)?/g, (number) => String(Number(Number(number).toPrecision(DIGITS))));
