import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { expect, test } from 'vitest';
import { functions } from '../../functions/index.ts';
import { overbench } from './run.ts';

interface Line {
  readonly formula: string;
  readonly value?: number | string | boolean;
  readonly unit?: string;
  readonly error?: string;
}

async function lines(input: readonly string[]): Promise<{ readonly status: number | null; readonly said: readonly Line[] }> {
  const { status, out } = await overbench(['eval', '--lines'], `${input.join('\n')}\n`);
  return {
    status,
    said: out
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as Line),
  };
}

const RIGHT = [
  ['=DLI(200,16)', 11.52, 'mol/m²/d'],
  ['=DLI(UNIT(200,"umol/m2/s"),UNIT(960,"min/d"))', 11.52, 'mol/m²/d'],
  ['=UNIT(6,"in")+UNIT(1,"ft")', 0.4572, 'm'],
  ['=UNIT(100,"W")*UNIT(16,"h/d")*UNIT(330,"d")', 528, 'kWh'],
  ['=UNIT(2,"m")*UNIT(3,"m")', 6, 'm²'],
  ['=UNIT(77,"°F")', 25, '°C'],
  ['=UNIT(90,"min")', 1.5, 'h'],
  ['=UNIT(1,"week")', 7, 'd'],
  ['=UNIT(30,"EUR")/UNIT(120,"kWh")', 0.25, 'EUR/kWh'],
  ['=UNIT(400,"W/m2")', 400, 'W/m²'],
  ['=UNIT(2,"klx")', 2000, 'lx'],
  ['=85%', 0.85, ''],
  ['=1/3', 1 / 3, ''],
  ['=2>1', true, ''],
  ['="a"&"b"', 'ab', ''],
] as const;

test('eval gives values in full precision, in the unit of their quantity', async () => {
  const { status, said } = await lines(RIGHT.map(([formula]) => formula));
  expect(status).toBe(0);
  for (const [i, [formula, value, unit]] of RIGHT.entries()) {
    const line = said[i];
    expect([line?.formula, line?.unit]).toEqual([formula, unit]);
    if (typeof value === 'number') expect(Math.abs(Number(line?.value) - value), formula).toBeLessThanOrEqual(1e-14 * value);
    else expect(line?.value, formula).toBe(value);
  }
});

test('eval --json says of one formula what --lines says', async () => {
  const { status, out } = await overbench(['eval', '=DLI(200,16)', '--json']);
  expect(status).toBe(0);
  expect(JSON.parse(out)).toEqual({ formula: '=DLI(200,16)', value: 11.52, unit: 'mol/m²/d' });
});

test('for people, eval prints the value and its unit, and a mistake in one line', async () => {
  expect(await overbench(['eval', '=DLI(200,16)'])).toMatchObject({ status: 0, out: '11.52 mol/m²/d\n' });
  const wrong = await overbench(['eval', '=UNIT(1,"m")+UNIT(1,"W")']);
  expect(wrong).toMatchObject({ status: 1, out: '' });
  expect(wrong.err).toMatch(/^overbench: .*length.*power.*\n$/);
});

const WRONG = [
  ['=NOSUCH(1)', /NOSUCH/],
  ['=1+', /can ?not be read|missing/],
  ['=DLI("bright",16)', /DLI.*ppfd.*number|number.*DLI|ppfd/i],
  ['=DLI(-1,16)', /ppfd/],
  ['=DLI(200,25)', /24/],
  ['=DLI(UNIT(200,"W"),16)', /µmol\/m²\/s|PPFD/],
  ['=nothing_so_called*2', /nothing_so_called/],
] as const;

test('a mistaken formula is said in words, and has no value', async () => {
  const { status, said } = await lines(WRONG.map(([formula]) => formula));
  expect(status).toBe(1);
  for (const [i, [formula, message]] of WRONG.entries()) {
    const line = said[i];
    expect(line?.error, formula).toMatch(message);
    expect(line, formula).not.toHaveProperty('value');
    expect(line?.error, formula).not.toMatch(/#[A-Z/]+[!?]|Error:|\n/);
  }
  expect((await overbench(['eval', '=NOSUCH(1)', '--json'])).status).toBe(1);
});

test('a bad formula among many is an error on its line, the run goes on, and the exit status tells', async () => {
  const { status, said } = await lines(['=1+1', '=1+', '', '=DLI(200,16)']);
  expect(status).toBe(1);
  expect(said.map((line) => line.formula)).toEqual(['=1+1', '=1+', '=DLI(200,16)']);
  expect(said[0]).toEqual({ formula: '=1+1', value: 2, unit: '' });
  expect(said[1]).toHaveProperty('error');
  expect(said[2]).toEqual({ formula: '=DLI(200,16)', value: 11.52, unit: 'mol/m²/d' });
  expect((await lines(['=1', '=2'])).status).toBe(0);
});

test('ten thousand formulas of every function come back in order, each with a value', async () => {
  const examples = functions.flatMap((f) => (f.slow ? [] : f.examples.map((e) => ({ formula: `=${e.formula}`, gives: e.gives, unit: f.returns.unit }))));
  const input = Array.from({ length: 10_000 }, (_, i) => examples[i % examples.length] as (typeof examples)[number]);
  const { status, said } = await lines(input.map((e) => e.formula));
  expect([...new Set(said.flatMap((line) => (line.error ? [`${line.formula} ${line.error}`] : [])))]).toEqual([]);
  expect(status).toBe(0);
  expect(said.map((line) => line.formula)).toEqual(input.map((e) => e.formula));
  for (const [i, line] of said.slice(0, examples.length).entries()) {
    const { gives, unit } = input[i] as (typeof input)[number];
    if (unit !== 'any' && unit !== '1' && typeof gives === 'number')
      expect([line.formula, line.unit]).toEqual([line.formula, unit.replace(/\bmoney\b/, 'EUR')]);
    if (typeof gives === 'string' && unit === 'text') expect(line.value).toBe(gives);
  }
});

test('lines are answered while more are still to come', async () => {
  const child = spawn(process.execPath, ['dist/cli/overbench.js', 'eval', '--lines'], { stdio: ['pipe', 'pipe', 'inherit'] });
  child.stdin.write('=1+1\n');
  const [first] = (await once(child.stdout, 'data')) as [Buffer];
  expect(first.toString()).toBe('{"formula":"=1+1","value":2,"unit":""}\n');
  child.stdin.end();
  const [status] = (await once(child, 'exit')) as [number];
  expect(status).toBe(0);
});

test('a reader that has seen enough and goes away is no failure', async () => {
  const child = spawn(process.execPath, ['dist/cli/overbench.js', 'eval', '--lines'], { stdio: ['pipe', 'pipe', 'pipe'] });
  let said = '';
  child.stderr.on('data', (data: Buffer) => (said += data.toString()));
  child.stdin.on('error', () => {
    // The program may be gone before all is written to it: that is what is tested.
  });
  child.stdout.once('data', () => child.stdout.destroy());
  child.stdin.end('=1+1\n'.repeat(20_000));
  const [status] = (await once(child, 'exit')) as [number];
  expect(said).toBe('');
  expect(status).toBe(0);
});
