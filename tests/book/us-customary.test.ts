/** A book in US customary, at work: what is typed, kept, listed and shown. */
import { expect, test } from 'vitest';
import { cellAt } from '../../src/book/address.ts';
import type { Book } from '../../src/book/book.ts';
import { setWires } from '../../src/book/commands/set-customs.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { isRefused } from '../../src/book/refused.ts';
import { formatWide } from '../../src/files/csv/wide.ts';
import type { Session } from '../../src/session.ts';
import { lineOf } from '../../src/shown.ts';
import { spokenValue, viewOf } from '../../src/ui/cells/cell-view.ts';
import { choicesOf } from '../../src/ui/cells/choices.ts';
import { openTemplate } from '../templates/open-template.ts';

async function opened(): Promise<Session> {
  const session = await openTemplate('trade-bench');
  const change = setMeasures(session.book, { measures: 'US customary' });
  if (isRefused(change)) throw new Error(change.message);
  session.dispatch(change);
  await session.settled();
  return session;
}

const at = (book: Book, address: string) => {
  const found = cellAt(book, address);
  if (!found) throw new Error(address);
  return found;
};
const shown = ({ values }: Session, address: string): string => {
  const value = values[address];
  return value ? lineOf(value).replaceAll(/[\u202f\u00a0]/g, ' ') : 'nothing';
};

async function type(session: Session, address: string, text: string): Promise<string> {
  const answer = await session.type(address, text);
  await session.settled();
  return answer.ok ? shown(session, address) : answer.message;
}

test('a length is typed as it is read off a tape, kept as it was typed and shown in feet and inches', async () => {
  const session = await opened();
  expect(shown(session, 'Brief.A1')).toBe('11′ 9 3/4″');
  expect(await type(session, 'Brief.A1', `14'`)).toBe('14′ 0″');
  expect(at(session.book, 'Brief.A1').cell).toMatchObject({ content: '14 ft', typed: `14'` });
  expect(await type(session, 'Brief.A2', `5'4 1/2"`)).toBe('5′ 4 1/2″');
  expect(at(session.book, 'Brief.A2').cell).toMatchObject({ content: '64.5 in', typed: `5'4 1/2"` });
  expect(session.values['Brief.A2']).toMatchObject({ base: (64.5 * 254) / 10000 });
  expect(await type(session, 'Brief.A2', `5'14"`)).toContain('14 in is a foot or more');
  expect(spokenValue(viewOf(at(session.book, 'Brief.A2'), session.values))).toBe('5 feet 4 1/2 inches');
  // The layout stays metric and exact; it is read in feet and inches.
  const layout = session.values['Scenarios.A12'];
  expect(layout).toMatchObject({
    text: expect.stringMatching(/ over 4\.2672×1\.6383 m/),
    shown: expect.stringContaining('over 14′ 0″ × 5′ 4 1/2″'.replaceAll(/(?<=′) | (?=1\/2)/g, '\u00a0')),
  });
  // Written out for other programs it stays in metres, and the row says so.
  expect(formatWide(session.book, session.values)).toMatch(/^[^,\n]+,lengths in m,[^\n]* over 4\.2672×1\.6383 m/m);
  const metric = await openTemplate('trade-bench');
  expect(formatWide(metric.book, metric.values)).not.toContain('lengths in m');
  metric.close();
  session.close();
});

test('a wire is listed by its gauge, typed by it and carries what its gauge does; a metric one lies between two', async () => {
  const session = await opened();
  expect(shown(session, 'Electrics.A2')).toBe('16 to 15 AWG');
  expect(choicesOf(session.book, session.values, at(session.book, 'Electrics.A2'))?.slice(0, 5)).toEqual(['18 AWG', '17 AWG', '16 AWG', '14 AWG', '12 AWG']);
  expect(await type(session, 'Electrics.A2', '14 AWG')).toBe('14 AWG');
  // NFPA 70, table 400.5(A)(1): 18 A in two loaded cores of 14 AWG, in air of 30 °C and cooler.
  expect(session.values['Scenarios.A39']).toMatchObject({ base: 18 });
  expect(viewOf(at(session.book, 'Electrics.A2'), session.values).number).toMatchObject({ whole: '14', unit: 'AWG' });
  expect(await type(session, 'Electrics.A2', '15 AWG')).toMatch(/is not one of the choices: 18 AWG, 17 AWG, 16 AWG, 14 AWG/);
  const wires = setWires(session.book, { wires: 'mm²' });
  if (isRefused(wires)) throw new Error(wires.message);
  session.dispatch(wires);
  await session.settled();
  expect(shown(session, 'Electrics.A2')).toMatch(/^2\.081 mm²$/);
  expect(choicesOf(session.book, session.values, at(session.book, 'Electrics.A2'))?.[0]).toBe('0.5 mm²');
  session.close();
});

test('what a formula gives is shown in the measures of the book', async () => {
  const session = await opened();
  const evaluated = async (formula: string): Promise<string> =>
    lineOf(await session.ask((engine) => engine.evaluate(formula))).replaceAll(/[\u202f\u00a0]/g, ' ');
  expect(await evaluated('=1 m')).toBe('3′ 3 3/8″');
  expect(await evaluated('=2 m*3 m')).toBe('64.58 ft²');
  expect(await evaluated('=25 °C-5 °C')).toBe('36 F°');
  expect(await evaluated('=WIRE.AREA(14)')).toBe('14 AWG');
  session.close();
});

test('what is refused is said in the measures of the book', async () => {
  const session = await opened();
  // 0.3 to 20 m are 11.81 in and 787.4 in: what is said to be allowed is.
  expect(await type(session, 'Brief.A1', '400 ft')).toMatch(/400 ft is above what is allowed, from \d.*″ to [\d′ ]+[\d/ ]*″\.$/);
  const value = await session.ask((engine) => engine.evaluate('=CABLE.AREA(2000 m,10 A,24 V,0.01)'));
  expect(value).toMatchObject({ kind: 'error', message: expect.stringMatching(/over \d+′\s\d/u) });
  expect(await session.ask((engine) => engine.evaluate('=CABLE.AREA(100 W,10 A,24 V,0.01)'))).toMatchObject({
    message: 'CABLE.AREA (length) needs a length such as 1 ft; 100 W is a power.',
  });
  session.close();
});
