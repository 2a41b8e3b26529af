import { expect, test } from 'vitest';
import { checkArgs } from '../../functions/check-args.ts';
import { record } from './evaluate.ts';

const said = (name: string, ...args: unknown[]): string | undefined => checkArgs(record(name), args)?.message;

test('what is right passes', () => {
  expect(said('DLI', 200, 16)).toBeUndefined();
  expect(said('WIRE.OHMS', 1.5)).toBeUndefined();
  expect(said('CHECK.AT.MOST', 1, null)).toBeUndefined();
});

test.each([
  ['a number out of range says argument, unit and what is allowed', 'DLI', [200, 30], 'DLI: hours is 30 h/d; it must be from 0 to 24 h/d.'],
  ['a blank is never a zero', 'DLI', [200, null], 'DLI: hours is blank; give a number in h/d.'],
  ['an argument left out counts as blank', 'DLI', [200], 'DLI: hours is blank; give a number in h/d.'],
  ['a text where a number belongs is named', 'DLI', ['much', 16], 'DLI: ppfd is the text “much”; a number in µmol/m²/s is needed.'],
  ['TRUE is no number', 'DLI', [true, 16], 'DLI: ppfd is TRUE; a number in µmol/m²/s is needed.'],
  ['no number and infinity are refused', 'DLI', [Number.NaN, 16], 'DLI: ppfd is no finite number; give a number in µmol/m²/s.'],
  ['half a gauge is refused with the nearest', 'WIRE.AREA', [17.6], 'WIRE.AREA: awg is 17.6; it must be a whole number, such as 18.'],
  ['a range is no value', 'DLI', [[[200]], 16], 'DLI: ppfd is a range of cells; one value is needed.'],
  ['a value is no range', 'DLI.SCHEDULE', [200, [[12]]], 'DLI.SCHEDULE: ppfd is one value; a range of cells is needed.'],
  [
    'a fault inside a range is placed',
    'DLI.SCHEDULE',
    [
      [[200], [-5]],
      [[12], [12]],
    ],
    'DLI.SCHEDULE: ppfd in row 2, column 1 is -5 µmol/m²/s; it must be from 0 to 100000 µmol/m²/s.',
  ],
  ['a word that is none of the choices lists them', 'CROP.DLI', [[['crop']], 'a', 'b', 'most'], 'CROP.DLI: which is “most”; it can be “low”, “aim”, “high”.'],
  ['a limit that is excluded says so', 'SUPPLY.AMPS', [0, 24], 'SUPPLY.AMPS: watts is 0 W; it must be above 0 W and at most 10000000 W.'],
  ['one argument too many is counted', 'DLI', [1, 2, 3], 'DLI takes 2 arguments: ppfd, hours. 3 are given: the last is too many.'],
] as const)('%s', (_, name, args, sentence) => expect(said(name, ...args)).toBe(sentence));
