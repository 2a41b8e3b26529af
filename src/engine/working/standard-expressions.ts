/** How functions of the open standard are written in an expression that any general evaluator reckons. */
import { unit } from '../../../functions/units.ts';
import type { Printed } from './printed.ts';
import * as printed from './printed.ts';

/** Functions of plain numbers, by the name that a general evaluator has for them. */
const PLAIN_CALLS: Readonly<Record<string, string>> = {
  EXP: 'exp',
  LN: 'log',
  LOG: 'log',
  LOG10: 'log10',
  INT: 'floor',
  SIGN: 'sign',
  ROUND: 'round',
  ASIN: 'asin',
  ACOS: 'acos',
  ATAN: 'atan',
  SINH: 'sinh',
  COSH: 'cosh',
  TANH: 'tanh',
};

const ANGLE_CALLS: Readonly<Record<string, string>> = { SIN: 'sin', COS: 'cos', TAN: 'tan' };

/** Whole steps away from zero, toward it, up and down: on a number, or on a number of tens. */
const STEPPED: Readonly<Record<string, (base: number) => string>> = {
  ROUNDUP: (base) => (base < 0 ? 'floor' : 'ceil'),
  ROUNDDOWN: () => 'fix',
  TRUNC: () => 'fix',
};

const MULTIPLES: Readonly<Record<string, string>> = { CEILING: 'ceil', FLOOR: 'floor' };

/** Functions that an expression can hold as they are; undefined for all others. */
export const isWritable = (name: string): boolean =>
  [PLAIN_CALLS, ANGLE_CALLS, STEPPED, MULTIPLES].some((list) => Object.hasOwn(list, name)) || ['SQRT', 'ABS', 'POWER', 'MOD'].includes(name);

/** The call as an expression, from its arguments as expressions and its value. */
export function expressionOf(name: string, args: readonly Printed[], base: number): Printed | undefined {
  const [a, b] = args;
  if (!a) return undefined;
  if (name === 'SQRT') return printed.root(a, base);
  if (name === 'ABS') return printed.sameKindCall('abs', [a], base);
  if (name === 'POWER') return b && printed.raise(a, b, base);
  if (name === 'MOD') return b && printed.sameKindCall('mod', [a, b], base);
  const plain = PLAIN_CALLS[name];
  // Without a base the standard's LOG counts in tens.
  if (name === 'LOG' && !b) return printed.plainCall('log10', [a], base);
  if (plain) return printed.plainCall(plain, args, base);
  const angle = ANGLE_CALLS[name];
  if (angle) return printed.plainCall(angle, [inRadians(a)], base);
  const step = STEPPED[name]?.(base);
  if (step) return stepped(step, a, b, base);
  const multiple = MULTIPLES[name];
  if (!multiple || args.length > 2) return undefined;
  return b
    ? printed.plainText(`${multiple}(${printed.inProduct(a)} / ${printed.inProduct(b)}) * ${printed.inProduct(b)}`, base)
    : printed.plainCall(multiple, [a], base);
}

function inRadians(a: Printed): Printed {
  const radians = unit('rad');
  return radians && a.dimension === radians.dimension ? printed.onScale(a, radians) : a;
}

function stepped(step: string, a: Printed, places: Printed | undefined, base: number): Printed {
  if (!places || places.base === 0) return printed.plainCall(step, [a], base);
  const tens = `10 ^ ${printed.inProduct(places)}`;
  return printed.plainText(`${step}(${printed.inProduct(a)} * ${tens}) / ${tens}`, base);
}
