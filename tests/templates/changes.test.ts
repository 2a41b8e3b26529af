import { describe, expect, test } from 'vitest';
import type { At } from '../../src/book/address.ts';
import { choicesOf } from '../../src/book/allowed.ts';
import type { Book } from '../../src/book/book.ts';
import { addressOf, rangeOf, rowHeading, standingOf, titleOf } from '../../src/book/look-up.ts';
import { pickedTogether } from '../../src/book/misfits.ts';
import type { Value } from '../../src/engine/types.ts';
import type { Session } from '../../src/session.ts';
import { cells, openTemplate, slugs, templateBook } from './open-template.ts';
import { dependents, readsOfAll } from './references.ts';

/** Other answers that the cell would take: another choice, or the number a little larger or smaller, in the unit it is written in. */
function others(book: Book, at: At): string[] {
  const content = at.cell?.content ?? '';
  const range = rangeOf(at);
  const choices = range && choicesOf(book, at, range);
  const another = choices?.filter((choice) => choice !== content).slice(0, 3);
  if (another?.length) return another;
  // Where none is all there is to pick, any number of the range can be written.
  if (content === 'none')
    return [0.3, 0.6].map((share) => `${Number(((range?.low ?? 0) + share * ((range?.high ?? 0) - (range?.low ?? 0))).toPrecision(12))} ${range?.unit ?? ''}`);
  const written = /^(-?[\d.]+)( .*)?$/.exec(content);
  if (!written) return [`${content}, another`];
  const [, digits = '', unit = ''] = written;
  const x = Number(digits);
  // A count stays whole.
  const candidates = at.row.decimals === 0 && unit === '' ? [x + 1, x - 1] : [x === 0 ? 0.1 : x * 1.07, x * 0.93, x * 0.5, x * 1.5];
  const { low = Number.NEGATIVE_INFINITY, high = Number.POSITIVE_INFINITY } = range ?? {};
  return candidates.filter((y) => y !== x && y >= low && y <= high).map((y) => `${Number(y.toPrecision(12))}${unit}`);
}

// Values that nothing has changed are mostly the same objects: comparing their text is what takes time.
const differ = (a: Value | undefined, b: Value | undefined): boolean => a !== b && JSON.stringify(a) !== JSON.stringify(b);

interface Known {
  /** Givens that move nothing as the template stands, the givens that hold them still, each with a value of it that does not. */
  readonly held: Readonly<Record<string, readonly string[]>>;
  /** Cells that read a given and yet stay as they are for the few values tried here. */
  readonly deaf: readonly string[];
}

/** One entry for each week, with its number for #. */
const weeks = (text: string, numbers: readonly number[]): string[] => numbers.map((n) => text.replace('#', String(n)));

/** A crop and stage of which Crops names one figure. */
const ONE_FIGURE = ['crop', 'lettuce', 'stage', 'indoor'];

/** One entry for each scenario, with its letter for #. */
const each = (text: string): string[] => ['A', 'B', 'C'].map((letter) => text.replace('#', letter));

/** Whether both are said is all that it answers to. */
const SAID = 'Circuits known, with their breaker to breaker';

/** No light of these has a driver of its own. */
const ON_SUPPLIES = [...each('Supply fits the fixture, # to mains_volts'), ...each('Voltage in wet places, # to mains_volts')];

/** What is assumed stands still while somebody has said it. */
const ASSUMED = { breaker_assumed: ['breaker', ''], circuits_assumed: ['circuits_free', ''] } as const;

/** The clock says nothing while one price holds all day, and nothing without the rest of the clock. */
const CLOCK = {
  peak_from: ['peak_price', '0.4 EUR/kWh', 'peak_to', '20 h', 'lights_on_at', '6 h'],
  peak_to: ['peak_price', '0.4 EUR/kWh', 'peak_from', '10 h', 'lights_on_at', '6 h'],
  lights_on_at: ['peak_price', '0.4 EUR/kWh', 'peak_from', '10 h', 'peak_to', '20 h'],
  peak_hours: ['peak_price', '0.4 EUR/kWh'],
} as const;
/** The list of benches is blank. */
const NO_BENCHES = weeks('row #, Counted', [2, 3, 4, 5, 6, 7, 8, 9]).flatMap((cell) => [`${cell} to bench_length`, `${cell} to bench_width`]);

