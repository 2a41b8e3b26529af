/** Calls of functions: arguments are taken as their pages say, answers go back into base units. */
import type { Argument, Cells, Work } from './arguments.ts';
import { CHECKS } from './checks.ts';
import { LIGHT } from './light.ts';
import { METER } from './meter.ts';
import { PAGES } from './pages.ts';
import { PLANTS } from './plants.ts';
import { fromBase, toBase } from './units.ts';
import { isOpen, near, num, refuse, sound, text, type Value, yesno } from './values.ts';
import { WIRES } from './wires.ts';

const WORKS: Readonly<Record<string, Work>> = { ...LIGHT, ...METER, ...PLANTS, ...WIRES, ...CHECKS };

interface Parameter {
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly aboveLow: boolean;
  readonly belowHigh: boolean;
  readonly whole: boolean;
  readonly left: boolean;
  readonly fallback: string | undefined;
  readonly blank: boolean;
}

interface Page {
  readonly params: readonly Parameter[];
  readonly gives: string;
}

const pages = new Map<string, Page>();

/** Parts of a parameter: `µmol/m²/s >0..1e5 whole =5 blank`; a unit may have a space in it. */
const PART = /^(.+?)(?: (>?)(-?[\d.e]+?)\.\.(<?)(-?[\d.e]+))?( whole)?( left)?(?: =(\S+))?( left)?( blank)?$/u;

function pageOf(name: string): Page {
  const before = pages.get(name);
  if (before) return before;
  const [takes = '', gives = ''] = (PAGES[name] ?? refuse(`no page of ${name}`)).split(' → ');
  const params = takes.split(' | ').map((part): Parameter => {
    const [, unit = '', above, low, below, high, whole, left, fallback, later, blank] = PART.exec(part) ?? [];
    return {
      unit,
      low: low === undefined ? Number.NEGATIVE_INFINITY : Number(low),
      high: high === undefined ? Number.POSITIVE_INFINITY : Number(high),
      aboveLow: above === '>',
      belowHigh: below === '<',
      whole: whole !== undefined,
      left: left !== undefined || later !== undefined,
      fallback,
      blank: blank !== undefined,
    };
  });
  const page = { params, gives };
  pages.set(name, page);
  return page;
}

/** One argument; null where it is left out. */
export type Given = Value | Cells | null;

function standsIn({ unit, fallback, left, blank }: Parameter): Argument {
  if (fallback !== undefined) return unit === 'yesno' ? fallback === 'true' : Number(fallback);
  return left || blank ? undefined : refuse('an argument is missing');
}

function taken(param: Parameter, given: Given): Argument {
  const { unit } = param;
  if (given === null) return standsIn(param);
  if (unit.startsWith('cells')) return Array.isArray(given) ? given : [[given as Value]];
  if (Array.isArray(given)) return refuse('a range where one value belongs');
  const told = given as Value;
  if (isOpen(told) && param.blank) return param.fallback === undefined ? (unit === 'any' ? told : undefined) : standsIn(param);
  const found = sound(told);
  if (unit === 'any') return found;
  if (found.kind === 'blank') return refuse('a blank');
  if (unit === 'text') return found.kind === 'text' ? found.s : refuse('no text');
  if (unit === 'yesno') return found.kind === 'yesno' ? found.yes : refuse('neither yes nor no');
  // What is not known goes on as unknown where a blank would.
  if (param.blank && found.kind === 'text' && found.s.toLowerCase() === 'unknown') return undefined;
  if (found.kind !== 'number') return refuse('no number');
  const x = fromBase(found, unit);
  const { low, high, aboveLow, belowHigh, whole } = param;
  if ((x < low && !near(x, low)) || (aboveLow && x <= low)) refuse(`${x} is below ${low}`);
  if ((x > high && !near(x, high)) || (belowHigh && x >= high)) refuse(`${x} is above ${high}`);
  if (whole && !near(x, Math.round(x)) && Math.abs(x - Math.round(x)) > 1e-9) refuse('not whole');
  return whole ? Math.round(x) : x;
}

export const isOurs = (name: string): boolean => Object.hasOwn(PAGES, name);

export function call(name: string, given: readonly Given[]): Value {
  const { params, gives } = pageOf(name);
  const work = WORKS[name];
  if (!work) throw new Error(`The second evaluator has no ${name}.`);
  if (given.length > params.length) refuse('too many arguments');
  const args = params.map((param, i) => taken(param, given[i] ?? null));
  const answer = work(...args);
  if (typeof answer === 'string') return text(answer);
  if (typeof answer === 'boolean') return yesno(answer);
  if (!Number.isFinite(answer)) return refuse('no finite answer');
  return gives === 'any' ? num(answer) : toBase(answer, gives);
}
