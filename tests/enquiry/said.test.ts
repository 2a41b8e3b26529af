/** What is sure and what is asked, how numbers and mails are read, and where it goes in the book. */
import { describe, expect, it } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import { begin } from '../../src/book/begin.ts';
import type { Book } from '../../src/book/book.ts';
import { isRefused } from '../../src/book/refused.ts';
import { answers, bookFrom, type Finding, hear } from '../../src/enquiry/index.ts';
import { templateBook } from '../templates/open-template.ts';

function begun(slug: string): Book {
  const book = begin(templateBook(slug), { client: '' });
  if (isRefused(book)) throw new Error(book.message);
  return book;
}
const books = new Map(['trade-bench', 'rack-of-tiers', 'greenhouse-bench', 'meter-check', 'replace-old-lamps'].map((slug) => [slug, begun(slug)]));
const read = (slug: string, text: string) => answers(text, hear(text), books.get(slug) as Book);
const told = (findings: readonly Finding[]): readonly string[] =>
  findings.map(({ given, value, unit, sure }) => `${given} ${value} ${unit}`.trim() + (sure ? '' : ' ?'));
const of = (slug: string, text: string): readonly string[] => told(read(slug, text).findings);

describe('what is said', () => {
  // 1 ft = 0.3048 m and 1 in = 0.0254 m: NIST Special Publication 811, 2008, appendix B.
  it.each([
    ['trade-bench', 'The bench is 12 ft long and 4 wide.', ['bench_length 3.6576 m', 'bench_width 1.2192 m']],
    ['trade-bench', "bench 4' x 2'", ['bench_length 1.2192 m ?', 'bench_width 0.6096 m ?']],
    ['trade-bench', 'a table 90 × 35 cm', ['bench_length 0.9 m ?', 'bench_width 0.35 m ?']],
    ['trade-bench', 'twelve feet long', ['bench_length 3.6576 m']],
    ['trade-bench', 'bench 1200 x 600', ['bench_length 1.2 m ?', 'bench_width 0.6 m ?']],
    ['trade-bench', 'tables 2,50 x 0,80', ['bench_length 2.5 m ?', 'bench_width 0.8 m ?']],
    ['trade-bench', 'bench 1.5m x .5m', ['bench_length 1.5 m ?', 'bench_width 0.5 m ?']],
    ['trade-bench', 'Over the plants there is room for max. 0.85 m.', ['highest_mount 0.85 m']],
    ['trade-bench', 'length 1,20 m', ['bench_length 1.2 m']],
    ['trade-bench', `5'6" wide`, ['bench_width 1.6764 m']],
    ['trade-bench', 'a foot and a half deep', ['bench_width 0.4572 m']],
    ['trade-bench', 'lights on from 6 to 22', ['light_hours 16 h/d']],
    ['trade-bench', 'lights run 6 am to 10 pm', ['light_hours 16 h/d']],
    ['trade-bench', 'lamps off at 4:30 pm, on at 6:30 am', ['light_hours 10 h/d']],
    ['trade-bench', '31 cents a kWh', ['tariff 0.31 /kWh ?']],
    ['trade-bench', 'power is 24p', ['tariff 0.24 GBP/kWh']],
    ['trade-bench', '0.41/kWh', ['tariff 0.41 /kWh ?']],
    ['trade-bench', 'We pay 33 cents a kWh, in New Zealand dollars.', ['tariff 0.33 NZD/kWh']],
    ['trade-bench', 'Lights on at 5am off at 9 at night.', ['light_hours 16 h/d']],
    ['greenhouse-bench', 'we are at 41.5° south', ['latitude -41.5 °']],
    ['greenhouse-bench', 'the glasshouse stands at 69.6° north', ['latitude 69.6 °']],
    ['rack-of-tiers', 'four shelves, 40 cm between the shelves', ['tiers 4', 'tier_gap 0.4 m']],
  ] as const)('of a %s, “%s”, is %j', (slug, text, expected) => {
    expect(of(slug, text)).toEqual(expected);
  });

  it('is asked where it is no height over the leaf tops, or hangs on what nobody here sees, be it ever so plain', () => {
    expect(of('trade-bench', 'Headroom is exactly 2 m.')).toEqual(['highest_mount 2 m ?']);
    expect(of('rack-of-tiers', 'Shelves 15 inches apart.')).toEqual(['tier_gap 0.381 m ?']);
    expect(of('trade-bench', 'Breaker: 16 A\nCircuits that may be used: 2\nSpare power: 10 kW')).toEqual([
      'breaker 16 A ?',
      'circuits_free 2 ?',
      'spare_power 10 kW ?',
    ]);
    expect(of('trade-bench', 'The lights can hang up to 0.8 m above the leaf tops; the roof is 3 m up.')).toEqual(['highest_mount 0.8 m']);
  });

  it('is the power of a whole lamp where each has several tubes, and is asked then', () => {
    expect(of('replace-old-lamps', '12 old 2x58W fluorescent battens')).toEqual(['lamp_count 12', 'lamp_watts 116 W ?', 'lamp_kind cool white fluorescent ?']);
    expect(of('replace-old-lamps', 'Bench 3 m long, and 2 x 600 W sodium to replace')).toEqual([
      'bench_length 3 m',
      'lamp_count 2',
      'lamp_watts 600 W',
      'lamp_kind high-pressure sodium',
    ]);
  });

  it('is a reading whose unit is asked, where the client only guesses at it', () => {
    const { findings } = read('meter-check', 'My meter says 8200, 9400, 9100 and 7700 at the corners, lux I guess.');
    expect(findings.filter(({ given }) => given.startsWith('Readings')).map(({ value, unit, sure }) => [value, unit, sure])).toEqual([
      [[[8200, 9400, 9100, 7700]], '', false],
    ]);
    expect(findings.some(({ given }) => given === 'meter_kind')).toBe(false);
  });

  it('is asked with all that it may be, where it contradicts itself or could mean two numbers', () => {
    expect(of('trade-bench', '16 hours a day. Or rather 14 hours a day.')).toEqual(['light_hours 16 h/d ?', 'light_hours 14 h/d ?']);
    expect(of('trade-bench', 'Tomatoes and basil')).toEqual(['crop tomato ?', 'crop sweet basil ?']);
    expect(of('trade-bench', 'Basil I think.')).toEqual(['crop sweet basil ?']);
    expect(of('trade-bench', 'Cucumbers on two of them.')).toEqual(['crop cucumber ?']);
    expect(of('rack-of-tiers', 'A rack of 3 shelves (4 if I put the spare board in).')).toEqual(['tiers 3 ?', 'tiers 4 ?']);
    expect(of('greenhouse-bench', 'reading of 1,200 lux')).toEqual(['lux_read 1200 lx ?', 'lux_read 1.2 lx ?']);
    expect(of('greenhouse-bench', 'reading of 1.200 lux')).toEqual(['lux_read 1200 lx ?', 'lux_read 1.2 lx ?']);
    // Elsewhere in the text it is seen how numbers are written there.
    expect(of('greenhouse-bench', 'bench 1,5 m wide, reading of 1.200 lux')).toEqual(['bench_width 1.5 m', 'lux_read 1200 lx']);
  });

  it('is said to be out of range, of another quantity or no crop of the list, as everywhere else', () => {
    const far = read('trade-bench', 'The bench is 900 m long.').findings[0];
    expect(far).toMatchObject({ given: 'bench_length', sure: false });
    expect(far?.said).toMatch(/900 m is above what is allowed, .*50 m/);
    expect(read('trade-bench', 'Bench length: 12 W').unused[0]?.said).toMatch(/takes a length in m; 12 W is a power/);
    expect(read('trade-bench', 'Crop: basl').unused[0]?.said).toMatch(/“basl” is not one of the choices.*Did you mean .*basil/);
  });

  it('comes out of a mail as it is seen: tags, entities, marks of direction and controls are no part of it', () => {
    const text = '<div>Bench <b>3&frac12;&nbsp;m</b> long<br>\u202e16\u202c hours&#32;a day</div><style>p{width:4m}</style>\u0000';
    const { findings } = read('trade-bench', text);
    expect(told(findings)).toEqual(['bench_length 3.5 m', 'light_hours 16 h/d']);
    for (const { words, at } of findings) expect(text.slice(...at)).toBe(words);
  });
});

