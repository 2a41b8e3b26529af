/**
 * Expressions in printed numbers: `100 * 16 * 330 / 1000`. Every number stands in the unit that its cell shows; where the
 * unit of the result needs a factor, the factor is written into the expression, so that any general evaluator comes to
 * the number that is printed beside it.
 */
import { digits } from '../../../functions/define.ts';
import { type Dimension, over, PLAIN, power, times, type Unit } from '../../../functions/units.ts';

/** How tightly an expression binds: what stands in brackets around it depends on this. */
const LEVEL = { compare: 0, add: 1, multiply: 2, raise: 3, atom: 4 } as const;

export interface Printed {
  readonly text: string;
  readonly level: number;
  /** base = (number that the text gives + offset) · numerator / denominator */
  readonly numerator: number;
  readonly denominator: number;
  readonly offset: number;
  readonly dimension: Dimension;
  readonly reading: boolean;
  /** The base value. */
  readonly base: number;
  /** A written 0 or a blank: it joins any quantity. */
  readonly joinsAny?: boolean;
  /** One number as it stands in a cell or came out of an earlier step. */
  readonly bare?: boolean;
}

type Scale = Pick<Printed, 'numerator' | 'denominator' | 'offset' | 'dimension' | 'reading'>;

const PLAIN_SCALE: Scale = { numerator: 1, denominator: 1, offset: 0, dimension: PLAIN, reading: false };

/** A number by itself, printed in a unit. */
export function atom(shown: number, base: number, u: Unit | undefined, joinsAny = false): Printed {
  const scale = u ?? PLAIN_SCALE;
  const { numerator, denominator, offset, dimension, reading } = scale;
  return { text: digits(shown), level: LEVEL.atom, numerator, denominator, offset, dimension, reading, base, bare: true, ...(joinsAny && { joinsAny }) };
}

const bracketed = (p: Printed, above: number): string => (p.level >= above ? p.text : `(${p.text})`);

/** A plain number as a factor or a power. */
export const inProduct = (p: Printed): string => bracketed(plainly(p), LEVEL.atom);

function divisor(a: bigint, b: bigint): bigint {
  return b === 0n ? a : divisor(b, a % b);
}

/** ` * 3600 / 1000` for a ratio of factors; nothing for 1. Whole factors are shortened exactly. */
function factorText(numerator: number, denominator: number): string {
  let [n, d] = [numerator, denominator];
  if (Number.isInteger(n) && Number.isInteger(d)) {
    const shared = divisor(BigInt(Math.abs(n)), BigInt(Math.abs(d)));
    [n, d] = [Number(BigInt(n) / shared), Number(BigInt(d) / shared)];
  } else if (n === d) [n, d] = [1, 1];
  const written = (x: number): string => (x === Math.PI ? 'pi' : String(x));
  return `${n === 1 ? '' : ` * ${written(n)}`}${d === 1 ? '' : ` / ${written(d)}`}`;
}

/** The same quantity, printed on another scale of its kind. */
export function onScale(p: Printed, to: Scale): Printed {
  if (p.joinsAny) return { ...p, ...scaleOf(to) };
  const factor = factorText(p.numerator * to.denominator, p.denominator * to.numerator);
  if (factor === '' && p.offset === to.offset) return p;
  const lifted = p.offset === 0 ? p.text : `${bracketed(p, LEVEL.add)} ${p.offset < 0 ? '-' : '+'} ${Math.abs(p.offset)}`;
  const liftedLevel = p.offset === 0 ? p.level : LEVEL.add;
  const scaled = factor === '' ? lifted : `${liftedLevel >= LEVEL.multiply ? lifted : `(${lifted})`}${factor}`;
  const scaledLevel = factor === '' ? liftedLevel : LEVEL.multiply;
  if (to.offset === 0) return { ...scaleOf(to), base: p.base, text: scaled, level: scaledLevel };
  return { ...scaleOf(to), base: p.base, text: `${scaled} ${to.offset < 0 ? '+' : '-'} ${Math.abs(to.offset)}`, level: LEVEL.add };
}

const ONE_NUMBER = /^\d+(?:\.\d+)?(?:e[-+]?\d+)?$/;

/** An expression that gives a number in one unit, written so that it gives it in another. */
export function inUnit(text: string, from: Unit | undefined, to: Unit | undefined): string {
  if (!from || !to) return text;
  return onScale({ ...scaleOf(from), text, level: ONE_NUMBER.test(text) ? LEVEL.atom : LEVEL.compare, base: 0 }, to).text;
}

/** What a number in one unit is multiplied by to stand in another. */
export const scaleTo = (from: Unit | undefined, to: Unit | undefined): number =>
  from && to ? (from.numerator * to.denominator) / (from.denominator * to.numerator) : 1;

