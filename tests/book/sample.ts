/** A small book for the tests of documents and files: a brief, three scenarios and a list of fixtures, with names, prose and a picture. */
import { type Book, type Cell, CURRENT_VERSION } from '../../src/book/book.ts';

const cell = (content: string, more: Partial<Cell> = {}): Cell => ({ content, ...more });

export const sample: Book = {
  format: 'overbench book',
  version: CURRENT_VERSION,
  id: 'garden-club',
  title: 'Propagation bench',
  client: 'School garden club',
  currency: 'EUR',
  measures: 'metric',
  pages: [
    {
      id: 'p1',
      title: 'Brief',
      blocks: [
        { id: 'b1', kind: 'prose', text: 'The bench is {{bench_length}} long; B hangs at {{Scenarios.B1}}, {{ Scenarios.$B$3 }} in all.' },
        { id: 'b2', kind: 'table', table: 'brief' },
      ],
    },
    {
      id: 'p2',
      title: 'Scenarios',
      group: 'Plan',
      blocks: [
        { id: 'b3', kind: 'table', table: 'scenarios' },
        { id: 'b4', kind: 'table', table: 'fixtures' },
        { id: 'b5', kind: 'picture', picture: 'light map', caption: 'Light', reads: { height: 'Scenarios.B1', prices: "'Fixture list'.B2:B4" } },
      ],
    },
  ],
  tables: [
    {
      id: 'brief',
      name: 'Brief',
      form: 'brief',
      columns: [{ id: 'c1' }],
      rows: [
        { id: 'r1', label: 'Bench length', unit: 'm', kind: 'given', range: { low: 0.3, high: 20, unit: 'm' } },
        { id: 'r2', label: 'Fixture', kind: 'given', range: { from: "'Fixture list'.A2:A4" } },
        { id: 'r3', label: 'Hours', unit: 'h/d', kind: 'given', range: { low: 0, high: 24 } },
      ],
      cells: { r1: { c1: cell('3.6 m', { source: 'client' }) }, r2: { c1: cell('Rail 90') }, r3: { c1: cell('16 h/d', { source: 'default' }) } },
    },
    {
      id: 'scenarios',
      name: 'Scenarios',
      form: 'scenarios',
      base: 'a',
      columns: [
        { id: 'a', label: 'A' },
        { id: 'b', label: 'B' },
        { id: 'c', label: 'C' },
      ],
      rows: [
        { id: 'h', label: 'Mount height', unit: 'cm', kind: 'given', range: { low: 10, high: 200, unit: 'cm' } },
        { id: 'n', label: 'Fixtures', kind: 'given' },
        { id: 'cost', label: 'Cost', unit: 'EUR' },
        { id: 'diff', label: 'Beside A' },
        { id: 'check', label: 'Fits', kind: 'check' },
      ],
      cells: {
        h: { a: cell('60 cm'), b: cell('45 cm', { typed: '45', note: 'lower' }), c: cell('=A1') },
        n: { a: cell('9'), b: cell('=A2'), c: cell('12') },
        cost: {
          a: cell("=A2*INDEX('Fixture list'.$B$2:$B$4,MATCH(Brief.A2,'Fixture list'.A2:A4,0))"),
          b: cell("=B2*INDEX('Fixture list'.$B$2:$B$4,MATCH(Brief.A2,'Fixture list'.A2:A4,0))"),
          c: cell("=C2*INDEX('Fixture list'.$B$2:$B$4,MATCH(Brief.A2,'Fixture list'.A2:A4,0))"),
        },
        diff: { b: cell('=B3-A3'), c: cell('=C3-A3') },
        check: { a: cell('=IF(bench_length>UNIT(1,"m"),"holds","A1 fails")'), b: cell('=IF(SUM(A2:C2)>0,"holds","fails")') },
      },
    },
    {
      id: 'fixtures',
      name: 'Fixture list',
      form: 'list',
      columns: [{ id: 'name' }, { id: 'price', unit: 'EUR' }, { id: 'output', unit: 'µmol/s' }],
      rows: [{ id: 'head', head: true }, { id: 'f1' }, { id: 'f2' }, { id: 'f3' }],
      cells: {
        head: { name: cell('Fixture'), price: cell('Price'), output: cell('Output') },
        f1: { name: cell('Rail 45'), price: cell('79 EUR'), output: cell('122 µmol/s') },
        f2: { name: cell('Rail 90'), price: cell('139 EUR'), output: cell('243 µmol/s', { source: 'data sheet' }) },
        f3: { name: cell('Puck 18'), price: cell('39 EUR'), output: cell('44 µmol/s') },
      },
    },
  ],
  names: { bench_length: 'Brief.A1', prices: "'Fixture list'.$B$2:$B$4" },
};
