/** Of every template: whatever is given, the compiled formulas say what the engine says, to the last digit, word and cell where an error began. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addressOf } from '../../../src/book/look-up.ts';
import { Sweeper } from '../../../src/engine/cone/index.ts';
import { runs } from '../../cases.ts';
import { slugs } from '../../templates/open-template.ts';
import { byEngine, givensOf, resultsOf, templateOf, variantsOf } from './variants.ts';

/** Rows of values that are tried on one template in the long run. */
const ROWS = 200;

describe.each(slugs)('%s', (slug) => {
  const book = templateOf(slug);

  it.each([0, 1])('gives what the engine gives, whatever is given to scenario %i and the brief', (scenario) => {
    const places = givensOf(book, scenario);
    const givens = places.map(addressOf);
    const results = resultsOf(book, scenario);
    expect(results.length).toBeGreaterThan(20);
    const sweeper = new Sweeper(book);
    const engine = byEngine(book);
    const cone = sweeper.cone(givens, results);
    expect(cone.refused).toBeUndefined();
    let [compiled, numbers, errors] = [0, 0, 0];
    fc.assert(
      fc.property(fc.tuple(...places.map((at) => variantsOf(book, at))), (row) => {
        cone.put(row);
        if (cone.byEngine === undefined) compiled++;
        const theirs = engine(givens, row, results);
        for (const [i, address] of results.entries()) {
          const own = cone.value(i);
          if (own.kind === 'number') numbers++;
          if (own.kind === 'error') errors++;
          expect([address, own]).toStrictEqual([address, theirs[i]]);
        }
      }),
      { ...runs(ROWS, 20_261), endOnFailure: true },
    );
    if (process.env.TELL) console.log(slug, scenario, { givens: givens.length, results: results.length, compiled, numbers, errors });
    expect(compiled).toBeGreaterThan(0.5 * ROWS * 0.1);
    expect(numbers).toBeGreaterThan(100);
  });
});
