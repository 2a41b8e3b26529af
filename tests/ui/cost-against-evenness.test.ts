/** The picture of what layouts cost and how even they are: where its dots lie, which is meant by a place in it, and what it says. */
import { describe, expect, it } from 'vitest';
import { templateText } from '../../src/handover/text.ts';
import { type CostAgainstEvenness, dotAt, drawCostAgainstEvenness } from '../../src/pictures/cost-against-evenness.ts';

const picture: CostAgainstEvenness = {
  dots: [
    { cost: 100, evenness: 0.5 },
    { cost: 200, evenness: 0.9 },
    { cost: 150, evenness: 0.6 },
  ],
  named: [{ cost: 100, evenness: 0.5, name: 'cheapest' }],
  picked: undefined,
  unit: 'EUR/year',
  width: 500,
};
const drawn = (more: Partial<CostAgainstEvenness> = {}): string => templateText(drawCostAgainstEvenness({ ...picture, ...more }));
const numbers = (text: string, of: RegExp): number[] => (of.exec(text)?.slice(1) ?? []).map(Number);

describe('cost against evenness', () => {
  it('says in words what it shows', () => {
    expect(drawn()).toContain(
      'aria-label="Cost against evenness of 3 layouts: 100 to 200 EUR/year, evenness 0.50 to 0.90. cheapest: 100 EUR/year, evenness 0.50"',
    );
    expect(drawn({ dots: [], named: [] })).toContain('no layout to show');
  });

  it('means the dot that is nearest to a place, and none where none is near', () => {
    const [left, top] = numbers(drawn(), /<circle class="named" cx="([\d.]+)" cy="([\d.]+)"/);
    if (left === undefined || top === undefined) throw new Error('the cheapest is drawn');
    // The picture begins 40 px left of its axis and 18 above it; cheaper lies left, less even lies low.
    expect(dotAt(picture, left + 40, top + 18)).toBe(0);
    expect(dotAt(picture, left + 40 + 5, top + 18 - 5)).toBe(0);
    expect(dotAt(picture, 40, 18)).toBeUndefined();
    const [dearer] = numbers(drawn({ named: [{ cost: 200, evenness: 0.9, name: 'even' }] }), /<circle class="named" cx="([\d.]+)"/);
    expect(dearer).toBeGreaterThan(left);
  });

  it('draws many layouts as one line, and those that lie over one another once', () => {
    const dots = Array.from({ length: 5_000 }, (_, i) => ({ cost: 100 + (i % 50), evenness: 0.5 + (i % 10) / 100 }));
    const text = drawn({ dots, named: [] });
    expect(text.match(/class="dots"/g)).toHaveLength(1);
    expect(/class="dots" d="([^"]*)"/.exec(text)?.[1]?.match(/M/g)).toHaveLength(50);
  });

  it('writes no name over another', () => {
    const named = [
      { cost: 100, evenness: 0.5, name: 'cheapest' },
      { cost: 103, evenness: 0.502, name: 'fewest lights' },
    ];
    const texts = [...drawn({ named }).matchAll(/<text x="(-?[\d.]+)" y="(-?[\d.]+)" font-size="13"[^>]*text-anchor="(\w+)"[^>]*>([^<]*)/g)].map(
      ([, x, y, anchor, name = '']) => {
        const wide = name.length * 7.6;
        const from = Number(x) - (anchor === 'end' ? wide : anchor === 'middle' ? wide / 2 : 0);
        return { from, to: from + wide, y: Number(y) };
      },
    );
    expect(texts).toHaveLength(2);
    const [one, other] = texts as [(typeof texts)[number], (typeof texts)[number]];
    expect(one.to <= other.from || other.to <= one.from || Math.abs(one.y - other.y) >= 14).toBe(true);
  });
});
