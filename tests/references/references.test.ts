/** Every value from outside is met by a formula of ours within its own tolerance, or stands in not-covered.json with the reason. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import ids from './ids.json' with { type: 'json' };
import notCovered from './not-covered.json' with { type: 'json' };
import { type Check, type Checks, outcome } from './outside.ts';

interface Case {
  readonly id: string;
  readonly expected: unknown;
  readonly tolerance: number | string;
  readonly source: { readonly title: string };
  readonly confidence: string;
}

/** May only fall. Of these, 16 are photometric files, which are read later. */
const MOST_NOT_COVERED = 17;
/** Topics in which every case is met, with the exceptions allowed. */
const COMPLETE: Readonly<Record<string, RegExp>> = {
  air: /^$/,
  beam: /^$/,
  field: /^$/,
  dli: /^$/,
  uniformity: /^$/,
  money: /^$/,
  maintenance: /^$/,
  electrical: /^$/,
  photon: /^$/,
};

const here = new URL('.', import.meta.url);
const topics = readdirSync(new URL('cases/', here)).map((file) => file.replace('.json', ''));
const casesOf = (topic: string): Case[] => JSON.parse(readFileSync(new URL(`cases/${topic}.json`, here), 'utf8')) as Case[];
const formulas = import.meta.glob<{ checks: Checks }>('./formulas/*.ts', { eager: true });
const checksOf = (topic: string): Checks => formulas[`./formulas/${topic}.ts`]?.checks ?? {};
const reasons = new Map(notCovered.map(({ id, reason }) => [id, reason]));

function part(expected: unknown, of: Check['of']): unknown {
  if (of === undefined) return expected;
  const found = (expected as Record<string | number, unknown>)[of];
  if (found === undefined) throw new Error(`the case expects no “${of}”`);
  return found;
}

/** Half a unit of the last digit, where a value is written with six digits or more and decimals: it was rounded there. */
function rounding(x: number): number {
  const [whole = '', decimals = ''] = String(Math.abs(x)).split('.');
  const digits = `${whole}${decimals}`.replace(/^0+/, '').length;
  return decimals === '' || digits < 6 || String(x).includes('e') ? 0 : 0.5 * 10 ** -decimals.length;
}

async function hold(check: Check, { expected, tolerance }: Case): Promise<void> {
  const got = await outcome(check);
  if (check.refused !== undefined) {
    expect(got).toMatch(/^refused: /);
    expect(got).toContain(check.refused);
    return;
  }
  if (check.between) {
    const [low, high] = part(expected, check.of) as [number, number];
    expect(got).toBeGreaterThanOrEqual(low);
    expect(got).toBeLessThanOrEqual(high);
    return;
  }
  const wanted = check.says ?? part(expected, check.of);
  if (typeof wanted !== 'number') {
    expect(got).toBe(wanted);
    return;
  }
  expect(got, check.formula).toBeTypeOf('number');
  if (typeof tolerance !== 'number') throw new Error(`the tolerance “${tolerance}” is no number`);
  // An exact value still passes through units: a few ulp.
  const allowed = Math.max(tolerance, rounding(wanted), Math.abs(wanted) * 1e-14) * (1 + 1e-9);
  expect(Math.abs((got as number) - wanted), `${check.formula} gives ${got}, expected ${wanted}`).toBeLessThanOrEqual(allowed);
}

test('no case has gone missing, and each is met once or said to be not covered', () => {
  expect(topics.toSorted()).toEqual(Object.keys(ids).toSorted());
  for (const [topic, listed] of Object.entries(ids)) {
    expect(casesOf(topic).map(({ id }) => id)).toEqual(listed);
    const checked = Object.keys(checksOf(topic));
    expect(checked.filter((id) => !listed.includes(id))).toEqual([]);
    expect(listed.filter((id) => checked.includes(id) === reasons.has(id))).toEqual([]);
  }
  expect([...reasons.keys()].filter((id) => !Object.values(ids).flat().includes(id))).toEqual([]);
});

test('what is not covered may only grow less, has a reason each, and leaves whole topics alone', () => {
  console.log(`cases from outside: ${Object.values(ids).flat().length}; not covered: ${notCovered.length}`);
  expect(notCovered.length).toBeLessThanOrEqual(MOST_NOT_COVERED);
  for (const { reason } of notCovered) expect(reason.trim().length).toBeGreaterThan(5);
  for (const [topic, allowed] of Object.entries(COMPLETE)) {
    const open = notCovered.filter(({ id }) => id.startsWith(`${topic}-`) && !allowed.test(reasons.get(id) ?? ''));
    expect(open, topic).toEqual([]);
  }
});

test('every case names its source and how sure it is', () => {
  for (const c of topics.flatMap(casesOf)) {
    expect(c.source.title.trim(), c.id).not.toBe('');
    expect(c.confidence.trim(), c.id).not.toBe('');
  }
});

const met = (topic: string): Case[] => casesOf(topic).filter(({ id }) => !reasons.has(id));

describe.each(topics.filter((topic) => met(topic).length > 0))('%s', (topic) => {
  test.each(met(topic).map((c) => [c.id, c] as const))('%s', async (id, c) => {
    const checks = checksOf(topic)[id];
    if (!checks) throw new Error(`no formula for ${id}`);
    for (const check of 'formula' in checks ? [checks] : checks) await hold(check, c);
  });
});
