/** Proposals for one client after another, on one workbook for all of them. */
import { fromBase, need } from '../../../functions/units.ts';
import { apply } from '../../book/apply.ts';
import type { Book } from '../../book/book.ts';
import { putScenarios } from '../../book/commands/put-scenarios.ts';
import { isRefused } from '../../book/refused.ts';
import { addCounts, type Counts, finished, NO_COUNTS, type Proposal, type Proposed, Searcher, type Tally } from '../../engine/propose/index.ts';
import type { Value } from '../../engine/types.ts';
import { type CsvValue, formatCsv } from '../../files/csv/index.ts';
import { type Client, type Ran, Runner } from './runner.ts';

/** Rows of the scenario that are told, by their ids; the first that a book has. */
const TOLD = {
  light: ['kept'],
  dli: ['dli', 'dli_mean'],
  buy: ['buy'],
  verdict: ['verdict'],
} as const;

export class Proposer extends Runner {
  #counts: Tally = { ...NO_COUNTS };

  /** How many arrangements were tried since it was last asked. */
  counted(): Counts {
    const counts = this.#counts;
    this.#counts = { ...NO_COUNTS };
    return counts;
  }

  override headings(): string {
    const { currency } = this.setup.template;
    return formatCsv([
      [
        ...this.ownHeadings,
        'proposal',
        'fixture',
        'along',
        'across',
        'turned',
        'height (m)',
        'dimmed to (%)',
        'supply',
        'fuse',
        'fixtures',
        'maintained PPFD (µmol/m²/s)',
        'maintained DLI (mol/m²/d)',
        'evenness',
        `cost to buy (${currency})`,
        `cost a year (${currency}/year)`,
        'verdict',
        'why',
      ],
    ]);
  }

  override async run(client: Client): Promise<Ran> {
    const reason = this.take(client);
    if (reason !== undefined) return { ok: false, reason };
    const found = this.#propose();
    if (typeof found === 'string') return { ok: false, reason: found };
    const { books } = this.setup;
    if (books !== undefined) {
      const filled = filledBook(this.book, found);
      if (typeof filled === 'string') return { ok: false, reason: filled };
      await this.keepBook(client, books, filled);
    }
    const who = this.ownFields(client);
    const records = found.proposals.length > 0 ? found.proposals.map((one) => this.#record(one)) : [noneRecord(found)];
    return { ok: true, text: formatCsv(records.map((record) => [...who, ...record])) };
  }

  #propose(): Proposed | string {
    const searcher = Searcher.of(this.sweeper, {}, {}, { book: this.book, givens: this.givens });
    if (typeof searcher === 'string') return searcher;
    const pieces = Array.from({ length: searcher.plan.pieces }, (_, piece) => searcher.piece(piece));
    const found = finished(searcher, pieces);
    addCounts(this.#counts, found.counts);
    return found;
  }

  #record({ aim, layout, values, why }: Proposal): CsvValue[] {
    const { currency } = this.setup.template;
    const { fixture, along, across, turned, metres, dim, supply, fuse, count, evenness, annual } = layout;
    const value = (ids: readonly string[]): Value | undefined => ids.map((id) => values[id]).find((one) => one !== undefined);
    const number = (ids: readonly string[], unit: string): CsvValue => {
      const found = value(ids);
      return found?.kind === 'number' ? inUnit(found.base, unit) : null;
    };
    const verdict = value(TOLD.verdict);
    return [
      aim,
      fixture,
      along,
      across,
      turned ? 'yes' : 'no',
      known(metres),
      dim,
      supply,
      fuse,
      known(count),
      number(TOLD.light, 'µmol/m²/s'),
      number(TOLD.dli, 'mol/m²/d'),
      known(evenness),
      number(TOLD.buy, currency),
      Number.isNaN(annual) ? null : inUnit(annual, `${currency}/year`),
      verdict?.kind === 'text' ? verdict.text : null,
      why,
    ];
  }
}

const inUnit = (base: number, unit: string): number => fromBase(base, need(unit));
const known = (number: number): CsvValue => (Number.isNaN(number) ? null : number);

/** The line of a client for whom nothing holds: what stands in the way, and what would help. */
function noneRecord({ binds }: Proposed): CsvValue[] {
  const why = [binds?.said ?? '', ...(binds?.changes ?? []).map(({ said }) => said)].filter((text) => text !== '').join(' ');
  return ['none', ...Array.from({ length: 15 }, () => null), why];
}

/** The proposals as the first three scenarios; where there are fewer, the last of them are as the first. Where there is none, the book as it was. */
function filledBook(book: Book, { table, proposals }: Proposed): Book | string {
  const [first] = proposals;
  if (!first) return book;
  const scenarios = [0, 1, 2].map((i) => proposals[i] ?? first).map(({ cells, why }) => ({ givens: cells, why }));
  const change = putScenarios(book, { table, scenarios, label: 'Proposals' });
  return isRefused(change) ? change.message : apply(book, change);
}
