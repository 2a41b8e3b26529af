import { expect, test } from 'vitest';
import { checkArgs } from '../../functions/check-args.ts';
import { isRefusal } from '../../functions/define.ts';
import { evaluate, record } from './evaluate.ts';

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
  ['half a gauge is refused with the next thinner', 'WIRE.AREA', [17.6], 'WIRE.AREA: awg is 17.6; it must be a whole number, such as 18.'],
  ['a gauge and a little is refused with the next thinner', 'WIRE.AREA', [17.1], 'WIRE.AREA: awg is 17.1; it must be a whole number, such as 18.'],
  [
    'a fraction of a limit is refused with the number below it',
    'CIRCUIT.COUNT',
    [16, 1.22, 0.8, 4.6],
    'CIRCUIT.COUNT: maker’s limit is 4.6; it must be a whole number, such as 4.',
  ],
  ['a range is no value', 'DLI', [[[200]], 16], 'DLI: ppfd is a range of cells; one value is needed.'],
  ['a value is no range', 'DLI.SCHEDULE', [200, [[12]]], 'DLI.SCHEDULE: ppfd is one value; a range of cells is needed.'],
  [
    'a fault inside a range is placed',
    'DLI.SCHEDULE',
    [
      [[200], [-5]],
      [[12], [12]],
    ],
    'DLI.SCHEDULE: ppfd in row 2, column 1 is −5 µmol/m²/s; it must be from 0 to 100\u202f000 µmol/m²/s.',
  ],
  ['a word that is none of the choices lists them', 'CROP.DLI', [[['crop']], 'a', 'b', 'most'], 'CROP.DLI: which is “most”; it can be “low”, “aim”, “high”.'],
  ['a limit that is excluded says so', 'SUPPLY.AMPS', [0, 24], 'SUPPLY.AMPS: watts is 0 W; it must be above 0 W and at most 10\u202f000\u202f000 W.'],
  [
    '42 for a share is taken for 42 %, and told how that is written',
    'SUN.DLI',
    [45, 15, 42],
    'SUN.DLI: clearness is 42; it must be above 0 and at most 1. 42 % is 0.42.',
  ],
  ['a little above a share is no per cent', 'LIFE.TO', [1.2, 2e-6], 'LIFE.TO: share is 1.2; it must be above 0 and at most 1.'],
  ['interest in per cent too', 'ANNUAL.CAPITAL', [930, 6, 8], 'ANNUAL.CAPITAL: rate is 6 /year; it must be from 0 to 2 /year. 6 % is 0.06.'],
  ['no per cent is offered that is not allowed either', 'CABLE.AREA', [10, 2.5, 24, 80], 'CABLE.AREA: share is 80; it must be above 0 and at most 0.5.'],
  ['years are many', 'ANNUAL.CAPITAL', [930, 0.06, 0], 'ANNUAL.CAPITAL: years is 0 years; it must be from 0.01 to 100 years.'],
  ['money has no name here', 'RUN.COST', [2816, -0.25], 'RUN.COST: tariff is −0.25 /kWh; it must be from 0 to 1\u202f000\u202f000 /kWh.'],
  ['money left blank is asked for', 'RUN.COST', [2816, null], 'RUN.COST: tariff is blank; give an amount of money/kWh.'],
  [
    'a limit that is excluded counts before one that is not',
    'METER.VERDICT',
    [145, 0, 0.1],
    'METER.VERDICT: target is 0 µmol/m²/s; it must be above 0 µmol/m²/s and at most 1\u202f000\u202f000 µmol/m²/s.',
  ],
  ['one argument too many is counted', 'DLI', [1, 2, 3], 'DLI takes 2 arguments: ppfd, hours. 3 are given: the last is too many.'],
] as const)('%s', (_, name, args, sentence) => expect(said(name, ...args)).toBe(sentence));

test.each([
  ['HOURS.FOR.DLI(7,80)', /at least ([\d.]+)/, 'HOURS.FOR.DLI(7,#)'],
  ['MOUNT.HEIGHT(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),400,0.4,2)', /at most it is ([\d.]+)/, 'MOUNT.HEIGHT(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),#,0.4,2)'],
  ['MOUNT.HEIGHT.UNDER(96,0.3,0.3,120,2000)', /at most ([\d.]+)/, 'MOUNT.HEIGHT.UNDER(96,0.3,0.3,120,#)'],
  // Never a larger breaker: what is named is the load that the one at hand carries.
  ['CIRCUIT.COUNT(16,20,0.9)', /at most ([\d.]+)/, 'CIRCUIT.COUNT(16,#,0.9)'],
  ['SUPPLY.COUNT(2,80,100,0.7,1,100)', /supply of at least ([\d.]+)/, 'SUPPLY.COUNT(2,80,#,0.7,1,100)'],
  ['CABLE.AREA(1000,7,23,0.03)', /reaches ([\d.]+)/, 'CABLE.AREA(#,7,23,0.03)'],
] as const)('%s: what the refusal names as the nearest is not refused again', (formula, named, again) => {
  const refused = evaluate(formula);
  if (!isRefusal(refused)) throw new Error(`${formula} is not refused`);
  const nearest = named.exec(refused.message)?.[1];
  expect(evaluate(again.replace('#', String(nearest))), `${nearest}`).toBeTypeOf('number');
});
