/** What is told where a formula does not simply cross what is wanted: steps, stretches, lists, places where it only touches, and nothing at all. */
import { describe, expect, it } from 'vitest';
import { askBack, contents, exactOf, waysOf } from './ask.ts';

const FREE = { kind: 'given', decimals: 2, range: { low: 0, high: 10 } } as const;
const COUNT = { kind: 'given', decimals: 0, range: { low: 1, high: 100 } } as const;

describe('a formula that goes by steps', () => {
  it('has a stretch on which it is just what is wanted, told with its ends as short as the given shows them', async () => {
    // 4 < x/1.7 ≤ 5: from above 6.8 to 8.5.
    const worked = await askBack([['3'], ['=ROUNDUP(A1/1.7,0)']], { cell: 'T.A2', wanted: '5', given: 'T.A1' }, [FREE]);
    const [way, ...more] = waysOf(worked);
    expect(more).toEqual([]);
    if (way?.kind !== 'stretch') throw new Error('no stretch');
    expect(contents(way.from, way.to)).toEqual(['6.81', '8.5']);
    expect([way.from.gives, way.to.gives]).toMatchObject([{ base: 5 }, { base: 5 }]);
  });

  it('steps over what lies between, and both sides of the step are told', async () => {
    const worked = await askBack([['3'], ['=2*ROUNDUP(A1/1.7,0)']], { cell: 'T.A2', wanted: '9', given: 'T.A1' }, [FREE]);
    const [way, ...more] = waysOf(worked);
    expect(more).toEqual([]);
    if (way?.kind !== 'step') throw new Error('no step');
    expect(contents(way.from, way.to)).toEqual(['6.8', '6.81']);
    expect([way.from.gives, way.to.gives]).toMatchObject([{ base: 8 }, { base: 10 }]);
  });

  it('may have a stretch narrower than the places that are looked at first', async () => {
    // 7.00010 < x ≤ 7.00012.
    const worked = await askBack([['3'], ['=IF(A1>7.0001,IF(A1>7.00012,9,5),1)']], { cell: 'T.A2', wanted: '5', given: 'T.A1' }, [{ ...FREE, decimals: 5 }]);
    const [way] = waysOf(worked);
    if (way?.kind !== 'stretch') throw new Error(JSON.stringify(way));
    expect(contents(way.from, way.to)).toEqual(['7.00011', '7.00012']);
  });
});

describe('two cells that are to be equal', () => {
  it('and are always as far apart are told how far, and no value is called the nearest', async () => {
    // Both use the same: 80 lies between them at any price.
    const worked = await askBack([['3'], ['=7000*A1+480'], ['=7000*A1+400']], { cell: 'T.A2', wanted: 'T.A3', given: 'T.A1' }, [FREE]);
    if (!worked.ok) throw new Error(worked.message);
    expect(worked).toMatchObject({ ways: [], apart: { kind: 'number' } });
    expect(worked.apart?.kind === 'number' && worked.apart.base).toBeCloseTo(80, 9);
    expect([worked.lowest, worked.highest]).toEqual([undefined, undefined]);
  });

  it('and only come nearer are told where they are nearest and farthest', async () => {
    const worked = await askBack([['3'], ['=2*A1+480'], ['=A1+400']], { cell: 'T.A2', wanted: 'T.A3', given: 'T.A1' }, [FREE]);
    if (!worked.ok) throw new Error(worked.message);
    expect(worked.apart).toBeUndefined();
    expect([worked.lowest?.content, worked.highest?.content]).toEqual(['0', '10']);
  });
});

