// Programs that the tests drive and that are not of this project: where they are, and their packages where those may be installed without asking.
import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

export function canRun(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

export const onPath = (name) =>
  (process.env.PATH ?? '')
    .split(delimiter)
    .map((folder) => join(folder, name))
    .find(canRun);

/** What installs says goes to standard error: standard output is for what was asked. */
export function run(command, ...args) {
  console.error(`> ${[command, ...args].join(' ')}`);
  return spawnSync(command, args, { stdio: ['ignore', 2, 2], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } }).status === 0;
}

/** As root on Debian; anywhere else nothing is done, and the answer is false. */
export function installPackages(...names) {
  if (process.getuid?.() !== 0 || !existsSync('/etc/debian_version') || !onPath('apt-get')) return false;
  return run('apt-get', 'update', '-q') && run('apt-get', 'install', '-q', '-y', '--no-install-recommends', ...names);
}
