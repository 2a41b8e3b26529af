import { calc, define } from '../define.ts';
import { BEAM, beamExponent, facePpfd, HEIGHT } from '../field/index.ts';
import { LONG, WIDE } from './beam-params.ts';

/** A side of less than this share of the height is none: the power changes by its square. */
const POINT = 1e-6;

/**
 * The power p for which PPFD under the centre goes like h^(−p) near a height, −d ln E / d ln h.
 *
 * Any beam: E_m ∝ (m+1)h^(m+1)·mean r^(−(m+3)), so p = (m+1)·(E₍ₘ₊₂₎/Eₘ − 1), from the PPFD of the same face with an exponent two higher.
 * Cosine emitters (m = 1), whose E is a closed form: its derivative. A line of half length s, x = s/h, E ∝ (1/(1+x²) + atan(x)/x)/h².
 * A rectangle of half sides a and b, E ∝ a/D·atan(b/D) with D² = h² + a², and the same with a and b changed round.
 */
function linePower(x: number): number {
  const [end, angle] = [1 / (1 + x * x), Math.atan(x) / x];
  return 1 + (2 * end * end) / (end + angle);
}

function rectanglePower(a: number, b: number, h: number): number {
  let [light, fall] = [0, 0];
  for (const [side, other] of [
    [a, b],
    [b, a],
  ] as const) {
    const d = Math.hypot(h, side);
    const angle = Math.atan(other / d) / d;
    light += side * angle;
    fall += (side * (angle + other / (d * d + other * other))) / (d * d);
  }
  return (h * h * fall) / light;
}

const rectangleText = (a: number, b: number, h: number): string => {
  const parts = [
    [a, b],
    [b, a],
  ].map(([side, other]) => {
    const d = calc`sqrt(${h}^2 + ${side ?? 0}^2)`;
    const angle = calc`atan(${other ?? 0} / ${d}) / ${d}`;
    return {
      light: calc`${side ?? 0} * ${angle}`,
      fall: calc`${side ?? 0} * (${angle} + ${other ?? 0} / (${h}^2 + ${a}^2 + ${b}^2)) / (${h}^2 + ${side ?? 0}^2)`,
    };
  });
  return calc`${h}^2 * (${parts.map((p) => p.fall).join(' + ')}) / (${parts.map((p) => p.light).join(' + ')})`;
};

export const FALLOFF_POWER = define({
  name: 'FALLOFF.POWER',
  family: 'Beam and footprint',
  summary: 'The power of the height with which light falls off under one fixture, near a height.',
  use: '1 near a long bar, 2 far from anything, 0 close under a wide panel. Small changes only; FALLOFF.RATIO takes large ones.',
  formula: '−d ln PPFD / d ln h',
  params: [LONG, WIDE, BEAM, HEIGHT],
  returns: { quantity: 'power of the height', unit: '1' },
  source: 'Derivative of the field under the centre, derived for this program',
  examples: [
    { formula: 'FALLOFF.POWER(1.2,0,120,0.25)', gives: 1.07, within: 5e-3 },
    { formula: 'FALLOFF.POWER(1.2,0,120,1)', gives: 1.66, within: 5e-3 },
    { formula: 'FALLOFF.POWER(0,0,60,1)', gives: 2, within: 1e-9 },
    { formula: 'FALLOFF.POWER(0.45,0.45,120,0.3)', gives: 1.162469, within: 1e-6 },
  ],
  work: ([length, width, beam, height], show) => {
    const m = beamExponent(beam);
    show?.expression('exponent m of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, m, '1');
    const [size, least] = [Math.max(length, width), Math.min(length, width)];
    if (size < POINT * height) {
      show?.expression('power of the height, of a point', '2', 2, '1');
      return 2;
    }
    if (m === 1 && least < POINT * height) {
      const x = size / 2 / height;
      const power = linePower(x);
      show?.expression('half its length over the height, x', calc`${size} / 2 / ${height}`, x, '1');
      show?.expression('power of the height, of a line', calc`1 + 2 / (1 + ${x}^2)^2 / (1 / (1 + ${x}^2) + atan(${x}) / ${x})`, power, '1');
      return power;
    }
    if (m === 1) {
      const power = rectanglePower(length / 2, width / 2, height);
      show?.expression('power of the height, of a rectangle', rectangleText(length / 2, width / 2, height), power, '1');
      return power;
    }
    const here = facePpfd({ ppf: 100, length, width, m }, height, 0, 0, show, 'PPFD under the centre, per 100 µmol/s');
    const tighter = facePpfd({ ppf: 100, length, width, m: m + 2 }, height, 0, 0, show, 'the same with exponent m + 2');
    const power = (m + 1) * (tighter / here - 1);
    show?.expression('power of the height', calc`(${m} + 1) * (${tighter} / ${here} - 1)`, power, '1');
    return power;
  },
});
