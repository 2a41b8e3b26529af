import { writeFileSync } from 'node:fs';
import { afterAll, describe, expect, test } from 'vitest';
import { desk, overbench } from './run.ts';

const files = desk();
afterAll(() => files.clear());

const ENQUIRY =
  'We have four shelves, 3 ft by 14 in, 15 inches apart, and want to start tomatoes and basil, 16 hours, normal 120 V outlet, power is 19 cents. Budget 400. Sides are 2 m tall.';
writeFileSync(files.path('enquiry.txt'), ENQUIRY);

interface Read {
  readonly template: string;
  readonly findings: readonly { given: string; value: unknown; unit: string; sure: boolean; words: string; at: readonly [number, number] }[];
  readonly unused: readonly { words: string; value: unknown; unit: string }[];
  readonly missing: readonly string[];
}

const readJson = async (args: readonly string[], input = ''): Promise<Read> => JSON.parse((await overbench(['read', ...args, '--json'], input)).out) as Read;

describe('an enquiry', () => {
  test('is answered with a line a finding: given, value, unit, whether it is sure, and the words', async () => {
    const { status, out, err } = await overbench(['read', files.path('enquiry.txt')]);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    const lines = out.trimEnd().split('\n');
    expect(lines[0]).toMatch(/^template: rack-of-tiers \(.*shelves.*\)$/);
    expect(out).toMatch(/^tiers +4 +sure +“four shelves”$/m);
    expect(out).toMatch(/^bench_length +0\.9144 +m +ask +“3 ft by 14 in”/m);
    expect(out).toMatch(/^tier_gap +0\.381 +m +ask +“15 inches apart”/m);
    expect(out).toMatch(/^tariff +0\.19 +\/kWh +ask +“power is 19 cents”/m);
    expect(lines.at(-1)).toMatch(/^left to ask: .*breaker/);
  });

  test('is an object of JSON, with places in the text and values in the quantities of their givens', async () => {
    const read = await readJson([files.path('enquiry.txt')]);
    expect(Object.keys(read)).toEqual(['template', 'findings', 'unused', 'missing']);
    expect(read.template).toBe('rack-of-tiers');
    for (const { words, at } of read.findings) expect(ENQUIRY.slice(at[0], at[1])).toBe(words);
    const found = new Map(read.findings.map((one) => [one.given, one]));
    // 3 ft = 3 × 0.3048 m, 14 in = 14 × 0.0254 m.
    expect(found.get('bench_width')).toMatchObject({ value: 0.3556, unit: 'm', sure: false });
    expect(found.get('light_hours')).toMatchObject({ value: 16, unit: 'h/d', sure: true });
    expect(found.get('mains_volts')).toMatchObject({ value: 120, unit: 'V', sure: true });
    expect(read.findings.filter(({ given }) => given === 'crop').map(({ value, sure }) => [value, sure])).toEqual([
      ['tomato', false],
      ['sweet basil', false],
    ]);
    expect(read.missing).toEqual(expect.arrayContaining(['breaker', 'circuits_free', 'spare_power']));
    for (const { given } of read.findings) expect(read.missing).not.toContain(given);
  });

  test('comes on standard input too, and is read for the template that is said', async () => {
    const read = await readJson(['-', '--template', 'greenhouse-bench'], 'Bench 6 m long, 1.5 m wide. 41 degrees south, aisle 60 cm. Budget $500.');
    expect(read.template).toBe('greenhouse-bench');
    expect(read.findings).toMatchObject([
      { given: 'bench_length', value: 6, sure: true },
      { given: 'bench_width', value: 1.5, sure: true },
      { given: 'latitude', value: -41, unit: '°', sure: true },
    ]);
    // A greenhouse bench has no aisle, and no template asks for a budget.
    expect(read.unused).toMatchObject([
      { value: 0.6, unit: 'm' },
      { value: 500, unit: 'USD' },
    ]);
  });

  test('gives readings as rows, null where a place was left out', async () => {
    const read = await readJson(['-'], 'Readings in lux:\n5200 5400 5100\n5000 - 4900\nBench 2 m long.');
    expect(read.template).toBe('meter-check');
    expect(read.findings.find(({ given }) => given === 'Readings.B2')).toMatchObject({
      value: [
        [5200, 5400, 5100],
        [5000, null, 4900],
      ],
      unit: 'lx',
    });
  });

  test('makes a book of what is sure, with the words as who said so, the text kept and the rest left to ask', async () => {
    const book = files.path('book.json');
    const ran = await overbench(['read', files.path('enquiry.txt'), '--book', book, '--json']);
    expect(ran).toMatchObject({ status: 0, err: '' });
    const stored = JSON.parse(files.read('book.json')) as {
      enquiry: string;
      measures: string;
      tables: { id: string; cells: Record<string, Record<string, { content: string; source?: string }>> }[];
    };
    expect(stored.enquiry).toBe(ENQUIRY);
    expect(stored.measures).toBe('US customary');
    const brief = stored.tables.find(({ id }) => id === 'brief')?.cells ?? {};
    expect(brief.tiers?.a).toMatchObject({ content: '4', source: 'client, “four shelves”' });
    expect(brief.light_hours?.a).toMatchObject({ content: '16 h/d', source: 'client, “16 hours”' });
    expect(brief.bench_length?.a?.source).toMatch(/^default: to begin with, ask the client/);
    // It opens, and is worked out.
    expect((await overbench(['show', book, 'Brief'])).out).toMatch(/Lit tiers +4/);
  });

  test('a line each, as strings of JSON, gives an object a line, and a line that is none says so', async () => {
    const { status, out } = await overbench(['read', '-', '--lines'], `${JSON.stringify('Bench 2 m long.\n16 hours')}\nnone\n\n${JSON.stringify('')}\n`);
    const lines = out.trimEnd().split('\n');
    expect(lines).toHaveLength(3);
    expect(JSON.parse(lines[0] ?? '')).toMatchObject({ template: 'trade-bench', findings: [{ given: 'bench_length' }, { given: 'light_hours' }] });
    expect(JSON.parse(lines[1] ?? '')).toEqual({ error: 'This line is no JSON string.' });
    expect(JSON.parse(lines[2] ?? '')).toMatchObject({ findings: [], unused: [] });
    expect(status).toBe(1);
  });
});

test.each([
  ['no file', ['read'], /a file is missing; - is standard input/],
  ['two files', ['read', 'a', 'b'], /one file at a time, not also b/],
  ['a template that there is not', ['read', '-', '--template', 'trade-bunch'], /no template trade-bunch; nearest: trade-bench/],
  ['a book beside --lines', ['read', '-', '--lines', '--book', 'x.json'], /with --lines/],
] as const)('%s is answered with how to call it, and exit status 2', async (_, args, message) => {
  const { status, err } = await overbench(args);
  expect(err).toMatch(message);
  expect(status).toBe(2);
});

test('a file that is not there is said, and exit status 1', async () => {
  for (const more of [[], ['--lines']]) expect(await overbench(['read', files.path('none.txt'), ...more])).toMatchObject({ status: 1, out: '' });
});
