import { calc, define } from '../define.ts';
import { CHECK_SOURCE, CLOSE, NO_LIMIT, same } from './margin.ts';

const READING = { unit: '°C', atLeast: -60, atMost: 150 } as const;

export const CHECK_TEMPERATURE = define({
  name: 'CHECK.TEMPERATURE',
  family: 'Check',
  summary: 'Holds, close to limit or fails: a temperature against one that it must not pass, with the margin in kelvin.',
  use: 'As CHECK.AT.MOST. A share of a thermometer’s reading would say nothing: its zero is anywhere. A blank limit is unknown, which never counts as holding.',
  formula: 'limit − value against 0 and the difference that counts as close',
  params: [
    { ...READING, name: 'value', quantity: 'temperature', meaning: 'that is checked' },
    { ...READING, name: 'limit', quantity: 'limit', meaning: 'blank means that none is known', blankAllowed: true, unknownAllowed: true },
    {
      name: 'close within',
      quantity: 'difference that counts as close',
      unit: 'K',
      meaning: '2 K unless said',
      optional: true,
      fallback: 2,
      atLeast: 0,
      atMost: 100,
    },
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source: CHECK_SOURCE,
  unchecked: 'It words a comparison; the wording is our own.',
  examples: [{ formula: 'CHECK.TEMPERATURE(UNIT(25,"°C"),UNIT(40,"°C"))', gives: 'holds, 15 K under' }],
  work: ([value, limit, close], show) => {
    if (typeof limit !== 'number') return NO_LIMIT;
    const margin = limit - value;
    show?.expression('margin', calc`${limit} - ${value}`, margin, 'K');
    if (same(value, limit)) return `${close > 0 ? CLOSE : 'holds'}, at the limit`;
    const said = `${Number(Math.abs(margin).toPrecision(2))} K ${margin < 0 ? 'over' : 'under'}`;
    return `${margin < 0 ? 'fails' : margin < close ? CLOSE : 'holds'}, ${said}`;
  },
});
