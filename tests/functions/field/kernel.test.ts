import fc from 'fast-check';
import { expect, test } from 'vitest';
import { beamExponent } from '../../../functions/beam/beam-exponent.ts';
import { ppfdAt } from '../../../functions/field/kernel.ts';
import { faces, type Layout } from '../../../functions/field/layout.ts';
import { fieldByQuadrature, ppfdByQuadrature } from './quadrature.ts';

/** What the kernel promises: a share of the value, or of NOTHING of the peak where the value is less than that. */
const PROMISED = 1e-6;
const NOTHING = 1e-12;

interface Case {
  readonly length: number;
  readonly width: number;
  readonly beam: number;
  readonly height: number;
  readonly bench: { readonly length: number; readonly width: number };
  /** Of fixture and point, as shares of the bench. */
  readonly at: readonly [number, number];
  readonly to: readonly [number, number];
  readonly turned: boolean;
}

const layoutOf = (c: Case): Layout => ({
  bench: c.bench,
  sides: 0,
  groups: [
    {
      kind: 'free',
      fixture: { ppf: 100, length: c.length, width: c.width, beam: c.beam },
      places: [{ x: c.at[0] * c.bench.length, y: c.at[1] * c.bench.width, turned: c.turned }],
    },
  ],
});

/** Error of one fixture at one point, as a share of what is promised to be kept to. */
function errorOf(c: Case): number {
  const layout = layoutOf(c);
  const [x, y] = [c.to[0] * c.bench.length, c.to[1] * c.bench.width];
  const emitter = { ppf: 100, m: beamExponent(c.beam) };
  const truth = fieldByQuadrature(faces(layout), emitter, c.height, x, y);
  const peak = ppfdByQuadrature({ ...emitter, length: c.length, width: c.width }, c.height, 0, 0);
  return Math.abs(ppfdAt(layout, c.height, x, y) - truth) / Math.max(truth, NOTHING * peak);
}

const share = fc.double({ min: 0, max: 1, noNaN: true });
const size = fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 4, arbitrary: fc.double({ min: 0.001, max: 3, noNaN: true }) });
/** Even in the logarithm, so that low heights are met as often as great ones. */
const between = (low: number, high: number) =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map((x) => Math.min(high, Math.max(low, Math.exp(x))));

const cases: fc.Arbitrary<Case> = fc.record({
  length: size,
  width: size,
  beam: fc.double({ min: 10, max: 170, noNaN: true }),
  height: between(0.02, 10),
  bench: fc.record({ length: between(0.2, 20), width: between(0.2, 20) }),
  at: fc.tuple(share, share),
  to: fc.tuple(share, share),
  turned: fc.boolean(),
});

test('one fixture at one point agrees with adaptive quadrature to 1e-6 in 2,000 random cases', () => {
  let worst = 0;
  fc.assert(
    fc.property(cases, (c) => {
      const error = errorOf(c);
      worst = Math.max(worst, error);
      return error <= PROMISED;
    }),
    { numRuns: 2000, seed: 20260 },
  );
  console.info(`kernel against quadrature, 2,000 cases: worst relative error ${worst.toExponential(2)}`);
}, 120_000);