/** Nothing is fitted by the hour. */
const FITTING = each('Fitting by the hour, # to labour_rate');

/** Lights that live longer than the plan. */
const outlasting = (...letters: readonly string[]): string[] =>
  letters.flatMap((letter) => [
    `Life of the lights, ${letter} to replace_after`,
    `Life of the lights, ${letter} to replace_life`,
    `Replacing them, by the year, ${letter} to interest`,
    `Replacing them, worth today, ${letter} to interest`,
  ]);
/** By far. */
const FAR_LONGER = [
  ...outlasting('A', 'B', 'C'),
  ...each('Replacing them, by the year, # to plan_years'),
  ...each('Times they are replaced within the plan, # to plan_years'),
];

/** The air of the room is calculated once all of it is given. */
const ROOM = {
  humidity_in: ['water_off', '3 kg/d', 'air_in', '10 °C', 'humidity_kept', '70 %'],
  humidity_kept: ['water_off', '3 kg/d', 'air_in', '10 °C', 'humidity_in', '80 %'],
  room_volume: ['air_in', '10 °C'],
} as const;
/** By the given that says how warm its air gets. */
const roomDeaf = (air: string): string[] => [
  ...each('Air changes in the room, # to air_in'),
  ...each(`Air to carry that heat off, # to ${air}`),
  ...['air_in', air, 'water_off'].flatMap((given) => each(`Air to carry the vapour off, # to ${given}`)),
];

/** No row stands beside it, and then nothing is counted of any. */
const BESIDE = { rows_apart: ['rows_beside', '2'], beside_counted: ['rows_beside', '2', 'rows_apart', '3 m'] } as const;
const ROWS_LIGHT = ['Full mean PPFD, middle row', 'Full mean PPFD, end row', 'Light from the rows beside'];
const atHeight = (rows: readonly string[], height: string, letters = ['A', 'B', 'C']): string[] =>
  rows.flatMap((row) => letters.map((letter) => `${row}, ${letter} to ${height}, ${letter}`));

/** Without a reading no lamp turns it into anything. */
const LUX = ['lux_read', '8000 lx'];

/** Up to 30 °C a wire carries what its size says, whatever its cable is made for. */
const WARM = ['ambient', '45 °C'];

