/**
 * The commands that README.md shows, typed as they stand into an interactive shell on a terminal: there a `!` would be taken for a command of before,
 * in double quotes too. bash is of the base system, and so is script (bsdutils), which makes the terminal.
 */
import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, resolve } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { desk } from './run.ts';

const files = desk();
afterAll(() => files.clear());

const readme = readFileSync('README.md', 'utf8');
/** Those of npm run this test, or serve until they are stopped. */
const NOT_HERE = /^npm /;
/** Those of blocks, and of the table that says what each is for, in the order in which they stand. */
const commands = [...readme.matchAll(/^```sh\n([\s\S]*?)^```|^\|[^|]+\| `(overbench [^`|]+)` \|$/gm)]
  .flatMap(([, block = '', row = '']) => [...block.replaceAll(/\\\n/g, '\\\0').split('\n'), row])
  .map((line) => line.replaceAll('\0', '\n'))
  .filter((line) => line.trim() !== '' && !NOT_HERE.test(line));

/** A program of that name in the folder where commands are looked for first. */
function program(name: string, text: string): void {
  const path = files.path(`bin/${name}`);
  writeFileSync(path, text);
  chmodSync(path, 0o755);
}

function prepare(): void {
  mkdirSync(files.path('bin'));
  program('overbench', `#!/bin/sh\nexec '${process.execPath}' '${resolve('dist/cli/overbench.js')}' "$@"\n`);
  // In the place of GNU parallel, which need not be there: all of its input is one piece, under its head.
  program(
    'parallel',
    `#!/bin/sh\nwhile [ "$1" != overbench ]; do shift; done\nn=$#\nwhile [ $n -gt 0 ]; do\n  word=$(printf %s "$1" | sed 's/{#}/1/')\n  shift\n  set -- "$@" "$word"\n  n=$((n - 1))\ndone\nexec "$@"\n`,
  );
  writeFileSync(files.path('clients.csv'), 'client,bench_length [ft],bench_width,Scenarios.A7 [cm]\nNorth house,12,1.2 m,45\nSouth house,12.5,1.25 m,50\n');
  writeFileSync(files.path('readings.csv'), 'table,address,value,unit\nReadings,Readings.B2,12000,\n');
  writeFileSync(files.path('enquiry.txt'), 'A bench, 3.6 m long and 1.5 m wide, basil, 16 hours.\n');
  writeFileSync(files.path('formulas.txt'), '=1+1\n=DLI(200,16)\n');
  copyFileSync('tests/templates/old/trade-bench.1.json', files.path('old.json'));
}

interface Typed {
  readonly status: number;
  readonly out: string;
}

const MARK = 'is the status of';

/** Each is typed into one interactive bash, one after the other; what it says stands between the marks that are typed after each. */
function typed(lines: readonly string[]): readonly Typed[] {
  const input = [...lines.flatMap((line, i) => [line, `printf '\\n%s ${MARK} %s\\n' "$?" ${i}`]), 'exit', ''].join('\n');
  const env = { ...process.env, PATH: `${files.path('bin')}${delimiter}${process.env.PATH ?? ''}`, LC_ALL: 'C.UTF-8', TERM: 'dumb', HISTFILE: '' };
  const { stdout, error } = spawnSync('script', ['-qec', 'bash --norc --noprofile -i', '/dev/null'], {
    cwd: files.path('.'),
    input,
    encoding: 'utf8',
    env,
    maxBuffer: 1 << 26,
  });
  if (error) throw error;
  const ends = [...stdout.replaceAll('\r', '').matchAll(new RegExp(`^(\\d+) ${MARK} \\d+$`, 'gm'))];
  const text = stdout.replaceAll('\r', '');
  return ends.map((end, i) => ({ status: Number(end[1]), out: text.slice(ends[i - 1]?.index ?? 0, end.index) }));
}

describe('in an interactive shell on a terminal', () => {
  test('a ! is a command of before, in double quotes too: the shell of this test is one in which that shows', () => {
    const [quoted, plain] = typed(['echo "Scenarios!B16"', 'echo Scenarios.B16']);
    expect(quoted?.out).toContain('!B16: event not found');
    expect(plain).toMatchObject({ status: 0, out: expect.stringMatching(/^Scenarios\.B16$/m) });
  });

  test('every command of README.md runs as it is written', () => {
    prepare();
    expect(commands.length).toBeGreaterThan(14);
    // One that is neither in a block nor alone in its row of the table would not be run: those in sentences are not whole commands.
    expect(commands.filter((line) => line.startsWith('overbench'))).toHaveLength([...readme.matchAll(/^\|.*overbench /gm)].length);
    const ran = typed(commands);
    expect(ran).toHaveLength(commands.length);
    for (const [i, { status, out }] of ran.entries())
      expect({ command: commands[i], status, said: out }).toEqual({ command: commands[i], status: 0, said: out });
    const said = (start: string): string => ran[commands.findIndex((line) => line.startsWith(start))]?.out ?? '';
    expect(said('overbench working')).toMatch(/Scenarios\.B16, worked/);
    expect(said("overbench eval '=DLI")).toMatch(/^11\.52 mol\/m²\/d$/m);
    expect(said('overbench take-in')).toMatch(/taken in/i);
    expect(readFileSync(files.path('results.csv'), 'utf8').match(/^North house,|^South house,/gm)?.length).toBeGreaterThan(1);
    // What stands in the text and not among the commands; and the writing of before, in single quotes.
    const set = /`--set (Scenarios\.[^`]+)`/.exec(readme)?.[1] ?? '';
    const [own, old] = typed([
      `overbench new trade-bench --set ${set} -o own.json`,
      `overbench new trade-bench --set '${set.replace('.', '!')}' -o old-writing.json`,
    ]);
    expect([own?.status, old?.status], set).toEqual([0, 0]);
    const tables = (name: string): unknown => (JSON.parse(files.read(name)) as { readonly tables: unknown }).tables;
    expect(tables('own.json')).toEqual(tables('old-writing.json'));
    expect(files.read('own.json')).toContain('"45 cm"');
  });
});
