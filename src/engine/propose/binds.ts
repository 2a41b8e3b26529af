/**
 * What stands in the way where nothing holds, and the smallest change of a limit that would let something through. Every change that is told was tried: with
 * it an arrangement holds, and with a step less none of those that come nearest does.
 */

import { joined } from '../../../functions/check-args.ts';
import { showNumber } from '../../../functions/number-text.ts';
import { readContent } from '../../../functions/quantity-text.ts';
import { type At, placeIn } from '../../book/address.ts';
import { addressOf, placeOf, rangeOf, titleOf, unitOf } from '../../book/look-up.ts';
import { checkLabel } from './anatomy.ts';
import { factOf } from './facts.ts';
import { distance, type Ladder, Limits, laddersOf } from './limits.ts';
import { heightsLookedAt, missesOf } from './misses.ts';
import { nearestMiss } from './nearest-miss.ts';
import type { Miss } from './probe.ts';
import type { Searcher } from './searcher.ts';
import { heightOf } from './space.ts';
import type { Binding, Layout, Way } from './types.ts';

/** Groups of arrangements that fail in the same checks, of which it is told what would help. */
const MOST_GROUPS = 3;

export function bindingOf(searcher: Searcher, beat: () => void): Binding {
  const misses = missesOf(searcher, beat);
  const fewest = Math.min(...misses.map(({ fails }) => fails.length));
  const groups = grouped(misses.filter(({ fails }) => fails.length === fewest));
  const labels = (fails: readonly number[]): readonly string[] => fails.map((i) => labelOf(searcher, i));
  const [all, some] = [searcher.space.heights.length, heightsLookedAt(searcher.space).length];
  // In a large space not every height is looked at, so that what is counted is not all of it.
  const where = some < all ? `At ${some} of ${all} heights, ` : '';
  const said =
    misses.length === 0
      ? 'Nothing that is tried can be built.'
      : `Nothing holds. ${where}${groups
          .slice(0, MOST_GROUPS)
          .map(({ fails, layouts }) => `${layouts.toLocaleString('en-GB')} ${layouts === 1 ? 'fails' : 'fail'} by ${joined(labels(fails))} alone`)
          .join(', ')}.`;
  const near = groups.slice(0, MOST_GROUPS).flatMap(
    ({ fails, key }) =>
      nearestMiss(
        searcher,
        fails,
        misses.filter((miss) => keyOf(miss.fails) === key),
        beat,
      ) ?? [],
  );
  const changes = told([...higher(searcher, beat), ...looser(searcher, misses, groups, beat)]);
  const none = changes.length === 0 ? ['No limit that was moved, by itself, lets one through.'] : [];
  return { checks: [...new Set(groups.flatMap(({ fails }) => labels(fails)))], said: [said, ...near, ...none].join(' '), changes };
}

/** What the plan may choose stands before what only the client can say; a fact that is known by two givens is told once, by the one that the client answers. */
function told(found: readonly Found[]): readonly Way[] {
  const once = found.filter(({ fact, stands }) => fact === undefined || !stands || !found.some((other) => other.fact === fact && !other.stands));
  return [...once.filter(({ way }) => !way.ofClient), ...once.filter(({ way }) => way.ofClient)].map(({ way }) => way);
}

interface Found {
  readonly way: Way;
  /** What it says of the client's building; `stands`: in place of an answer. */
  readonly fact?: string | undefined;
  readonly stands?: boolean;
}

interface Group {
  readonly key: string;
  readonly fails: readonly number[];
  readonly layouts: number;
}

/** By the checks that fail; those that most fail by first, and of as many the first that came. */
function grouped(misses: readonly Miss[]): readonly Group[] {
  const groups = new Map<string, { key: string; fails: readonly number[]; layouts: number }>();
  for (const { fails } of misses) {
    const key = keyOf(fails);
    const known = groups.get(key);
    if (known) known.layouts++;
    else groups.set(key, { key, fails, layouts: 1 });
  }
  return [...groups.values()].sort((a, b) => b.layouts - a.layouts);
}

const keyOf = (fails: readonly number[]): string => [...fails].sort((a, b) => a - b).join(' ');

function labelOf({ probe }: Searcher, i: number): string {
  const at = probe.anatomy.checks[probe.checks.indexOf(i)];
  return at ? checkLabel(at) : 'Circuits';
}

/** Limits that let something through when they are moved, each by its smallest step that does. */
function looser(searcher: Searcher, misses: readonly Miss[], groups: readonly Group[], beat: () => void): readonly Found[] {
  const { probe, sweeper } = searcher;
  const parts = probe.parts.map((part) => addressOf(probe.anatomy.parts[part] as At));
  const layout = probe.asked.layout === undefined ? undefined : probe.address(probe.asked.layout);
  const limits = new Limits(sweeper.workbook, parts, layout);
  const behind = new Map<string, { readonly at: At; readonly checks: Set<number> }>();
  for (const i of new Set(misses.flatMap(({ fails }) => fails))) {
    for (const at of limits.of(probe.address(i))) {
      const own = placeIn(at.table, at.columnIndex, at.rowIndex) as At;
      const known = behind.get(addressOf(at)) ?? { at: own, checks: new Set<number>() };
      known.checks.add(i);
      behind.set(addressOf(at), known);
    }
  }
  const nearest = new Set(groups.flatMap(({ fails }) => fails));
  return [...behind.values()]
    .filter(({ checks }) => [...checks].some((i) => nearest.has(i)))
    .flatMap(({ at, checks }) => {
      const reached = misses.filter(({ fails }) => fails.every((i) => checks.has(i)));
      const current = placeOf(probe.book, addressOf(at)) ?? at;
      let best: Way | undefined;
      // The nearest come first: what is farther away than something that helps is not tried.
      for (const ladder of laddersOf(probe.book, current)) {
        if (best && distance(current, ladder.at(1)) >= distance(current, best.content)) continue;
        const way = smallest(searcher, current, ladder, reached, beat);
        if (way && (!best || distance(current, way.content) < distance(current, best.content))) best = way;
      }
      const fact = factOf(current.row.id);
      return best ? [{ way: best, fact, stands: fact !== undefined && fact !== current.row.id }] : [];
    });
}

