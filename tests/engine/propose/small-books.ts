/** Small books with an arrangement of lights, each another: what is listed, how checks are put, and what the cost hangs on. */
import fc from 'fast-check';
import type { Book, Cell, Range, Row, Table } from '../../../src/book/book.ts';

interface Line {
  readonly id: string;
  readonly content: string;
  readonly kind?: 'given' | 'check';
  readonly range?: Range;
  readonly unit?: string;
}

export interface Wanted {
  readonly length: number;
  readonly width: number;
  readonly lowest: number;
  /** Over the lowest. */
  readonly room: number;
  readonly low: number;
  readonly aim: number;
  readonly ceiling: number;
  readonly even: number;
  readonly least: number;
  readonly spread: number;
  readonly fixtures: readonly string[];
  readonly supplies: readonly string[];
  readonly fuses: readonly string[];
  readonly extra: string;
  readonly cost: string;
  readonly evenness: string;
  readonly lacks: readonly string[];
}

const FIXTURES: Readonly<Record<string, readonly string[]>> = {
  bar: ['0.5 m', '0.05 m', '40 W', '105 µmol/s', '120 °', 'DC', '24 V', '60 EUR'],
  tile: ['0.3 m', '0.3 m', '75 W', '200 µmol/s', '110 °', 'DC', '48 V', '110 EUR'],
  dot: ['0 m', '0 m', '20 W', '50 µmol/s', '60 °', 'DC', '24 V', '30 EUR'],
  bay: ['0.4 m', '0.15 m', '150 W', '420 µmol/s', '100 °', 'mains', '230 V', '240 EUR'],
};
const SUPPLIES: Readonly<Record<string, readonly string[]>> = {
  small: ['100 W', '24 V', '0.9', '50 EUR'],
  large: ['300 W', '24 V', '0.94', '120 EUR'],
  other: ['200 W', '48 V', '0.92', '90 EUR'],
};

/** Checks that somebody added: of what the lights are turned, hang, cost or are run on, alone and together. */
const EXTRA = [
  '',
  '=IF({turned},"unknown, never tried","holds")',
  '=CHECK.AT.MOST({height}*{count},UNIT(1.5,"m"))',
  '=IF({supply}="small","fails, not to be had","holds")',
  '=IF({dim}<0.6,"unknown","assumed, it is bright")',
  '=IF({fuse}=UNIT(2,"A"),"fails, sold out","close to limit")',
  '=IF(AND({supply}="small",{height}>UNIT(0.32,"m")),"fails, the lead is short","holds")',
  '=IF(AND({fuse}=UNIT(6,"A"),{dim}<1),"unknown","holds")',
  '=IF({along}>{across},"fails","holds")',
  '=IF(AND({supply}="small",{along}>{across}),"fails","holds")',
  '=CHECK.AT.MOST({annual},UNIT(150,"EUR/year"))',
  '={count}<4',
];

/** What goes into the cost by the year besides buying and running. */
const COSTS = [
  '',
  '+{height}*UNIT(90,"EUR/m/year")',
  '+ABS({dim}-0.7)*UNIT(400,"EUR/year")',
  '-{fuse}*UNIT(2,"EUR/A/year")',
  '+{along}*{along}*UNIT(30,"EUR/year")',
  '-{evenness}*UNIT(100,"EUR/year")',
  '*0',
];
const EVENNESS = ['BENCH.UNIFORMITY({layout},{height},8,6)', 'ROUND(BENCH.UNIFORMITY({layout},{height},8,6),1)'];

const two = (all: readonly string[]): fc.Arbitrary<readonly string[]> => fc.shuffledSubarray([...all], { minLength: 2, maxLength: 2 });

export const wanted: fc.Arbitrary<Wanted> = fc.record({
  length: fc.constantFrom(0.8, 1.1, 1.4),
  width: fc.constantFrom(0.4, 0.6),
  lowest: fc.constantFrom(0.2, 0.25, 0.28),
  room: fc.constantFrom(0, 0.04, 0.06),
  low: fc.constantFrom(30, 60, 120),
  aim: fc.constantFrom(90, 150, 220),
  ceiling: fc.constantFrom(400, 900, 2500),
  even: fc.constantFrom(0.05, 0.25, 0.5),
  least: fc.constantFrom(10, 40),
  spread: fc.constantFrom(1, 1.2),
  fixtures: fc.subarray(Object.keys(FIXTURES), { minLength: 1, maxLength: 2 }),
  supplies: two(Object.keys(SUPPLIES)),
  fuses: two(['0 A', '2 A', '6 A']),
  extra: fc.oneof(fc.constant(''), fc.constantFrom(...EXTRA)),
  cost: fc.constantFrom(...COSTS),
  evenness: fc.constantFrom(...EVENNESS),
  lacks: fc.oneof({ weight: 5, arbitrary: fc.constant([]) }, { weight: 1, arbitrary: fc.constantFrom(['ppfd_aim'], ['turned'], ['feed'], ['spread_along']) }),
});

