import fc from 'fast-check';
import { expect, test } from 'vitest';
import { beamAngle } from '../../../functions/beam/beam-angle.ts';
import { isRefusal } from '../../../functions/define.ts';
import { beamExponent } from '../../../functions/field/beam-exponent.ts';
import { facePpfd, gaussianParts } from '../../../functions/field/face-ppfd.ts';
import { erfcUp } from '../../../functions/numeric/error-function.ts';
import { lnGamma } from '../../../functions/numeric/gamma.ts';
import { brent } from '../../../functions/numeric/root.ts';
import { runs } from '../../cases.ts';
import { evaluate } from '../evaluate.ts';
import { ppfdByQuadrature } from '../field/quadrature.ts';

const number = (formula: string): number => {
  const value = evaluate(formula);
  if (typeof value !== 'number') throw new Error(`${formula}: ${isRefusal(value) ? value.message : value}`);
  return value;
};

test('beam angle and exponent are inverses over all beams', () => {
  fc.assert(
    fc.property(fc.double({ min: 1, max: 179, noNaN: true }), (beam) => Math.abs(beamAngle(beamExponent(beam)) - beam) < 1e-7),
    runs(300, 1),
  );
});

test('closed forms and the sum of Gaussians agree, and both agree with quadrature', () => {
  const size = fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 2, noNaN: true }));
  const offset = fc.double({ min: -3, max: 3, noNaN: true });
  fc.assert(
    fc.property(size, size, fc.double({ min: 0.05, max: 3, noNaN: true }), offset, offset, (length, width, h, x, y) => {
      const face = { ppf: 100, length, width, m: 1 };
      const closed = facePpfd(face, h, x, y);
      const sum = gaussianParts(face, h, x, y).parts.reduce((s, part) => s + part, 0);
      return Math.abs(closed / sum - 1) < 1e-6 && Math.abs(closed / ppfdByQuadrature(face, h, x, y) - 1) < 1e-6;
    }),
    runs(300, 2),
  );
});

test('far beyond the end of a bar, where the closed form would lose its digits, the light is still right', () => {
  for (const [h, x] of [
    [0.02, 50],
    [0.05, 120],
    [0.5, 190],
  ] as const) {
    const face = { ppf: 100, length: 1.2, width: 0.06, m: 1 };
    expect(facePpfd(face, h, x, 0.1) / ppfdByQuadrature(face, h, x, 0.1)).toBeCloseTo(1, 6);
    const line = { ...face, width: 0 };
    expect(facePpfd(line, h, x, 0.1) / ppfdByQuadrature(line, h, x, 0.1)).toBeCloseTo(1, 6);
  }
});

test('the falloff power is the slope of ln PPFD against ln height', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 200 }),
      fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 50 })),
      // Cosine emitters have a closed form of their own.
      fc.oneof(fc.constant(120), fc.integer({ min: 20, max: 160 })),
      fc.integer({ min: 10, max: 300 }),
      (cmLength, cmWidth, beam, cmHeight) => {
        const [length, width, h] = [cmLength / 100, cmWidth / 100, cmHeight / 100];
        const face = { ppf: 1, length, width, m: beamExponent(beam) };
        const e = 1e-4;
        const slope = -(Math.log(ppfdByQuadrature(face, h * (1 + e), 0, 0)) - Math.log(ppfdByQuadrature(face, h * (1 - e), 0, 0))) / (2 * e);
        return Math.abs(number(`FALLOFF.POWER(${length},${width},${beam},${h})`) - slope) < 1e-4;
      },
    ),
    runs(120, 3),
  );
});

test('at the edge of the useful strip PPFD is that share of the centre', () => {
  for (const [length, width, beam, h, share] of [
    [1.2, 0, 120, 0.25, 0.5],
    [0.45, 0.45, 110, 0.6, 0.3],
    [0, 0, 60, 1, 0.8],
  ] as const) {
    const face = { ppf: 1, length, width, m: beamExponent(beam) };
    const centre = ppfdByQuadrature(face, h, 0, 0);
    const across = number(`USEFUL.WIDTH(${length},${width},${beam},${h},${share})`);
    const along = number(`USEFUL.LENGTH(${length},${width},${beam},${h},${share})`);
    expect(ppfdByQuadrature(face, h, 0, across / 2) / centre).toBeCloseTo(share, 6);
    expect(ppfdByQuadrature(face, h, along / 2, 0) / centre).toBeCloseTo(share, 6);
  }
});