describe('whole numbers and lists', () => {
  it('a count that makes it just so is told, and else the two beside each other', async () => {
    const rows = [['3'], ['=A1*A1']];
    expect(exactOf(await askBack(rows, { cell: 'T.A2', wanted: '49', given: 'T.A1' }, [COUNT]))).toEqual([7]);
    const [way, ...more] = waysOf(await askBack(rows, { cell: 'T.A2', wanted: '50', given: 'T.A1' }, [COUNT]));
    expect(more).toEqual([]);
    expect(way?.kind === 'step' && contents(way.from, way.to)).toEqual(['7', '8']);
  });

  it('of very many counts the two beside each other are found as well', async () => {
    const rows = [['3'], ['=A1*A1']];
    const about = [{ ...COUNT, range: { low: 0, high: 1_000_000 } }];
    const [way] = waysOf(await askBack(rows, { cell: 'T.A2', wanted: '123456789012', given: 'T.A1' }, about));
    // √123456789012 = 351364.18…
    expect(way?.kind === 'step' && contents(way.from, way.to)).toEqual(['351364', '351365']);
    // 351363² = 123455957769.
    expect(exactOf(await askBack(rows, { cell: 'T.A2', wanted: '123455957769', given: 'T.A1' }, about))).toEqual([351_363]);
  });

  it('amounts of a list are taken from the least to the greatest, whatever their order', async () => {
    const about = [{ kind: 'given', unit: 'A', range: { oneOf: ['10 A', '2 A', '6.3 A', '4 A'] } } as const];
    const [way, ...more] = waysOf(await askBack([['4 A'], ['=A1*UNIT(24,"V")']], { cell: 'T.A2', wanted: '120 W', given: 'T.A1' }, about));
    expect(more).toEqual([]);
    expect(way?.kind === 'step' && contents(way.from, way.to)).toEqual(['4 A', '6.3 A']);
  });

  it('of texts, which have no order, those that come nearest below and above are told', async () => {
    const about = [{ kind: 'given', range: { oneOf: ['oak', 'fir', 'elm', 'ash'] } } as const];
    const rows = [['oak'], ['=IF(A1="oak",7,IF(A1="fir",1,IF(A1="elm",4,9)))']];
    const [way] = waysOf(await askBack(rows, { cell: 'T.A2', wanted: '5', given: 'T.A1' }, about));
    expect(way?.kind === 'nearest' && contents(way.below, way.above)).toEqual(['elm', 'oak']);
    const [exact] = waysOf(await askBack(rows, { cell: 'T.A2', wanted: '1', given: 'T.A1' }, about));
    expect(exact?.kind === 'exact' && exact.exact.content).toBe('fir');
  });

  it('yes and no are a list of two', async () => {
    const [way] = waysOf(await askBack([['TRUE'], ['=IF(A1,3,8)']], { cell: 'T.A2', wanted: '8', given: 'T.A1' }, [{ kind: 'given' }]));
    expect(way?.kind === 'exact' && way.exact.content).toBe('FALSE');
  });
});

