import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Cells, isRefusal, refuse } from '../../../functions/define.ts';
import { defaultGrid, faces, type Layout } from '../../../functions/field/layout.ts';
import { LAYOUT_AT } from '../../../functions/field/layout-at.ts';
import { layoutText, parseLayout } from '../../../functions/field/layout-text.ts';
import { runs } from '../../cases.ts';
import { evaluate } from '../evaluate.ts';

const twelve = (x: number): number => Number(x.toPrecision(12));
const length = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map(twelve);

const fixture = fc.record({ ppf: length(0.1, 5000), length: length(0, 1), width: length(0, 0.3), beam: length(10, 170) });

const regular = fc.record({
  kind: fc.constant('regular' as const),
  fixture,
  along: fc.integer({ min: 1, max: 10 }),
  across: fc.integer({ min: 1, max: 10 }),
  turned: fc.boolean(),
  spreadAlong: fc.oneof(fc.constant(1), length(0.9, 1.5)),
  spreadAcross: fc.oneof(fc.constant(1), length(0.9, 1.5)),
});
const free = fc.record({
  kind: fc.constant('free' as const),
  fixture,
  // Far enough apart never to overlap.
  places: fc
    .array(fc.boolean(), { minLength: 1, maxLength: 6 })
    .chain((turns) => fc.tuple(...turns.map((turned, i) => length(0, 0.4).map((dx) => ({ x: twelve(60 + 2 * i + dx), y: twelve(-dx), turned }))))),
});

const layouts: fc.Arbitrary<Layout> = fc
  .record({
    bench: fc.record({ length: length(20, 50), width: length(20, 50) }),
    sides: fc.constant(0),
    group: regular,
    more: fc.option(free, { nil: undefined }),
  })
  .map(({ bench, sides, group, more }) => ({ bench, sides, groups: more ? [group, more] : [group] }));

test('a layout comes back from its text to the same numbers, and the text to itself', () => {
  fc.assert(
    fc.property(layouts, (layout) => {
      const text = layoutText(layout);
      const back = parseLayout(text);
      if (isRefusal(back)) throw new Error(`${text}: ${back.message}`);
      expect(back).toEqual(layout);
      expect(layoutText(back)).toBe(text);
    }),
    runs(300, 12),
  );
});

test('LAYOUT rounds to 12 digits, and from then on the text is the truth', () => {
  expect(evaluate('LAYOUT(0.1234567890123456,0.3,0.3,120,1,1,1,1)')).toBe('1 (1×1) of 0.123456789012 µmol/s 0.3×0.3 m 120° over 1×1 m');
});

test('centres share the bench evenly, and spread moves them about its middle', () => {
  const at = (text: string): (readonly [number, number, number, number])[] => {
    const layout = parseLayout(text);
    if (isRefusal(layout)) throw new Error(layout.message);
    return faces(layout).map((f) => [twelve(f.x), twelve(f.y), f.length, f.width] as const);
  };
  expect(at('4 (2×2) of 1 µmol/s 0.5×0.1 m 120° over 4×2 m')).toEqual([
    [1, 0.5, 0.5, 0.1],
    [3, 0.5, 0.5, 0.1],
    [1, 1.5, 0.5, 0.1],
    [3, 1.5, 0.5, 0.1],
  ]);
  expect(at('2 (2×1) of 1 µmol/s 0.5×0.1 m 120° over 4×2 m, turned, spread 1.5×1')).toEqual([
    [0.5, 1, 0.1, 0.5],
    [3.5, 1, 0.1, 0.5],
  ]);
  expect(at('2 at (1, 0.5) (-2, 3 turned) of 1 µmol/s 0.5×0.1 m 120° over 4×2 m')).toEqual([
    [1, 0.5, 0.5, 0.1],
    [-2, 3, 0.1, 0.5],
  ]);
});

test('the default grid has cells of 10 cm or less, 8 a side at least, 10,000 at most', () => {
  const grid = (length: number, width: number) => defaultGrid({ bench: { length, width }, sides: 0, groups: [] });
  expect(grid(2.4, 1.2)).toEqual([24, 12]);
  expect(grid(3.6, 1.55)).toEqual([36, 16]);
  expect(grid(0.3, 0.2)).toEqual([8, 8]);
  for (const [length, width] of [
    [20, 20],
    [100, 100],
    [100, 0.3],
    [0.3, 100],
    [100, 1.2],
  ] as const) {
    const [nx, ny] = grid(length, width);
    expect(nx * ny).toBeLessThanOrEqual(10_000);
    expect(Math.min(nx, ny)).toBeGreaterThanOrEqual(8);
  }
});

