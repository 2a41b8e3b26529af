import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellText, readReference, textOf } from '../../src/book/address.ts';
import { setBlock } from '../../src/book/commands/blocks.ts';
import { renameName, renameTable, setName } from '../../src/book/commands/rename.ts';
import { replaceText } from '../../src/book/commands/replace-text.ts';
import { setRange } from '../../src/book/commands/set-range.ts';
import { ownAddress, ownFormula, ownHeading, ownProse } from '../../src/book/other-writing.ts';
import { referencesIn } from '../../src/book/references.ts';
import { isRefused } from '../../src/book/refused.ts';
import { toCanonical } from '../../src/engine/formula-text.ts';
import { runs } from '../cases.ts';
import { sample } from './sample.ts';
import { spot, tableName, writingsOf } from './writings.ts';

describe('a place in another writing', () => {
  it.each([
    ['Scenarios!B7', 'Scenarios.B7'],
    ["'Day light'!A1:C4", "'Day light'.A1:C4"],
    ['2024!E5', "'2024'.E5"],
    ['Scenarios!$B$7:Scenarios!C9', 'Scenarios.$B$7:C9'],
    ['[Scenarios.B7]', 'Scenarios.B7'],
    ['[.B7]', 'B7'],
    ['[$T.$A$1:.$B$2]', 'T.$A$1:$B$2'],
    ["[$'Day light'.A1:$'Day light'.B2]", "'Day light'.A1:B2"],
    ['[2024.E5]', "'2024'.E5"],
    ['$Scenarios.B7', 'Scenarios.B7'],
    ['Scenarios.B7:.C9', 'Scenarios.B7:C9'],
    ['scenarios.b7', 'scenarios.B7'],
    [' Scenarios.B7 ', 'Scenarios.B7'],
  ])('%s is %s', (written, own) => {
    expect(ownAddress(written)).toBe(own);
    expect(ownAddress(own), 'and stays so').toBe(own);
  });

  it('is not seen in a name, a number or what says no cell', () => {
    for (const text of ['', 'bench_length', 'rail.low', '2024.E5', '[bench_length]', '[B7]', 'B7!', 'Scenarios!', '!B7', 'T!A1:U!B2', 'T.A1 m', '[T.A1'])
      expect(ownAddress(text), text).toBe(text);
  });

  it('has no brackets in a heading, where they hold a unit', () => {
    expect(ownHeading('Scenarios!A7')).toBe('Scenarios.A7');
    expect(ownHeading('[Scenarios.A7]')).toBe('[Scenarios.A7]');
  });
});

describe('a formula in another writing', () => {
  it.each([
    ['=Scenarios!B7*2', '=Scenarios.B7*2'],
    ['=[Scenarios.B7]*[.A1]+SUM([$T.$A$1:.$B$2])', '=Scenarios.B7*A1+SUM(T.$A$1:$B$2)'],
    ['=SUM([.A1:.B2];3)', '=SUM(A1:B2,3)'],
    ['=IF([.A1]>2;"a;b,c";MAX(1;2))', '=IF(A1>2,"a;b,c",MAX(1,2))'],
    ["=MAX('a,b'!A1;2)", "=MAX('a,b'.A1,2)"],
    ['=SUM({1,2;3,4};5)', '=SUM({1,2;3,4},5)'],
    ['=SUM (1;2)', '=SUM (1,2)'],
    ['=[.#REF!]+[#REF!.A1]+#REF!', '=#REF!+#REF!+#REF!'],
    ['=SUM(Scenarios!A:A)+SUM(2024!1:3)', "=SUM(Scenarios.A:A)+SUM('2024'.1:3)"],
    ['=SUM(T!A1:U!B2)', '=SUM(T.A1:U.B2)'],
  ])('%s is %s', (written, own) => {
    expect(ownFormula(written)).toBe(own);
    expect(ownFormula(own), 'and stays so').toBe(own);
  });

  it('keeps a semicolon where a comma may be a decimal mark, or where no argument begins', () => {
    for (const formula of ['=MAX(0,5;1)', '=SUM(A1,2;3)', '=(1;2)', '=1;2', '=SUM((1;2))', '=SUM({1;2})', '="1;2"'])
      expect(ownFormula(formula), formula).toBe(formula);
  });

  it('keeps texts, numbers, names, functions and what can not be read, letter for letter', () => {
    for (const formula of ['="Scenarios!B7 [T.A1]"', '=2024.E5', '=rail.low+BENCH.MEAN(2)', '=CHECK.B2 (1)', '=3!', '=A1!=5', '="open!A1', '=[B7]', '=5%'])
      expect(ownFormula(formula), formula).toBe(formula);
  });
});

