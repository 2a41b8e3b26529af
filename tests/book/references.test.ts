import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { columnNumber, columnText, readReference, referenceText, textOf } from '../../src/book/address.ts';
import { apply } from '../../src/book/apply.ts';
import { followName, followShift, LOST, referencesIn, rewriteFormula, rewriteProse } from '../../src/book/references.ts';
import { type Shift, shiftedPlace, shiftedSpan } from '../../src/book/shift.ts';
import { cases, runs } from '../cases.ts';
import { book, command, played } from './arbitrary.ts';
import { isThere, meanings } from './meanings.ts';

describe('addresses', () => {
  it('count columns in letters as the trade of tables does', () => {
    expect([0, 25, 26, 51, 52, 701, 702].map(columnText)).toEqual(['A', 'Z', 'AA', 'AZ', 'BA', 'ZZ', 'AAA']);
    for (let n = 0; n < 2000; n++) expect(columnNumber(columnText(n))).toBe(n);
  });

  it('put table names in quotes where formulas need it, and read them back', () => {
    expect(textOf('Scenarios', 1, 6)).toBe('Scenarios.B7');
    expect(textOf('Day light', 0, 0)).toBe("'Day light'.A1");
    expect(textOf("Grower's", 0, 0)).toBe("'Grower''s'.A1");
    expect(readReference("'Grower''s list'.$B$2:C9")).toMatchObject({
      table: "Grower's list",
      range: true,
      from: { column: 1, row: 1, columnFixed: true, rowFixed: true },
      to: { column: 2, row: 8 },
    });
  });

  it('are not seen in what only looks like one', () => {
    for (const text of [
      '',
      'A',
      '7',
      'A0',
      'ABCD1',
      'bench_length',
      'A1+B1',
      'A1(',
      'LOG10(',
      'A1.5',
      "'open.A1",
      '.A1',
      '2024.E5',
      'Scenarios!A1',
      '[Scenarios.A1]',
    ])
      expect(readReference(text), text).toBeUndefined();
  });

  it('are written as they were read', () => {
    for (const text of ['A1', '$A1', 'A$1', '$A$1:C7', 'Brief.A1', "'Day light'.A1:$B2"]) {
      const read = readReference(text);
      expect(read && referenceText(read)).toBe(text);
    }
  });
});

/** A shift of ten lines, done by hand on a list. */
function done(shift: Shift, lines: readonly string[]): string[] {
  const list = [...lines];
  if (shift.kind === 'insert') list.splice(shift.at, 0, ...Array.from({ length: shift.count }, (_, i) => `new${i}`));
  else {
    const out = list.splice(shift.at, shift.count);
    if (shift.kind === 'move') list.splice(shift.to, 0, ...out);
  }
  return list;
}

const LINES = [...'abcdefghij'];
const shift: fc.Arbitrary<Shift> = fc
  .record({ kind: fc.constantFrom('insert', 'delete', 'move' as const), at: fc.nat({ max: 9 }), count: fc.integer({ min: 1, max: 4 }), to: fc.nat({ max: 9 }) })
  .map(({ kind, at, count, to }) => {
    const n = Math.min(count, 10 - at);
    return (kind === 'move' ? { kind, at, count: n, to: Math.min(to, 10 - n) } : { kind, at, count: n }) as Shift;
  });

describe('a reference to one line', () => {
  it('follows the line wherever it goes, and is lost with it', () => {
    fc.assert(
      fc.property(shift, fc.nat({ max: 9 }), (how, place) => {
        const now = done(how, LINES).indexOf(LINES[place] ?? '');
        expect(shiftedPlace(how, place)).toBe(now < 0 ? undefined : now);
      }),
      runs(3000, 11),
    );
  });
});

/** The span by hand: who belongs to it afterwards, and where they stand. */
function spanByHand(how: Shift, low: number, high: number): readonly [number, number] | undefined {
  const members = new Set(LINES.slice(low, high + 1));
  const after = done(how, LINES);
  const ends = (list: readonly string[], inside: ReadonlySet<string>): readonly [number, number] | undefined => {
    const places = list.flatMap((line, i) => (inside.has(line) ? [i] : []));
    return places.length === 0 ? undefined : [places[0] ?? 0, places.at(-1) ?? 0];
  };
  if (how.kind !== 'move') return ends(after, members);
  const together = ends(after, members);
  if (together && together[1] - together[0] + 1 === members.size) return together;
  // Torn apart: the lines on the move leave, and what lands between two that stayed joins.
  const stayed = new Set([...members].filter((line) => !LINES.slice(how.at, how.at + how.count).includes(line)));
  return ends(after, stayed);
}

