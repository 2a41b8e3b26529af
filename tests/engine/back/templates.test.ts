/**
 * Of every template: what a worked cell comes to for some value of a given is asked back, by that given. Each answer, put in, gives what was wanted, as another
 * engine works it out; and the value that was taken is among the answers, or within a stretch of them.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readContent } from '../../../functions/quantity-text.ts';
import { fromBase, need, unit } from '../../../functions/units.ts';
import type { At } from '../../../src/book/address.ts';
import { addressOf, decimalsOf, rangeOf } from '../../../src/book/look-up.ts';
import { workBack } from '../../../src/engine/back/index.ts';
import { Sweeper } from '../../../src/engine/cone/index.ts';
import type { Address, Value, WayBack, WorkedBack } from '../../../src/engine/types.ts';
import { runs } from '../../cases.ts';
import { slugs } from '../../templates/open-template.ts';
import { byEngine, givensOf, resultsOf, templateOf } from '../cone/variants.ts';

const QUESTIONS = 80;

function answered(sweeper: Sweeper, cell: Address, wanted: string, given: Address): WorkedBack {
  const work = workBack(sweeper, { cell, wanted, given });
  let step = work.next();
  while (!step.done) step = work.next();
  return step.value;
}

const inUnit = (value: Value): string => (value.kind === 'number' ? `${fromBase(value.base, unit(value.unit) ?? need('1'))} ${value.unit}`.trim() : '');

describe.each(slugs)('%s', (slug) => {
  const book = templateOf(slug);

  it('gives answers that, put in, give what was wanted, and finds the one that it was asked with', () => {
    const own = new Sweeper(book);
    const engine = byEngine(book);
    const movable = givensOf(book, 0).filter((at) => {
      const [range, value] = [rangeOf(at), own.values[addressOf(at)]];
      return value?.kind === 'number' && range?.low !== undefined && range.high !== undefined && !range.oneOf;
    });
    const results = resultsOf(book, 0);
    const tally = { asked: 0, exact: 0, stretch: 0, step: 0, none: 0, back: 0, stay: 0 };
    fc.assert(
      fc.property(fc.constantFrom(...movable), fc.double({ min: 0.5, max: 1.5, noNaN: true }), fc.nat(), (at, share, pick) => {
        const given = addressOf(at);
        const put = moved(own, at, share);
        const here = engine([given], [put], results);
        const differ = results.filter((address, i) => here[i]?.kind === 'number' && inUnit(here[i]) !== inUnit(own.values[address] ?? { kind: 'blank' }));
        const cell = differ[pick % Math.max(1, differ.length)];
        if (cell === undefined) return;
        const wanted = here[results.indexOf(cell)] as Value;
        const worked = answered(own, cell, inUnit(wanted), given);
        if (!worked.ok) throw new Error(`${cell} ${inUnit(wanted)} by ${given}: ${worked.message}`);
        tally.asked++;
        if (worked.ways.length === 0) tally.none++;
        for (const way of worked.ways) {
          if (way.kind === 'nearest') throw new Error('a list of numbers has an order');
          tally[way.kind]++;
          holds(way, wanted, (content) => engine([given], [content], [cell])[0] as Value, `${cell} ${inUnit(wanted)} by ${given}`);
        }
        const { stay } = worked;
        if (stay && 'formula' in stay && stay.exact) {
          tally.stay++;
          const made = engine([given], [stay.tried.content], [cell])[0];
          expect([
            cell,
            stay.formula,
            made?.kind === 'number' && wanted.kind === 'number' && Math.abs(made.base - wanted.base) <= 1e-9 * Math.abs(wanted.base),
          ]).toEqual([cell, stay.formula, true]);
        }
        if (worked.ways.some((way) => isWithin(way, put))) tally.back++;
        else if (process.env.TELL) console.log('not among the answers:', slug, cell, inUnit(wanted), given, put, JSON.stringify(worked.ways.map(short)));
      }),
      { ...runs(QUESTIONS, 20_262), endOnFailure: true },
    );
    if (process.env.TELL) console.log(slug, tally);
    expect(tally.asked).toBeGreaterThan(0.3 * QUESTIONS * 0.1);
    // A share of points lit goes by steps that are narrower than anything that is looked at.
    expect(tally.back).toBeGreaterThanOrEqual(0.9 * tally.asked);
  });
});

/** A share of what a given is, within its limits, as short as it is shown. */
function moved(own: Sweeper, at: At, share: number): string {
  const value = own.values[addressOf(at)];
  const range = rangeOf(at);
  if (value?.kind !== 'number') throw new Error('no number');
  const u = unit(value.unit) ?? need('1');
  const limit = (bound: number | undefined): number => {
    const read = readContent(`${bound} ${range?.unit ?? ''}`.trim(), own.book.currency);
    return read.kind === 'number' ? fromBase(read.base, u) : Number.NaN;
  };
  const x = Math.min(limit(range?.high), Math.max(limit(range?.low), fromBase(value.base, u) * share));
  const whole = u.symbol === '' && decimalsOf(at) === 0;
  return `${whole ? Math.round(x) : Number(x.toFixed(3))} ${u.symbol}`.trim();
}

function holds(way: WayBack, wanted: Value, gives: (content: string) => Value, what: string): void {
  if (wanted.kind !== 'number' || way.kind === 'nearest') throw new Error('no number');
  const off = (content: string): number => {
    const value = gives(content);
    if (value.kind !== 'number') throw new Error(`${what}: ${content} gives ${JSON.stringify(value)}`);
    return value.base - wanted.base;
  };
  if (way.kind === 'exact')
    expect([what, way.exact.content, Math.abs(off(way.exact.content)) <= 1e-9 * Math.abs(wanted.base)]).toEqual([what, way.exact.content, true]);
  else if (way.kind === 'stretch') {
    for (const end of [way.from, way.to])
      expect([what, end.content, Math.abs(off(end.content)) <= 1e-12 * Math.abs(wanted.base)]).toEqual([what, end.content, true]);
  } else
    expect([what, way.from.content, way.to.content, off(way.from.content) * off(way.to.content) < 0]).toEqual([what, way.from.content, way.to.content, true]);
}

const number = (content: string): number => Number.parseFloat(content);

function isWithin(way: WayBack, put: string): boolean {
  const x = number(put);
  if (way.kind === 'exact') return Math.abs(number(way.exact.content) - x) <= 1e-7 * Math.max(1e-6, Math.abs(x));
  // The ends are as short as the given shows them, which may leave a little of the stretch outside.
  return way.kind === 'stretch' && x >= number(way.from.content) - 0.5 && x <= number(way.to.content) + 0.5;
}

const short = (way: WayBack): unknown =>
  way.kind === 'exact' ? way.exact.content : way.kind === 'nearest' ? way.kind : [way.kind, way.from.content, way.to.content];
