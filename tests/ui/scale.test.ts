import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lightScale, niceStep, ticks } from '../../src/pictures/scale.ts';
import { pointsOver } from '../../src/pictures/series.ts';
import { runs } from '../cases.ts';

describe('scales', () => {
  it('go in steps of 1, 2, 2.5 or 5 times a power of ten', () => {
    expect(niceStep(400, 9)).toBe(50);
    expect(niceStep(17, 9)).toBe(2);
    expect(niceStep(0.9, 9)).toBeCloseTo(0.1, 12);
    expect(ticks(0, 3.6, 6)).toEqual([0, 1, 2, 3]);
    expect(ticks(0, 1.5, 4)).toEqual([0, 0.5, 1, 1.5]);
  });

  it('hold the whole range of the light in at most nine steps, each brighter than the one before', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 5000, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }), (high, share) => {
        const low = high * share;
        const { edges, colours } = lightScale(low, high);
        expect(edges[0]).toBeLessThanOrEqual(low * (1 + 1e-9));
        expect(edges.at(-1)).toBeGreaterThanOrEqual(high * (1 - 1e-9));
        expect(colours.length).toBeLessThanOrEqual(9);
        expect(colours.length).toBe(edges.length - 1);
        expect(new Set(colours).size).toBe(colours.length);
      }),
      runs(100, 7),
    );
  });
});

describe('the sample grid', () => {
  it('has cells no larger than 10 cm, no fewer than 8 a side, at most ten thousand', () => {
    expect(pointsOver(3.6, 1.5)).toEqual({ nx: 36, ny: 15 });
    expect(pointsOver(0.6, 0.25)).toEqual({ nx: 8, ny: 8 });
    const wide = pointsOver(40, 20);
    expect(wide.nx * wide.ny).toBeLessThanOrEqual(10_000);
  });
});
