// Builds the page and the command line. Node built-ins only, besides the builder itself.
//   node src/setup/build.mjs                  builds both
//   node src/setup/build.mjs page             builds one: page, or command-line
//   node src/setup/build.mjs --unless-fresh   builds what is not there yet, or was made of other sources, or was changed since
// Beside what a build has made stands a stamp of its sources and of itself, so that a check builds once and its tests do not build again.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** Each with what it makes. */
const PARTS = {
  page: { config: 'vite.config.ts', made: ['dist/app'] },
  'command-line': { config: 'src/cli/vite.config.ts', made: ['dist/cli', 'dist/index.js', 'dist/index.d.ts', 'dist/LICENSE', 'dist/notices.txt'] },
};
/** The packages are those of the lock file: src/setup/install.mjs holds them to it. */
const SOURCES = ['LICENSE', 'functions', 'src', 'templates', 'package.json', 'package-lock.json', 'tsconfig.json', 'vite.config.ts'];

function addTo(hash, path) {
  const whole = join(root, path);
  if (!existsSync(whole)) hash.update(`${path} is not there\n`);
  else if (statSync(whole).isDirectory()) for (const name of readdirSync(whole).sort()) addTo(hash, `${path}/${name}`);
  else {
    const content = readFileSync(whole);
    hash.update(`${path} ${content.length}\n`).update(content);
  }
}

function hashOf(paths) {
  const hash = createHash('sha256');
  for (const path of paths) addTo(hash, path);
  return hash.digest('hex');
}

const stampFile = (part) => join(root, `dist/.${part}.stamp`);
const stampOf = (part, sources) => `sources ${sources}\nmade ${hashOf(PARTS[part].made)}\n`;
const fresh = (part) => existsSync(stampFile(part)) && readFileSync(stampFile(part), 'utf8') === stampOf(part, hashOf(SOURCES));

function build(part) {
  const sources = hashOf(SOURCES);
  rmSync(stampFile(part), { force: true });
  // A test runner's own settings must not reach the build: it would be another one.
  const env = { ...process.env, NODE_ENV: 'production' };
  delete env.VITEST;
  const vite = [join(root, 'node_modules/vite/bin/vite.js'), 'build', '--config', PARTS[part].config, '--logLevel', 'warn'];
  const { status } = spawnSync(process.execPath, vite, { cwd: root, stdio: 'inherit', env });
  if (status !== 0) process.exit(status ?? 1);
  mkdirSync(join(root, 'dist'), { recursive: true });
  // Whoever changes a source while it is built gets a stamp that does not fit, and with it another build.
  writeFileSync(stampFile(part), stampOf(part, sources));
}

const words = process.argv.slice(2);
const asked = words.filter((word) => word !== '--unless-fresh');
const unknown = asked.find((word) => !(word in PARTS));
if (unknown !== undefined) {
  console.error(`${unknown} is nothing that is built. Say page, command-line, or nothing for both; --unless-fresh leaves what is as its sources make it.`);
  process.exit(2);
}
for (const part of asked.length ? asked : Object.keys(PARTS)) {
  if (words.includes('--unless-fresh') && fresh(part)) continue;
  build(part);
}
