/** Checks and verdicts: the state that a check begins with, and the names in a verdict. */
import { type Argument, cells, maybe, n, s, value, type Work } from './arguments.ts';
import { atMost, isOpen, isUnanswered, near, refuse, sound, type Value } from './values.ts';
import { FUSES } from './wires.ts';

const ICE = 273.15;
const isUnknown = (cell: Value): boolean => isOpen(cell) || (cell.kind === 'text' && ['unknown', 'no high end'].includes(cell.s.toLowerCase()));
/** The source names no such end, and nothing is assumed in its place. */
const noneNamed = (limit: Argument, assumed: Argument): boolean => {
  const cell = given(limit);
  return cell.kind === 'text' && cell.s === 'no high end' && limitOf(limit, assumed) === undefined;
};

/** A number to be judged. A reading of a thermometer is judged in °C. */
function judged(cell: Value): number {
  const found = sound(cell);
  return found.kind === 'number' ? found.n - (found.reading ? ICE : 0) : refuse('no number');
}

const given = (argument: Argument): Value => (argument === undefined ? { kind: 'blank' } : value(argument));

/** A limit, or the one that is assumed in its place; undefined where neither is known. */
function limitOf(limit: Argument, assumed: Argument): { readonly at: number; readonly assumed: boolean } | undefined {
  if (!isUnknown(given(limit))) return { at: judged(given(limit)), assumed: false };
  return isUnknown(given(assumed)) ? undefined : { at: judged(given(assumed)), assumed: true };
}

/** `over`: by how much it is on the right side. */
function against(found: Argument, limit: Argument, look: Argument, assumed: Argument, sign: 1 | -1): string {
  const x = judged(given(found));
  const against = limitOf(limit, assumed);
  if (!against) return sign < 0 && noneNamed(limit, assumed) ? 'assumed' : 'unknown';
  const right = sign * (x - against.at);
  if (right < 0 && !near(x, against.at)) return 'fails';
  const margin = against.at === 0 ? (near(x, 0) ? 0 : Number.POSITIVE_INFINITY) : right / Math.abs(against.at);
  if (margin < n(look) - 1e-9) return 'close to limit';
  return against.assumed ? 'assumed' : 'holds';
}

function within(low: number, high: number, ends: readonly [Argument, Argument, Argument, Argument], band = false, tried = false): string {
  const [from, to] = [limitOf(ends[0], ends[2]), limitOf(ends[1], ends[3])];
  if (from && to && from.at > to.at && !near(from.at, to.at)) return refuse('the low end is above the high end');
  if ((from && low < from.at && !near(low, from.at)) || (to && high > to.at && !near(high, to.at))) return 'fails';
  if (band && from && !to && noneNamed(ends[1], ends[3])) {
    const holds = low < from.at * 1.05 - 1e-9 * from.at ? 'close to limit' : 'holds';
    return holds === 'holds' && (from.assumed || tried) ? 'assumed' : holds;
  }
  if (!from || !to) return 'unknown';
  return from.assumed || to.assumed || tried ? 'assumed' : 'holds';
}

const KINDS = ['short', 'long', 'neutral'];
const kindOf = (argument: Argument): string | undefined => {
  const told = argument === undefined ? 'unknown' : s(argument).toLowerCase();
  return told === 'unknown' ? undefined : KINDS.includes(told) ? told : refuse('no such kind');
};

const dayLength: Work = (kind, hours, shortest, assumed) => {
  const told = kindOf(kind) ?? kindOf(assumed);
  if (told === undefined) return 'unknown';
  const night = 24 - n(hours);
  const good = kindOf(kind) === undefined ? 'assumed' : 'holds';
  if (told === 'neutral') return good;
  const long = atMost(n(shortest), night);
  if (told === 'short') return long ? good : 'fails';
  return long ? 'assumed' : good;
};

// IEC 60529:1989+A2:2013, clauses 5 and 6: jets (5, 6), immersion (7, 8) and high pressure (9) are tests apart (from memory).
const ip: Work = (marked, asked) => {
  if (maybe(marked) === undefined || maybe(asked) === undefined) return 'unknown';
  const [dust, water] = [Math.floor(n(marked) / 10), n(marked) % 10];
  const [dustAsked, waterAsked] = [Math.floor(n(asked) / 10), n(asked) % 10];
  if (dust < dustAsked || water < waterAsked) return 'fails';
  const test = (digit: number): number => (digit <= 4 ? 0 : digit <= 6 ? 1 : digit <= 8 ? 2 : 3);
  return waterAsked > 4 && test(water) !== test(waterAsked) ? 'close to limit' : 'holds';
};

const limited: Work = (marked, rating, limit) => {
  const mark = given(marked);
  const said = mark.kind === 'text' ? mark.s.toLowerCase() : '';
  const yes = isUnknown(mark) ? undefined : mark.kind === 'yesno' ? mark.yes : said === 'yes' ? true : said === 'no' ? false : refuse('neither yes nor no');
  const [gives, most] = [maybe(rating), maybe(limit)];
  if (yes === false || (gives !== undefined && most !== undefined && !atMost(gives, most))) return 'fails';
  return yes === undefined || gives === undefined || most === undefined ? 'unknown' : 'holds';
};

