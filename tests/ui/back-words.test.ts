import { expect, it } from 'vitest';
import type { Tried, Value } from '../../src/engine/types.ts';
import { alwaysApart, sentenceOf } from '../../src/ui/slips/back-words.ts';
import { templateBook } from '../templates/open-template.ts';

const money = (base: number): Value => ({ kind: 'number', base, unit: 'EUR/year' });
const tried = (price: number, gives: number, against: number): Tried => ({
  content: `${price} EUR/kWh`,
  value: { kind: 'number', base: price, unit: 'EUR/kWh' },
  gives: money(gives),
  against: money(against),
  others: [],
});
const said = (lowest: Tried, highest: Tried): string =>
  sentenceOf(templateBook('trade-bench'), 'Scenarios.A53', 'tariff', {
    ok: true,
    given: 'tariff',
    moves: true,
    searched: { from: lowest.value, to: highest.value },
    ways: [],
    more: 0,
    lowest,
    highest,
  } as never);

it('two results that are always as far apart are said to be, and nothing is called nearest', () => {
  const [near, far] = [tried(0.2, 5000, 4920), tried(5, 25_000, 24_920.000001)];
  expect(alwaysApart(near, far)).toMatchObject({ base: 80 });
  expect(said(near, far)).toMatch(/never equal: whatever it is, they are 80(\.0+)?\s?EUR\/year apart\.$/);
});

it('two results that come nearer and go apart are only never equal', () => {
  const [near, far] = [tried(0.2, 5000, 4990), tried(5, 25_000, 20_000)];
  expect(alwaysApart(near, far)).toBeUndefined();
  expect(said(near, far)).toMatch(/the two are never equal\.$/);
});
