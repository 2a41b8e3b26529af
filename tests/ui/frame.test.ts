/** Where letters stand in a frame of curves. */
import { expect, it } from 'vitest';
import { templateText } from '../../src/handover/text.ts';
import { curveFrame } from '../../src/pictures/curve-frame.ts';

const points = [
  [0.2, 300],
  [0.9, 100],
] as const;

/** Every letter that is written. */
function letters(heights: Readonly<Record<string, number>>): readonly string[] {
  const names = Object.keys(heights);
  const curves = names.map((letter) => ({ letter, on: letter === 'A', points }));
  const marks = names.map((letter) => ({ letter, on: letter === 'A', at: [heights[letter] ?? 0, 200] as const }));
  const text = templateText(
    curveFrame({ curves, marks, from: 0.2, to: 0.9, top: 320, low: undefined, high: undefined, across: '', measures: 'metric', name: 'Light' }, 760, 230),
  );
  expect([...text.matchAll(/<circle/g)]).toHaveLength(names.length);
  return [...text.matchAll(/font-weight="660">([A-Z])<\/text>/g)].map((found) => found[1] ?? '').sort();
}

it('a scenario has its letter at the end of its curve and at its dot, and once where its dot is at that end', () => {
  expect(letters({ A: 0.4 })).toEqual(['A', 'A']);
  expect(letters({ A: 0.4, D: 0.9 })).toEqual(['A', 'A', 'D']);
  expect(letters({ A: 0.4, D: 0.89 })).toEqual(['A', 'A', 'D']);
});
