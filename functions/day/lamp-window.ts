import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { CLOCK } from './params.ts';

export const LAMP_WINDOW = define({
  name: 'LAMP.WINDOW',
  family: 'Daily light',
  summary: 'Hours a day from one hour of the clock to another.',
  use: 'From 0 to 24 is the whole day; an end before the beginning is past midnight. The same hour at both ends is refused: it may mean all day, or not at all.',
  formula: 'to − from, and 24 more past midnight',
  params: [
    { ...CLOCK, name: 'from', quantity: 'clock time', meaning: 'hour from which the lamps may be on: 6:30 is 6.5 h' },
    { ...CLOCK, name: 'to', quantity: 'clock time', meaning: 'hour until which they may be on' },
  ],
  returns: { quantity: 'hours a day', unit: 'h/d' },
  source: 'By definition: a stretch of the clock',
  examples: [
    { formula: 'LAMP.WINDOW(5,19)', gives: 14 },
    { formula: 'LAMP.WINDOW(20,6)', gives: 10 },
    { formula: 'LAMP.WINDOW(0,24)', gives: 24 },
  ],
  work: ([from, to], show) => {
    if ((to - from) % 24 === 0 && to <= from)
      return refuse(`LAMP.WINDOW: ${say(from)} to ${say(to)} h may be all day or not at all; for all day say 0 to 24 h.`);
    const value = to < from ? to - from + 24 : to - from;
    show?.expression('from the one to the other', to < from ? calc`${to} - ${from} + 24` : calc`${to} - ${from}`, value, 'h/d');
    return value;
  },
});