const KNOWN: Readonly<Record<string, Known>> = {
  'trade-bench': {
    held: {
      ...CLOCK,
      ...ASSUMED,
      beside_counted: ['neighbours', '2'],
      one_figure: ONE_FIGURE.slice(0, 2),
      wire_made_for: WARM,
      // The maker's limit on supplies at one breaker binds before the current does, until the mains voltage is low.
      breaker_share: ['mains_volts', '90 V'],
    },
    deaf: [
      ...NO_BENCHES,
      ...FITTING,
      SAID,
      ...ON_SUPPLIES,
      ...atHeight(ROWS_LIGHT.slice(0, 2), 'Mount height'),
      // Its outputs are not marked as limited, whatever the limit is.
      'Limited circuit, C to output_limit',
      // The low end is nearer, and the check says the margin to the nearer one.
      'Height, A to highest_mount',
      // No like bench stands beside it.
      ...each('Light from neighbouring benches, # to aisle'),
      'Light from neighbouring benches, A to Mount height, A',
      'Light from neighbouring benches, B to Mount height, B',
      'Light from neighbouring benches, C to Mount height, C',
      // Six rows spread by six fifths hang over the edges of a bench of any width.
      'Lights past each side by, A to bench_width',
      // The air stays cooler than that from which the supplies derate.
      'Rating in this air, A to ambient',
      'Rating in this air, B to ambient',
      'Rating in this air, C to ambient',
    ],
  },
  'rack-of-tiers': {
    // As on the trade bench.
    held: { ...ROOM, ...CLOCK, ...ASSUMED, breaker_share: ['mains_volts', '90 V'], one_figure: ONE_FIGURE, wire_made_for: WARM },
    deaf: [...roomDeaf('crop_air'), ...NO_BENCHES, ...FITTING, SAID, ...ON_SUPPLIES],
  },
  'greenhouse-bench': {
    // The maker's limit on supplies at one breaker binds before the current does, until the mains voltage is low.
    held: {
      peak_part: ['peak_price', '0.4 EUR/kWh'],
      demand_share: ['demand_price', '6 EUR/kW/month'],
      ...ASSUMED,
      ...BESIDE,
      breaker_share: ['mains_volts', '90 V'],
      one_figure: ONE_FIGURE,
      wire_made_for: WARM,
      lux_lamp: LUX,
    },
    deaf: [
      ...NO_BENCHES,
      ...FITTING,
      ...FAR_LONGER,
      SAID,
      ...ON_SUPPLIES,
      ...atHeight(ROWS_LIGHT, 'Mount height', ['A']),
      // The air stays cooler than that from which the supplies derate.
      'Rating in this air, A to ambient',
      'Rating in this air, B to ambient',
      'Rating in this air, C to ambient',
      // In winter the lamps burn from before dawn to after dusk; and no cloth is drawn until an hour is given for both its ends.
      ...['blackout_from', 'blackout_to', 'latitude', 'noon'].flatMap((name) => each(`Longest night of the months grown in, # to ${name}`)),
      // Other places tried are north of the equator too.
      'Clearness is taken to latitude',
      // In June it is light, with twilight, before and after the lamps.
      ...each('Shortest night of the months grown in, # to noon'),
      'Shortest night of the months grown in, A to Lamps may be on to, A',
      'Shortest night of the months grown in, C to Lamps may be on from, C',
      'Shortest night of the months grown in, C to Lamps may be on to, C',
    ],
  },
  'single-shelf': {
    // African violets have a limit of their own, except while they start to flower.
    held: {
      ...CLOCK,
      labour_rate: ['fitting_hours', '3 h'],
      hours_limit: ['stage', 'flower initiation'],
      light_ceiling: ['stage', 'flower initiation'],
      one_figure: ['stage', 'fastest leaf unfolding'],
      wire_made_for: WARM,
      lux_lamp: LUX,
    },
    deaf: [
      ...outlasting('C'),
      ...ON_SUPPLIES,
      // The high end is nearer, and the check says the margin to the nearer one.
      'Height, B to lowest_mount',
      // Nothing was read.
      'DLI by that reading, about to light_hours',
      'DLI by that reading, from to light_hours',
      'DLI by that reading, to to light_hours',
      // Never fewer than eight points.
      'Points across to bench_width',
      // A point has no length.
      'Room along, A to room_along',
      'Room along, B to room_along',
    ],
  },
  'germination-and-microgreens': {
    held: {
      ...ROOM,
      ...CLOCK,
      ...ASSUMED,
      breaker_share: ['mains_volts', '90 V'],
      one_figure: ONE_FIGURE,
      wire_made_for: WARM,
      // Crops knows the limit of this crop, and none of one that it doesn't know.
      hours_limit: ONE_FIGURE,
    },
    deaf: [
      ...roomDeaf('ambient'),
      ...FITTING,
      ...outlasting('B'),
      SAID,
      ...ON_SUPPLIES,
      // Lids, and days in the dark, count only for the scenarios that have them on the shelf.
      'Dark days are dark, A to dark_limit',
      'Dark days are dark, B to dark_limit',
      'Days a tray takes up its place, A to dark_days',
      'Days of a round that the lamps are on, A to lit_days',
      'Days of a round that the lamps are on, C to lit_days',
      'Light on a dark day, A to lid_leak',
      'Light on a dark day, B to lid_leak',
      // The air stays cooler than that from which the supplies derate.
      'Rating in this air, A to ambient',
      'Rating in this air, B to ambient',
      'Rating in this air, C to ambient',
    ],
  },
  'growing-canopy': {
    held: {
      ...ROOM,
      ...CLOCK,
      ...ASSUMED,
      ...BESIDE,
      breaker_share: ['mains_volts', '90 V'],
      hours_limit: ONE_FIGURE,
      one_figure: ONE_FIGURE,
      wire_made_for: WARM,
    },
    deaf: [
      ...roomDeaf('ambient'),
      ...NO_BENCHES,
      ...atHeight(ROWS_LIGHT, 'Hung over the leaf tops, on the day of a lift'),
      ...FITTING,
      SAID,
      ...ON_SUPPLIES,
      // Far below the highest that the lights can be pulled.
      ...weeks('Lights over the soil, week #, A to lift_top', [1, 2, 3, 4]),
      ...weeks('Lights over the soil, week #, B to lift_top', [1, 2, 3]),
      // Weeks in which there is a lift, or none, either way.
      ...weeks('Lights over the soil, week #, A to Weeks from one lift to the next, A', [3, 5, 7, 9, 11, 13]),
      ...weeks('Lights over the soil, week #, B to Weeks from one lift to the next, B', [2, 13, 14]),
      ...weeks('Lights over the soil, week #, C to Weeks from one lift to the next, C', [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13]),
      // Weeks in which the plants are far from full height.
      '1, At its end to final_height',
      ...weeks('row #, At its end to final_height', [3, 4, 5, 6]),
      // Never lifted.
      'Lifting, C to crops_year',
      'Lifting, C to labour_rate',
      'Lifting, C to lift_time',
      // The air stays cooler than that from which the supplies derate.
      'Rating in this air, A to ambient',
      'Rating in this air, B to ambient',
      'Rating in this air, C to ambient',
    ],
  },
  'meter-check': {
    held: { one_figure: ONE_FIGURE, wire_made_for: WARM },
    deaf: [
      // No fixture stands out, so that there is none to be said more of: weak-fixture.test.ts has one.
      'Fixture that likely gives too little to read_height',
      'It gives, of what the others give to read_height',
      'Its centre, across the bench to Across the bench, A',
      'Its centre, across the bench to Spread across, A',
      'Its centre, across the bench to bench_width',
      'Pattern is off by, with that fixture so to read_height',
      // The pattern is well within what it may be off by.
      'Height that would explain it to miss_limit',
    ],
  },
  'replace-old-lamps': {
    // As on the trade bench.
    held: { ...CLOCK, ...ASSUMED, breaker_share: ['mains_volts', '90 V'], one_figure: ONE_FIGURE, wire_made_for: WARM },
    deaf: [
      ...FITTING,
      'Electricity price over the old lamps’ hours to light_hours',
      // They pay back before new ones are bought, however many years the plan is paid off over.
      ...['Pays back', 'Pays back in', 'Pays back in, with interest', 'Equal light: pays back in', 'Equal hours: pays back in'].flatMap((label) =>
        each(`${label}, # to plan_years`),
      ),
      SAID,
      ...ON_SUPPLIES,
      // The low end is nearer, and the check says the margin to the nearer one.
      'Height, C to highest_mount',
      // The air stays cooler than that from which the supplies derate.
      'Rating in this air, A to ambient',
      'Rating in this air, B to ambient',
      'Rating in this air, C to ambient',
    ],
  },
};

