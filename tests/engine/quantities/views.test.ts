import { describe, expect, test } from 'vitest';
import { readContent } from '../../../functions/quantity-text.ts';
import { fromBase, need, type Unit, unit } from '../../../functions/units.ts';
import type { Book } from '../../../src/book/book.ts';
import { setMeasures } from '../../../src/book/commands/set-measures.ts';
import { setUnit } from '../../../src/book/commands/set-unit.ts';
import { isRefused } from '../../../src/book/refused.ts';
import { createEngine } from '../../../src/engine/engine.ts';
import type { Values } from '../../../src/engine/types.ts';
import { cells, openTemplate, slugs, templateBook } from '../../templates/open-template.ts';
import { dependents } from '../../templates/references.ts';
import { random } from './random.ts';

const ALL =
  'm|cm|mm|in|ft|km|m²|cm²|mm²|in²|ft²|µmol/s|mol/h|µmol/m²/s|mmol/m²/s|mol/m²/d|mmol/m²/d|µmol/J|mol/kWh|lx|klx|fc|MJ/m²/d|kWh/m²/d|W/m²|s|min|h|d|week|month|year|h/d|min/d|h/year|d/year|week/year|W|kW|BTU/h|kJ|MJ|kWh|kWh/year|MJ/year|V|mV|A|mA|Ω/km|Ω/kft|K|°C|°F|g|kg|lb|N|lbf|m³/h|cfm|m/d|cm/d|in/d|°|rad|EUR/kWh|EUR/MWh|EUR/year|EUR/month|EUR/m|EUR/ft|lx per µmol/m²/s|/K|/year|/h|EUR/mol'
    .split('|')
    .map(need);

const others = (u: Unit): readonly Unit[] => ALL.filter((other) => other.dimension === u.dimension && other.reading === u.reading && other.symbol !== u.symbol);

const contents = (book: Book): readonly string[] => cells(book).map(({ address, at }) => `${address} ${at.cell?.content ?? ''}`);

const bases = (values: Values): ReadonlyMap<string, number> =>
  new Map(Object.entries(values).flatMap(([address, value]) => (value.kind === 'number' ? [[address, value.base]] : [])));

const DIGITS = /\d+(?:\.\d+)?/g;

/** Texts that say numbers: a half may be rounded either way, which is one in the last place that is said. */
function sameText(a: string, b: string): boolean {
  if (a.replace(DIGITS, '#') !== b.replace(DIGITS, '#')) return false;
  const [left, right] = [a.match(DIGITS) ?? [], b.match(DIGITS) ?? []];
  return left.every((digits, i) => {
    const places = digits.split('.')[1]?.length ?? 0;
    return Math.abs(Number(digits) - Number(right[i])) <= 1.001 * 10 ** -places;
  });
}

const FIELD = /\b(?:BENCH|MOUNT|METER|LANDING|NEIGHBOUR|SPREAD)\./;
const SEARCH = /\b(?:USEFUL|ROW\.GAP|DISCOUNTED|TARIFF|IRR|RATE)\b/;

/** What a field or a search adds to the error, for the cells that hold one and all that follow from them. */
function tolerances(book: Book): ReadonlyMap<string, number> {
  const follows = dependents(book);
  const allowed = new Map<string, number>();
  for (const [pattern, tolerance] of [
    [SEARCH, 1e-9],
    [FIELD, 2e-6],
  ] as const) {
    for (const { address, at } of cells(book)) {
      if (pattern.test(at.cell?.content ?? '')) for (const each of [address, ...follows(address)]) allowed.set(each, tolerance);
    }
  }
  return allowed;
}

describe.each(slugs)('The template %s in other units', (slug) => {
  test('a random walk of 200 changes of shown unit leaves every stored content and every value as it was, bit for bit', async () => {
    const session = await openTemplate(slug);
    const [before, stored] = [bases(session.values), contents(session.book)];
    const addresses = [...before.keys()];
    const next = random(99);
    let walked = 0;
    while (walked < 200) {
      if (walked % 25 === 24) {
        session.run((book) => setMeasures(book, { measures: book.measures === 'metric' ? 'US customary' : 'metric' }));
        walked++;
        continue;
      }
      const address = addresses[Math.floor(next() * addresses.length)] ?? '';
      const value = session.values[address];
      const shown = value?.kind === 'number' ? unit(value.unit) : undefined;
      const choices = shown ? others(shown) : [];
      const chosen = choices[Math.floor(next() * choices.length)];
      if (!chosen) continue;
      expect(isRefused(session.run((book) => setUnit(book, { addresses: [address], unit: chosen.symbol }))), address).toBe(false);
      walked++;
    }
    await session.settled();
    expect(session.trouble).toBeUndefined();
    expect(contents(session.book)).toEqual(stored);
    expect([...bases(session.values)]).toEqual([...before]);
    session.close();
  });

  test('every given written in another unit gives the same results', async () => {
    const book = templateBook(slug);
    let rewritten = 0;
    const next = random(7);
    const tables = book.tables.map((table) => ({
      ...table,
      cells: Object.fromEntries(
        Object.entries(table.cells).map(([row, line]) => [
          row,
          Object.fromEntries(
            Object.entries(line).map(([column, cell]) => {
              const read = readContent(cell.content, book.currency);
              const own = read.kind === 'number' && read.unit !== '' ? unit(read.unit) : undefined;
              const choices = own ? others(own) : [];
              const chosen = choices[Math.floor(next() * choices.length)];
              if (read.kind !== 'number' || !chosen) return [column, cell];
              rewritten++;
              return [column, { ...cell, content: `${fromBase(read.base, chosen)} ${chosen.symbol}` }];
            }),
          ),
        ]),
      ),
    }));
    expect(rewritten).toBeGreaterThan(20);
    const engine = createEngine();
    const [was, is] = [await engine.load(book), await engine.load({ ...book, tables })];
    engine.close();
    const allowed = tolerances(book);
    const missed: string[] = [];
    for (const [address, value] of Object.entries(was)) {
      const other = is[address];
      if (value.kind === 'text') {
        expect(other?.kind === 'text' && sameText(value.text, other.text), `${address}: ${value.text} became ${JSON.stringify(other)}`).toBe(true);
        continue;
      }
      if (value.kind !== 'number') {
        expect(other, address).toEqual(value);
        continue;
      }
      if (other?.kind !== 'number') throw new Error(`${address}: ${JSON.stringify(other)}`);
      const miss = value.base === other.base ? 0 : Math.abs(other.base / value.base - 1);
      if (miss > (allowed.get(address) ?? 1e-12)) missed.push(`${address} ${miss}`);
    }
    expect(missed).toEqual([]);
  });
});
