/** What is shipped carries the licence of the program and the notices of everything in it. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { build } from '../build.ts';
import { useBrowser } from './browser.ts';

const folder = mkdtempSync(join(tmpdir(), 'overbench-maps-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const opened = useBrowser();
// What is read below is there only if it was built: the page is, for all that drive it.
build('command-line');

/** The packages that the source maps of a build name: the bundler's own word on what each letter of it came from, by another way than the notices are made. */
function packagesBy(config: string): readonly string[] {
  const out = join(folder, config.replaceAll('/', '-'));
  const env: NodeJS.ProcessEnv = { ...process.env, NODE_ENV: 'production' };
  delete env.VITEST;
  execFileSync(process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--config', config, '--outDir', out, '--sourcemap', '--logLevel', 'error'], {
    env,
  });
  const maps = readdirSync(out, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.map'));
  expect(maps.length).toBeGreaterThan(5);
  const sources = maps.flatMap((map) => (JSON.parse(readFileSync(join(out, map), 'utf8')) as { sources: string[] }).sources);
  const packages = sources.flatMap((source) => /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(source)?.[1] ?? []);
  return [...new Set(packages)].sort();
}

describe.each([
  ['the page', 'vite.config.ts', 'dist/app', 'LICENSE.txt', ['hyperformula', 'lit-html', 'idb', '@codemirror/state'], 20],
  ['the command line', 'src/cli/vite.config.ts', 'dist', 'LICENSE', ['hyperformula', 'papaparse'], 9],
] as const)('%s', (_, config, place, licence, some, count) => {
  const notices = readFileSync(`${place}/notices.txt`, 'utf8');
  const named = [...notices.matchAll(/^-{80}\n\n(?!Font )(\S+) (\d\S*), (.*)$/gmu)];

  it('carries the licence of the program as it stands', () => {
    expect(readFileSync(`${place}/${licence}`, 'utf8')).toBe(readFileSync('LICENSE', 'utf8'));
  });

  it('names every package that is in it and no other, each with its own version and the whole of its licence file', () => {
    const names = named.map(([, name = '']) => name);
    for (const name of some) expect(names).toContain(name);
    expect(names).toHaveLength(count);
    expect(names).toEqual(packagesBy(config));
    expect(notices).toContain(`holds ${count} packages and 2 fonts of others`);
    for (const [, name, version] of named) {
      const from = `node_modules/${name}`;
      expect(version, name).toBe((JSON.parse(readFileSync(`${from}/package.json`, 'utf8')) as { version: string }).version);
      const files = readdirSync(from).filter((file) => /^(?:licen[cs]e|notice|copying)/iu.test(file));
      expect(files.length, name).toBeGreaterThan(0);
      for (const file of files) expect(notices.includes(readFileSync(`${from}/${file}`, 'utf8').trim()), `${name} ${file}`).toBe(true);
    }
  }, 120_000);

  it('carries the licences of its fonts', () => {
    const fonts = readdirSync('src/ui/fonts').filter((name) => name.endsWith('.txt'));
    expect(fonts).toEqual(['OFL-literata.txt', 'OFL-recursive.txt']);
    for (const font of fonts) expect(notices).toContain(readFileSync(`src/ui/fonts/${font}`, 'utf8').trim());
  });
});

it('the first page says where the licence and the notices are, and both can be read there', async () => {
  const page = await opened.visit();
  for (const [name, file] of [
    ['Licence', 'dist/app/LICENSE.txt'],
    ['notices', 'dist/app/notices.txt'],
  ] as const) {
    await page.getByRole('link', { name, exact: true }).click();
    expect(((await page.locator('body').textContent()) ?? '').trim()).toBe(readFileSync(file, 'utf8').trim());
    await page.goBack();
  }
  expect(opened.complaints).toEqual([]);
});
