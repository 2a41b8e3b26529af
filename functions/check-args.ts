/** Holds arguments against what a record declares, before its work is asked: kind, blank, bounds. One rule for every host of the functions. */
import { type Cells, type CellValue, type FunctionRecord, isRefusal, type Param, type Refusal, refuse } from './define.ts';
import { group, MINUS } from './number-text.ts';

/** A number as a sentence prints it, to six digits: with a true minus, and a thin gap between thousands. */
export function say(x: number): string {
  const [whole = '', ...rest] = String(Math.abs(Number(x.toPrecision(6)))).split(/(?=[.e])/);
  return `${x < 0 ? MINUS : ''}${group(whole)}${rest.join('')}`;
}

/** To six digits, and not below (`way` 1) or not above (−1) what it is. */
function outward(x: number, way: 1 | -1): number {
  const near = Number(x.toPrecision(6));
  return (near - x) * way >= -1e-12 * Math.abs(x) ? near : near + way * 10 ** (Math.floor(Math.log10(Math.abs(x))) - 5);
}

/** The least, and the most, that would do: whoever writes what was said is not refused again. */
export const sayLeast = (x: number): string => say(outward(x, 1));
export const sayMost = (x: number): string => say(outward(x, -1));

/** The unit as a sentence names it: which money a book counts in is not known here. */
const unitWord = (x: number, unit: string): string => (unit === 'year' && x !== 1 ? 'years' : unit.replace(/^money/, ''));

/** A number with its unit: `30 h/d`, `0.5`, `12°`. */
function sayIn(x: number, unit: string): string {
  if (unit === '1' || unit === 'any' || unit === 'mixed') return say(x);
  return unit === '°' ? `${say(x)}°` : `${say(x)} ${unitWord(x, unit)}`.trim();
}

const isNumeric = (unit: string): boolean => unit !== 'text' && unit !== 'yes or no' && unit !== 'any' && unit !== 'mixed';

/** What a function takes, by the names of its arguments. */
export interface Signature {
  readonly name: string;
  readonly takes: readonly { readonly name: string; readonly optional?: boolean }[];
  /** How many of the last ones may come again, together; 0 where none may. */
  readonly again: number;
}

export const signatureIn = ({ name, params }: FunctionRecord): Signature => ({ name, takes: params, again: params.at(-1)?.repeats ? 1 : 0 });

/** What is wrong with the number of arguments, naming those that are missing or how many are too many; undefined when it is right. */
export function countFault({ name, takes, again }: Signature, given: number): string | undefined {
  const least = takes.findLastIndex((p) => !p.optional) + 1;
  const over = given - takes.length;
  const missing =
    given < least ? takes.slice(given, least).filter((p) => !p.optional) : again > 0 && over > 0 && over % again > 0 ? takes.slice((over % again) - again) : [];
  if (missing.length === 0 && (over <= 0 || again > 0)) return undefined;
  const head = `${name} takes ${amount(least, takes.length, again)}`;
  const listed = takes.map((p) => (p.optional ? `[${p.name}]` : p.name)).join(', ');
  const all = takes.length > 0 ? `${head}: ${listed}${again > 0 ? ', …' : '.'}` : `${head}.`;
  if (missing.length > 0) return `${all} ${joined(missing.map((p) => p.name))} ${missing.length === 1 ? 'is' : 'are'} missing.`;
  return `${all} ${given} ${given === 1 ? 'is' : 'are'} given: the last ${over === 1 ? 'is' : `${over} are`} too many.`;
}

function amount(least: number, most: number, again: number): string {
  const words = (n: number): string => `${n === 0 ? 'no' : n} argument${n === 1 ? '' : 's'}`;
  if (again > 0) return `${words(least)} or more`;
  if (least === most) return words(least);
  return least === 0 ? `at most ${words(most)}` : `${least} ${most === least + 1 ? 'or' : 'to'} ${words(most)}`;
}

/** `a, b and c` */
export const joined = (words: readonly string[]): string => [words.slice(0, -1).join(', '), words.at(-1)].filter(Boolean).join(' and ');

/** What is wrong with the arguments, as a sentence that names function, argument, unit and what is allowed; undefined when all is well. */
export function checkArgs(record: FunctionRecord, args: readonly unknown[]): Refusal | undefined {
  const { params } = record;
  // What is left out is spoken of as blank, with its unit.
  const tooMany = args.length > params.length ? countFault(signatureIn(record), args.length) : undefined;
  if (tooMany !== undefined) return refuse(tooMany);
  const count = Math.max(args.length, params.filter((p) => !p.optional).length);
  for (let i = 0; i < count; i++) {
    const wrong = checkArg(record, i, args[i]);
    if (wrong) return wrong;
  }
  return undefined;
}

/** What is wrong with one of the arguments, by its place. */
export function checkArg({ params, name }: FunctionRecord, place: number, value: unknown): Refusal | undefined {
  const param = params[place] ?? params.at(-1);
  const fault = param && checkOne(param, value);
  return fault ? refuse(`${name}: ${fault}`) : undefined;
}

function checkOne(param: Param, value: unknown): string | undefined {
  if (value === undefined && param.optional) return undefined;
  if (param.shape === 'range') return checkRange(param, value);
  if (value === null || value === undefined) return param.blankAllowed ? undefined : `${param.name} is blank; ${wanted(param)}.`;
  if (typeof value === 'object') return `${param.name} is a range of cells; one value is needed.`;
  if (param.unknownAllowed && value === 'unknown') return undefined;
  return checkValue(param, value as CellValue, param.name);
}

