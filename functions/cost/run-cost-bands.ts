import { say } from '../check-args.ts';
import { type Cells, calc, define, isRefusal, type Refusal, refuse } from '../define.ts';
import { need, toBase } from '../units.ts';
import { DAYS } from './params.ts';

interface Band {
  readonly from: number;
  readonly to: number;
  readonly price: number;
}

/** One money/kWh in base units (money/J). */
const PER_KWH = toBase(1, need('money/kWh'));
const HOUR = 3600;

/** The bands of a day from rows of clock time (base: s) and price (base: money/J). The last band runs on past midnight to the first. */
function readBands(cells: Cells): Band[] | Refusal {
  const rows: [number, number][] = [];
  for (const row of cells) {
    const [from, price] = row;
    if (typeof from === 'string') continue;
    if ((from ?? null) === null && (price ?? null) === null) continue;
    if (typeof from !== 'number' || typeof price !== 'number')
      return refuse('RUN.COST.BANDS: each band needs the clock time from which it holds, in h, and its price in money/kWh.');
    const hour = Number((from / HOUR).toPrecision(12));
    if (hour < 0 || hour >= 24) return refuse(`RUN.COST.BANDS: a band begins at ${say(hour)} h; it must be from 0 to below 24 h.`);
    if (rows.some(([other]) => other === hour)) return refuse(`RUN.COST.BANDS: two bands begin at ${say(hour)} h.`);
    const perKwh = price / PER_KWH;
    if (!(perKwh >= 0 && perKwh <= 1e6)) return refuse(`RUN.COST.BANDS: the price from ${say(hour)} h on must be from 0 to 1000000 money/kWh.`);
    rows.push([hour, Number(perKwh.toPrecision(12))]);
  }
  rows.sort(([a], [b]) => a - b);
  const [first] = rows;
  if (!first) return refuse('RUN.COST.BANDS: the range holds no band.');
  return rows.map(([from, price], i) => ({ from, to: rows[i + 1]?.[0] ?? first[0] + 24, price }));
}

/** Hours of [on, on + length) in [from, to), on a clock that goes round. */
function overlap(on: number, length: number, { from, to }: Band): number {
  let hours = 0;
  for (const turn of [-24, 0, 24]) hours += Math.max(0, Math.min(on + length, to + turn) - Math.max(on, from + turn));
  return hours;
}

export const RUN_COST_BANDS = define({
  name: 'RUN.COST.BANDS',
  family: 'Cost',
  summary: 'Money a year for energy whose price changes over the day.',
  use: 'For tariffs with day and night prices that hold every day alike. Give “on” and “off” by the clock; a band holds until the next begins, the last until the first.',
  formula: 'watts / 1000 · days · Σ hours in the band · price',
  params: [
    { name: 'watts', quantity: 'power', unit: 'W', meaning: 'from the mains', atLeast: 0, atMost: 1e9 },
    { name: 'on', quantity: 'clock time', unit: 'h', meaning: 'hour of the clock when the lamps come on', atLeast: 0, atMost: 24 },
    { name: 'off', quantity: 'clock time', unit: 'h', meaning: 'hour when they go off; before “on” it is past midnight', atLeast: 0, atMost: 24 },
    {
      name: 'bands',
      quantity: 'price bands',
      unit: 'mixed',
      shape: 'range',
      columns: ['h', 'money/kWh'],
      meaning: 'rows of clock time from which it holds (h) and price (money/kWh)',
    },
    DAYS,
  ],
  returns: { quantity: 'money per year', unit: 'money/year' },
  source: 'Closed form: energy in each band times its price',
  examples: [{ formula: 'RUN.COST.BANDS(500,18,10,{6,0.36;22,0.18},330)', gives: 712.8 }],
  work: ([watts, on, off, table, days], show) => {
    const bands = readBands(table);
    if (isRefusal(bands)) return bands;
    const length = off < on ? off - on + 24 : off - on;
    const kw = watts / 1000;
    const parts = bands.map((band) => ({ band, hours: overlap(on % 24, length, band) }));
    const perDay = parts.reduce((sum, { band, hours }) => sum + hours * band.price, 0);
    const value = kw * days * perDay;
    if (show) {
      show.sum(
        'price of one kilowatt over the day’s hours',
        () => parts.map(({ band, hours }) => ({ label: `from ${say(band.from)} h: ${say(hours)} h at ${say(band.price)}`, value: hours * band.price })),
        1,
        perDay,
        '1',
      );
      show.expression('for the watts and days', calc`${watts} / 1000 * ${days} * ${perDay}`, value, 'money/year');
    }
    return value;
  },
});
