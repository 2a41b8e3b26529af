/** No input whatever makes a function throw, give no number, an infinite one, or take long. The rule of `checkArgs` stands before it, as in every host. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkArgs } from '../../functions/check-args.ts';
import { type CellValue, type FunctionRecord, isRefusal, type Param, stepList } from '../../functions/define.ts';
import { functions } from '../../functions/index.ts';
import { long, runs } from '../cases.ts';
import { evaluate } from './evaluate.ts';

/** Promised time of one call, ms of this process (a busy machine must not fail it), which the long run measures: a field function may take two seconds. */
const LONGEST = 50;
const LONGEST_FIELD = 2000;
const RUNS = 300;
const RUNS_FIELD = 80;
const SEED = 20260101;

const HUGE = [0, -0, 1, -1, 1e-300, 1e300, -1e300, Number.MAX_VALUE, Number.MIN_VALUE, 2 ** 53, 1e15, -1e15, Number.NaN, Number.POSITIVE_INFINITY];
const anyNumber = fc.oneof(fc.constantFrom(...HUGE), fc.double(), fc.integer({ min: -1000, max: 1000 }));
const anyText = fc.oneof(
  fc.string({ maxLength: 30 }),
  fc.constantFrom('NaN', 'unknown', 'holds', 'fails, see x', 'crop', 'stage', '__proto__', '1e999', 'x'.repeat(5000)),
);
const anyValue: fc.Arbitrary<unknown> = fc.oneof(anyNumber, anyText, fc.boolean(), fc.constantFrom(null, undefined));
const anyCells = fc.array(fc.array(fc.oneof(anyNumber, anyText, fc.boolean(), fc.constant(null)), { maxLength: 6 }), { maxLength: 6 });

/** Places near the crossings of a grid, none in a row with another. */
const scattered = (count: number): string =>
  `{${Array.from({ length: count }, (_, i) => `${((i % 20) + 0.5 + 0.03 * Math.sin(i)).toFixed(4)},${(Math.floor(i / 20) + 0.5 + 0.03 * Math.cos(3 * i)).toFixed(4)}`).join(';')}}`;

/** Layouts as LAYOUT writes them, from small to the most that is allowed. */
const LAYOUTS = [
  'LAYOUT(156,1.2,0,120,2,4,2.4,1.2)',
  'LAYOUT(900,1.05,0.3,100,3,2,6,2.5,TRUE,1.1,1.2)',
  'LAYOUT(44,0,0,10,20,20,100,100)',
  'LAYOUT(44,0,0,170,20,20,0.01,0.01)',
  'LAYOUT(1e-3,0.2,0.1,60,1,1,1,1,FALSE,1,1,0.3)',
  'LAYOUT.AT(100,1,0.05,120,3,1,{0.5,0.5;2.5,0.5})',
  'LAYOUT(900,0.9,0.05,170,20,20,20,20,FALSE,1,1,0.95)',
  'LAYOUT(44,0,0,10,20,20,100,100,FALSE,1,1,0.95)',
  'LAYOUT(156,1.2,0,120,2,4,2.4,1.2,FALSE,1,1,0.95)',
  'LAYOUT.BESIDE(LAYOUT(243,1.15,0.06,120,9,1,12,0.2),1.1,1,3)',
  'LAYOUT.BESIDE(LAYOUT(44,0,0,170,20,9,20,1.8),2,10,10)',
  ...[80, 400].map((count) => `LAYOUT.AT(100,0.3,0.2,120,20,20,${scattered(count)})`),
  ...[15, 400].map((count) => `LAYOUT.AT(100,0.3,0.2,150,20,20,${scattered(count)},,0.95)`),
].map((formula) => String(evaluate(formula)));

const CROPS: CellValue[][] = [
  ['crop', 'stage', 'PPFD low', 'PPFD high', 'PPFD limit', 'DLI low', 'DLI high', 'hours low', 'hours high', 'hours limit', 'day length', 'source', 'how sure'],
  ['basil', 'indoor', 2e-4, 3e-4, null, 12, 18, 5e4, 57600, 64800, 'neutral', 'a source', 'read in the source'],
  ['basil', 'seedling', 'much', null, 1, null, 1e308, -5, null, 1e300, null, null, 'range tested only'],
];

