/** Every question that a client asks is answered by rows of a template, or by a function where it is a matter of one sum. */
import { afterAll, describe, expect, test } from 'vitest';
import { isRefusal } from '../../functions/define.ts';
import { functions } from '../../functions/index.ts';
import { placeIn, tableNamed, textOf } from '../../src/book/address.ts';
import { rowHeading } from '../../src/book/look-up.ts';
import type { Session } from '../../src/session.ts';
import { evaluate } from '../functions/evaluate.ts';
import { openTemplate } from './open-template.ts';

/** As clients ask them. */
const ASKED =
  'How many per shelf? How high? Why are mine leggy? Why bleached leaves? How many hours? All night? I only have a lux meter. One light over two trays? Raise or dim? Do white sides help? Why poor edges? ' +
  'Sown on different dates? Basil instead? Only 50 cm? Fewer, brighter ones? How much sun gets in? Which months pay? Do the bars shade the summer crop? One supply or several? How long may the cable be? Will ' +
  'the breaker hold? What is the monthly bill? Replace the old lamps? When do these need replacing? Do the readings match the plan?';

interface Answer {
  readonly question: string;
  readonly template: string;
  /** Rows by table and label. */
  readonly rows: Readonly<Record<string, readonly string[]>>;
  readonly functions: readonly string[];
}

const ANSWERS: readonly Answer[] = [
  {
    question: 'How many per shelf?',
    template: 'rack-of-tiers',
    rows: { Scenarios: ['Fixtures per tier', 'Share of the shelf with enough'] },
    functions: ['COUNT.FOR.TARGET'],
  },
  {
    question: 'How high?',
    template: 'single-shelf',
    rows: { Scenarios: ['Height for the target under the middle', 'Height that just reaches the low limit'] },
    functions: ['MOUNT.HEIGHT', 'MOUNT.HEIGHT.UNDER', 'MOUNT.FLOOR'],
  },
  {
    question: 'Why are mine leggy?',
    template: 'single-shelf',
    rows: { Scenarios: ['Maintained DLI', 'Target band'], Brief: ['DLI wanted, at least'] },
    functions: ['DLI', 'DLI.GAP'],
  },
  {
    question: 'Why bleached leaves?',
    template: 'trade-bench',
    rows: { Scenarios: ['Brightest point, day one', 'Brightest point'] },
    functions: ['MOUNT.FLOOR'],
  },
  {
    question: 'How many hours?',
    template: 'meter-check',
    rows: { Scenarios: ['Hours lit, for the aim', 'Hours'] },
    functions: ['HOURS.FOR.DLI', 'CROP.HOURS'],
  },
  {
    question: 'All night?',
    template: 'greenhouse-bench',
    rows: { Scenarios: ['Dark hours in the darkest month', 'Hours of light in the darkest month', 'Day length'] },
    functions: ['DARK.HOURS', 'CROP.DAY.LENGTH'],
  },
  {
    question: 'I only have a lux meter.',
    template: 'meter-check',
    rows: { Meter: ['PPFD for one unit on the meter', 'Measured mean'] },
    functions: ['LUX.TO.PPFD', 'LUX.FACTOR'],
  },
  {
    question: 'One light over two trays?',
    template: 'single-shelf',
    rows: { Scenarios: ['Half the light or more, across', 'Half the light or more, along', 'Four fifths or more, across'] },
    functions: ['USEFUL.WIDTH', 'USEFUL.LENGTH'],
  },
  {
    question: 'Raise or dim?',
    template: 'meter-check',
    rows: { Scenarios: ['Dimmed to, for the aim', 'Height that just reaches the low limit', 'Evenness: lowest to mean'] },
    functions: ['FALLOFF.RATIO', 'DIM.FOR.TARGET'],
  },
  { question: 'Do white sides help?', template: 'rack-of-tiers', rows: { Scenarios: ['What the sides add'] }, functions: ['LAYOUT'] },
  {
    question: 'Why poor edges?',
    template: 'trade-bench',
    rows: { Scenarios: ['Evenness: lowest to mean', 'Evenness away from the edges', 'Dimmest point, maintained'] },
    functions: ['BENCH.UNIFORMITY.INSIDE', 'SPREAD.BEST'],
  },
  {
    question: 'Sown on different dates?',
    template: 'rack-of-tiers',
    rows: { Scenarios: ['Height over bare soil', 'Maintained DLI, just sown', 'Light when just sown'] },
    functions: ['STAGE.ON.DAY', 'GROWTH.LIFT'],
  },
  {
    question: 'Basil instead?',
    template: 'trade-bench',
    rows: { Brief: ['Crop', 'DLI wanted, at least', 'Most PPFD on its leaves'], Scenarios: ['Target band', 'Day length'] },
    functions: ['CROP.DLI', 'YIELD.CHANGE'],
  },
  {
    question: 'Only 50 cm?',
    template: 'trade-bench',
    rows: { Brief: ['Highest a light may hang'], Scenarios: ['Height', 'Height that just reaches the low limit'] },
    functions: ['MOUNT.HEIGHT'],
  },
  {
    question: 'Fewer, brighter ones?',
    template: 'trade-bench',
    rows: { Scenarios: ['Maintained mean PPFD', 'Evenness: lowest to mean', 'Cost a year, all in'], Choice: ['Cheapest that works, by the year'] },
    functions: ['CHEAPEST.HOLDING', 'COUNT.FOR.TARGET'],
  },
  {
    question: 'How much sun gets in?',
    template: 'greenhouse-bench',
    rows: { House: ['Light under the roof', 'Sun under the roof in the darkest month'] },
    functions: ['SUN.DLI', 'COVER.TRANSMISSION'],
  },
  {
    question: 'Which months pay?',
    template: 'greenhouse-bench',
    rows: { Scenarios: ['Months with lamps', 'Gap, January', 'Gap, July', 'Lamps are on', 'Days below the aim in the worst month'] },
    functions: ['LAMP.HOURS.YEAR', 'DLI.GAP', 'DULL.DAYS'],
  },
  {
    question: 'Do the bars shade the summer crop?',
    template: 'greenhouse-bench',
    rows: { Scenarios: ['Sun shaded by the fixtures', 'Sun lost in the brightest month', 'Shade'] },
    functions: ['FIXTURE.SHADE'],
  },
  {
    question: 'One supply or several?',
    template: 'trade-bench',
    rows: { Scenarios: ['Supplies', 'Load of the fullest supply', 'Load of one output'] },
    functions: ['SUPPLY.COUNT'],
  },
  {
    question: 'How long may the cable be?',
    template: 'trade-bench',
    rows: { Scenarios: ['Voltage drop, share', 'Voltage drop'], Electrics: ['Cable from the supply to the farthest light'] },
    functions: ['CABLE.REACH', 'CABLE.AREA'],
  },
  {
    question: 'Will the breaker hold?',
    template: 'trade-bench',
    rows: { Scenarios: ['Mains current', 'Supplies on one circuit', 'Circuits', 'Circuits free'] },
    functions: ['CIRCUIT.COUNT', 'MAINS.AMPS'],
  },
  { question: 'What is the monthly bill?', template: 'trade-bench', rows: { Scenarios: ['Running cost a month', 'Running cost'] }, functions: ['RUN.COST'] },
  {
    question: 'Replace the old lamps?',
    template: 'replace-old-lamps',
    rows: { Scenarios: ['Pays back in', 'Saving, as set above', 'Equal light: pays back in', 'Heating lost'] },
    functions: ['PAYBACK.YEARS'],
  },
  {
    question: 'When do these need replacing?',
    template: 'trade-bench',
    rows: { Scenarios: ['Hours run in the years it must last', 'Light left after the years it must last', 'Hours to 90 %, L90'] },
    functions: ['LIFE.TO', 'MAINTENANCE.FACTOR'],
  },
  {
    question: 'Do the readings match the plan?',
    template: 'meter-check',
    rows: {
      Meter: [
        'Mean against the plan',
        'Pattern against the plan',
        'Pattern is off by',
        'Light found, share of planned',
        'Height that would explain it',
        'Verdict on the readings',
      ],
    },
    functions: ['METER.VERDICT', 'METER.MISS', 'METER.FIT'],
  },
];