test('a reading taken far aside is refused, since it says nothing of the output', () => {
  const value = evaluate('PPF.FROM.READING(1,0,0,20,0.5,3,0)');
  expect(isRefusal(value) && value.message).toMatch(/almost none of this fixture/);
});

/** NIST Digital Library of Mathematical Functions, table 7.23(i) and M. Abramowitz, I. Stegun, Handbook of Mathematical Functions, 1964, table 7.1. */
test('the error function agrees with the handbook', () => {
  for (const [x, erf] of [
    [0, 0],
    [0.1, 0.112462916],
    [0.5, 0.5204998778],
    [1, 0.8427007929],
    [1.5, 0.9661051465],
    [2, 0.995322265],
  ] as const) {
    expect(1 - erfcUp(x)).toBeCloseTo(erf, 10);
  }
});

/** Far out erfc is between two bounds: NIST DLMF, eq. 7.8.3 and 7.8.2. */
test('the tail of the error function keeps its digits', () => {
  for (let x = 2; x < 8.5; x += 0.0137) {
    const scaled = erfcUp(x) * Math.exp(x * x) * Math.sqrt(Math.PI);
    expect(scaled).toBeGreaterThan((2 / (x + Math.sqrt(x * x + 2))) * (1 - 1e-8));
    expect(scaled).toBeLessThanOrEqual((2 / (x + Math.sqrt(x * x + 4 / Math.PI))) * (1 + 1e-8));
  }
});

test('the gamma function gives factorials, halves and the reflection on the imaginary axis', () => {
  expect(Math.exp(lnGamma(5))).toBeCloseTo(24, 8);
  expect(Math.exp(lnGamma(0.5))).toBeCloseTo(Math.sqrt(Math.PI), 9);
  expect(lnGamma(100)).toBeCloseTo(359.1342053696, 8);
  // |Γ(1 + iy)|² = πy / sinh πy: NIST DLMF, eq. 5.4.3.
  for (const y of [0.5, 2, 6]) expect(Math.exp(2 * lnGamma(1, y)) / ((Math.PI * y) / Math.sinh(Math.PI * y))).toBeCloseTo(1, 9);
});

test('Brent’s root finder finds roots of hard functions in few steps and never leaves the bracket', () => {
  for (const [f, a, b, root] of [
    [(x: number) => x * x * x - 2 * x - 5, 2, 3, 2.0945514815423265],
    [(x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
    [(x: number) => (x - 1) ** 9, 0, 3, 1],
    [(x: number) => Math.atan(x) * 1e6, -1, 5, 0],
  ] as const) {
    const seen: number[] = [];
    const watched = (x: number): number => {
      seen.push(x);
      return f(x);
    };
    const found = brent(watched, a, b, f(a), f(b));
    expect(Math.abs(found.x - root)).toBeLessThan(root === 1 ? 0.02 : 1e-10);
    expect(seen.every((x) => x >= a && x <= b)).toBe(true);
    expect(found.steps).toBeLessThan(150);
  }
});

test('a strip wider than a plan can be is refused with the share that is left so far out', () => {
  const value = evaluate('USEFUL.WIDTH(0,0,170,50,0.0001)');
  // (h/r)^(m+3) of a point, 50 m high and 200 m aside.
  const left = (50 / Math.hypot(50, 200)) ** (beamExponent(170) + 3);
  expect(isRefusal(value) && value.message).toBe(
    `USEFUL.WIDTH: 200 m from the centre there is still ${Number(left.toPrecision(6))} of its light; ask for a larger share than that.`,
  );
  expect(number(`USEFUL.WIDTH(0,0,170,50,${left * 1.001})`)).toBeLessThan(400);
});
