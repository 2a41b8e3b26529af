/** What the pieces of a search come to together: the three proposals, each finer in its height, worked out in full, with a sentence why. */
import { verdictWord } from '../../../functions/check/verdict.ts';
import { showNumber } from '../../../functions/number-text.ts';
import { placeIn } from '../../book/address.ts';
import { addressOf, decimalsOf, standingOf } from '../../book/look-up.ts';
import type { Value } from '../types.ts';
import { checkLabel, rowOf } from './anatomy.ts';
import { better } from './better.ts';
import { bindingOf } from './binds.ts';
import { addCounts, NO_COUNTS, type Tally } from './counts.ts';
import { elsewhereIn } from './elsewhere.ts';
import type { Searcher } from './searcher.ts';
import { heightOf } from './space.ts';
import { AIMS, type Aim, type Counts, type Elsewhere, type Layout, type Looked, type PieceDone, type Proposal, type Proposed, ROWS } from './types.ts';

/** What is known when some pieces, or all of them, are done; in whatever order they came. */
export function gathered(pieces: readonly PieceDone[]): Pick<PieceDone, 'best' | 'all'> & { readonly counts: Tally } {
  const counts: Tally = { ...NO_COUNTS };
  const best: Partial<Record<Aim, Layout>> = {};
  const inOrder = [...pieces].sort((a, b) => a.piece - b.piece);
  for (const done of inOrder) {
    addCounts(counts, done.counts);
    for (const aim of AIMS) {
      const found = better(aim, best[aim], done.best[aim]);
      if (found) best[aim] = found;
    }
  }
  return { counts, best, all: inOrder.flatMap(({ all }) => all) };
}

/**
 * The answer, when every piece is done. Where nothing holds, the same is searched with what other scenarios have in givens that are no part of an
 * arrangement: the first with which something holds is taken, and said.
 */
export function finished(searcher: Searcher, pieces: readonly PieceDone[], beat: () => void = () => {}): Proposed {
  const own = concluded(searcher, pieces, beat);
  const others = elsewhereIn(searcher.probe.book, searcher.probe.anatomy);
  if (own.counts.hold > 0) {
    const untried = others.length === 0 ? [] : [`All have ${asInBase(searcher, others)}; what other scenarios have there was not tried.`];
    return { ...own, said: [...own.said, ...untried] };
  }
  const { counts } = own;
  const tried: string[] = [];
  for (const other of others) {
    const there = searcher.elsewhere(other);
    if (typeof there === 'string') continue;
    const done = Array.from({ length: there.plan.pieces }, (_, piece) => there.piece(piece, beat));
    addCounts(counts, gathered(done).counts);
    tried.push(other.said);
    if (counts.hold === 0) continue;
    const found = concluded(there, done, beat);
    const marked = (layout: Layout): Layout => ({ ...layout, elsewhere: other });
    const proposals = found.proposals.map((one) => ({
      ...one,
      layout: marked(one.layout),
      cells: { ...one.cells, ...other.givens },
      why: `${one.why.replace(/\.$/u, '')}; with ${other.said}.`,
    }));
    const said = `With ${asInBase(searcher, [other])}, nothing holds: these are with ${other.said}.`;
    return { ...found, proposals, counts, said: [...found.said, said], all: found.all.map(marked) };
  }
  const binds = bindingOf(searcher, beat);
  const neither = tried.length === 0 ? '' : ` Nor does anything with ${tried.join('; nor with ')}.`;
  return { ...own, counts, binds: { ...binds, said: binds.said + neither } };
}

/** "Reflecting sides as in A" */
function asInBase({ probe: { anatomy } }: Searcher, others: readonly Elsewhere[]): string {
  const { table, column } = anatomy;
  const labels = table.rows.filter(({ id }) => others.some(({ givens }) => givens[id] !== undefined)).map(({ id, label }) => label ?? id);
  return `${labels.join(' and ')} as in ${table.columns[column]?.label ?? 'the first scenario'}`;
}

/** What these pieces came to. */
function concluded(searcher: Searcher, pieces: readonly PieceDone[], beat: () => void): Proposed & { readonly counts: Tally } {
  const { counts, best, all } = gathered(pieces);
  const finer = Object.fromEntries(
    AIMS.flatMap((aim) => {
      const coarse = best[aim];
      beat();
      return coarse && searcher.answers(aim) ? [[aim, refined(searcher, aim, coarse)]] : [];
    }),
  ) as Partial<Record<Aim, Layout>>;
  const proposals = AIMS.flatMap((aim) => {
    const layout = finer[aim];
    return layout ? [proposalOf(searcher, aim, layout, finer, counts)] : [];
  });
  return { table: searcher.probe.anatomy.table.id, proposals, counts, said: searcher.plan.said, all };
}