describe('a span of lines', () => {
  it('holds what stayed of it and what came in between, against a list shifted by hand', () => {
    fc.assert(
      fc.property(shift, fc.nat({ max: 9 }), fc.nat({ max: 9 }), (how, a, b) => {
        const [low, high] = a < b ? [a, b] : [b, a];
        expect(shiftedSpan(how, low, high)).toEqual(spanByHand(how, low, high));
      }),
      runs(10_000, 12),
    );
  });
});

describe('rewriting a formula', () => {
  const insert = followShift('Scenarios', 'row', { kind: 'insert', at: 2, count: 1 }, 'Scenarios');

  it('moves references to the table, bare or by name, and leaves others', () => {
    expect(rewriteFormula('=A1+A3*Scenarios.$B$7-Brief.A3+SUM(A2:A5)', insert)).toBe('=A1+A4*Scenarios.$B$8-Brief.A3+SUM(A2:A6)');
    expect(rewriteFormula("=SUM(Scenarios.A3:Scenarios.B4)+'scenarios'.A3", insert)).toBe('=SUM(Scenarios.A4:B5)+scenarios.A4');
  });

  it('passes over texts, units, functions, numbers and names', () => {
    const formula = '=LOG10(5)+UNIT(6,"A3")&"A3"&B_3+1e5+ppf.low+BENCH.MEAN(2)+bench3_A3';
    expect(rewriteFormula(formula, insert)).toBe(formula);
    expect(referencesIn(formula)).toEqual([]);
  });

  it('says so where what it read is gone', () => {
    const gone = followShift('Scenarios', 'row', { kind: 'delete', at: 2, count: 1 }, 'Scenarios');
    expect(rewriteFormula('=A3+A4+SUM(A3:B3)+SUM(A1:A3)', gone)).toBe(`=${LOST}+A3+SUM(${LOST})+SUM(A1:A2)`);
  });

  it('writes a new table name, in quotes where it needs them', () => {
    expect(rewriteFormula("=Brief.A1+Briefs.A1+brief.B2:C3+'Brief'.A1", followName('Brief', 'Day light'))).toBe(
      "='Day light'.A1+Briefs.A1+'Day light'.B2:C3+'Day light'.A1",
    );
  });

  it('rewrites prose in its chips only', () => {
    const outside = followShift('Scenarios', 'row', { kind: 'insert', at: 2, count: 1 }, undefined);
    expect(rewriteProse('Scenarios.A3 is {{Scenarios.A3}}, {{ Scenarios.$A$1 }}, {{A3}}, {{bench_length}}', outside)).toBe(
      'Scenarios.A3 is {{Scenarios.A4}}, {{ Scenarios.$A$1 }}, {{A3}}, {{bench_length}}',
    );
  });
});

const reshaping = command.filter((run) => /insertLines|moveLines|renameTable/.test(String(run)));

describe('reshaping a book', () => {
  it('leaves every reference pointing at the same cell by identity: formulas, names, chips, pictures', () => {
    let checked = 0;
    fc.assert(
      fc.property(book, fc.array(reshaping, { minLength: 1, maxLength: 4 }), (before, runs) => {
        const meant = meanings(before);
        const after = runs.reduce((made, run) => played(made, run)?.book ?? made, before);
        const now = meanings(after);
        for (const [where, targets] of meant) {
          for (const [i, target] of targets.entries()) {
            if (target === undefined) continue;
            checked++;
            expect(now.get(where)?.[i], where).toBe(target);
          }
        }
      }),
      runs(1500, 13),
    );
    expect(checked).toBeGreaterThan(cases(10_000));
  });

  it('loses, when lines are deleted, only the references to what was in them', () => {
    fc.assert(
      fc.property(
        book,
        command.filter((run) => String(run).includes('deleteLines')),
        (before, run) => {
          const step = played(before, run);
          if (!step) return;
          const there = (id: string): boolean => isThere(step.book, id);
          const now = meanings(apply(before, step.change));
          for (const [where, targets] of meanings(before)) {
            const after = now.get(where);
            if (!after) continue;
            const kept = targets.filter((target) => target !== undefined && there(target));
            expect(
              after.filter((target) => target !== undefined),
              where,
            ).toEqual(kept);
          }
        },
      ),
      runs(1500, 14),
    );
  });
});
