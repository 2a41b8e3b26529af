// Finds a Chromium for the tests, or installs one. Node built-ins only.
//   node src/setup/browser.mjs   prints the path of the browser, installing one if there is none
// A missing browser is an error, never a reason to skip tests.
import { existsSync, readdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { canRun, installPackages, onPath, run } from './debian.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

const USUAL = {
  linux: ['/opt/google/chrome/chrome'],
  darwin: ['/Applications/Google Chrome.app/Contents/MacOS/Google Chrome', '/Applications/Chromium.app/Contents/MacOS/Chromium'],
  win32: ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].map((at) => join(process.env[at] ?? '', 'Google/Chrome/Application/chrome.exe')),
};

/** Where Playwright keeps the browsers that it was told to install. */
function playwrightCache() {
  const byPlatform = { darwin: 'Library/Caches/ms-playwright', win32: 'AppData/Local/ms-playwright' };
  const cache = process.env.PLAYWRIGHT_BROWSERS_PATH || join(homedir(), byPlatform[process.platform] ?? '.cache/ms-playwright');
  if (!existsSync(cache)) return undefined;
  const names = new Set(['headless_shell', 'chrome-headless-shell', 'chrome-headless-shell.exe', 'headless_shell.exe']);
  const builds = readdirSync(cache)
    .filter((name) => name.startsWith('chromium_headless_shell-'))
    .sort((a, b) => Number(b.split('-').pop()) - Number(a.split('-').pop()));
  for (const build of builds) {
    for (const inner of readdirSync(join(cache, build), { withFileTypes: true }).filter((entry) => entry.isDirectory())) {
      const folder = join(cache, build, inner.name);
      const name = readdirSync(folder).find((file) => names.has(file));
      if (name && canRun(join(folder, name))) return join(folder, name);
    }
  }
  return undefined;
}

/** The path of a browser that is there already, or undefined. `CHROME_PATH` comes first and must then be right. */
export function findBrowser() {
  const said = process.env.CHROME_PATH;
  if (said) {
    if (canRun(said)) return said;
    throw new Error(`CHROME_PATH is ${said}, which can't be run. Set it to a Chromium or Chrome, or unset it.`);
  }
  return (
    onPath('chromium-headless-shell') ??
    onPath('chromium') ??
    onPath('google-chrome-stable') ??
    onPath('google-chrome') ??
    (USUAL[process.platform] ?? []).find(canRun) ??
    playwrightCache()
  );
}

/** Flags for a browser that runs tests: no sandbox (a container's root user has none to offer), and no talk with the outside. */
export const BROWSER_FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * The same for many short visits: a page that is left after some seconds has no use of the compilers that make fast code of what runs often, and they
 * take a fifth of all the time that its tests do. Nothing that measures time is run with them.
 */
export const VISIT_FLAGS = [...BROWSER_FLAGS, '--js-flags=--no-maglev --no-turbofan'];

function installBrowser() {
  if (installPackages('chromium-headless-shell')) return;
  run(process.execPath, join(root, 'node_modules/playwright/cli.js'), 'install', '--only-shell', 'chromium');
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    if (!findBrowser()) installBrowser();
    const found = findBrowser();
    if (!found)
      throw new Error('The tests need a Chromium and none could be installed. Install chromium-headless-shell, chromium or Chrome, or set CHROME_PATH to one.');
    console.log(`Browser: ${found}`);
  } catch (error) {
    console.error(error.message);
    process.exit(1);
  }
}
