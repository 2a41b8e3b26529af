import { expect, it } from 'vitest';
import type { Tried, Value } from '../../src/engine/types.ts';
import { sentenceOf } from '../../src/ui/slips/back-words.ts';
import { templateBook } from '../templates/open-template.ts';

const money = (base: number): Value => ({ kind: 'number', base, unit: 'EUR/year' });
const tried = (price: number, gives: number, against: number): Tried => ({
  content: `${price} EUR/kWh`,
  value: { kind: 'number', base: price, unit: 'EUR/kWh' },
  gives: money(gives),
  against: money(against),
  others: [],
});
const said = (more: object): string =>
  sentenceOf(templateBook('trade-bench'), 'Scenarios.A53', 'tariff', {
    ok: true,
    given: 'tariff',
    moves: 'freely',
    searched: { choices: 2 },
    ways: [],
    more: 0,
    ...more,
  });

it('two results that are always as far apart are said to be, and by how much', () => {
  expect(said({ apart: money(80) })).toMatch(/never equal: whatever it is, they are 80(\.0+)?\s?EUR\/year apart\.$/);
});

it('two results that come nearer and go apart are only never equal', () => {
  expect(said({ lowest: tried(0.2, 5000, 4990), highest: tried(5, 25_000, 20_000) })).toMatch(/the two are never equal\.$/);
});