describe.each(slugs)('in the template %s', (slug) => {
  const start = templateBook(slug);
  const { held, deaf } = KNOWN[slug] ?? { held: { one_figure: ONE_FIGURE, wire_made_for: WARM }, deaf: [] };
  const follows = dependents(start);
  const nameOf = new Map(Object.entries(start.names).map(([name, target]) => [target.replaceAll('$', ''), name]));
  const isList = (at: At): boolean => at.table.form === 'list';
  /** What each given of the template as it stands changes: both tests ask it, and it takes seconds. */
  const known = new Map<string, Set<string>>();

  /** What the other answers to one given change, besides itself. The given is left as it was. */
  async function changedBy(session: Session, address: string, at: At): Promise<Set<string>> {
    const before = { ...session.values };
    const all = new Set<string>();
    let typings = 0;
    for (const other of others(start, at).slice(0, isList(at) ? 2 : 4)) {
      const typed = await session.type(address, other);
      expect(typed, `${address} takes ${other}`).toMatchObject({ ok: true });
      typings++;
      await session.settled();
      for (const a of new Set([...Object.keys(before), ...Object.keys(session.values)])) {
        if (a !== address && differ(session.values[a], before[a])) all.add(a);
      }
    }
    while (typings-- > 0) session.undo();
    await session.settled();
    expect(session.values, `${address} undone`).toEqual(before);
    return all;
  }

  async function changedAtFirst(session: Session, address: string, at: At): Promise<Set<string>> {
    const found = known.get(address) ?? (await changedBy(session, address, at));
    known.set(address, found);
    return found;
  }

  test('a change of any given changes what depends on it, and nothing else', async () => {
    const session = await openTemplate(slug);
    const still = new Map<string, At>();
    for (const { address, at } of cells(start)) {
      if (standingOf(at) !== 'given') continue;
      // A crop may take its stage with it.
      const along = pickedTogether(start, at)[0]?.row === at.row ? pickedTogether(start, at).map(addressOf) : [];
      const allowed = new Set([address, ...along].flatMap((one) => [...(one === address ? [] : [one]), ...follows(one)]));
      const changed = await changedAtFirst(session, address, at);
      const strays = [...changed].filter((a) => !allowed.has(a));
      expect(strays, `${address} ${rowHeading(at)} moves what does not read it`).toEqual([]);
      if (changed.size === 0 && allowed.size > 0 && !isList(at)) still.set(nameOf.get(address) ?? address, at);
    }
    // In the look-up tables most rows are not chosen, and rightly move nothing.
    expect([...still.keys()].sort()).toEqual(Object.keys(held).sort());
    for (const [name, at] of still) {
      const loosened = held[name] ?? [];
      const before = session.book;
      for (let i = 0; i < loosened.length; i += 2) await session.type(start.names[loosened[i] ?? '']?.replaceAll('$', '') ?? '', loosened[i + 1] ?? '');
      await session.settled();
      expect(session.book).not.toBe(before);
      const changed = await changedBy(session, start.names[name]?.replaceAll('$', '') ?? '', at);
      expect(changed.size, `${name} once it is ${loosened.join(' ')}`).toBeGreaterThan(0);
      while (session.book !== before && session.undo());
      await session.settled();
    }
    session.close();
  });

  test('what a given feeds directly answers to it', async () => {
    const session = await openTemplate(slug);
    const reads = readsOfAll(start);
    const titles = new Map(cells(start).map((cell) => [cell.address, titleOf(cell.at)]));
    const quiet: string[] = [];
    // Lights that stay within the bench stick out by 0 however far within they are: edges.test.ts moves them past it.
    const within = (reader: string): boolean => {
      const value = session.values[reader];
      return /^Lights? past each /.test(titles.get(reader) ?? '') && value?.kind === 'number' && value.base === 0;
    };
    for (const { address, at } of cells(start)) {
      if (standingOf(at) !== 'given' || isList(at) || held[nameOf.get(address) ?? '']) continue;
      const changed = await changedAtFirst(session, address, at);
      for (const [reader, { single }] of reads)
        if (single.has(address) && !changed.has(reader) && !within(reader)) quiet.push(`${titles.get(reader)} to ${nameOf.get(address) ?? titleOf(at)}`);
    }
    session.close();
    expect(quiet.sort()).toEqual([...deaf].sort());
  });
});