describe('in a book', () => {
  const made = (slug: string, text: string) => {
    const found = bookFrom(templateBook(slug), text, read(slug, text));
    if (isRefused(found)) throw new Error(found.message);
    return found;
  };
  const at = (book: Book, address: string): string => cellAt(book, address)?.cell?.content ?? '';

  it('readings stand in their list, with the words as where they are from; those that have no room are said', () => {
    const { book, troubles } = made('meter-check', 'Measured in lux:\n5200 5400 5100\n5000 - 4900');
    expect(['B2', 'C2', 'D2', 'E2', 'B3', 'C3', 'D3', 'B4'].map((place) => at(book, `Readings.${place}`))).toEqual([
      '5200',
      '5400',
      '5100',
      '',
      '5000',
      '',
      '4900',
      '',
    ]);
    expect(at(book, 'Readings.H2')).toMatch(/^client, “5200 5400 5100/);
    expect(troubles).toEqual([]);
    const wide = made('meter-check', 'Measured in lux: 10, 20, 30, 40, 50, 60, 70, 80');
    expect(wide.troubles.join()).toMatch(/1 by 8 readings have no room in Readings, which takes 3 by 6/);
  });

  it('a light that the client names has a line of its own in the list of lights', () => {
    const { book } = made('trade-bench', 'Our bars are 36 W, 97 µmol/s, 120 degree beam, 24 V DC.');
    const line = book.tables.find(({ name }) => name === 'Fixtures');
    const row = (line?.rows.findIndex(({ id }) => line.cells[id]?.a?.content === 'Light of the client') ?? -1) + 1;
    expect(['D', 'E', 'F', 'H'].map((column) => at(book, `Fixtures.${column}${row}`))).toEqual(['36 W', '97 µmol/s', '120 °', '24 V']);
    expect(row).toBeGreaterThan(1);
  });

  it('money is in what the client pays with, and lengths are shown as the client has them', () => {
    const { book } = made('trade-bench', 'Bench 12 ft long, $0.13 per kWh.');
    expect([book.currency, book.measures]).toEqual(['USD', 'US customary']);
    expect(at(book, 'Prices.A1')).toBe('0.13 USD/kWh');
  });
});
