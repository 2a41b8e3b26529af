import { cellAt } from '../book/address.ts';
import { named } from '../book/look-up.ts';
import { ownAddress } from '../book/other-writing.ts';
import type { TraceNode, TraceStep } from '../engine/types.ts';
import { openBook } from './open-book.ts';
import { print } from './output.ts';
import { valueWithUnit } from './say-value.ts';
import type { Verb } from './verb.ts';
import { WrongUse } from './wrong-use.ts';

/** A sum of this many terms is written out; of a longer one the ends. */
const WRITTEN_OUT = 12;

export const verb: Verb = {
  usage: 'BOOK Table.C12',
  about: 'Tells where a number comes from: its formula, its steps and what it reads, down to the givens and who said them.',
  options: {},
  async run(operands) {
    const [file, place, more] = operands;
    if (file === undefined) throw new WrongUse('a book is missing');
    if (place === undefined) throw new WrongUse('a cell is missing');
    if (more !== undefined) throw new WrongUse(`one cell at a time, not also ${more}`);
    const session = await openBook(file);
    try {
      const address = named(session.book, place) ?? ownAddress(place);
      if (!cellAt(session.book, address)) throw new WrongUse(`${file} has no cell ${place}; a cell is said as Table.B7, or by its name`);
      const tree = await session.ask((engine) => engine.trace(address));
      await print(`${lines(tree, '').join('\n')}\n`);
      return 0;
    } finally {
      session.close();
    }
  },
};

const KINDS: Readonly<Record<TraceNode['kind'], string>> = { given: 'given', as: 'as', worked: 'worked', check: 'check', blank: 'not answered yet' };

function lines(node: TraceNode, indent: string): string[] {
  const title = [node.row, node.column].filter(Boolean).join(', ');
  const about = [node.address, node.name && `named ${node.name}`, KINDS[node.kind], node.untaken && 'in a branch not taken'].filter(Boolean).join(', ');
  const head = `${indent}${title || node.address || node.formula || ''} = ${node.value.kind === 'error' ? `[${node.value.word}] ${node.value.message}` : valueWithUnit(node.value)}  (${about})`;
  if (node.again) return [`${head}, told above`];
  const inner = `${indent}    `;
  const told = [node.source && `source: ${node.source}`, node.note].filter(Boolean).map((text) => `${inner}${text}`);
  const formula = node.formula ? [`${inner}${node.formula}`] : [];
  const steps = node.steps.flatMap((step, i) => stepLines(step, i + 1).map((line) => `${inner}${line}`));
  const from = node.from.flatMap((one) => lines(one, inner));
  return [head, ...told, ...formula, ...steps, ...(from.length > 0 ? [`${indent}  from`] : []), ...from];
}

function stepLines(step: TraceStep, number: number): string[] {
  const value = step.value ? valueWithUnit(step.value) : '';
  switch (step.kind) {
    case 'note':
      return [`${number}. ${step.label}`];
    case 'expression':
      return [`${number}. ${step.label}`, `   ${step.expression} = ${value}`];
    case 'sum':
      return [`${number}. ${step.label}`, `   ${sumText(step)} = ${value}`];
    case 'search': {
      const [low, high] = step.bracket ?? [];
      return [
        `${number}. ${step.label}: searched between ${low} and ${high}, found ${value}`,
        `   to check: ${step.check} = ${step.equals ? valueWithUnit(step.equals) : ''}`,
      ];
    }
  }
}

function sumText(step: TraceStep): string {
  const terms = step.terms ?? [];
  const shown = terms.length <= WRITTEN_OUT ? terms : [...terms.slice(0, 3), undefined, ...terms.slice(-2)];
  const text = shown.map((term) => (term ? String(Number(term.value.toPrecision(12))) : `… ${terms.length - 5} more …`)).join(' + ');
  return step.scale === undefined || step.scale === 1 ? text : `${Number(step.scale.toPrecision(12))} × (${text})`;
}
