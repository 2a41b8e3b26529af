import { describe, expect, it } from 'vitest';
import { createEngine } from '../../../src/engine/engine.ts';
import type { Session } from '../../../src/session.ts';
import { standingAt, wordsOf } from '../../../src/ui/cells/words.ts';
import { completing } from '../../../src/ui/formula/completion.ts';
import { hintOf, verdictOf } from '../../../src/ui/formula/hints.ts';
import { libraryOf, unitsIn } from '../../../src/ui/formula/stock.ts';
import { at, book } from './book.ts';

const engine = createEngine();
const ask: Session['ask'] = (question) => question(engine);
const { cards, signatures, texts } = await libraryOf(ask);
const stock = {
  book,
  home: at('Scenarios.B2'),
  cards,
  signatures: texts,
  units: unitsIn('EUR'),
};

/** What a formula becomes with each candidate put in; the caret is where the bar stands. */
function becomes(text: string, asked = false): readonly string[] {
  const caret = text.indexOf('|');
  const formula = text.replace('|', '');
  const found = completing(formula, wordsOf(formula), caret, stock, asked);
  return (found?.list ?? []).map(({ insert }) => formula.slice(0, found?.from) + insert + formula.slice(found?.to));
}

describe('what could stand at the caret', () => {
  it('is a cell by its heading, the own column first, as its address', () => {
    expect(becomes('=mou|').slice(0, 3)).toEqual(['=B1', '=A1', '=C1']);
    expect(becomes('=2*Mount hei|')).toEqual(['=2*B1', '=2*A1', '=2*C1']);
    expect(becomes('=height|').slice(0, 2)).toEqual(['=heights', '=B1']);
    expect(becomes('=light|').slice(0, 3)).toEqual(['=B3', '=A3', '=C3']);
  });

  it('begins with what was typed before it has that further on, wherever the cell lies', () => {
    const rows = book.tables[0]?.rows.map((row, i) => (i === 2 ? { ...row, label: 'Share of the bench with enough' } : row)) ?? [];
    const prices = book.tables[1]?.rows.map((row) => ({ ...row, label: 'Bench width' })) ?? [];
    const relabelled = { ...book, tables: book.tables.map((table, i) => (i === 0 ? { ...table, rows } : i === 1 ? { ...table, rows: prices } : table)) };
    const home = at('Scenarios.B2');
    const asked = { ...stock, book: relabelled, home: { ...home, table: relabelled.tables[0] ?? home.table } };
    const found = completing('=2*bench w', wordsOf('=2*bench w'), 10, asked, false);
    expect(found?.list.map(({ insert }) => insert)).toEqual(['Prices.A1', 'B3', 'A3', 'C3']);
  });

  it('is never the cell that is being written', () => {
    expect(becomes('=mean p|')).toEqual(['=A2', '=C2']);
  });

  it('names the table of a cell that lies in another', () => {
    expect(becomes('=tari|').slice(0, 2)).toEqual(['=tariff', '=Prices.A1']);
    expect(becomes('=light m|')).toEqual(["='Light map'."]);
    expect(becomes('=ligh|')).toContain("='Light map'.");
    for (const table of ['Scenarios.', 'Scenarios!', "'Scenarios'.", "'Scenarios'!"])
      expect(becomes(`=${table}|`), table).toEqual(['=B1', '=A1', '=C1', '=A2', '=C2', '=B3', '=A3', '=C3']);
    expect(becomes('=2*Prices.|')).toEqual(['=2*Prices.A1']);
  });

  it('is a cell of the table whose name and point stand there, by the first letters of its heading', () => {
    expect(becomes('=Scenarios.mou|')).toEqual(['=B1', '=A1', '=C1']);
    expect(becomes('=Prices.tar|')).toEqual(['=Prices.A1']);
    expect(becomes('=Prices.nothing|')).toEqual([]);
  });

  it('is a function of ours or of the standard, with its bracket unless that stands there', () => {
    expect(becomes('=bench.me|')).toEqual(['=BENCH.MEAN(']);
    expect(becomes('=bench.me|(B1)')).toEqual(['=BENCH.MEAN(B1)']);
    expect(becomes('=1+averagei|')).toEqual(['=1+AVERAGEIF(']);
    const list = completing('=DLI', wordsOf('=DLI'), 4, stock)?.list ?? [];
    expect(list[0]?.label).toMatch(/^DLI\(PPFD, /i);
    expect(list[0]?.detail).toBe(cards.get('DLI')?.summary);
  });

  it('is a unit after a number and in the quotes of UNIT, in the book’s currency', () => {
    expect(becomes('=B1+6 i|')).toEqual(['=B1+6 in', '=B1+6 in²']);
    expect(becomes('=200 umol/m|')).toContain('=200 µmol/m²/s');
    expect(becomes('=0.3 EUR/k|')).toContain('=0.3 EUR/kWh');
    expect(becomes('=UNIT(6,"f|')).toContain('=UNIT(6,"ft"');
    expect(becomes('=UNIT(6,"f|")')).toContain('=UNIT(6,"ft")');
    expect(becomes('=NUMBER.IN(B1,"c|')).toContain('=NUMBER.IN(B1,"cm"');
  });

  it('is nothing inside other texts, in the middle of a word, right after a value, or where it stands already', () => {
    for (const text of ['="mou|"', '=IF("mou|', '=m|ou', '=B1|', '=5|', '=(1)mou|', '=MAX(1,"f|', '=|', '=1+|']) expect(becomes(text)).toEqual([]);
    expect(becomes('=tariff|').filter((text) => text === '=tariff').length).toBeLessThanOrEqual(1);
  });
});

describe('the hint', () => {
  const hint = (formula: string) => {
    const standing = standingAt(wordsOf(formula), formula.length);
    return standing && hintOf(standing, signatures.get(standing.name), cards.get(standing.name));
  };

  it('shows the argument in which one writes, with its unit and what it may be', () => {
    const found = hint('=DLI(B2,');
    expect(found?.takes.map(({ now }) => now)).toEqual([false, true]);
    expect(found?.says).toMatch(/^hours: .*h\/d.*at most 24/);
  });

  it('names the arguments of the standard’s functions, and goes round those that come again', () => {
    expect(hint('=IF(1,')).toEqual({
      name: 'IF',
      takes: [
        { text: 'condition', now: false },
        { text: 'then', now: true },
        { text: '[otherwise]', now: false },
      ],
      says: undefined,
    });
    expect(hint('=SUM(1,2,3,')?.takes).toEqual([
      { text: 'number', now: true },
      { text: '…', now: false },
    ]);
    expect(hint('=SUMIFS(A1:A2,B1:B2,1,C1:C2,')?.takes.find(({ now }) => now)?.text).toBe('criterion');
  });

  it('says when there are too many, and nothing of a function that is not there', () => {
    expect(hint('=IF(1,2,3,')?.says).toBe('IF takes no more than 3.');
    expect(hint('=NO.SUCH(1,')).toBeUndefined();
  });

  it('knows every function that can be called', async () => {
    expect(signatures.size).toBeGreaterThan(250);
    for (const name of ['DLI', 'SUM', 'PI', 'VLOOKUP', 'UNIT']) expect(signatures.has(name)).toBe(true);
    for (const name of cards.keys()) expect(signatures.has(name)).toBe(true);
  });
});

describe('what is said of it', () => {
  const wrong = { kind: 'error', word: 'unit error', message: 'adds a length to a power' } as const;
  const unread = { kind: 'error', word: 'not understood', message: 'A bracket is not closed.' } as const;

  it('is what is wrong, of half a formula only where more can not mend it', () => {
    expect(verdictOf(wrong, true)).toMatchObject({ text: wrong.message, wrong: true });
    expect(verdictOf(wrong, false)).toMatchObject({ text: wrong.message, wrong: true });
    expect(verdictOf(unread, true).wrong).toBe(true);
    expect(verdictOf(unread, false)).toMatchObject({ text: '', wrong: false });
  });

  it('is what it gives, or that a given waits for its answer', () => {
    expect(verdictOf({ kind: 'number', base: 0.4572, unit: 'in' }, true)).toMatchObject({ text: 'Gives 18\u202fin.', wrong: false });
    const waits = { kind: 'error', word: 'not answered yet', message: 'Mount height, B is not answered yet.' } as const;
    expect(verdictOf(waits, true)).toMatchObject({ text: waits.message, wrong: false });
  });
});
