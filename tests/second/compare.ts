/** Holds what the product wrote against the second evaluator. */
import { Sheet } from './sheet.ts';
import { readTidy, type TidyCell } from './tidy.ts';
import { fromBase } from './units.ts';
import type { Value } from './values.ts';

/** Words that stand in place of a value that could not be worked out. */
const REFUSED: ReadonlySet<string> = new Set(['refused', 'not answered yet', 'out of range', 'divides by zero', 'wrong kind', 'no number', 'not found']);

/** A thousandth at most: what a book shows, and what the second evaluator has. */
const RELATIVE = 1e-3;

const STATE = /^(holds|assumed|close to limit|unknown|fails)\b/;

function shown(value: Value, unit: string): string {
  if (value.kind === 'number') return `${fromBase(value, unit)} ${unit}`;
  return value.kind === 'text' ? value.s : value.kind === 'yesno' ? String(value.yes).toUpperCase() : value.kind === 'fault' ? `refused: ${value.why}` : '';
}

const NUMBER = /\d+(?:\.\d+)?/g;
/** A text without what a check says after its state, thousands not set apart. */
const bare = (text: string): string =>
  text.replace(/\b(holds|assumed|close to limit|unknown|fails), (?:[^.;]|\.(?=\d))*/g, '$1').replace(/(\d)\s(?=\d{3})/g, '$1');

/** Whether two texts say the same with the same numbers, each as far as it is shown. */
function alike(told: string, outside: string): boolean {
  const [one, other] = [bare(told), bare(outside)];
  const [numbers, others] = [one.match(NUMBER) ?? [], other.match(NUMBER) ?? []];
  return (
    one.replace(NUMBER, '#') === other.replace(NUMBER, '#') &&
    numbers.every((x, i) => Math.abs(Number(x) - Number(others[i])) <= RELATIVE * Math.abs(Number(others[i])))
  );
}

function agrees(cell: TidyCell, value: Value): boolean {
  const { value: told, unit, kind } = cell;
  if (REFUSED.has(told)) return value.kind === 'fault';
  switch (value.kind) {
    case 'fault':
      return false;
    case 'blank':
      return told === '' || told === '0';
    case 'yesno':
      return told === (value.yes ? 'TRUE' : 'FALSE');
    case 'text':
      // A check begins with its state; a verdict names its causes and is compared whole.
      if (kind === 'check' && !/^VERDICT\(/.test(cell.held.slice(1)))
        return STATE.exec(told)?.[1] !== undefined && STATE.exec(told)?.[1] === STATE.exec(value.s)?.[1];
      return told === value.s || (cell.held.includes('SHOW(') && alike(told, value.s));
    case 'number': {
      const [x, y] = [Number(told), fromBase(value, unit)];
      return told !== '' && Math.abs(x - y) <= RELATIVE * Math.max(Math.abs(x), Math.abs(y)) + (SHARES[unit] ?? 0);
    }
  }
}

/** What a share may be off by that is left between two like numbers, as 1.00001 − 1 is: light is reckoned to some millionths on either side. */
const SHARES: Readonly<Record<string, number>> = { '': 3e-6, '%': 3e-4 };

export interface Compared {
  readonly numbers: number;
  readonly refusals: number;
  readonly texts: number;
  /** One line each. */
  readonly differences: readonly string[];
  /** Verdicts that name no cause though they are no plain “holds”. */
  readonly causeless: readonly string[];
}

export function compare(csv: string): Compared {
  const cells = readTidy(csv);
  const sheet = new Sheet(cells);
  const [differences, causeless]: [string[], string[]] = [[], []];
  const count = { number: 0, refusal: 0, text: 0 };
  for (const cell of cells) {
    if (!cell.held.startsWith('=')) continue;
    const value = sheet.value(cell.address);
    count[value.kind === 'number' ? 'number' : value.kind === 'fault' ? 'refusal' : 'text']++;
    if (!agrees(cell, value))
      differences.push(`${cell.address} ${cell.row}: ${cell.value} ${cell.unit}, and outside ${shown(value, cell.unit)}, by ${cell.held}`);
    if (
      /^=VERDICT\(/.test(cell.held) &&
      !REFUSED.has(cell.value) &&
      !/^holds$|^(?:(?:fails|unknown|close to limit|assumed) \d+|holds, \d+ assumed): \S/.test(cell.value)
    )
      causeless.push(`${cell.address}: ${cell.value}`);
  }
  return { numbers: count.number, refusals: count.refusal, texts: count.text, differences, causeless };
}