const sessions = new Map<string, Promise<Session>>();
const opened = (slug: string): Promise<Session> => {
  const known = sessions.get(slug) ?? openTemplate(slug);
  sessions.set(slug, known);
  return known;
};
afterAll(async () => {
  for (const session of sessions.values()) (await session).close();
});

/** Every value of the rows with that label: of each scenario, or the one there is. */
function valuesOf({ book, values }: Session, name: string, label: string) {
  const table = tableNamed(book, name);
  return (table?.rows ?? []).flatMap((_, r) =>
    (table?.columns ?? []).flatMap((__, c) => {
      const at = table && placeIn(table, c, r);
      return at && rowHeading(at) === label ? [values[textOf(name, c, r)]] : [];
    }),
  );
}

test('each question has its answer', () => {
  expect(ANSWERS.map(({ question }) => question).join(' ')).toBe(ASKED);
});

describe.each(ANSWERS)('$question', ({ template, rows, functions: names }) => {
  test(`stands in ${template}`, async () => {
    const session = await opened(template);
    for (const [table, labels] of Object.entries(rows)) {
      for (const label of labels) {
        const found = valuesOf(session, table, label);
        expect(found.length, `${table}: ${label}`).toBeGreaterThan(0);
        for (const value of found) expect(['number', 'text'], `${table}: ${label}: ${JSON.stringify(value)}`).toContain(value?.kind);
      }
    }
  });

  test(`is reckoned by ${names.join(', ')}`, () => {
    for (const name of names) {
      const record = functions.find((f) => f.name === name);
      expect(record, name).toBeDefined();
      for (const example of record?.examples ?? []) {
        const value = evaluate(example.formula);
        expect(isRefusal(value), `${example.formula} gives a value`).toBe(false);
      }
    }
  });
});

test('with basil on the bench instead of the crop before, another band is wanted and the checks follow', async () => {
  const session = await openTemplate('greenhouse-bench');
  const wanted = () => valuesOf(session, 'Brief', 'DLI wanted, at least')[0];
  const before = wanted();
  const refusal = await session.type('Brief.A4', 'basl');
  expect(refusal).toMatchObject({ ok: false, message: expect.stringMatching(/Did you mean [^.]*basil/) });
  expect(await session.type('Brief.A4', 'sweet basil')).toMatchObject({ ok: true });
  expect(await session.type('Brief.A7', 'indoor')).toMatchObject({ ok: true });
  await session.settled();
  expect(wanted()).not.toEqual(before);
  // Sweet basil indoors wants 12.9 to 17.8 mol/m²/d, as Crops says with its source.
  expect(wanted()).toMatchObject({ kind: 'number', base: expect.closeTo(12.9, 9) });
  session.close();
});
