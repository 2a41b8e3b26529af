// Installs the packages when they are not there or not those of the lock file. Node built-ins only: it runs before anything is installed.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../', import.meta.url));
const oldest = [20, 19];

const read = (path) => JSON.parse(readFileSync(`${root}${path}`, 'utf8'));

/** npm itself writes down in node_modules what it has installed there. */
function installed() {
  if (!existsSync(`${root}node_modules/.package-lock.json`)) return false;
  const have = read('node_modules/.package-lock.json').packages;
  return Object.entries(read('package-lock.json').packages).every(([path, wanted]) => {
    if (path === '') return true;
    // Packages for another kind of machine are rightly missing.
    if (!have[path]) return wanted.optional || wanted.devOptional;
    return have[path].version === wanted.version && have[path].integrity === wanted.integrity;
  });
}

function checkNode() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major > oldest[0] || (major === oldest[0] && minor >= oldest[1])) return;
  console.error(`Overbench needs Node ${oldest.join('.')} or later; this is ${process.versions.node}.`);
  process.exit(1);
}

function npm(...args) {
  // npm tells the scripts it runs where it is itself; by hand, the one on the path is as good.
  const self = process.env.npm_execpath;
  const [command, all] = self ? [process.execPath, [self, ...args]] : ['npm', args];
  return spawnSync(command, all, { cwd: root, stdio: 'inherit', shell: !self && process.platform === 'win32' }).status ?? 1;
}

checkNode();
if (!installed()) {
  console.log('Installing the packages that package-lock.json names…');
  const status = npm('ci', '--include=dev', '--no-audit', '--no-fund');
  if (status !== 0) {
    console.error('npm ci failed; its message is above. With a network connection, run the command again.');
    process.exit(status);
  }
}