describe('any place of any table', () => {
  it('is the same one in a formula, in a text and as an address, in whichever way it is written', () => {
    fc.assert(
      fc.property(tableName, spot, spot, (name, at, end) => {
        const own = textOf(name, at.column, at.row);
        const place = { table: name, range: false, from: { column: at.column, row: at.row } };
        expect(readReference(own)).toMatchObject(place);
        for (const written of writingsOf(name, at)) {
          expect(readReference(ownAddress(written)), written).toMatchObject(place);
          const chip = /^\{\{ (.*) \}\}$/s.exec(ownProse(`{{ ${written} }}`))?.[1] ?? '';
          expect(readReference(chip), `{{ ${written} }}`).toMatchObject(place);
          const typed = toCanonical(`=2*${written}-A1`, 'EUR');
          expect(typed.ok && referencesIn(typed.content), written).toMatchObject([place, { table: undefined, range: false }]);
        }
        const corner = cellText(end.column, end.row);
        const area = { table: name, range: true, from: place.from, to: { column: end.column, row: end.row } };
        for (const range of [`${own}:${corner}`, `${own}:.${corner}`, `[${own}:.${corner}]`]) {
          const typed = toCanonical(`=SUM(${range};[.A1])`, 'EUR');
          expect(typed.ok && referencesIn(typed.content), range).toMatchObject([area, { table: undefined }]);
        }
      }),
      runs(3000, 1801),
    );
  });
});

describe('a name that would read as a place', () => {
  it('is refused with its reason, for a cell and for a table', () => {
    const message = (answer: ReturnType<typeof setName>): string => (isRefused(answer) ? answer.message : 'taken');
    expect(message(setName(sample, { name: 'rail.v24', address: 'Brief.A1' }))).toBe(
      "“rail.v24” can't be a name: it reads as cell V24 of a table called rail.",
    );
    expect(message(renameName(sample, { name: 'bench_length', to: 'a.b.c7' }))).toBe("“a.b.c7” can't be a name: it reads as cell C7 of a table called a.b.");
    expect(message(renameTable(sample, { table: 'brief', name: 'rail.v24' }))).toBe(
      "“rail.v24” can't name a table: it reads as cell V24 of a table called rail.",
    );
    for (const name of ['rail.low', 'rail.v24x', 'v24.rail', 'rail.v_24']) expect(message(setName(sample, { name, address: 'Brief.A1' })), name).toBe('taken');
    for (const name of ['a.b', 'Plan 2.1', 'rail.v24 old']) expect(message(renameTable(sample, { table: 'brief', name })), name).toBe('taken');
  });
});

describe('what a person writes in another writing', () => {
  const edits = (answer: ReturnType<typeof setName>): string => (isRefused(answer) ? answer.message : JSON.stringify(answer.edits.map((edit) => edit.after)));

  it('is kept in ours: in texts, pictures, lists of choices, and where a text is replaced', () => {
    expect(edits(setBlock(sample, { block: 'b1', text: '{{Scenarios!B1}} and {{[Brief.A1]}}, Scenarios!B1' }))).toContain(
      '{{Scenarios.B1}} and {{Brief.A1}}, Scenarios!B1',
    );
    expect(edits(setBlock(sample, { block: 'b5', reads: { height: 'Scenarios!C1', prices: "['Fixture list'.B2:.B4]" } }))).toContain(
      `"reads":{"height":"Scenarios.C1","prices":"'Fixture list'.B2:B4"}`,
    );
    expect(edits(setRange(sample, { addresses: ['Brief.A1'], range: { from: "'Fixture list'!A2:A4" } }))).toContain(`"from":"'Fixture list'.A2:A4"`);
    expect(edits(replaceText(sample, { text: '{{bench_length}}', with: '{{Brief!A1}}' }))).toContain('{{Brief.A1}}');
  });
});
