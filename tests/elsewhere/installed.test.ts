/** The one file that `npm pack` makes, in a project of someone else's, with no network and nothing that npm has kept. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { desk } from '../cli/run.ts';
import { block } from './readme.ts';

const files = desk();
const project = files.path('project');
afterAll(() => files.clear());

function done(command: string, args: readonly string[], cwd: string): string {
  const { status, stdout, stderr, error } = spawnSync(command, args, { cwd, encoding: 'utf8' });
  expect({ command: [command, ...args].join(' '), status, stderr, error }).toMatchObject({ status: 0 });
  return stdout;
}

beforeAll(() => {
  done('npm', ['pack', '--pack-destination', files.path('.')], resolve('.'));
  const packed = readdirSync(files.path('.')).filter((name) => name.endsWith('.tgz'));
  expect(packed).toEqual(['overbench-0.1.0.tgz']);
  mkdirSync(project);
  done('npm', ['install', '--offline', '--no-audit', '--no-fund', '--cache', files.path('cache'), '../overbench-0.1.0.tgz'], project);
});

test('it brings nothing along, and gives the command', () => {
  expect(readdirSync(`${project}/node_modules`).filter((name) => !name.startsWith('.'))).toEqual(['overbench']);
  expect(done('npx', ['--offline', 'overbench', 'eval', '=DLI(200 µmol/m²/s, 16 h/d)'], project)).toBe('11.52 mol/m²/d\n');
  done('npx', ['--offline', 'overbench', 'new', 'trade-bench', '-o', 'club.json'], project);
  expect(done('npx', ['--offline', 'overbench', 'batch', 'trade-bench', 'club.csv', '--wide', '--jobs', '2'], withClients())).toMatch(
    /^client,scenario,[\s\S]*^Club,A,/m,
  );
});

/** So that worker threads are found too. */
function withClients(): string {
  writeFileSync(`${project}/club.csv`, 'client,bench_length [ft]\nClub,12\n');
  return project;
}

test('the example of the library runs as it is written, and gives what stands beside it', () => {
  const example = block('js', "from 'overbench'");
  // A program of its own, with what it calls told at its end.
  const calls = [...example.matchAll(/^(await (?:evaluate|book\.working)\(.*?\)|book\.value\(.*?\)|book\.csv\(.*?\));/gm)].map(([, call]) => call);
  expect(calls).toHaveLength(4);
  writeFileSync(`${project}/example.mjs`, `${example}\nconsole.log(JSON.stringify([book.value('bench_length'), ${calls.join(', ')}]));\nbook.close();\n`);
  const [length, dli, working, csv, evaluated] = JSON.parse(done('node', ['example.mjs'], project));
  expect(length).toEqual({ kind: 'number', value: 12, unit: 'ft' });
  expect(dli).toEqual({ kind: 'number', value: expect.any(Number), unit: 'mol/m²/d' });
  expect(working).toMatchObject({ formula: expect.stringMatching(/^=DLI\(/), value: dli, steps: expect.any(Array), from: expect.any(Array) });
  expect(csv).toMatch(/^Scenarios,/);
  // 200 µmol/m²/s over 16 h is 200 · 16 · 3600 / 10⁶ = 11.52 mol/m²/d.
  expect(evaluated).toEqual({ kind: 'number', value: 11.52, unit: 'mol/m²/d' });
});