const scaleOf = (s: Scale): Scale => ({ numerator: s.numerator, denominator: s.denominator, offset: s.offset, dimension: s.dimension, reading: s.reading });

/** A difference on the scale of a reading: without its origin. */
const withoutOrigin = (s: Scale): Scale => ({ ...scaleOf(s), offset: 0, reading: false });

export function sum(a: Printed, b: Printed, sign: '+' | '-', base: number): Printed {
  const left = a.joinsAny ? onScale(a, b) : b.reading && !a.reading ? onScale(a, withoutOrigin(b)) : a;
  const right = b.joinsAny ? onScale(b, left) : onScale(b, b.reading && left.reading ? left : withoutOrigin(left));
  const rightText = bracketed(right, sign === '-' ? LEVEL.multiply : LEVEL.add);
  const scale = left.reading && right.reading ? withoutOrigin(left) : right.reading ? right : left;
  return { ...scaleOf(scale), text: `${left.text} ${sign} ${rightText}`, level: LEVEL.add, base };
}

export function multiply(a: Printed, b: Printed, base: number): Printed {
  return {
    text: `${bracketed(a, LEVEL.multiply)} * ${bracketed(b, LEVEL.raise)}`,
    level: LEVEL.multiply,
    numerator: a.numerator * b.numerator,
    denominator: a.denominator * b.denominator,
    offset: 0,
    dimension: times(a.dimension, b.dimension),
    reading: false,
    base,
  };
}

export function divide(a: Printed, b: Printed, base: number): Printed {
  return {
    text: `${bracketed(a, LEVEL.multiply)} / ${bracketed(b, LEVEL.raise)}`,
    level: LEVEL.multiply,
    numerator: a.numerator * b.denominator,
    denominator: a.denominator * b.numerator,
    offset: 0,
    dimension: over(a.dimension, b.dimension),
    reading: false,
    base,
  };
}

export function raise(a: Printed, exponent: Printed, base: number): Printed {
  return {
    text: `${bracketed(a, LEVEL.atom)} ^ ${bracketed(plainly(exponent), LEVEL.atom)}`,
    level: LEVEL.raise,
    numerator: a.numerator ** exponent.base,
    denominator: a.denominator ** exponent.base,
    offset: 0,
    dimension: power(a.dimension, exponent.base),
    reading: false,
    base,
  };
}

export function root(a: Printed, base: number): Printed {
  return {
    text: `sqrt(${a.text})`,
    level: LEVEL.atom,
    numerator: Math.sqrt(a.numerator),
    denominator: Math.sqrt(a.denominator),
    offset: 0,
    dimension: power(a.dimension, 0.5),
    reading: false,
    base,
  };
}

export const negative = (a: Printed, base: number): Printed => ({ ...a, bare: false, text: `-${bracketed(a, LEVEL.atom)}`, level: LEVEL.multiply, base });

export const percent = (a: Printed, base: number): Printed => ({
  ...a,
  bare: false,
  text: `${bracketed(a, LEVEL.multiply)} / 100`,
  level: LEVEL.multiply,
  base,
});

/** A plain number by its own size: 85 % as 85 / 100, a length over another without a factor left over. */
export const plainly = (p: Printed): Printed => (p.dimension === PLAIN ? onScale(p, PLAIN_SCALE) : p);

/** A call of a function that takes and gives plain numbers. */
export const plainCall = (name: string, args: readonly Printed[], base: number): Printed => ({
  ...PLAIN_SCALE,
  text: `${name}(${args.map((a) => plainly(a).text).join(', ')})`,
  level: LEVEL.atom,
  base,
});

/** A call whose arguments are of one kind and whose result is of that kind: min, max, mean, median, abs. */
export function sameKindCall(name: string, args: readonly Printed[], base: number): Printed {
  const first = args.find((a) => !a.joinsAny) ?? args[0];
  const scale = first ?? PLAIN_SCALE;
  return { ...scaleOf(scale), text: `${name}(${args.map((a) => onScale(a, scale).text).join(', ')})`, level: LEVEL.atom, base };
}

/** The number that an expression gives, without its unit. */
export const asPlain = (p: Printed, base: number): Printed => ({ ...PLAIN_SCALE, text: p.text, level: p.level, base });

/** A plain text that is already an expression. */
export const plainText = (text: string, base: number, level: number = LEVEL.multiply): Printed => ({ ...PLAIN_SCALE, text, level, base });

/** `3 > 2`, on the scale of the first that has one. */
export function comparison(a: Printed, b: Printed, sign: string): string {
  const scale = a.joinsAny ? b : a;
  return `${bracketed(onScale(a, scale), LEVEL.add)} ${sign} ${bracketed(onScale(b, scale), LEVEL.add)}`;
}
