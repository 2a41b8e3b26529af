/** A rack of tiers for which nothing holds as its first scenario has it, and what is said and done then. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { placeIn } from '../../../src/book/address.ts';
import { apply } from '../../../src/book/apply.ts';
import type { Book } from '../../../src/book/book.ts';
import { putScenarios } from '../../../src/book/commands/put-scenarios.ts';
import { cellEdit } from '../../../src/book/commands/set-cell.ts';
import { addressOf, placeOf, standingOf } from '../../../src/book/look-up.ts';
import { isRefused } from '../../../src/book/refused.ts';
import { type Choices, look, type Proposed, propose, Searcher } from '../../../src/engine/propose/index.ts';
import { Workbook } from '../../../src/engine/workbook.ts';
import { smallBook, type Wanted } from './small-books.ts';

const saying = (book: Book, says: Readonly<Record<string, string>>): Book =>
  Object.entries(says).reduce((now, [name, content]) => {
    const at = placeOf(now, name);
    if (!at) throw new Error(`there is no ${name}`);
    return apply(now, { label: '', edits: cellEdit(at, { ...at.cell, content }) });
  }, book);

const RACK = saying(JSON.parse(readFileSync('templates/rack-of-tiers.json', 'utf8')) as Book, {
  bench_length: '4 ft',
  bench_width: '18 in',
  tier_gap: '16 in',
  crop: 'leafy greens and herbs',
  stage: 'production',
});
const FEW: Choices = {
  fixtures: ['Rail 45'],
  along: { low: 1, high: 1 },
  across: { low: 2, high: 3 },
  turned: 'no',
  supplies: ['Supply 24/300'],
  fuses: ['0 A'],
};
/** Many small lights are more even, and far more light than is asked. */
const BRIGHT: Wanted = {
  ...{ length: 1.1, width: 0.4, lowest: 0.2, room: 0.06, low: 30, aim: 60, ceiling: 2500, even: 0.1, least: 10, spread: 1 },
  ...{
    fixtures: ['bar', 'dot'],
    supplies: ['small', 'large'],
    fuses: ['0 A'],
    extra: '',
    cost: '',
    evenness: 'BENCH.UNIFORMITY({layout},{height},8,6)',
    lacks: [],
  },
};
/** So that no scenario has sides that help. */
const BARE = { 'Scenarios.B7': '0', 'Scenarios.C7': '0' };

function found(book: Book, choices: Choices): Proposed {
  const proposed = propose(book, choices);
  if (typeof proposed === 'string') throw new Error(proposed);
  return proposed;
}

describe('where nothing holds with the sides of the first scenario', () => {
  it('those of another are tried, and go into the proposals with a word of it', () => {
    const proposed = found(RACK, { ...FEW, all: true });
    expect(proposed.proposals).toHaveLength(3);
    expect(proposed.said).toContain('With Reflecting sides as in A, nothing holds: these are with Reflecting sides 0.7, as in B.');
    for (const { cells, why } of proposed.proposals) {
      expect(cells).toMatchObject({ sides: '0.7' });
      expect(why).toMatch(/; with Reflecting sides 0\.7, as in B\.$/);
    }
    // Both searches are counted.
    const alone = found(saying(RACK, BARE), FEW);
    expect(alone.proposals).toEqual([]);
    expect(proposed.counts.layouts).toBe(2 * alone.counts.layouts);
    const change = putScenarios(RACK, { table: proposed.table, scenarios: proposed.proposals.map(({ cells, why }) => ({ givens: cells, why })), label: '' });
    if (isRefused(change)) throw new Error(change.message);
    const filled = apply(RACK, change);
    const values = new Workbook({}).load(filled);
    const table = filled.tables.find(({ id }) => id === proposed.table);
    const checks = (table?.rows ?? [])
      .flatMap((_, r) => [0, 1, 2].flatMap((c) => (table && placeIn(table, c, r)) ?? []))
      .filter((at) => standingOf(at) === 'check');
    expect(checks.length).toBeGreaterThan(30);
    for (const at of checks) {
      const value = values[addressOf(at)];
      expect([addressOf(at), value?.kind === 'text' ? value.text : value]).toEqual([addressOf(at), expect.stringMatching(/^(holds|assumed|close to limit)/)]);
    }
    // One that is looked at says what its scenario would.
    const searcher = Searcher.of(RACK, { ...FEW, all: true }) as Searcher;
    const [first] = proposed.proposals;
    if (first) expect(look(searcher, structuredClone(first.layout))).toMatchObject({ cells: first.cells, values: first.values });
    for (const layout of proposed.all) expect(layout.elsewhere?.said).toBe('Reflecting sides 0.7, as in B');
    searcher.close();
  });

  it('and with those of no other, it is said which were tried', () => {
    const { proposals, binds } = found(saying(RACK, { 'Scenarios.B7': '0.05', 'Scenarios.C7': '0.1' }), FEW);
    expect(proposals).toEqual([]);
    expect(binds?.said).toMatch(/ Nor does anything with Reflecting sides 0\.05, as in B; nor with Reflecting sides 0\.1, as in C\.$/);
  });
});

