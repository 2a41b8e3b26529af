/** What the licences of the packages and fonts ask for: their notices go along with every build, made from their own files, by what the bundle really holds. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

const root = fileURLToPath(new URL('../..', import.meta.url));
const FONTS = `${root}src/ui/fonts`;
const LICENCE_FILE = /^(?:licen[cs]e|copying|notice|copyright)(?:[.-].*)?$/iu;

interface Gatherer {
  /** For each of the builds that make one bundle: the page, its worker. It sees what they hold. */
  readonly watch: () => Plugin;
  /** For the last of them: writes LICENSE.txt and notices.txt beside the bundle. */
  readonly write: () => Plugin;
}

export function notices(licence: string): Gatherer {
  const folders = new Set<string>();
  const fonts = new Set<string>();
  const watch = (): Plugin => ({
    name: 'what the bundle holds',
    generateBundle(_, bundle) {
      for (const part of Object.values(bundle)) {
        const held = part.type === 'chunk' ? Object.entries(part.modules).flatMap(([id, { code }]) => (code === null ? [] : [id])) : part.originalFileNames;
        for (const id of held) {
          const folder = packageOf(id);
          if (folder !== undefined) folders.add(folder);
          const font = /([a-z]+)(?:-[a-z-]+)?\.woff2(?:\?.*)?$/u.exec(id)?.[1];
          if (font !== undefined) fonts.add(font);
        }
      }
    },
  });
  const write = (): Plugin => ({
    name: 'notices',
    generateBundle: {
      order: 'post',
      handler() {
        this.emitFile({ type: 'asset', fileName: licence, source: readFileSync(`${root}LICENSE`, 'utf8') });
        this.emitFile({ type: 'asset', fileName: 'notices.txt', source: noticesText([...folders].sort(), [...fonts].sort()) });
      },
    },
  });
  return { watch, write };
}

/** The folder of the package that a module is of. */
function packageOf(id: string): string | undefined {
  const [, folder] = /^\0?(.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+)[\\/]/u.exec(id) ?? [];
  return folder;
}

function noticesText(folders: readonly string[], fonts: readonly string[]): string {
  const packages = folders.map(packageNotice);
  const letters = fonts.map((font) => `Font ${font}\n\n${readFileSync(join(FONTS, `OFL-${font}.txt`), 'utf8').trim()}\n`);
  return [
    `Overbench is free software under the GNU General Public License, version 3 only. It holds ${packages.length} packages and ${letters.length} fonts of others, whose notices follow.\n`,
    ...packages,
    ...letters,
  ].join(`\n${'-'.repeat(80)}\n\n`);
}

function packageNotice(folder: string): string {
  const about = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as { name: string; version: string; license?: string };
  const files = licenceFiles(folder);
  if (files.length === 0) throw new Error(`${about.name} comes without a licence file: its notice can't be made`);
  return `${about.name} ${about.version}, ${about.license ?? 'licence as below'}\n\n${files.map((file) => readFileSync(file, 'utf8').trim()).join('\n\n')}\n`;
}

const licenceFiles = (folder: string): string[] =>
  readdirSync(folder)
    .filter((name) => LICENCE_FILE.test(name) && !/\.(?:js|ts|json)$/u.test(name))
    .sort()
    .map((name) => join(folder, name));
