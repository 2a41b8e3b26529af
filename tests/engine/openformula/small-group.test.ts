import { beforeAll, describe, expect, it } from 'vitest';
import { createEngine } from '../../../src/engine/engine.ts';
import { OFFERED } from '../../../src/engine/offered.ts';
import { book, short } from '../helpers.ts';
import { NOT_OFFERED, SECTIONS, SMALL_GROUP_CASES, TABLES } from './small-group.ts';

/** Section 2.3.2 (E) of the standard, as it lists them. */
const SMALL_GROUP = `ABS ACOS AND ASIN ATAN ATAN2 AVERAGE AVERAGEIF CHOOSE COLUMNS COS COUNT COUNTA COUNTBLANK COUNTIF DATE DAVERAGE
DAY DCOUNT DCOUNTA DDB DEGREES DGET DMAX DMIN DPRODUCT DSTDEV DSTDEVP DSUM DVAR DVARP EVEN EXACT EXP FACT FALSE FIND FV HLOOKUP HOUR
IF INDEX INT IRR ISBLANK ISERR ISERROR ISLOGICAL ISNA ISNONTEXT ISNUMBER ISTEXT LEFT LEN LN LOG LOG10 LOWER MATCH MAX MID MIN MINUTE
MOD MONTH N NA NOT NOW NPER NPV ODD OR PI PMT POWER PRODUCT PROPER PV RADIANS RATE REPLACE REPT RIGHT ROUND ROWS SECOND SIN SLN SQRT
STDEV STDEVP SUBSTITUTE SUM SUMIF SYD T TAN TIME TODAY TRIM TRUE TRUNC UPPER VALUE VAR VARP VLOOKUP WEEKDAY YEAR`.split(/\s+/);

const engine = createEngine();
beforeAll(() => engine.load(book(TABLES)));

it('covers the 110 functions of the Small group: all are offered and have cases, but for the two that read the clock', () => {
  expect(SMALL_GROUP).toHaveLength(110);
  const covered = Object.values(SMALL_GROUP_CASES).flatMap((group) => Object.keys(group));
  expect([...covered, ...Object.keys(NOT_OFFERED)].sort()).toEqual([...SMALL_GROUP].sort());
  expect(covered.filter((name) => !OFFERED.has(name))).toEqual([]);
});

it.each(Object.keys(NOT_OFFERED))('refuses %s and says why', async (name) =>
  expect(short(await engine.evaluate(`${name}()`))).toContain('the same book gives the same numbers on any day'),
);

it('names the section of each', () => {
  const listed = Object.values(SECTIONS).flatMap((group) => Object.keys(group));
  expect(listed.sort()).toEqual([...SMALL_GROUP].sort());
  for (const [heading, group] of Object.entries(SMALL_GROUP_CASES)) {
    const [section = ''] = heading.split(' ');
    expect(Object.keys(group).filter((name) => SECTIONS[section]?.[name] === undefined)).toEqual([]);
  }
});

for (const [heading, group] of Object.entries(SMALL_GROUP_CASES)) {
  describe(`section ${heading}`, () => {
    const [section = ''] = heading.split(' ');
    const cases = Object.entries(group).flatMap(([name, list]) =>
      list.map(([formula, expected]) => [`${section}.${SECTIONS[section]?.[name]}`, formula, expected] as const),
    );
    it.each(cases)('%s: %s is %s', async (_, formula, expected) => {
      const value = await engine.evaluate(formula);
      if (expected === 'error') expect(value).toMatchObject({ kind: 'error' });
      // The calculator gives 14 digits; searches (IRR, RATE) stop at about 1e-7 of the answer.
      else if (typeof expected === 'number') expect(short(value)).toBeCloseTo(expected, /^(IRR|RATE)/.test(formula) ? 7 : 11);
      else expect(short(value)).toBe(expected);
    });
  });
}
