/** What is not known of a cable, a fuse or a supply goes through formulas as “unknown”, and no check takes it for kept. */
import { expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { book, short, table } from './helpers.ts';

const WORDS = [{ label: 'Cable' }, { label: 'Current it carries', unit: 'A', kind: 'worked' as const }];
const given = (label: string, unit = '') => ({ label, kind: 'given' as const, ...(unit && { unit }) });

async function plan(area: string, fuse: string, kind: string, mark: string | null) {
  const electrics = table(
    'Electrics',
    [
      [area],
      ['=WIRE.AMPACITY(A1,2,UNIT(30,"°C"))'],
      [fuse],
      [kind],
      ['=CHECK.FUSE(A3,UNIT(6,"A"),A2,A4)'],
      ['=CHECK.AT.MOST(UNIT(6,"A"),A2)'],
      ['=CHECK.LIMITED(INDEX(Supplies.B2:B4,2),INDEX(Supplies.C2:C4,2),UNIT(100,"W"))'],
      ['=CIRCUIT.COUNT(UNIT(15,"A"),UNIT(1.2,"A"),0.8,IF(UNIT(15,"A")=UNIT(16,"A"),4,"unknown"))'],
    ],
    [given('Cable', 'mm²'), ...WORDS.slice(1), given('Fuse', 'A'), given('Kind of fuse')],
  );
  const supplies = table('Supplies', [
    ['Supply', 'Marked as limited', 'Output'],
    ['One', 'TRUE', '60 W'],
    ['Two', mark, '96 W'],
    ['Three', 'FALSE', '240 W'],
  ]);
  const values = await createEngine().load(book([electrics, supplies]));
  return (address: string) => short(values[`Electrics.${address}`] ?? { kind: 'blank' });
}

it('a cable, a fuse and a mark that are known are judged', async () => {
  const value = await plan('1.5 mm²', '8 A', 'gG', 'TRUE');
  expect(value('A2')).toBe(15);
  expect(value('A5')).toMatch(/^holds/);
  expect(value('A7')).toMatch(/^holds/);
});

it('a size that is in no table is unknown in every check that reads it', async () => {
  const value = await plan('3 mm²', '8 A', 'gG', 'TRUE');
  expect(value('A2')).toBe('unknown');
  expect(value('A5')).toBe('unknown, what the cable carries is not known');
  expect(value('A6')).toMatch(/^unknown/);
});

it('a blank size, fuse, kind or mark is unknown, and so is another breaker’s number', async () => {
  const blank = await plan('', '', '', null);
  expect(blank('A2')).toBe('unknown');
  expect(blank('A5')).toBe('unknown, no fuse is given');
  expect(blank('A7')).toBe('unknown, whether the output is marked as limited is not given');
  expect(blank('A8')).toBe('unknown');
  const kind = await plan('1.5 mm²', '8 A', '', 'FALSE');
  expect(kind('A5')).toBe('unknown, the kind of fuse is not given');
  expect(kind('A7')).toBe('fails, the output is not marked as limited');
});
