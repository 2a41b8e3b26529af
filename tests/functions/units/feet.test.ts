/**
 * Feet and inches as they are typed, stored, shown and spoken. An inch is 0.0254 m and a foot 0.3048 m, exactly: NIST Special Publication 811,
 * A. Thompson and B. N. Taylor, Guide for the Use of the International System of Units, 2008, appendix B.8.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { spokenNumber } from '../../../functions/number-text.ts';
import { readQuantity, showNumber } from '../../../functions/quantity-text.ts';
import { runs } from '../../cases.ts';

const read = (typed: string, unit?: string) => readQuantity(typed, { currency: 'EUR', ...(unit !== undefined && { unit }) });
const shown = (metres: number, unit: string): string => showNumber(metres, unit, 2).text.replaceAll(/[\u202f\u00a0]/g, ' ');

describe('A length read off a tape', () => {
  test.each([`5'4"`, '5′ 4″', '5′4″', '5 ft 4 in', '5 feet 4 inches', `5' 4"`, '5’ 4”', `5'4''`, "5'4", '64 in', '64"', '64″', "64''", '5ft4in'])(
    '%s is 64 inches, wherever a length is wanted',
    (typed) => {
      for (const unit of ['ft', 'in', 'm', 'cm']) expect(read(typed, unit)).toMatchObject({ kind: 'number', content: '64 in', base: (64 * 254) / 10000 });
    },
  );

  test.each([`5'4 1/2"`, '5′ 4 1/2″', '5 ft 4 1/2 in', '5′ 4½″', "5'4 1/2", `5'4.5"`, '64 1/2 in', '64½"'])('%s is 64 and a half', (typed) => {
    expect(read(typed, 'ft')).toMatchObject({ content: '64.5 in' });
  });

  test('minus stands before all of it', () => {
    expect(read(`-5'4"`, 'ft')).toMatchObject({ content: '-64 in' });
    expect(read('−5′ 4″', 'ft')).toMatchObject({ content: '-64 in' });
  });

  test('what was typed in feet and inches is shown so from then on; the text stays as it was typed', () => {
    expect(read(`5'4"`, 'm')).toMatchObject({ unit: 'in', shown: 'ft', typed: `5'4"` });
    expect(read('64 in', 'm')).not.toHaveProperty('shown');
  });

  test.each([
    [`5'14"`, '14 in is a foot or more: write 6 ft 2 in, or 74 in.'],
    ["5'12", '12 in is a foot or more: write 6 ft 0 in, or 72 in.'],
    ['5 ft 12 in', '12 in is a foot or more: write 6 ft 0 in, or 72 in.'],
    [`-5'14"`, '14 in is a foot or more: write -6 ft 2 in, or -74 in.'],
    ["5'-4", 'Feet and inches are written without a dash: 5\'4".'],
    [`5'-4"`, 'Feet and inches are written without a dash: 5\'4".'],
    ['5 ft - 4 in', 'Feet and inches are written without a dash: 5\'4".'],
    [`5.5'4"`, 'Feet that inches follow are whole feet.'],
    [`4"5'`, ''],
    [`5'4"6`, ''],
  ])('%s is refused, and why', (typed, why) => {
    expect(read(typed, 'ft')).toEqual({ kind: 'refused', message: `“${typed}” can not be read as a length such as 1 ft.${why === '' ? '' : ` ${why}`}` });
  });

  test('where no quantity is asked for, what is no length stays a text', () => {
    for (const typed of [`5'-4"`, `5'14"`]) expect(read(typed)).toMatchObject({ kind: 'text', content: typed });
    expect(read("12'345"), 'thousands').toMatchObject({ content: '12345' });
    expect(read(`5'4"`, 'W')).toMatchObject({ kind: 'refused', message: expect.stringContaining('is a length') });
  });
});

describe('A length shown as on a tape', () => {
  test.each([
    [(14 * 3048) / 10000, 'ft', '14′ 0″'],
    [(31.5 * 254) / 10000, 'ft', '2′ 7 1/2″'],
    [(31.5 * 254) / 10000, 'in', '31 1/2 in'],
    [(7.5 * 254) / 10000, 'ft', '7 1/2″'],
    [(0.5 * 254) / 10000, 'in', '1/2 in'],
    [1.2, 'ft', '3′ 11 1/4″'],
    [-1.2, 'ft', '−3′ 11 1/4″'],
    [0.30479, 'ft', '1′ 0″'],
    [0, 'ft', '0″'],
    [0.003, 'ft', '0.1181 in'],
    [0.003, 'in', '0.1181 in'],
    [3.6, 'm', '3.60 m'],
  ])('%d m by %s is %s, whatever decimals are set', (metres, unit, text) => {
    expect(shown(metres, unit)).toBe(text);
  });

  test('it is never off by more than a sixteenth of an inch', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.0254, max: 1e4, noNaN: true }), fc.constantFrom('ft', 'in'), (metres, unit) => {
        const back = read(showNumber(metres, unit).text, unit);
        expect(back.kind).toBe('number');
        if (back.kind === 'number') expect(Math.abs(back.base - metres)).toBeLessThanOrEqual((0.0254 / 16) * (1 + 1e-9));
      }),
      runs(1000, 254),
    );
  });

  test('whole eighths come back bit for bit, and are shown again alike', () => {
    fc.assert(
      fc.property(fc.integer({ min: -8 * 120_000, max: 8 * 120_000 }), fc.constantFrom('ft', 'in'), (eighths, unit) => {
        const metres = ((eighths / 8) * 254) / 10000;
        const text = showNumber(metres, unit).text;
        const back = read(text, unit);
        if (back.kind !== 'number') throw new Error(`${text}: ${JSON.stringify(back)}`);
        // Minus nothing is nothing.
        expect(back.base).toBe(metres === 0 ? 0 : metres);
        expect(showNumber(back.base, unit).text).toBe(text);
      }),
      runs(2000, 3048),
    );
  });

  test('it is spoken in words', () => {
    expect(spokenNumber(showNumber((31.5 * 254) / 10000, 'ft'))).toBe('2 feet 7 1/2 inches');
    expect(spokenNumber(showNumber(0.3048, 'ft'))).toBe('1 foot 0 inches');
    expect(spokenNumber(showNumber(-0.0254, 'in'))).toBe('minus 1 inch');
    expect(spokenNumber(showNumber(12_345_600, 'W'))).toBe('12345600 watts');
  });
});