describe('other shapes', () => {
  it('a place at which it only touches what is wanted is told', async () => {
    const found = exactOf(await askBack([['1'], ['=(A1-3.21)^2+4']], { cell: 'T.A2', wanted: '4', given: 'T.A1' }, [FREE]));
    expect(found).toHaveLength(1);
    // Where it lies flat a number of 16 digits leaves half of them of the place.
    expect(Math.abs((found[0] ?? 0) - 3.21)).toBeLessThan(1e-6);
  });

  it('a pole is no answer', async () => {
    const worked = await askBack([['1'], ['=1/(A1-4.321)']], { cell: 'T.A2', wanted: '0', given: 'T.A1' }, [FREE]);
    expect(waysOf(worked)).toEqual([]);
  });

  it('is found up to where nothing can be worked out any more', async () => {
    // √(7.4567 − x) has no value past its root; it is 0.01 just before it.
    const found = exactOf(await askBack([['1'], ['=SQRT(7.4567-A1)']], { cell: 'T.A2', wanted: '0.01', given: 'T.A1' }, [FREE]));
    expect(found).toHaveLength(1);
    expect(found[0]).toBeCloseTo(7.4566, 9);
  });

  it('where there is none, the lowest and the highest that can be reached are told, and where', async () => {
    // 5 − (x − 2.5)²: from −51.25 at 10 to 5 at 2.5.
    const worked = await askBack([['1'], ['=5-(A1-2.5)^2']], { cell: 'T.A2', wanted: '6', given: 'T.A1' }, [FREE]);
    if (!worked.ok) throw new Error(worked.message);
    expect(worked.ways).toEqual([]);
    expect(worked.lowest).toMatchObject({ content: '10', gives: { base: -51.25 } });
    expect(worked.highest?.gives).toMatchObject({ kind: 'number', base: 5 });
    expect(Number(worked.highest?.content)).toBeCloseTo(2.5, 6);
  });

  it('a check is worked back to where it holds', async () => {
    const about = [{ kind: 'given', unit: 'm', decimals: 2, range: { low: 0, high: 3, unit: 'm' } } as const, { kind: 'check' } as const];
    const [way, ...more] = waysOf(
      await askBack([['1 m'], ['=CHECK.WITHIN(A1,UNIT(0.4,"m"),UNIT(1.2,"m"))']], { cell: 'T.A2', wanted: 'holds', given: 'T.A1' }, about),
    );
    expect(more).toEqual([]);
    if (way?.kind !== 'stretch') throw new Error(JSON.stringify(way));
    for (const one of [way.from, way.to]) expect(one.gives).toMatchObject({ text: expect.stringMatching(/^holds/) });
    expect(Number.parseFloat(way.from.content)).toBeGreaterThanOrEqual(0.4);
    expect(Number.parseFloat(way.to.content)).toBeLessThanOrEqual(1.2);
  });

  it('says all else that changes, and leaves out what stays', async () => {
    const rows = [['2'], ['=A1*10'], ['=A2+1'], ['=IF(A1>2,"fails","holds")'], ['=MAX(A1,100)']];
    const [way] = waysOf(await askBack(rows, { cell: 'T.A2', wanted: '30', given: 'T.A1' }, [FREE]));
    if (way?.kind !== 'exact') throw new Error('no exact way');
    expect(way.exact.others).toEqual([
      { address: 'T.A3', before: { kind: 'number', base: 21, unit: '' }, after: { kind: 'number', base: 31, unit: '' } },
      { address: 'T.A4', before: { kind: 'text', text: 'holds' }, after: { kind: 'text', text: 'fails' } },
    ]);
  });

  it('is looked for between the ends that are said, within what the given may be', async () => {
    const rows = [['1'], ['=(A1-2)*(A1-6)']];
    const asked = { cell: 'T.A2', wanted: '0', given: 'T.A1' };
    expect(exactOf(await askBack(rows, asked, [FREE]))).toEqual([2, 6]);
    expect(exactOf(await askBack(rows, { ...asked, from: '3', to: '900' }, [FREE]))).toEqual([6]);
  });

  it('a given without limits is looked for up to ten times what it is', async () => {
    const worked = await askBack([['2 m'], ['=A1*3']], { cell: 'T.A2', wanted: '45', given: 'T.A1' }, [{ kind: 'given', unit: 'm' }]);
    expect(exactOf(worked)).toEqual([15]);
    expect(waysOf(await askBack([['2 m'], ['=A1*3']], { cell: 'T.A2', wanted: '90', given: 'T.A1' }, [{ kind: 'given', unit: 'm' }]))).toEqual([]);
  });

  it('is as short as a tape shows it, in eighths of an inch', async () => {
    const about = [{ kind: 'given', unit: 'ft', decimals: 2, range: { low: 0.5, high: 30, unit: 'ft' } } as const, { unit: 'ft' }];
    const [way] = waysOf(await askBack([['1 ft'], ['=A1*3']], { cell: 'T.A2', wanted: '4.2 ft', given: 'T.A1' }, about));
    if (way?.kind !== 'exact') throw new Error('no exact way');
    expect(way.exact.content).toBe('1.4 ft');
    // 16.8 in is nearest to 16 6/8 in.
    expect(Number.parseFloat(way.rounded?.content ?? '')).toBeCloseTo(16.75 / 12, 12);
  });

  it('is found as well where every value goes through the calculator: other givens are picked from the one that moves', async () => {
    const about = [{ kind: 'given', range: { low: 0, high: 9 } } as const, { kind: 'given', range: { from: 'T.A1:A1' } } as const];
    expect(exactOf(await askBack([['2'], ['2'], ['=A1*3']], { cell: 'T.A3', wanted: '12', given: 'T.A1' }, about))).toEqual([4]);
  });

  it('of very many cells that follow, the checks are among those that are told', async () => {
    const rows = [['2'], ...Array.from({ length: 2_400 }, (_, i) => [`=A1+${i}`]), ['=IF(A1>2,"fails","holds")']];
    const about = [FREE, ...Array.from({ length: 2_400 }, () => ({})), { kind: 'check' } as const];
    const worked = await askBack(rows, { cell: 'T.A2', wanted: '5', given: 'T.A1' }, about);
    if (!worked.ok) throw new Error(worked.message);
    // 2,400 sums and a check, without the one that was asked about.
    expect(worked.untold).toBe(400);
    const [way] = worked.ways;
    expect(way?.kind === 'exact' && way.exact.others.find(({ address }) => address === 'T.A2402')?.after).toEqual({ kind: 'text', text: 'fails' });
  });
});
