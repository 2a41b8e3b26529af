/** Random changes of a book's givens: numbers inside their range, choices from their list, and blanks. */
import type { TidyCell } from './tidy.ts';

export interface Typed {
  readonly address: string;
  readonly typed: string;
}

/** Numbers from 0 to 1 that a seed fixes: T. Ettinger's mulberry32, public domain (from memory). */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

type Chance = () => number;

const pick = <T>(all: readonly T[], random: Chance): T => all[Math.floor(random() * all.length)] as T;

/** Lists are long, and most of their rows are read by no scenario. */
const LISTS: Readonly<Record<string, number>> = { Crops: 0.03, Fixtures: 0.2, Supplies: 0.25 };

const NUMBER = /^-?\d*\.?\d+(?:[eE][-+]?\d+)?$/;

function number(cell: TidyCell, low: number, high: number, random: Chance): number {
  const now = NUMBER.test(cell.value) ? Number(cell.value) : Number.NaN;
  const whole = cell.unit === '' && Number.isInteger(now) && high > 1;
  const kind = random();
  const between = random();
  let x: number;
  if (kind < 0.05) x = between < 0.5 ? low : high;
  else if (kind < 0.8 && now !== 0 && !Number.isNaN(now)) x = now * Math.exp((between - 0.5) * 1.2);
  else x = low > 0 && high / low > 20 ? low * (high / low) ** between : low + (high - low) * between;
  const kept = Math.min(high, Math.max(low, whole ? Math.round(x) : Number(x.toPrecision(4))));
  return Number(kept.toPrecision(12));
}

const withUnit = (x: number, unit: string): string => (unit === '' ? String(x) : `${x} ${unit}`);

function choices(cell: TidyCell, cells: ReadonlyMap<string, TidyCell>): string[] {
  if (cell.low === 'one of') {
    const told: unknown = JSON.parse(cell.high);
    return [...(Array.isArray(told) ? told : (told as { oneOf: string[] }).oneOf)];
  }
  const [, table = '', column = '', from = '', to = ''] = /^(.+)\.([A-Z]+)(\d+):[A-Z]+(\d+)$/.exec(cell.high) ?? [];
  const all: string[] = [];
  for (let row = Number(from); row <= Number(to); row++) {
    const found = cells.get(`${table}.${column}${row}`)?.value;
    if (found) all.push(found);
  }
  return all;
}

/** One to four changes of a book. A crop and its stage are mostly changed together, for most stages belong to few crops. */
export function changesOf(all: readonly TidyCell[], random: Chance): Typed[] {
  const cells = new Map(all.map((cell) => [cell.address, cell]));
  const open = all.filter(({ kind, low, high }) => (kind === 'given' || kind === 'as') && (low !== '' || high !== ''));
  const byTable = (table: string): TidyCell[] => open.filter((cell) => cell.table === table);
  const others = open.filter(({ table }) => LISTS[table] === undefined);
  const made = new Map<string, string>();
  const count = 1 + Math.floor(random() * 4);
  while (made.size < count) {
    let from = others;
    let where = random();
    for (const [table, share] of Object.entries(LISTS)) {
      if (where >= 0 && where < share && byTable(table).length > 0) from = byTable(table);
      where -= share;
    }
    const cell = pick(from, random);
    if ((cell.names.includes('crop') || cell.names.includes('stage')) && random() < 0.85) {
      const rows = all.filter(({ address, kind, value }) => /^Crops\.A\d+$/.test(address) && kind !== 'head' && value !== '');
      const row = pick(rows, random);
      for (const [name, column] of [
        ['crop', 'A'],
        ['stage', 'B'],
      ] as const) {
        const target = all.find(({ names }) => names.includes(name));
        if (target) made.set(target.address, cells.get(row.address.replace('.A', `.${column}`))?.value ?? '');
      }
      continue;
    }
    made.set(cell.address, typedInto(cell, cells, random));
  }
  return [...made].map(([address, typed]) => ({ address, typed }));
}

/** What might be typed into a given; now and then nothing. */
export function typedInto(cell: TidyCell, cells: ReadonlyMap<string, TidyCell>, random: Chance): string {
  if (random() < 0.08) return '';
  if (cell.low === 'one of' || cell.low === 'from') {
    const told: unknown = cell.low === 'one of' ? JSON.parse(cell.high) : [];
    const limits = Array.isArray(told) ? {} : (told as { low?: number; high?: number; unit?: string });
    if (limits.low !== undefined && limits.high !== undefined && random() < 0.3)
      return withUnit(number(cell, limits.low, limits.high, random), limits.unit ?? '');
    return pick(choices(cell, cells), random);
  }
  const limit = (said: string): number => Number(/^-?\d*\.?\d+(?:[eE][-+]?\d+)?/.exec(said)?.[0]);
  return withUnit(number(cell, limit(cell.low), limit(cell.high), random), cell.unit);
}
