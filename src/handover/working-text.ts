/** The working of a cell as plain text: its formula, its steps and what it reads, with units and sources, as far down as it is unfolded. */
import type { TraceNode, TraceStep, Value } from '../engine/types.ts';

/** A sum of this many terms is written out; of a longer one the ends. */
const WRITTEN_OUT = 12;

const KINDS: Readonly<Record<TraceNode['kind'], string>> = {
  given: 'given',
  as: 'as',
  worked: 'worked',
  check: 'check',
  blank: 'not answered yet',
  range: '',
};

type Say = (value: Value) => string;

/** `say` writes a value, and `inStep` one in a step; `open` says of a node, by the keys on the way to it, whether what it comes from is told. */
export function workingText(tree: TraceNode, say: Say, inStep: Say = say, open: (path: string) => boolean = () => true): string {
  /** Cells whose own working stands in the text. */
  const unfolded = new Set<string | undefined>();
  const lines = (node: TraceNode, path: string, indent: string): string[] => {
    const title = [node.row, node.column].filter(Boolean).join(', ');
    const about = [node.address, node.name && `named ${node.name}`, KINDS[node.kind]].filter(Boolean).join(', ');
    const value = node.value.kind === 'error' ? `[${node.value.word}] ${node.value.message}` : say(node.value);
    const head = `${indent}${title || node.address || node.formula || ''}${node.kind === 'range' ? ':' : ' ='} ${value}${about === '' ? '' : `  (${about})`}`;
    if (node.again) return [unfolded.has(node.address) ? `${head}, told above` : head];
    const inner = `${indent}    `;
    const told = [node.source && `source: ${node.source}`, node.note].filter(Boolean).map((text) => `${inner}${text}`);
    if (path !== '' && !open(path)) return [head, ...told];
    unfolded.add(node.address);
    const formula = node.formula ? [`${inner}${node.formula}`] : [];
    const steps = node.steps.flatMap((step, i) => stepLines(step, i + 1, inStep).map((line) => `${inner}${line}`));
    const from = node.from.flatMap((one) => lines(one, `${path}/${one.address ?? one.row}`, inner));
    const more = node.more ? [`${inner}and ${node.more} more cells`] : [];
    return [head, ...told, ...formula, ...steps, ...(from.length > 0 ? [`${indent}  from`] : []), ...from, ...more];
  };
  return `${lines(tree, '', '').join('\n')}\n`;
}

function stepLines(step: TraceStep, number: number, say: Say): string[] {
  const value = step.value ? say(step.value) : '';
  const words = step.words === undefined ? [] : [`   ${step.words}`];
  switch (step.kind) {
    case 'note':
      return [`${number}. ${step.label}`];
    case 'expression':
      return [`${number}. ${step.label}`, ...words, `   ${step.expression} = ${value}`];
    case 'sum':
      return [`${number}. ${step.label}`, ...words, `   ${sumText(step)} = ${value}`];
    case 'search': {
      const [low, high] = step.bracket ?? [];
      return [
        `${number}. ${step.label}: searched between ${low} and ${high}, found ${value}`,
        `   to check: ${step.check} = ${step.equals ? say(step.equals) : ''}`,
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