// NFPA 70 (NEC), 210.20(A): 125 percent of a continuous load. Class gG: IEC 60364-4-43, clause 433.1, with the melting currents of IEC 60269 (1.31 and 1.1 read
// second-hand; 1.45 up to 4 A from memory).
const fuse: Work = (size, amps, cable, kind, overload) => {
  const [rating, load, carries, flows] = [maybe(size), maybe(amps), maybe(cable), maybe(overload)];
  if (rating === undefined) return load !== undefined && carries !== undefined && !atMost(load, carries) ? 'fails' : 'unknown';
  if (rating === 0) {
    if (carries !== undefined && !atMost(Math.max(load ?? 0, flows ?? 0), carries)) return 'fails';
    if (carries === undefined || flows === undefined) return 'unknown';
    return 'holds';
  }
  if (load !== undefined && !atMost(1.25 * load, rating)) return 'fails';
  if (load !== undefined && carries !== undefined && !atMost(load, carries)) return 'fails';
  const class_ = kind === undefined || s(kind).toLowerCase() === 'unknown' ? undefined : s(kind).toLowerCase();
  // Even the quickest must be no more than the cable carries.
  if (carries !== undefined && !atMost(rating, carries)) return 'fails';
  if (class_ === undefined) return 'unknown';
  const sizes = FUSES[class_] ?? refuse('no such kind of fuse');
  if (!sizes.some((each) => near(each, rating))) return 'fails';
  const late = class_ === 'gg' ? (rating <= 4 ? 1.45 : rating < 16 ? 1.31 : 1.1) : 1;
  if (carries !== undefined && !atMost(rating, carries / late)) return 'fails';
  return load === undefined || carries === undefined ? 'unknown' : 'holds';
};

const WORST_FIRST = ['fails', 'unknown', 'close to limit', 'assumed'];

const stateOf = (cell: Value): string => {
  const found = sound(cell);
  const state = found.kind === 'text' ? (/^(?:close to limit|[a-z]+)/.exec(found.s)?.[0] ?? '') : '';
  return ['holds', ...WORST_FIRST].includes(state) ? state : refuse('no check');
};

const verdict: Work = (checks, labels, also, alsoLabels) => {
  const all = [checks, also].flatMap((part) => (part === undefined ? [] : cells(part).flat()));
  const names = [labels, alsoLabels].flatMap((part) => (part === undefined ? [] : cells(part).flat()));
  const by = new Map<string, string[]>(WORST_FIRST.map((state) => [state, []]));
  for (const [i, cell] of all.entries()) {
    const label = names[i];
    const name = label?.kind === 'text' ? label.s : '';
    if (isOpen(cell) && name === '' && !isUnanswered(cell)) continue;
    by.get(isOpen(cell) ? 'unknown' : stateOf(cell))?.push(name);
  }
  const told = WORST_FIRST.flatMap((state) => {
    const whose = by.get(state) ?? [];
    return whose.length === 0 ? [] : [{ state, line: `${whose.length}: ${whose.join(', ')}` }];
  });
  const [first] = told;
  if (!first) return 'holds';
  if (first.state === 'assumed') return `holds, ${first.line.replace(':', ' assumed:')}`;
  return told.map(({ state, line }) => `${state} ${line}`).join('; ');
};

/** Places of verdicts that neither fail nor have something unknown. */
const works = (cell: Value): boolean => cell.kind === 'text' && /^(holds|assumed|close to limit)/.test(cell.s);

export const CHECKS: Readonly<Record<string, Work>> = {
  'CHECK.AT.MOST': (x, limit, look, assumed) => against(x, limit, look, assumed, -1),
  'CHECK.AT.LEAST': (x, limit, look, assumed) => against(x, limit, look, assumed, 1),
  'CHECK.NEAR': (check, height, spacing) => (spacing === undefined || s(check).startsWith('fails') || atMost(2 * n(spacing), n(height)) ? s(check) : 'unknown'),
  'CHECK.WITHIN': (x, low, high, assumedLow, assumedHigh) => within(judged(given(x)), judged(given(x)), [low, high, assumedLow, assumedHigh]),
  'CHECK.BAND': (kept, dayOne, low, high, assumedLow, assumedHigh, _, tried) =>
    within(judged(given(kept)), judged(given(dayOne)), [low, high, assumedLow, assumedHigh], true, tried === true),
  'CHECK.DAY.LENGTH': dayLength,
  'CHECK.TEMPERATURE': (value, limit, close) => {
    const most = maybe(limit);
    if (most === undefined) return 'unknown';
    return near(n(value), most) ? 'close to limit' : n(value) > most ? 'fails' : n(value) > most - n(close) ? 'close to limit' : 'holds';
  },
  'CHECK.IP': ip,
  'CHECK.LIMITED': limited,
  'CHECK.FUSE': fuse,
  VERDICT: verdict,
  'HOLDING.COUNT': (verdicts) => cells(verdicts).flat().filter(works).length,
  'CHEAPEST.HOLDING': (verdicts, costs) => {
    const prices = cells(costs).flat();
    let best: number | undefined;
    for (const [i, cell] of cells(verdicts).flat().entries()) {
      const price = prices[i];
      if (!works(cell) || price?.kind !== 'number') continue;
      const before = best === undefined ? undefined : prices[best];
      if (before?.kind !== 'number' || price.n < before.n) best = i;
    }
    return best === undefined ? refuse('none holds') : best + 1;
  },
};
