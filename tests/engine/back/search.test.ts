/** The search alone, over functions whose answers are known beforehand because they are made of them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Finding, search } from '../../../src/engine/back/search.ts';
import { runs } from '../../cases.ts';

function found(f: (x: number) => number, low: number, high: number, now?: number): { readonly findings: readonly Finding[]; readonly tried: number } {
  let tried = 0;
  const work = search(
    (x) => {
      tried++;
      const value = f(x);
      return { x, f: value, size: Math.abs(value) };
    },
    low,
    high,
    now,
  );
  let step = work.next();
  while (!step.done) step = work.next();
  return { findings: step.value.findings, tried };
}

const RANGE = 10;
/** Roots at least so far from each other: a little more than the places that are taken evenly. */
const APART = RANGE / 80;

const roots = fc
  .uniqueArray(fc.double({ min: 0.05, max: RANGE - 0.05, noNaN: true }), { minLength: 1, maxLength: 5 })
  .map((all) => all.toSorted((a, b) => a - b))
  .filter((all) => all.every((x, i) => i === 0 || x - (all[i - 1] as number) > APART));

describe('a search', () => {
  it('finds every crossing of a polynomial, to a part in 10⁹', () => {
    fc.assert(
      fc.property(roots, fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (all, scale) => {
        const { findings, tried } = found((x) => scale * all.reduce((product, root) => product * (x - root), 1), 0, RANGE, 3);
        expect(findings.map(({ kind }) => kind)).toEqual(all.map(() => 'exact'));
        for (const [i, one] of findings.entries()) {
          if (one.kind === 'exact') expect(Math.abs(one.x - (all[i] as number))).toBeLessThan(1e-9 * RANGE);
        }
        expect(tried).toBeLessThan(2_000);
      }),
      runs(2_000, 20_263),
    );
  });

  it('finds a place that is only touched, beside crossings', () => {
    fc.assert(
      fc.property(
        roots.filter((all) => all.length > 1),
        (all) => {
          // The first is touched, the others are crossed.
          const f = (x: number): number => (x - (all[0] as number)) * all.reduce((product, root) => product * (x - root), 1);
          const { findings } = found(f, 0, RANGE);
          expect(findings).toHaveLength(all.length);
          const [touched] = findings;
          if (touched?.kind === 'exact') expect(Math.abs(touched.x - (all[0] as number))).toBeLessThan(1e-5);
          else expect(touched?.kind).toBe('stretch');
        },
      ),
      runs(500, 20_264),
    );
  });

  it('tells of a staircase the stretch of a stair, or between which two numbers it steps over what is wanted', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.15, max: 3, noNaN: true }), fc.double({ min: 0, max: 0.9, noNaN: true }), fc.nat(), (width, off, pick) => {
        const stair = (x: number): number => Math.floor((x - off) / width);
        const top = stair(RANGE);
        const level = 1 + (pick % Math.max(1, top - 1));
        if (level >= top) return;
        const [from, to] = [off + level * width, off + (level + 1) * width];
        const [on, ...more] = found((x) => stair(x) - level, 0, RANGE).findings;
        expect(more).toEqual([]);
        if (on?.kind !== 'stretch') throw new Error(`no stretch for ${level}, but ${JSON.stringify(on)}`);
        expect([on.from, on.to].map((x, i) => Math.abs(x - ([from, to][i] as number)) < 1e-12 * RANGE)).toEqual([true, true]);
        const [over, ...others] = found((x) => stair(x) - level + 0.5, 0, RANGE).findings;
        expect(others).toEqual([]);
        if (over?.kind !== 'step') throw new Error(`no step for ${level} less a half, but ${JSON.stringify(over)}`);
        expect([stair(over.from), stair(over.to)]).toEqual([level - 1, level]);
        expect(over.to - over.from).toBeLessThan(1e-12 * RANGE);
      }),
      runs(1_000, 20_265),
    );
  });

  it('finds what is wanted on both sides of a gap in which nothing can be worked out', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 4, noNaN: true }), fc.double({ min: 0.001, max: 3, noNaN: true }), (start, width) => {
        const end = start + width;
        // Falls to below nothing just before the gap, and rises from below it just after.
        const f = (x: number): number => (x <= start ? start - 0.05 - x : x < end ? Number.NaN : x - end - 0.07);
        const { findings } = found(f, 0, RANGE);
        expect(findings.map((one) => (one.kind === 'exact' ? one.x : one.kind))).toEqual([expect.closeTo(start - 0.05, 9), expect.closeTo(end + 0.07, 9)]);
      }),
      runs(500, 20_266),
    );
  });
});
