/**
 * Edits of a book that nobody sees, made while the worker has nothing else to do. Until the browser has compiled what an edit runs through, one
 * takes several times as long, and the first edits of a plan are the ones that somebody waits for.
 */
import { apply } from '../../book/apply.ts';
import { type Book, CURRENT_VERSION } from '../../book/book.ts';
import type { Change } from '../../book/change.ts';
import { invert } from '../../book/invert.ts';
import { createEngine } from '../engine.ts';

/** Rows of a small plan: their unit or kind, and what stands in every scenario. One function or more of each sort that a plan reads. */
const ROWS: readonly (readonly [unit: string, content: string])[] = [
  ['', '4'],
  ['', '2'],
  ['m', '0.4 m'],
  ['%', '80 %'],
  ['h/d', '16 h/d'],
  ['', '=LAYOUT(UNIT(320,"µmol/s"),UNIT(0.6,"m"),UNIT(0.05,"m"),UNIT(110,"°"),#1,#2,length,Brief.A2)'],
  ['', '=LAYOUT.COUNT(#6)'],
  ['µmol/m²/s', '=BENCH.MEAN(#6,#3,24,12)*#4'],
  ['', '=BENCH.UNIFORMITY(#6,#3,24,12)'],
  ['µmol/m²/s', '=BENCH.HIGH(#6,#3,24,12)'],
  ['m', '=MOUNT.HEIGHT(#6,#8)'],
  ['mol/m²/d', '=DLI(#8,#5)'],
  ['µmol/m²/s', '=PPFD.FOR.DLI(UNIT(12,"mol/m²/d"),#5)'],
  ['', '=ROUNDUP(#7/4,0)'],
  ['W', '=INDEX(Brief.$A$4:$A$9,MATCH(UNIT(160,"W"),Brief.$A$4:$A$9,0))*ROUNDUP(#7/#14,0)'],
  ['V', '=CABLE.DROP(#15,UNIT(24,"V"),Brief.A3,UNIT(8,"Ω/km"))'],
  ['A', '=MAINS.AMPS(#15,0.92,0.95,UNIT(230,"V"))'],
  ['kWh/year', '=ENERGY.USE(#7*#15*#4,0.92,#5,UNIT(300,"d/year"))'],
  ['EUR/year', '=RUN.COST(#18,UNIT(0.2,"EUR/kWh"))'],
  ['EUR/year', '=ANNUAL.CAPITAL(UNIT(2400,"EUR"),UNIT(0.05,"/year"),UNIT(8,"year"))'],
  ['EUR/mol', '=COST.PER.MOL(#19,#20,#12*length*Brief.A2*UNIT(300,"d/year"))'],
  ['check', '=CHECK.AT.LEAST(#9,0.7)'],
  ['check', '=CHECK.WITHIN(#12,UNIT(10,"mol/m²/d"),UNIT(14,"mol/m²/d"))'],
  ['check', '=IF(ISNUMBER(#17),CHECK.AT.MOST(#17,UNIT(16,"A")),"unknown")'],
];
const GIVENS = ['3.6 m', '1.2 m', '4 m', '40 W', '60 W', '80 W', '100 W', '160 W', '240 W'];
const SCENARIOS = ['A', 'B', 'C'];
/** Rows of `ROWS` that are edited in turn, each to a value a little greater: the counts, the height, the dimming and the hours. */
const EDITED = [2, 3, 4, 0, 1];
const ROUNDS = 6;

export function smallPlan(): Book {
  const scenarios = ROWS.map(([unit], i) => ({ id: `r${i}`, label: `Row ${i + 1}`, ...(unit === 'check' ? { kind: 'check' as const } : unit && { unit }) }));
  return {
    format: 'overbench book',
    version: CURRENT_VERSION,
    id: 'rehearsal',
    title: 'Rehearsal',
    client: '',
    currency: 'EUR',
    measures: 'metric',
    pages: [],
    tables: [
      {
        id: 'brief',
        name: 'Brief',
        form: 'brief',
        columns: [{ id: 'a' }],
        rows: GIVENS.map((_, i) => ({ id: `g${i}`, label: `Given ${i + 1}` })),
        cells: Object.fromEntries(GIVENS.map((content, i) => [`g${i}`, { a: { content } }])),
      },
      {
        id: 'scenarios',
        name: 'Scenarios',
        form: 'scenarios',
        columns: SCENARIOS.map((label) => ({ id: label, label })),
        rows: scenarios,
        cells: Object.fromEntries(
          ROWS.map(([, content], i) => [`r${i}`, Object.fromEntries(SCENARIOS.map((label) => [label, { content: content.replaceAll('#', label) }]))]),
        ),
      },
    ],
    names: { length: 'Brief.A1' },
  };
}

/** Content with its number made greater by a fiftieth, or a whole one by one. */
function greater(content: string): string {
  return content.replace(/^[\d.]+/, (number) =>
    String(number.includes('.') || Number(number) > 15 ? Number((Number(number) * 1.02).toPrecision(4)) : Number(number) + 1),
  );
}

/** One edit and its taking back at each step. */
export async function* rehearsal(): AsyncGenerator<void> {
  const engine = createEngine();
  const book = smallPlan();
  await engine.load(book);
  yield;
  for (let round = 0; round < ROUNDS; round++) {
    for (const row of EDITED) {
      for (const column of SCENARIOS) {
        const before = book.tables[1]?.cells[`r${row}`]?.[column];
        if (!before) continue;
        const edit = { at: 'cell', table: 'scenarios', row: `r${row}`, column, before, after: { content: greater(before.content) } } as const;
        const change: Change = { label: 'rehearsal', edits: [edit] };
        await engine.apply([change], apply(book, change));
        await engine.apply([invert(change)], book);
        yield;
      }
    }
  }
  engine.close();
}
