/** Answers that are known by hand: each expectation is the formula solved on paper, never what the project gives. */
import { describe, expect, it } from 'vitest';
import { askBack, baseOf, exactOf, waysOf } from './ask.ts';

const AS_GOOD_AS = 1e-9;

function expectNear(found: number | undefined, expected: number): void {
  expect(Math.abs((found ?? Number.NaN) - expected) / Math.abs(expected)).toBeLessThan(AS_GOOD_AS);
}

/** A fixture of 96 µmol/s with a beam of 120°, whose cosine power is 1: straight below it E = Φ / (π·h²). */
const UNDER = (offset: string): string => `=POINT.PPFD(UNIT(96,"µmol/s"),UNIT(120,"°"),A1,UNIT(${offset},"m"))`;
const HEIGHT = { kind: 'given', unit: 'm', decimals: 2, range: { low: 0.05, high: 10, unit: 'm' } } as const;

describe('closed forms', () => {
  it('the height for a reading straight under a point is √(Φ / πE)', async () => {
    const worked = await askBack([['0.5 m'], [UNDER('0')]], { cell: 'T.A2', wanted: '50', given: 'T.A1' }, [HEIGHT]);
    const found = exactOf(worked);
    expect(found).toHaveLength(1);
    expectNear(found[0], Math.sqrt(96 / (50 * Math.PI)));
  });

  it('beside the fixture two heights give the same reading: both roots of Eπ(u + d²)² = Φu, with u = h², are told', async () => {
    const [flux, beside, reading] = [96, 0.6, 20];
    // Eπ·u² + (2Eπd² − Φ)·u + Eπd⁴ = 0
    const a = reading * Math.PI;
    const b = 2 * a * beside ** 2 - flux;
    const root = Math.sqrt(b * b - 4 * a * a * beside ** 4);
    const worked = await askBack([['0.5 m'], [UNDER('0.6')]], { cell: 'T.A2', wanted: '20 µmol/m²/s', given: 'T.A1' }, [HEIGHT]);
    const found = exactOf(worked);
    expect(found).toHaveLength(2);
    expectNear(found[0], Math.sqrt((-b - root) / (2 * a)));
    expectNear(found[1], Math.sqrt((-b + root) / (2 * a)));
  });

  it('the hours for a DLI are DLI · 10⁶ / (PPFD · 3600)', async () => {
    const worked = await askBack([['16 h/d'], ['180 µmol/m²/s'], ['=DLI(A2,A1)']], { cell: 'T.A3', wanted: '12 mol/m²/d', given: 'T.A1' }, [
      { kind: 'given', unit: 'h/d', decimals: 1, range: { low: 0, high: 24, unit: 'h/d' } },
    ]);
    const found = exactOf(worked);
    expect(found).toHaveLength(1);
    // In base units, s/d.
    expectNear(found[0], (12e6 / (180 * 3600)) * 3600);
    // Shown with one decimal: 18.5185… is 18.5.
    const [way] = waysOf(worked);
    expect(way?.kind === 'exact' && way.rounded?.content).toBe('18.5 h/d');
    if (way?.kind === 'exact') expectNear(baseOf(way.rounded?.gives), 180e-6 * 18.5 * 3600);
  });

  it('the tariff at which two scenarios cost the same is what one is dearer to buy, a year, over the energy that it saves', async () => {
    // A: 900 EUR over 8 years and 2816 kWh a year; B: 1500 EUR and 2100 kWh.
    const rows = [
      ['0.25 EUR/kWh', null],
      ['=UNIT(900,"EUR")/UNIT(8,"year")+UNIT(2816,"kWh/year")*A1', '=UNIT(1500,"EUR")/UNIT(8,"year")+UNIT(2100,"kWh/year")*A1'],
    ];
    const worked = await askBack(rows, { cell: 'T.B2', wanted: 'T.A2', given: 'T.A1' }, [
      { kind: 'given', unit: 'EUR/kWh', decimals: 3, range: { low: 0, high: 10, unit: 'EUR/kWh' } },
      { unit: 'EUR/year' },
    ]);
    const found = exactOf(worked);
    expect(found).toHaveLength(1);
    expectNear((found[0] ?? 0) * 3.6e6, (1500 - 900) / 8 / (2816 - 2100));
    const [way] = waysOf(worked);
    if (way?.kind !== 'exact') throw new Error('no exact way');
    expectNear(baseOf(way.exact.gives), baseOf(way.exact.against));
  });

  it('the years in which interest makes an amount a half more are ln 1.5 / ln 1.06', async () => {
    const worked = await askBack([['8'], ['=UNIT(1000,"EUR")*1.06^A1']], { cell: 'T.A2', wanted: '1500', given: 'T.A1' }, [
      { kind: 'given', decimals: 2, range: { low: 0, high: 40 } },
    ]);
    expectNear(exactOf(worked)[0], Math.log(1.5) / Math.log(1.06));
  });

  it('all three roots of a cubic are told, wherever they lie in a range of four decades', async () => {
    // (x − 0.3)(x − 0.31)(x − 900) = 0
    const worked = await askBack([['5'], ['=(A1-0.3)*(A1-0.31)*(A1-900)']], { cell: 'T.A2', wanted: '0', given: 'T.A1' }, [
      { kind: 'given', range: { low: 0, high: 1000 } },
    ]);
    const found = exactOf(worked);
    expect(found).toHaveLength(3);
    for (const [i, root] of [0.3, 0.31, 900].entries()) expectNear(found[i], root);
  });

  it('a thermometer reading is worked back like any other: 5 K below 86 °F it is 25 °C', async () => {
    const worked = await askBack([['20 °C'], ['=A1+UNIT(5,"K")']], { cell: 'T.A2', wanted: '86 °F', given: 'T.A1' }, [
      { kind: 'given', unit: '°C', range: { low: -20, high: 70, unit: '°C' } },
      { unit: '°C' },
    ]);
    expectNear(exactOf(worked)[0], 25);
  });
});
