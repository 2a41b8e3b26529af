import { say } from '../check-args.ts';
import { type Cells, define, isRefusal, type Refusal, refuse } from '../define.ts';
import { counted } from '../number-text.ts';
import { BEAM, BENCH_LENGTH, BENCH_WIDTH, FACE_LENGTH, FACE_WIDTH, PPF, SIDES } from './field-params.ts';
import { type FixtureAt, layoutPpf } from './layout.ts';
import { layoutText, parseLayout } from './layout-text.ts';
import { named } from './named.ts';

const given = (cell: unknown): boolean => cell !== null && cell !== undefined;

/** The positions in a range; rows that are blank throughout are left out. */
function places(cells: Cells, turns: Cells | undefined): FixtureAt[] | Refusal {
  if (turns && turns.length !== cells.length) {
    return refuse(`LAYOUT.AT: positions have ${counted(cells.length, 'row')} and turned has ${counted(turns.length, 'row')}; they must be as many.`);
  }
  const found: FixtureAt[] = [];
  for (const [i, [x = null, y = null, ...more]] of cells.entries()) {
    const [turned = null, ...others] = turns?.[i] ?? [];
    if (others.some(given)) return refuse(`LAYOUT.AT: row ${say(i + 1)} of turned has more than one value; it takes one for each fixture.`);
    if (x === null && y === null && !more.some(given)) {
      if (given(turned))
        return refuse(`LAYOUT.AT: row ${say(i + 1)} of turned is ${turned ? 'TRUE' : 'FALSE'}, but there is no fixture in that row of the positions.`);
      continue;
    }
    if (typeof x !== 'number' || typeof y !== 'number' || more.some(given)) {
      return refuse(`LAYOUT.AT: row ${say(i + 1)} of the positions needs two lengths, x and y, and no more.`);
    }
    found.push({ x, y, turned: turned === true });
  }
  return found.length > 0 ? found : refuse('LAYOUT.AT: there is no position in the range; each row holds x and y.');
}

/** Like fixtures, each at its own place, as a text. */
export const LAYOUT_AT = define({
  name: 'LAYOUT.AT',
  family: 'The field over a bench',
  summary: 'Like fixtures, each put where you say, over a bench, as a text that says it in full.',
  use: 'For what is no regular grid: a lamp moved aside, a missing one, a fixture beside the bench. Positions are centres of faces.',
  formula: 'a face at every (x, y)',
  params: [
    PPF,
    FACE_LENGTH,
    FACE_WIDTH,
    BEAM,
    BENCH_LENGTH,
    BENCH_WIDTH,
    { name: 'positions', quantity: 'positions', unit: 'm', shape: 'range', meaning: 'a row a fixture: x and y of its centre' },
    {
      name: 'turned',
      quantity: 'turned',
      unit: 'yes or no',
      shape: 'range',
      optional: true,
      meaning: 'a row a fixture: TRUE where its length lies across the bench',
    },
    { ...SIDES, optional: true, fallback: 0 },
  ],
  returns: { quantity: 'layout', unit: 'text' },
  source: 'Our own convention; numbers are kept to 12 digits',
  examples: [
    { formula: 'LAYOUT.AT(44,0,0,60,3.6,1.5,{0.6,0.3;1.8,0.3})', gives: '2 at (0.6, 0.3) (1.8, 0.3) of 44 µmol/s 0×0 m 60° over 3.6×1.5 m' },
    {
      formula: 'LAYOUT.AT(243,1.15,0.06,120,3.6,1.5,{1.8,0.75},{TRUE},0.5)',
      gives: '1 at (1.8, 0.75 turned) of 243 µmol/s 1.15×0.06 m 120° over 3.6×1.5 m, sides 0.5',
    },
  ],
  work: ([ppf, length, width, beam, benchLength, benchWidth, positions, turned, sides], show) => {
    const found = places(positions, turned);
    if (isRefusal(found)) return found;
    const text = layoutText({
      bench: { length: benchLength, width: benchWidth },
      sides,
      groups: [{ kind: 'free', fixture: { ppf, length, width, beam }, places: found }],
    });
    const layout = parseLayout(text);
    if (isRefusal(layout)) return named('LAYOUT.AT', layout);
    show?.note(`${found.length} fixtures, ${Number(layoutPpf(layout).toPrecision(12))} µmol/s together; the text is what every other function reads.`);
    return text;
  },
});
