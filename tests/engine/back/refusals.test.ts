/** What stands in the way is said in words, and a book is never touched. */
import { expect, it, test } from 'vitest';
import { createEngine } from '../../../src/engine/engine.ts';
import { book, table } from '../helpers.ts';
import { askBack } from './ask.ts';

const ROWS = [['2 m'], ['=A1*3'], ['oak'], ['=A5*2'], ['4 kg'], ['=A1+A5'], ['=A6*2'], ['=UNIT(7,"m")'], ['']];
const ABOUT = [
  { label: 'Height', kind: 'given', unit: 'm', range: { low: 1, high: 5, unit: 'm' } },
  { label: 'Three times', unit: 'm' },
  { label: 'Wood', kind: 'given' },
  { label: 'Twice the mass' },
  { label: 'Mass', kind: 'given' },
  {},
  { label: 'Mixed' },
  { label: 'Fixed' },
  { label: 'Blank', kind: 'given' },
] as const;

test.each([
  ['a cell that is not there', 'T.Z9', '4', 'T.A1', /no cell T\.Z9/],
  ['a given that is not there', 'T.A2', '4', 'T.Z9', /no cell T\.Z9/],
  ['a cell that is given', 'T.A1', '4', 'T.A1', /Height \(T\.A1\) is not worked out/],
  ['a given that is worked out', 'T.A2', '4', 'T.A4', /Twice the mass \(T\.A4\) is no given/],
  ['a given that does not matter', 'T.A2', '4', 'T.A5', /Three times does not hang on Mass \(T\.A5\)/],
  ['a wanted value of another quantity', 'T.A2', '4 kg', 'T.A1', /takes a length.* 4 kg is/],
  ['a wanted value that is none', 'T.A2', 'much', 'T.A1', /number/],
  ['nothing wanted', 'T.A2', ' ', 'T.A1', /Say what Three times should be/],
  ['another cell of another quantity', 'T.A2', 'T.A4', 'T.A1', /length.*Twice the mass \(T\.A4\) is mass/],
  ['the cell itself', 'T.A2', 'A2', 'T.A1', /is what it is/],
  ['a mistake of units on the way', 'T.A7', '4', 'T.A1', /A mistake of units stands in the way\. .*(kg|mass)/],
  ['a text that has no list', 'T.A2', '6', 'T.A3', /Wood is no number, and has no list/],
] as const)('%s is refused in words', async (_, cell, wanted, given, message) => {
  const worked = await askBack(ROWS, { cell, wanted, given }, ABOUT);
  expect(worked).toMatchObject({ ok: false, message: expect.stringMatching(message) });
});

it('a given with neither limits nor a value wants to be told from where to where', async () => {
  const rows = [[''], ['=A1*3']];
  const asked = { cell: 'T.A2', wanted: '6', given: 'T.A1' };
  expect(await askBack(rows, asked, [{ kind: 'given' }])).toMatchObject({ ok: false, message: expect.stringContaining('from where to where') });
  expect(await askBack(rows, { ...asked, from: '0', to: '8' }, [{ kind: 'given' }])).toMatchObject({
    ok: true,
    ways: [{ kind: 'exact', exact: { content: '2' } }],
  });
});

it('ends that leave nothing to look at are refused', async () => {
  const worked = await askBack(ROWS, { cell: 'T.A2', wanted: '6', given: 'T.A1', from: '7 m' }, ABOUT);
  expect(worked).toMatchObject({ ok: false, message: expect.stringContaining('Height') });
});

it('where nothing can be worked out for any value, the reason is said', async () => {
  const worked = await askBack([['2'], ['=A1/0']], { cell: 'T.A2', wanted: '6', given: 'T.A1' }, [{ kind: 'given', range: { low: 1, high: 5 } }]);
  expect(worked).toMatchObject({ ok: false, message: expect.stringMatching(/any value that was tried\. .*zero/) });
});

it('leaves the book as it was, and is done again for the book as it then is', async () => {
  const engine = createEngine();
  const before = book([table('T', [['2'], ['=A1*3']], [{ kind: 'given', range: { low: 0, high: 100 } }])]);
  const values = await engine.load(before);
  const asked = { cell: 'T.A2', wanted: '30', given: 'T.A1' };
  expect(await engine.back(asked)).toMatchObject({ ways: [{ exact: { content: '10' } }] });
  expect(await engine.evaluate('=T.A2')).toEqual(values['T.A2']);
  const after = book([table('T', [['2'], ['=A1*5']], [{ kind: 'given', range: { low: 0, high: 100 } }])]);
  await engine.load(after);
  expect(await engine.back(asked)).toMatchObject({ ways: [{ exact: { content: '6' } }] });
  engine.close();
});

it('is stopped by whoever waits, between two steps', async () => {
  const engine = createEngine();
  // A chain of functions over a whole bench, which takes seconds.
  const rows = [
    ['0.5 m'],
    ...Array.from({ length: 40 }, (_, i) => [
      `=BENCH.MEAN(LAYOUT(UNIT(156,"µmol/s"),UNIT(1.2,"m"),UNIT(0.1,"m"),UNIT(120,"°"),9,${i + 2},UNIT(20,"m"),UNIT(5,"m")),A1,90,90)`,
    ]),
    ['=SUM(A2:A41)'],
  ];
  await engine.load(book([table('T', rows, [{ kind: 'given', unit: 'm', range: { low: 0.2, high: 5, unit: 'm' } }])]));
  const stop = new AbortController();
  const shares: number[] = [];
  const worked = await engine.back(
    { cell: 'T.A42', wanted: '6000', given: 'T.A1' },
    {
      signal: stop.signal,
      share: (done) => {
        shares.push(done);
        if (shares.length === 3) stop.abort();
      },
    },
  );
  expect(worked).toEqual({ ok: false, message: 'This was stopped.' });
  expect(shares).toHaveLength(3);
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  engine.close();
});