function checkRange(param: Param, value: unknown): string | undefined {
  if (value === null || value === undefined) return param.blankAllowed ? undefined : `${param.name} is blank; a range of cells is needed.`;
  if (!Array.isArray(value)) return `${param.name} is one value; a range of cells is needed.`;
  const rows = value as unknown as Cells;
  if (rows.length === 0 || rows.every((row) => row.length === 0)) return `${param.name} is an empty range.`;
  for (const [r, row] of rows.entries()) {
    for (const [c, cell] of row.entries()) {
      if (cell === null || cell === undefined || (param.faultsPass && isRefusal(cell))) continue;
      // Where it stands is put into words only for one that is wrong: of a whole table that would be most of the time.
      if (checkValue(param, cell, '')) return checkValue(param, cell, `${param.name} in row ${r + 1}, column ${c + 1}`);
    }
  }
  return undefined;
}

function wanted({ unit, oneOf }: Param): string {
  if (oneOf) return `give ${list(oneOf)}`;
  if (unit === 'text') return 'give a text';
  if (unit === 'yes or no') return 'give TRUE or FALSE';
  if (unit === 'any') return 'give a value';
  if (unit.startsWith('money')) return `give an amount of money${unit.slice('money'.length)}`;
  return unit === '1' ? 'give a number' : `give a number in ${unit}`;
}

function checkValue(param: Param, value: CellValue, called: string): string | undefined {
  const { unit } = param;
  if (typeof value === 'number' && !Number.isFinite(value)) return `${called} is no finite number; ${wanted(param)}.`;
  if (param.oneOf && typeof value === 'string' && !param.oneOf.includes(value)) return `${called} is “${clip(value)}”; it can be ${list(param.oneOf)}.`;
  if (unit === 'text' && typeof value !== 'string') return `${called} is ${kindOf(value)}; a text is needed${param.oneOf ? `: ${list(param.oneOf)}` : ''}.`;
  if (unit === 'yes or no' && typeof value !== 'boolean') return `${called} is ${kindOf(value)}; TRUE or FALSE is needed.`;
  if (!isNumeric(unit)) return typeof value === 'number' ? checkBounds(param, value, called) : undefined;
  if (typeof value !== 'number') return `${called} is ${kindOf(value)}; ${needed(unit)} is needed.`;
  return checkBounds(param, value, called);
}

/** What lies nearer than this to a limit that is itself excluded is no quantity that anyone means, and would overflow where it divides. */
const HAIR = 1e-9;

function checkBounds(p: Param, x: number, called: string): string | undefined {
  const low = (p.atLeast !== undefined && x < p.atLeast) || (p.above !== undefined && x < p.above + HAIR);
  const high = (p.atMost !== undefined && x > p.atMost) || (p.below !== undefined && x > p.below - HAIR);
  if (low || high) return `${called} is ${sayIn(x, p.unit)}; it must be ${allowed(p)}.${high ? percentMeant(p, x) : ''}`;
  if (p.whole && !Number.isInteger(x)) return `${called} is ${sayIn(x, p.unit)}; it must be a whole number, such as ${say(wholeFor(p, x))}.`;
  return undefined;
}

/** The next one on the safe side, where the bounds let it: what is named for a limit is never more than what was given, for a gauge never a thicker wire. */
function wholeFor({ upward, atLeast = Number.NEGATIVE_INFINITY, atMost = Number.POSITIVE_INFINITY }: Param, x: number): number {
  const [below, above] = [Math.floor(x), Math.ceil(x)];
  return upward ? (above <= atMost ? above : below) : below >= atLeast ? below : above;
}

/** Who writes 42 for a share means 42 %. */
function percentMeant(p: Param, x: number): string {
  const [most, least, share] = [p.atMost ?? p.below ?? Number.POSITIVE_INFINITY, p.atLeast ?? p.above ?? 0, x / 100];
  const isShare = (p.unit === '1' || p.unit === '/year') && !p.whole && most <= 2;
  return isShare && x > 2 && share <= most && share >= least ? ` ${say(x)} % is ${say(share)}.` : '';
}

/** The allowed stretch in words: "from 0 to 24 h/d", "above 0 m". */
function allowed(p: Param): string {
  const from = p.atLeast !== undefined ? say(p.atLeast) : undefined;
  const to = p.atMost !== undefined ? sayIn(p.atMost, p.unit) : undefined;
  if (from !== undefined && to !== undefined) return `from ${from} to ${to}`;
  const low = p.atLeast !== undefined ? `${sayIn(p.atLeast, p.unit)} or more` : p.above !== undefined ? `above ${sayIn(p.above, p.unit)}` : '';
  const high =
    to !== undefined ? `${low === '' ? '' : 'at most '}${to}${low === '' ? ' or less' : ''}` : p.below !== undefined ? `below ${sayIn(p.below, p.unit)}` : '';
  return [low, high].filter(Boolean).join(' and ');
}

const needed = (unit: string): string => (unit.startsWith('money') ? 'an amount of money' : `a number${unit === '1' ? '' : ` in ${unit}`}`);

const kindOf = (value: CellValue): string =>
  typeof value === 'string' ? `the text “${clip(value)}”` : typeof value === 'boolean' ? (value ? 'TRUE' : 'FALSE') : `the number ${say(Number(value))}`;
const clip = (text: string): string => (text.length > 40 ? `${text.slice(0, 39)}…` : text);
const list = (words: readonly string[]): string => words.map((w) => `“${w}”`).join(words.length === 2 ? ' or ' : ', ');
