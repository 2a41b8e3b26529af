/**
 * PPFD under one flat face that looks straight down, at a point `along` and `across` from its centre, `height` below it.
 * Closed forms: a point source of any beam; a line or a rectangle of a cosine emitter (m = 1). Anything else, and points so far beyond the
 * ends that a closed form would lose its digits in differences, by the kernel's sum of Gaussians.
 *
 * Sources: rectangle, J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors, 2010, entry B-3 (element to parallel
 * rectangle), as a sum over the four edges; line and point, integrated here from the same cosine law.
 */
import { calc, type Show } from '../define.ts';
import { axisTable } from './axis-table.ts';
import type { Crossing } from './crossings.ts';
import { ruleFor, termsFor } from './gaussian-terms.ts';
import { crossingWeights } from './kernel.ts';

export interface OneFace {
  readonly ppf: number;
  readonly length: number;
  readonly width: number;
  readonly m: number;
}

/** A closed form whose parts cancel to less than this share of themselves is not used. */
const CANCELS = 1e-4;

export function facePpfd(face: OneFace, height: number, along: number, across: number, show?: Show, label = 'PPFD at the point'): number {
  const closed = closedForm(face, height, along, across);
  if (closed) {
    show?.expression(label, closed.expression(), closed.value, 'µmol/m²/s');
    return closed.value;
  }
  const { tau, parts } = gaussianParts(face, height, along, across);
  const value = parts.reduce((sum, part) => sum + part, 0);
  const terms = () => Array.from(parts, (part, t) => ({ label: `τ = ${Number((tau[t] as number).toPrecision(6))} per m²`, value: part }));
  show?.sum(`${label}: no closed form for exponent ${Number(face.m.toPrecision(4))}, a sum of Gaussians e^(−τr²)`, terms, 1, value, 'µmol/m²/s');
  return value;
}

function closedForm(face: OneFace, h: number, x: number, y: number): { value: number; expression: () => string } | undefined {
  const { ppf, length, width, m } = face;
  if (length === 0 && width === 0) {
    return {
      // A ratio to the power: the powers by themselves would underflow in a narrow beam.
      value: (((ppf * (m + 1)) / (2 * Math.PI)) * (h / Math.hypot(h, x, y)) ** (m + 1)) / (h * h + x * x + y * y),
      expression: () => calc`(${m} + 1) * ${ppf} / (2 * pi) * (${h} / sqrt(${h}^2 + ${x}^2 + ${y}^2))^(${m} + 1) / (${h}^2 + ${x}^2 + ${y}^2)`,
    };
  }
  if (m !== 1) return undefined;
  if (width === 0) return lineForm(ppf, length, h, x, y);
  if (length === 0) return lineForm(ppf, width, h, y, x);
  return rectangleForm(face, h, x, y);
}

/** ppf·h²/(π·len)·[F(len/2 − x) + F(len/2 + x)], F(s) = s/(2a²(a²+s²)) + atan(s/a)/(2a³), a² = h² + y². */
function lineForm(ppf: number, len: number, h: number, x: number, y: number) {
  const a = Math.hypot(h, y);
  const F = (s: number): number => s / (2 * a * a * (a * a + s * s)) + Math.atan(s / a) / (2 * a ** 3);
  const [near, far] = [F(len / 2 - x), F(len / 2 + x)];
  if (Math.abs(near + far) < CANCELS * (Math.abs(near) + Math.abs(far))) return undefined;
  const part = (s: string): string => calc`(${s}) / (2 * ${a}^2 * (${a}^2 + (${s})^2)) + atan((${s}) / ${a}) / (2 * ${a}^3)`;
  return {
    value: ((ppf * h * h) / (Math.PI * len)) * (near + far),
    expression: () => calc`${ppf} * ${h}^2 / (pi * ${len}) * (${part(calc`${len} / 2 - ${x}`)} + ${part(calc`${len} / 2 + ${x}`)})`,
  };
}

/** ppf/A/(2π)·Σ over the edges of (edge's distance)/D·(angle that the edge fills), D² = h² + distance². */
function rectangleForm({ ppf, length, width }: OneFace, h: number, x: number, y: number) {
  const edge = (distance: number, from: number, to: number): number => {
    const d = Math.hypot(h, distance);
    // One two-argument arctangent for the difference of two: it is safe right under the face.
    return (distance / d) * Math.atan2(d * (to - from), d * d + from * to);
  };
  const [left, right, front, back] = [x - length / 2, x + length / 2, y - width / 2, y + width / 2];
  const edges = [edge(right, front, back), -edge(left, front, back), edge(back, left, right), -edge(front, left, right)];
  const sum = edges.reduce((s, e) => s + e, 0);
  if (sum < CANCELS * edges.reduce((s, e) => s + Math.abs(e), 0)) return undefined;
  return {
    value: ((ppf / (length * width)) * sum) / (2 * Math.PI),
    expression: () => {
      const [l, r, f, b] = [calc`${x} - ${length} / 2`, calc`${x} + ${length} / 2`, calc`${y} - ${width} / 2`, calc`${y} + ${width} / 2`];
      const part = (d: string, from: string, to: string): string => {
        const root = calc`sqrt(${h}^2 + (${d})^2)`;
        return calc`(${d}) / ${root} * atan2(${root} * ((${to}) - (${from})), ${h}^2 + (${d})^2 + (${from}) * (${to}))`;
      };
      const angles = `${part(r, f, b)} - ${part(l, f, b)} + ${part(b, l, r)} - ${part(f, l, r)}`;
      return calc`${ppf} / (${length} * ${width}) / (2 * pi) * (${angles})`;
    },
  };
}

/** The terms of the kernel for this face and point: τ, and each term's part of the PPFD. */
export function gaussianParts({ ppf, length, width, m }: OneFace, height: number, along: number, across: number): { tau: Float64Array; parts: Float64Array } {
  const crossing: Crossing = { ppf, m, xs: [0], ys: [0], length, width, centred: false };
  const far = Math.hypot(Math.abs(along) + length / 2, Math.abs(across) + width / 2);
  const terms = termsFor(ruleFor(m), height, height, far);
  const axis = (point: number, size: number) => axisTable(terms, [point], { centres: [0], size, bench: 0, sides: 0 });
  const [x, y] = [axis(along, length), axis(across, width)];
  const weights = crossingWeights({ crossing, terms }, height);
  return { tau: terms.tau, parts: weights.map((w, t) => w * (x.values[t] as number) * (y.values[t] as number)) };
}