/** Numbers that the record lets through, its bounds among them. */
function allowedNumber(p: Param): fc.Arbitrary<number> {
  const low = p.atLeast ?? (p.above !== undefined ? p.above + 2e-9 : -1e6);
  const high = p.atMost ?? (p.below !== undefined ? p.below - 2e-9 : 1e6);
  if (p.whole)
    return fc.oneof(
      fc.constantFrom(Math.ceil(low), Math.floor(high)),
      fc.integer({ min: Math.ceil(low), max: Math.floor(high) }),
      fc.integer({ min: Math.ceil(low), max: Math.min(Math.floor(high), Math.ceil(low) + 20) }),
    );
  const usual = fc.double({ min: Math.max(low, Math.min(high, 0.01)), max: Math.min(high, Math.max(low, 1000)), noNaN: true });
  return fc.oneof(fc.constantFrom(low, high), fc.double({ min: low, max: high, noNaN: true }), usual, usual);
}

/** What one must say to get past a look-up. */
const WORDS: Readonly<Record<string, readonly unknown[]>> = {
  crop: ['basil', 'basil', 'Basil ', 'no such crop'],
  stage: ['indoor', 'indoor', 'seedling', 'no such stage'],
  checks: ['holds', 'holds, 5 % under', 'assumed, 35 % under', 'holds, 2 assumed: A, B', 'close to limit, 1 % under', 'unknown', 'fails, 2 % over', null],
  verdicts: ['holds', 'holds, 1 assumed: Hours', 'close to limit 1: Load', 'fails 1: Drop', null],
  costs: [900, 500, 850.5, 500],
  lamp: ['sunlight', 'Metal halide', 'candle'],
  area: [0.5, 1.5, 2.5, 95, 0.823, 3],
};

function allowedOne(p: Param): fc.Arbitrary<unknown> {
  const words = WORDS[p.name];
  if (words && (p.unit === 'text' || p.unit === 'mm²' || p.name === 'costs'))
    return fc.oneof(fc.constantFrom(...words), fc.constantFrom(...words), p.unit === 'text' ? anyText : allowedNumber(p));
  if (p.oneOf) return fc.constantFrom(...p.oneOf);
  if (p.unit === 'yes or no') return fc.boolean();
  if (p.unit === 'text')
    return p.name === 'layout' ? fc.constantFrom(...LAYOUTS) : fc.oneof(fc.constantFrom('basil', 'indoor', 'seedling', 'm', 'in', '°C', 'sunlight'), anyText);
  if (p.unit === 'any' || p.unit === 'mixed')
    return fc.oneof(allowedNumber(p), anyNumber.filter(Number.isFinite), anyText, fc.constant(p.blankAllowed ? null : 0));
  return p.blankAllowed ? fc.oneof(allowedNumber(p), fc.constant(null)) : allowedNumber(p);
}

/** A row a fixture, x and y; with a third number it would be refused. */
const PLACES = fc.array(
  fc.tuple(fc.double({ min: 0, max: 20, noNaN: true }), fc.double({ min: 0, max: 20, noNaN: true })).map((row) => [...row]),
  { minLength: 1, maxLength: 4 },
);

function allowed(p: Param): fc.Arbitrary<unknown> {
  const one = allowedOne(p);
  if (p.shape !== 'range') return p.optional ? fc.oneof(one, fc.constant(p.fallback)) : one;
  const ranges = fc.oneof(
    fc.integer({ min: 1, max: 8 }).chain((n) => fc.array(fc.array(one, { minLength: n, maxLength: n }), { minLength: 1, maxLength: 13 })),
    fc.tuple(one, one, one).map((row) => [row]),
    fc.array(one, { minLength: 12, maxLength: 12 }).map((row) => [row]),
    fc.array(
      fc.tuple(one, one, one).map((row) => [...row]),
      { minLength: 1, maxLength: 8 },
    ),
  );
  const value = p.name === 'crops' ? fc.oneof(fc.constant(CROPS), anyCells) : p.name === 'positions' ? fc.oneof(PLACES, ranges) : ranges;
  return p.optional ? fc.oneof(value, fc.constant(p.fallback)) : value;
}