/** The same lights a little higher or lower, by smaller steps. */
function refined(searcher: Searcher, aim: Aim, coarse: Layout): Layout {
  const { step, fine } = searcher.space;
  const [lowest, highest] = [searcher.space.heights[0], searcher.space.heights.at(-1)];
  if (Number.isNaN(coarse.metres) || !lowest || !highest) return coarse;
  const heights = [];
  for (let n = Math.ceil((coarse.metres - step) / fine); n * fine <= coarse.metres + step; n++) {
    const metres = n * fine;
    if (metres > lowest.metres && metres < highest.metres && Math.abs(metres - coarse.metres) > fine / 10) heights.push(heightOf(searcher.probe.book, metres));
  }
  return searcher.atHeights(coarse, heights).reduce((best, one) => better(aim, best, one) as Layout, coarse);
}

interface Worked {
  readonly id: string;
  readonly address: string;
}

/** All rows of the scenario that are worked out. */
function workedRows({
  probe: {
    anatomy: { table, column },
  },
}: Searcher): readonly Worked[] {
  return table.rows.flatMap((row, r) => {
    const at = placeIn(table, column, r);
    return at && ['worked', 'check'].includes(standingOf(at)) ? [{ id: row.id, address: addressOf(at) }] : [];
  });
}

/** One arrangement in full. */
export function look(from: Searcher, layout: Layout): Looked {
  const searcher = layout.elsewhere ? from.elsewhere(layout.elsewhere) : from;
  if (typeof searcher === 'string') throw new Error(searcher);
  const { anatomy } = searcher.probe;
  const worked = workedRows(searcher);
  const cells = searcher.cellsOf(layout);
  const found = searcher.probe.values(cells, [...worked.map(({ address }) => address), ...anatomy.checks.map(addressOf)]);
  const values = Object.fromEntries(worked.map(({ id }, i) => [id, found[i] as Value]));
  const labelled = (word: string): readonly string[] =>
    anatomy.checks.flatMap((at, i) => {
      const value = found[worked.length + i];
      return value?.kind === 'text' && verdictWord(value.text) === word ? [checkLabel(at)] : [];
    });
  return { cells, values, assumed: labelled('assumed'), close: labelled('look') };
}

function proposalOf(searcher: Searcher, aim: Aim, layout: Layout, all: Partial<Record<Aim, Layout>>, counts: Counts): Proposal {
  return { aim, layout, ...look(searcher, layout), why: whyOf(searcher, aim, layout, all, counts) };
}

/** In numbers as the book shows them. */
function whyOf(searcher: Searcher, aim: Aim, layout: Layout, all: Partial<Record<Aim, Layout>>, counts: Counts): string {
  const say = (by: Aim, of: Layout): string => {
    const id = ROWS[by];
    const at = rowOf(searcher.probe.anatomy.table, id);
    const text = showNumber(of[id], searcher.probe.unitOf(id), at && decimalsOf(at)).text;
    return id === 'count' ? `${text} ${of.count === 1 ? 'light' : 'lights'}` : text;
  };
  const hold = `of ${counts.built.toLocaleString('en-GB')} that can be built`;
  const heads = {
    cheapest: `Cheapest by the year ${hold}: ${say('cheapest', layout)}`,
    'most even': `Most even ${hold}: ${say('most even', layout)}, lowest to mean`,
    'fewest lights': `Fewest ${hold}: ${say('fewest lights', layout)}`,
  };
  const facts = AIMS.filter((other) => other !== aim && searcher.answers(other)).map((other) => `${SAID[other]}${say(other, layout)}`);
  const others = AIMS.flatMap((other) => (other !== aim && all[other] ? [[other, all[other]] as const] : []));
  const same = others.filter(([, one]) => sameLayout(one, layout)).map(([other]) => NAMED[other]);
  const next = others.find(([, one]) => !sameLayout(one, layout));
  const beside = [
    ...(same.length > 0 ? [`it is ${same.join(' and ')} too`] : []),
    ...(next ? [`${NAMED[next[0]]}, ${say(next[0], next[1])}, ${aim === 'cheapest' ? 'costs' : 'has'} ${say(aim, next[1])}`] : []),
  ];
  const cheapest = all.cheapest?.annual ?? Number.NaN;
  const times = layout.annual / cheapest;
  const dimmed = searcher.probe.parts.includes('dim') && layout.dim < MUCH_DIMMED;
  const dear = [
    ...(dimmed ? [`more light than is needed: dimmed to ${layout.dim} %`] : []),
    ...(times > DEAR ? [`costs ${times.toFixed(1)} times the cheapest`] : []),
  ];
  return `${[heads[aim] + (facts.length > 0 ? `, with ${facts.join(' and ')}` : ''), ...dear, ...beside].join('; ')}.`;
}

/** Per cent, and times the cost of the cheapest: beyond that a proposal pays for what nobody asked for, and says so. */
const MUCH_DIMMED = 40;
const DEAR = 2;
const SAID: Readonly<Record<Aim, string>> = { cheapest: 'a cost of ', 'most even': 'evenness ', 'fewest lights': '' };
const NAMED: Readonly<Record<Aim, string>> = { cheapest: 'the cheapest', 'most even': 'the most even', 'fewest lights': 'the one with the fewest lights' };

const sameLayout = (a: Layout, b: Layout): boolean =>
  a.place === b.place && a.metres === b.metres && a.dim === b.dim && a.supply === b.supply && a.fuse === b.fuse;