const refused: readonly (readonly [string, string, RegExp])[] = [
  ['faces that overlap along', 'LAYOUT(156,1.2,0.06,120,3,4,2.4,1.2)', /overlap: 3 along .* 2 fit along/],
  ['faces that overlap across', 'LAYOUT(156,1.2,0.06,120,2,4,2.4,1.2,TRUE)', /overlap: 4 across/],
  ['lines that overlap end to end', 'LAYOUT(156,1.3,0,120,2,1,2.4,1.2)', /overlap: 2 along/],
  ['more than 400 fixtures', 'LAYOUT(156,0,0,120,20,21,2.4,1.2)', /420 fixtures; the most is 400/],
  ['a bench of no size', 'LAYOUT(156,1.2,0,120,2,4,0,1.2)', /bench length/],
  ['half a fixture', 'LAYOUT(156,1.2,0,120,1.5,4,2.4,1.2)', /along/],
  ['no fixture', 'LAYOUT(156,1.2,0,120,0,4,2.4,1.2)', /along/],
  ['a face that crosses a reflecting side', 'LAYOUT(156,1.2,0,120,2,4,2.4,1.2,FALSE,1.1,1,0.5)', /crosses a reflecting side/],
  ['two points at one place', 'LAYOUT.AT(44,0,0,60,3.6,1.5,{0.6,0.3;0.6,0.3})', /two points are at one place, \(0.6 m, 0.3 m\); move one/],
  ['positions without y', 'LAYOUT.AT(44,0,0,60,3.6,1.5,{0.6;0.7})', /row 1/],
  ['turned for more rows than there are positions', 'LAYOUT.AT(44,1,0,60,3.6,1.5,{0.6,0.3},{TRUE;FALSE})', /positions have 1 row and turned has 2 rows;/],
  ['turned with two values in a row', 'LAYOUT.AT(44,1,0,60,3.6,1.5,{0.6,0.3},{TRUE,FALSE})', /row 1 of turned has more than one value/],
  ['positions with a third number', 'LAYOUT.AT(44,1,0,60,3.6,1.5,{0.6,0.3,0.4})', /row 1 of the positions .* no more/],
  ['a join over two benches', 'LAYOUT.JOIN(LAYOUT(1,0,0,60,1,1,1,1),LAYOUT(1,0,0,60,1,1,2,1))', /one bench/],
  ['a join of faces that clash', 'LAYOUT.JOIN(LAYOUT(1,0.5,0.5,60,1,1,1,1),LAYOUT(1,0.4,0.4,60,1,1,1,1))', /two faces overlap/],
  ['a text that says no layout', 'BENCH.MEAN("nine bars",0.5)', /BENCH.MEAN: .*says no layout/],
  ['a text that counts wrongly', 'LAYOUT.COUNT("5 (2×2) of 1 µmol/s 0.5×0.1 m 120° over 4×2 m")', /says 5 fixtures but places 4/],
  ['a grid of more than 10,000 points', 'BENCH.MEAN(LAYOUT(1,0,0,60,1,1,1,1),0.5,200,200)', /40\u202f000; the most is 10\u202f000/],
  [
    'an output beyond all lamps, in a text',
    'LAYOUT.PPF("1 (1×1) of 2000000 µmol/s 1×1 m 120° over 2×2 m")',
    /2\u202f000\u202f000 µmol\/s; .* 1\u202f000\u202f000 µmol\/s/,
  ],
];

test.each(refused)('%s: refused, and the refusal says what clashes', (_, formula, words) => {
  const value = evaluate(formula);
  expect(isRefusal(value) ? value.message : value).toMatch(words);
});

test('what is said of turning a fixture that is not there is refused', () => {
  const positions = [
    [0.6, 0.3],
    [null, null],
  ];
  const work = LAYOUT_AT.work as (args: readonly unknown[], show: undefined) => unknown;
  const layout = (turned: Cells) => work([44, 1, 0, 60, 3.6, 1.5, positions, turned, 0], undefined);
  const refusal = layout([[true], [false]]);
  expect(refusal).toEqual(refuse('LAYOUT.AT: row 2 of turned is FALSE, but there is no fixture in that row of the positions.'));
  expect(layout([[true], [null]])).toBe('1 at (0.6, 0.3 turned) of 44 µmol/s 1×0 m 60° over 3.6×1.5 m');
});

test('touching faces are allowed', () => {
  expect(evaluate('LAYOUT.COUNT(LAYOUT(156,1.2,0.3,120,2,4,2.4,1.2))')).toBe(8);
  // Thirds of a metre do not add up to it in binary; a millionth of a metre makes room for that.
  expect(evaluate('LAYOUT.COUNT(LAYOUT(156,0.333333333333,0.1,120,3,1,1,1))')).toBe(3);
});