export function smallBook(by: Wanted): Book {
  const given = (id: string, content: string, range: Range): Line => ({ id, content, kind: 'given', range });
  const lights: readonly Line[] = [
    given('fixture', by.fixtures[0] ?? '', { from: 'Fixtures.A2:A5' }),
    given('along', '1', { low: 1, high: 20 }),
    given('across', '1', { low: 1, high: 20 }),
    given('turned', 'FALSE', { oneOf: ['TRUE', 'FALSE'] }),
    given('spread_along', `${by.spread}`, { low: 0.1, high: 3 }),
    given('height', '0.3 m', { low: 0.05, high: 4, unit: 'm' }),
    given('dim', '100 %', { low: by.least, high: 100, unit: '%' }),
    given('supply', by.supplies[0] ?? '', { from: 'Supplies.A2:A4' }),
    given('fuse', by.fuses[0] ?? '', { oneOf: by.fuses }),
    { id: 'row', content: '=MATCH({fixture},Fixtures.$A$2:$A$5,0)' },
    ...['length', 'width', 'power', 'output', 'beam', 'feed', 'volts', 'price'].map((id, i) => ({
      id,
      content: `=INDEX(Fixtures.$${'BCDEFGHI'[i]}$2:$${'BCDEFGHI'[i]}$5,{row})`,
    })),
    {
      id: 'layout',
      content: `=LAYOUT({output},{length},{width},{beam},{along},{across},bench_length,bench_width${by.lacks.includes('turned') ? '' : `,{turned}${by.lacks.includes('spread_along') ? '' : ',{spread_along}'}`})`,
    },
    { id: 'count', content: '=LAYOUT.COUNT({layout})' },
    { id: 'full', content: '=BENCH.MEAN({layout},{height},8,6)' },
    { id: 'kept', content: '={full}*{dim}*0.9' },
    { id: 'ppfd_low', content: '=low' },
    { id: 'ppfd_aim', content: '=aim' },
    { id: 'evenness', content: `=${by.evenness}` },
    { id: 'highest', content: '=BENCH.HIGH({layout},{height},8,6)*{dim}' },
    { id: 'place', content: '=IF({volts}=UNIT(230,"V"),1,MATCH({supply},Supplies.$A$2:$A$4,0))' },
    { id: 'rating', content: '=INDEX(Supplies.$B$2:$B$4,{place})' },
    { id: 'efficiency', content: '=IF({volts}=UNIT(230,"V"),1,INDEX(Supplies.$D$2:$D$4,{place}))' },
    { id: 'supplies', content: '=IF({volts}=UNIT(230,"V"),0,ROUNDUP({count}*{power}/{rating}/0.8,0))' },
    { id: 'energy', content: '=ENERGY.USE({count}*{power}*{dim},{efficiency},UNIT(16,"h/d"),UNIT(300,"d/year"))' },
    {
      id: 'buy',
      content: '={count}*{price}+{supplies}*INDEX(Supplies.$E$2:$E$4,{place})+IF(OR({fuse}=UNIT(0,"A"),{volts}=UNIT(230,"V")),UNIT(0,"EUR"),UNIT(6,"EUR"))',
    },
    {
      id: 'annual',
      content: `=(RUN.COST({energy},UNIT(0.3,"EUR/kWh"))+ANNUAL.CAPITAL({buy},UNIT(5,"%/year"),UNIT(6,"year"))${by.cost.startsWith('*') ? ')' : ''}${by.cost}${by.cost.startsWith('*') ? '' : ')'}`,
    },
    { id: 'c_target', kind: 'check', content: '=CHECK.AT.LEAST({kept},low)' },
    { id: 'c_evenness', kind: 'check', content: '=CHECK.AT.LEAST({evenness},evenness_asked)' },
    { id: 'c_ceiling', kind: 'check', content: '=CHECK.AT.MOST({highest},,,ceiling,"so much is assumed")' },
    { id: 'c_height', kind: 'check', content: '=CHECK.WITHIN({height},lowest_mount,highest_mount)' },
    {
      id: 'c_volts',
      kind: 'check',
      content: '=IF({volts}=UNIT(230,"V"),"holds, its own driver",CHECK.WITHIN(INDEX(Supplies.$C$2:$C$4,{place}),{volts},{volts}))',
    },
    {
      id: 'c_fuse',
      kind: 'check',
      content: '=IF(OR({volts}=UNIT(230,"V"),{fuse}=UNIT(0,"A")),"holds, none",CHECK.AT.LEAST({fuse},{count}*{power}/{supplies}/UNIT(24,"V")))',
    },
    ...(by.extra === '' ? [] : [{ id: 'c_extra', kind: 'check' as const, content: by.extra }]),
  ];
  const checks = lights.filter(({ kind }) => kind === 'check');
  const lines = [...lights, { id: 'verdict', kind: 'check' as const, content: `=VERDICT({${checks[0]?.id}}:{${checks.at(-1)?.id}})` }].filter(
    ({ id }) => !by.lacks.includes(id) || id === 'feed',
  );
  // A row by which nothing is told of a feed is called otherwise.
  const named = lines.map((line) => (line.id === 'feed' && by.lacks.includes('feed') ? { ...line, id: 'run_by' } : line));
  const at = new Map(lines.map(({ id }, i) => [id, `A${i + 1}`]));
  const formula = (text: string): string => text.replaceAll(/\{(\w+)\}/gu, (_, id: string) => at.get(id) ?? (id === 'turned' ? 'FALSE' : '1'));
  return {
    format: 'overbench book',
    version: 5,
    id: 'small',
    title: 'Small',
    client: '',
    currency: 'EUR',
    measures: 'metric',
    pages: [],
    tables: [
      column('Brief', 'brief', [
        given('bench_length', `${by.length} m`, { low: 0.1, high: 9, unit: 'm' }),
        given('bench_width', `${by.width} m`, { low: 0.1, high: 9, unit: 'm' }),
        given('lowest_mount', `${by.lowest} m`, { low: 0.05, high: 4, unit: 'm' }),
        given('highest_mount', `${Number((by.lowest + by.room).toFixed(3))} m`, { low: 0.05, high: 4, unit: 'm' }),
        given('low', `${by.low} µmol/m²/s`, { low: 1, high: 2000, unit: 'µmol/m²/s' }),
        given('aim', `${by.aim} µmol/m²/s`, { low: 1, high: 2000, unit: 'µmol/m²/s' }),
        given('ceiling', `${by.ceiling} µmol/m²/s`, { low: 1, high: 3000, unit: 'µmol/m²/s' }),
        given('evenness_asked', `${by.even}`, { low: 0, high: 1 }),
      ]),
      column(
        'Scenarios',
        'scenarios',
        named.map((line) => ({ ...line, content: formula(line.content) })),
      ),
      list('Fixtures', 'Fixture', FIXTURES, by.fixtures, 4),
      list('Supplies', 'Supply', SUPPLIES, by.supplies, 3),
    ],
    names: Object.fromEntries(
      ['bench_length', 'bench_width', 'lowest_mount', 'highest_mount', 'low', 'aim', 'ceiling', 'evenness_asked'].map((name, i) => [name, `Brief.$A$${i + 1}`]),
    ),
  };
}