/** The lowest rung at which one of the arrangements holds, each taken to hold from some rung on; then everything is searched around it, to be sure. */
function smallest(searcher: Searcher, at: At, ladder: Ladder, misses: readonly Miss[], beat: () => void): Way | undefined {
  if (misses.length === 0) return undefined;
  const holds = searcher.tried(addressOf(at));
  let best: { readonly rung: number; readonly miss: Miss } | undefined;
  for (const miss of misses) {
    beat();
    let high = best ? best.rung - 1 : ladder.length;
    if (high < 1) break;
    if (!holds(ladder.at(high), miss)) continue;
    let low = 0;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (holds(ladder.at(middle), miss)) high = middle;
      else low = middle;
    }
    best = { rung: high, miss };
  }
  return best && wayOf(searcher, at, ladder.at(best.rung), best.miss, beat);
}

/** A change as it is told, if a search with it finds something. */
function wayOf(searcher: Searcher, at: At, content: string, { arrangement, height }: Pick<Miss, 'arrangement' | 'height'>, beat: () => void): Way | undefined {
  const { fixture, along, across, turned, spreadAlong, spreadAcross } = arrangement;
  const one = searcher.with(addressOf(at), content, {
    ...searcher.choices,
    spreadAlong: [spreadAlong],
    spreadAcross: [spreadAcross],
    fixtures: [fixture],
    along: { low: along, high: along },
    across: { low: across, high: across },
    turned: turned ? 'yes' : 'no',
    ...(Number.isNaN(height.metres) ? {} : { heights: { low: height.metres, high: height.metres } }),
    all: true,
  });
  if (typeof one === 'string') return undefined;
  let layout: Layout | undefined;
  for (let piece = 0; piece < one.plan.pieces; piece++) [layout] = [...(layout ? [layout] : []), ...one.piece(piece, beat).all];
  if (!layout) return undefined;
  const now = at.cell?.content ?? '';
  const ofClient = factOf(at.row.id) !== undefined;
  const is = now === '' ? '' : `, ${shown(at, now)}`;
  const said = ofClient
    ? `A question to the client: ${titleOf(at)}${is || ', not said'}; could it be ${shown(at, content)}? Then one holds.`
    : `${titleOf(at)}${is}: at ${shown(at, content)} one holds.`;
  return { address: addressOf(at), content, layout, ofClient, said };
}

/** As the cell shows it. */
function shown(at: At, content: string): string {
  const read = readContent(content);
  if (read.kind !== 'number') return read.kind === 'text' ? read.text : content;
  return showNumber(read.base, unitOf(at) ?? read.unit).text;
}

/** How much beyond the limits lights are tried, in m. */
const BEYOND = 1;

/** Lights hung higher or lower than the brief allows: the nearest height at which one holds. */
function higher(searcher: Searcher, beat: () => void): readonly Found[] {
  const { probe, space, choices } = searcher;
  if (probe.anatomy.parts.height?.row.id !== 'height' || choices.heights?.low !== undefined || choices.heights?.high !== undefined) return [];
  const [low, high] = [space.heights[0]?.metres ?? 0, space.heights.at(-1)?.metres ?? 0];
  return (['highest_mount', 'lift_top', 'lowest_mount'] as const).flatMap((name): Found[] => {
    const at = placeOf(probe.book, name);
    if (!at || at.cell === undefined || at.cell.content.startsWith('=')) return [];
    const up = name !== 'lowest_mount';
    const range = rangeOf(at);
    const most = readContent(`${range?.high ?? 10} ${range?.unit ?? 'm'}`);
    const least = readContent(`${range?.low ?? 0} ${range?.unit ?? 'm'}`);
    const end = heightOf(
      probe.book,
      up ? Math.min(high + BEYOND, most.kind === 'number' ? most.base : high) : Math.max(low - BEYOND, least.kind === 'number' ? least.base : 0),
    );
    // By the steps of the search, and then between the last that did not and the first that did.
    const nearest = (from: number, to: number, step: number): ReturnType<Searcher['nearest']> => {
      const other = searcher.with(addressOf(at), end.content, { ...choices, heights: { low: Math.min(from, to), high: Math.max(from, to), step } });
      return typeof other === 'string' ? undefined : other.nearest(up, beat);
    };
    const by = up ? space.fine : -space.fine;
    const start = (up ? high : low) + by;
    if (up ? start > end.metres : start < end.metres) return [];
    const coarse = nearest(start, end.metres, space.step);
    const last = coarse ? coarse.height.metres - (up ? space.step : -space.step) + by : start;
    const found = coarse && (nearest(up ? Math.max(start, last) : Math.min(start, last), coarse.height.metres, space.fine) ?? coarse);
    return found ? [wayOf(searcher, at, found.height.content, found, beat)].flatMap((way) => (way ? [{ way }] : [])) : [];
  });
}