const argumentsOf = (f: FunctionRecord): fc.Arbitrary<unknown[]> => {
  const given = fc.tuple(...f.params.map(allowed)).map((args) => [...args]);
  const one = fc
    .tuple(given, fc.nat({ max: Math.max(0, f.params.length - 1) }), fc.oneof(anyValue, anyCells))
    .map(([args, at, odd]) => args.map((x, i) => (i === at ? odd : x)));
  const wild = fc.array(fc.oneof(anyValue, anyCells), { maxLength: f.params.length + 1 });
  return fc.oneof({ arbitrary: given, weight: 5 }, { arbitrary: one, weight: 2 }, { arbitrary: wild, weight: 1 });
};

/** The answer of a host: checked first, then asked, as the engine does. */
function ask(f: FunctionRecord, args: readonly unknown[], shown: boolean) {
  const filled = Array.from({ length: Math.max(args.length, f.params.length) }, (_, i) => args[i] ?? (args[i] === null ? null : f.params[i]?.fallback));
  const wrong = checkArgs(f, filled);
  if (wrong) return { answer: wrong, steps: [], reached: false };
  const { steps, show } = stepList();
  return { answer: f.work(filled as never, shown ? show : undefined), steps, reached: true };
}

function millis(since: NodeJS.CpuUsage): number {
  const used = process.cpuUsage(since);
  return (used.user + used.system) / 1000;
}

const reached = new Map<string, number>();

test.each(functions.map((f) => [f.name, f] as const))('%s bears any input', (name, f) => {
  const longest = f.slow || f.params.some((p) => p.name === 'layout') ? LONGEST_FIELD : LONGEST;
  const bears = fc.property(argumentsOf(f), fc.boolean(), (args, shown) => {
    const started = process.cpuUsage();
    const { answer, steps, reached: in_ } = ask(f, args, shown);
    let took = millis(started);
    // Once may be the collector of garbage or the compiler; three times is the function.
    for (let again = 0; long && again < 2 && took >= longest; again++) {
      const restarted = process.cpuUsage();
      ask(f, args, shown);
      took = Math.min(took, millis(restarted));
    }
    if (in_ && !isRefusal(answer)) reached.set(name, (reached.get(name) ?? 0) + 1);
    if (isRefusal(answer)) {
      expect(answer.message).toMatch(/\S/);
      // What was typed may be quoted; the sentence itself must not show the machine.
      expect(answer.message.replace(/“[^”]*”/g, '')).not.toMatch(/undefined|NaN|Infinity|\[object/);
    } else if (typeof answer === 'number') expect(Number.isFinite(answer), `${answer}`).toBe(true);
    else expect(['string', 'boolean']).toContain(typeof answer);
    for (const step of steps) if (step.kind === 'expression') expect(Number.isFinite(step.value), `${step.label}: ${step.value}`).toBe(true);
    if (long) expect(took).toBeLessThan(longest);
  });
  const all = longest === LONGEST ? RUNS : RUNS_FIELD;
  const { numRuns, seed } = runs(all, SEED);
  // Where a tenth of the cases has none that gets past the checks, the next tenth is run as well.
  for (let done = 0; done === 0 || (done < all && !reached.has(name)); done += numRuns) {
    // Shrinking a slow case would take minutes: there the first failure is the last.
    fc.assert(bears, { numRuns, seed: seed + done, endOnFailure: longest === LONGEST_FIELD });
  }
  // A generator that never gets past the checks would prove nothing.
  expect(reached.get(name) ?? 0, 'answers that were no refusal').toBeGreaterThan(0);
});