function column(name: string, form: Table['form'], lines: readonly Line[]): Table {
  const rows = lines.map(
    ({ id, kind, range }): Row => ({ id, label: id, ...(kind && { kind }), ...(range && { range }), ...(range?.unit !== undefined && { unit: range.unit }) }),
  );
  return {
    id: name.toLowerCase(),
    name,
    form,
    columns: [{ id: 'a', ...(form === 'scenarios' && { label: 'A' }) }],
    rows,
    cells: Object.fromEntries(lines.map(({ id, content }): [string, Record<string, Cell>] => [id, { a: { content } }])),
  };
}

/** The rows that are wanted, in their order, and blank ones below, inside the ranges that formulas read. */
function list(name: string, head: string, all: Readonly<Record<string, readonly string[]>>, names: readonly string[], rows: number): Table {
  const width = (Object.values(all)[0]?.length ?? 0) + 1;
  const letters = 'abcdefghi'.slice(0, width).split('');
  const cells: Record<string, Record<string, Cell>> = { head: Object.fromEntries(letters.map((id, i) => [id, { content: i === 0 ? head : `c${i}` }])) };
  for (const [r, one] of names.entries())
    cells[`r${r}`] = Object.fromEntries(letters.map((id, i) => [id, { content: i === 0 ? one : (all[one]?.[i - 1] ?? '') }]));
  return {
    id: name.toLowerCase(),
    name,
    form: 'list',
    columns: letters.map((id) => ({ id })),
    rows: [{ id: 'head', head: true }, ...Array.from({ length: rows }, (_, r) => ({ id: `r${r}` }))],
    cells,
  };
}