it('says that all is as the first scenario has it, where others have something else', () => {
  const { proposals, said } = found(saying(RACK, { 'Scenarios.A7': '0.7', 'Scenarios.B7': '0.6' }), { ...FEW, across: { low: 2, high: 2 } });
  expect(proposals).toHaveLength(3);
  expect(said).toEqual(['All have Reflecting sides as in A; what other scenarios have there was not tried.']);
});

describe('what would let something through', () => {
  const PUCKS: Choices = { fixtures: ['Puck 18'], along: { low: 7, high: 7 }, across: { low: 4, high: 4 }, supplies: ['Supply 24/300'], fuses: ['0 A'] };

  it('is a question where it is a fact of the building, one to a fact, the smallest change', () => {
    const { binds } = found(saying(RACK, BARE), PUCKS);
    expect(binds?.changes.map(({ said, ofClient }) => [said.replace(/\s/gu, ' '), ofClient])).toEqual([
      ['A question to the client: Breaker, 16 A; could it be 20 A? Then one holds.', true],
      ['A question to the client: Circuits that may be used, 2; could it be 3? Then one holds.', true],
    ]);
  });

  it('tells a fact that nobody said once, and not by what stands in its place too', () => {
    const { binds } = found(saying(RACK, { ...BARE, breaker: '', circuits_free: '' }), PUCKS);
    const changes = binds?.changes ?? [];
    expect(changes.map(({ address }) => placeOf(RACK, address)?.row.id)).toEqual(['spare_power', 'breaker', 'circuits_free']);
    expect(changes.map(({ content }) => content)).toEqual(['3 kW', '20 A', '3']);
  });

  it('comes after what the plan may choose', () => {
    // Three rows are even enough and draw 12 × 45 W and more, which 0.5 kW would not give either; two rows are not even enough.
    const lit = saying(RACK, { 'Scenarios.A7': '0.7', 'Scenarios.B7': '0.7', 'Scenarios.C7': '0.7', evenness_asked: '0.77', spare_power: '0.4 kW' });
    const { binds } = found(lit, FEW);
    expect([...(binds?.checks ?? [])].sort()).toEqual(['Circuits free', 'Evenness']);
    expect(binds?.changes.map(({ address, content, ofClient }) => [placeOf(lit, address)?.row.id, content, ofClient])).toEqual([
      ['evenness_asked', expect.stringMatching(/^0\.7[0-6]$/), false],
      ['spare_power', '1 kW', true],
    ]);
  });

  it('is said beside by how much the nearest misses, too dark or too bright', () => {
    const said = (book: Book, by: Choices): string => found(book, by).binds?.said.replace(/\s/gu, ' ') ?? '';
    const one = { along: { low: 1, high: 1 }, turned: 'no' } as const;
    const lit = saying(RACK, { 'Scenarios.A7': '0.7', 'Scenarios.B7': '0.7', 'Scenarios.C7': '0.7' });
    const short = saying(lit, { light_hours: '9 h/d' });
    const dark = said(short, { ...FEW, ...one, across: { low: 2, high: 2 } });
    const [, drop, dim, margin, kept, least] =
      /The nearest is Rail 45, 1 × 2, .* by ([\d.]+) m, dimmed to (\d+) %: Target band too dark, ([\d.]+) % below the low end, maintained \(maintained mean PPFD ([\d.]+) µmol\/m²\/s; PPFD wanted, at least ([\d.]+) µ/.exec(
        dark,
      ) ?? [];
    // The same in the book, opened as any.
    const values = new Workbook({}).load(saying(short, { 'Scenarios.A1': 'Rail 45', 'Scenarios.A6': `${drop} m`, 'Scenarios.A8': `${dim} %` }));
    const light = values['Scenarios.A16'];
    expect(light?.kind === 'number' ? light.base * 1e6 : 0).toBeCloseTo(Number(kept), 0);
    expect(100 * (1 - Number(kept) / Number(least))).toBeCloseTo(Number(margin), 0);
    expect(
      said(saying(lit, { crop: 'vegetable seedlings', stage: 'before transplant', light_ceiling: '2000 µmol/m²/s' }), {
        ...FEW,
        ...one,
        across: { low: 3, high: 3 },
        dimming: 'none',
      }),
    ).toMatch(
      /Nothing holds\. \d+ fail by .*Target band.* alone\. The nearest is Rail 45, 1 × 3, .*, dimmed to 100 %: .*Target band too bright, [\d.]+ % (?:above|over) the high end, day one/,
    );
  });
});

describe('the reason of a proposal', () => {
  it('says plainly that its lights are dimmed far down, and that it costs more than twice the cheapest', () => {
    const { proposals } = found(smallBook(BRIGHT), { along: { low: 1, high: 4 }, across: { low: 1, high: 4 } });
    const [cheapest] = proposals;
    for (const { why, layout } of proposals) {
      expect(/more light than is needed: dimmed to \d+ %/.test(why), why).toBe(layout.dim < 40);
      const times = layout.annual / (cheapest?.layout.annual ?? Number.NaN);
      expect(why.includes(`costs ${times.toFixed(1)} times the cheapest`), why).toBe(times > 2);
    }
    expect(proposals.some(({ layout }) => layout.dim < 40)).toBe(true);
    expect(proposals.some(({ layout }) => layout.annual > 2 * (cheapest?.layout.annual ?? Number.NaN))).toBe(true);
  });
});
