import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { circles } from './circles.mjs';
import { faults, type Imports, importsIn, judged, sources } from './faults.mjs';
import { importsOf, RECKONED } from './imports-of.mjs';
import { readMap } from './read-map.mjs';
import { readRooms } from './read-rooms.mjs';

const ROOT = join(import.meta.dirname, '../..');
let copy: string;
/** The copy as it is, which nothing is amiss with. */
let sound: Imports;

beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), 'map-'));
  for (const part of ['functions', 'src', 'templates', 'tests/map', 'DEVELOPERS.md']) cpSync(join(ROOT, part), join(copy, part), { recursive: true });
  sound = importsIn(copy, sources(copy));
});
afterAll(() => rmSync(copy, { recursive: true }));

const GUIDE = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
const MAP = readMap(GUIDE);
const ROOMS = readRooms(GUIDE);

/** What is found in the copy when a text stands behind what a file of it holds. Only that file is read again. */
function faultsWith(file: string, text: string): readonly string[] {
  const path = join(copy, file);
  const before = sound.has(file) ? readFileSync(path, 'utf8') : undefined;
  writeFileSync(path, `${before ?? ''}\n${text}\n`);
  try {
    return judged(MAP, ROOMS, new Map([...sound, ...importsIn(copy, [file])]));
  } finally {
    if (before === undefined) rmSync(path);
    else writeFileSync(path, before);
  }
}

test('the project imports what its map allows, and nothing in a circle', () => {
  expect(faults(ROOT)).toEqual([]);
});

describe('an import that the map does not allow is refused, and it is said by which file, of what, and what it may import', () => {
  test.each([
    ['src/book/find.ts', "import type { Scale } from '../pictures/scale.ts';", 'src/pictures/scale.ts', 'functions/nearest.ts'],
    ['src/files/csv/csv.ts', "export { series } from '../../pictures/series.ts';", 'src/pictures/series.ts', 'papaparse'],
    ['src/session.ts', "export type Map = import('./pictures/light-map.ts').Map;", 'src/pictures/light-map.ts', 'src/engine/types.ts'],
    ['src/pictures/scale.ts', "export type * from '../handover/sheet.ts';", 'src/handover/sheet.ts', 'd3-contour'],
    ['src/engine/engine.ts', "export const sheet = () => import('../handover/sheet.ts');", 'src/handover/sheet.ts', 'hyperformula'],
    ['src/shown.ts', "import { type createEngine } from './engine/engine.ts';", 'src/engine/engine.ts', 'functions/number-text.ts'],
    ['src/ui/blocks/prose.ts', "import '../../../functions/field/kernel.ts';", 'functions/field/kernel.ts', 'src/session.ts'],
    ['src/book/names.ts', "import type { Staged } from '../files/csv/staged.ts';", 'src/files/csv/staged.ts', 'valibot'],
    ['functions/units.ts', "import * as valibot from 'valibot';", 'valibot', 'functions/'],
    ['src/handover/sheet.ts', "import { LitElement } from 'lit';", 'lit', 'lit/html.js'],
    ['src/engine/worker/worker.ts', "new Worker(new URL('../../cli/batch/worker.ts', import.meta.url));", 'src/cli/batch/worker.ts', 'src/book/'],
  ])('%s: %s', (file, text, imported, may) => {
    const line = readFileSync(join(copy, file), 'utf8').split('\n').length + 1;
    const refused = faultsWith(file, text).filter((fault) =>
      fault.startsWith(`${file}:${line} imports ${imported}. By the map in DEVELOPERS.md it may import `),
    );
    expect(refused).toHaveLength(1);
    expect(refused[0]).toContain(may);
  });
});

describe('a room imports none that stands over it, and it is said which', () => {
  test.each([
    ['src/ui/pictures/fields.ts', "import type { Menu } from '../blocks/menu.ts';", 'src/ui/blocks/menu.ts'],
    ['src/ui/parts/clock.ts', "export const start = () => import('../shell/start.ts');", 'src/ui/shell/start.ts'],
    ['src/ui/margin/working.ts', "import '../slips/unit-slip.ts';", 'src/ui/slips/unit-slip.ts'],
  ])('%s: %s', (file, text, imported) => {
    const line = readFileSync(join(copy, file), 'utf8').split('\n').length + 1;
    const room = file.replace(/[^/]*$/, '');
    expect(faultsWith(file, text)).toContain(`${file}:${line} imports ${imported}, which stands over ${room} among the rooms in DEVELOPERS.md.`);
  });

  test('one that stands under it may be imported', () => {
    expect(faultsWith('src/ui/shell/light.ts', "import '../pictures/index.ts';")).toEqual([]);
  });
});

describe('a folder with a door is entered by it alone', () => {
  const map = readMap('## The map\n| a | b | c |\n|---|---|---|\n| `src/a/` | w | nothing else |\n| `src/b/` | w | `src/a/` |\n| `tests/` | w | anything |\n');
  const FILES = ['src/a/index.ts', 'src/a/in/index.ts', 'src/a/in/x.ts', 'src/a/in/deep/y.ts'];
  const told = (file: string, target: string): readonly string[] =>
    judged(map, [], new Map([...FILES, file].map((each) => [each, each === file ? [{ target, line: 1 }] : []])));
  const refused = (file: string, target: string): readonly string[] => [
    `${file}:1 imports ${target}. src/a/in/ has a door: from elsewhere only src/a/in/index.ts is imported.`,
  ];

  test.each([
    ['src/a/z.ts', 'src/a/in/x.ts'],
    ['src/b/z.ts', 'src/a/in/x.ts'],
    ['src/b/z.ts', 'src/a/in/deep/y.ts'],
    ['src/a/z.ts', 'src/a/in/x.css'],
  ])('%s may not import %s', (file, target) => {
    expect(told(file, target)).toEqual(refused(file, target));
  });

  test.each([
    ['src/a/z.ts', 'src/a/in/index.ts'],
    ['src/a/in/z.ts', 'src/a/in/x.ts'],
    ['src/a/in/deep/z.ts', 'src/a/in/x.ts'],
    ['tests/z.ts', 'src/a/in/x.ts'],
    // What has a row of its own is judged by the map.
    ['src/b/z.ts', 'src/a/z.ts'],
  ])('%s may import %s', (file, target) => {
    expect(told(file, target)).toEqual([]);
  });
});

test('the rooms are read from their table, and what can not be read is refused', () => {
  const table = (row: string): string => `## The rooms of the page\n\n| Room | w | Still |\n|---|---|---|\n${row}\n`;
  expect(readRooms(table('| `a/` | words, `code` | |\n| `b/` | w | `c/`, `d/` |\n| `c/` | w |'))).toEqual([
    { place: 'a/', still: [] },
    { place: 'b/', still: ['c/', 'd/'] },
    { place: 'c/', still: [] },
  ]);
  expect(() => readRooms(table('| a | w | |'))).toThrow('| a | w | |');
  expect(() => readRooms(table('| `a/` | w | all |'))).toThrow('| `a/` | w | all |');
  expect(() => readRooms('# x\n')).toThrow('no table');
});

test('a circle of types alone is refused, and its way round is said', () => {
  expect(
    faultsWith('src/book/address.ts', "export type { Limits } from './allowed.ts';").some((fault) =>
      /^src\/book\/.* imports src\/book\/.*: a circle\./.test(fault),
    ),
  ).toBe(true);
});

test('a file that stands in no row of the map may import nothing', () => {
  expect(faultsWith('src/loose.ts', "export * from './shown.ts';")).toEqual([
    'src/loose.ts stands in no row of the map in DEVELOPERS.md, so nothing says what it may import.',
  ]);
});

test('what lint runs says each fault and ends with a failure', () => {
  writeFileSync(join(copy, 'src/book/loose.ts'), "import 'lit';\n");
  const { status, stderr } = spawnSync(process.execPath, [join(import.meta.dirname, 'check.mjs'), copy], { encoding: 'utf8' });
  rmSync(join(copy, 'src/book/loose.ts'));
  expect(stderr).toMatch(/^src\/book\/loose\.ts:1 imports lit\. .* valibot; nothing else\.\n$/);
  expect(status).toBe(1);
  const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
  expect(scripts.lint.split(' && ')).toContain('node tests/map/check.mjs');
  expect(scripts.check.split(' && ')).toContain('npm run lint');
});

test.each([
  ["import a from './x.ts';", ['./x.ts']],
  ["import type { A } from './x.ts';", ['./x.ts']],
  ["import { type A } from './x.ts';", ['./x.ts']],
  ["import {} from './x.ts';", ['./x.ts']],
  ["import * as all from './x.ts' with { type: 'json' };", ['./x.ts']],
  ["import\n  // why\n  './x.ts';", ['./x.ts']],
  ["export { a, b } from './x.ts';", ['./x.ts']],
  ["export {} from './x.ts';", ['./x.ts']],
  ["export type {} from './x.ts';", ['./x.ts']],
  ["export type { A } from './x.ts';", ['./x.ts']],
  ["export * from './x.ts';", ['./x.ts']],
  ["export type * from './x.ts';", ['./x.ts']],
  ["export * as all from './x.ts';", ['./x.ts']],
  ["const a = await import('./x.ts');", ['./x.ts']],
  ["const a = () => import(/* why */ './x.ts');", ['./x.ts']],
  ["const a = import /* why */ ('./x.ts');", ['./x.ts']],
  ['const a = import(`./x.ts`);', ['./x.ts']],
  ["const a = (name: string) => import('./' + name);", [RECKONED]],
  ["import url from './x.ts?worker&url';\nconst a = () => import(url);", ['./x.ts?worker&url']],
  ["import url from './x.ts';\nconst a = () => import(url);", ['./x.ts', RECKONED]],
  ["type A = import('./x.ts').A;", ['./x.ts']],
  ["type A = typeof import('./x.ts');", ['./x.ts']],
  ["declare const a: Promise<typeof import('./x.ts')>;", ['./x.ts']],
  ["import a = require('./x.ts');", ['./x.ts']],
  ["const a = require('./x.ts');", ['./x.ts']],
  ['/// <reference path="x.ts" />\nexport {};', ['./x.ts']],
  ["new URL('./x.ts', import.meta.url);", ['./x.ts']],
  ["new URL('../../', import.meta.url);", []],
  ["import.meta.glob('./x/*.ts', { eager: true });", ['./x/*.ts']],
  ["import.meta.glob(['./x/*.ts', './y/*.ts']);", ['./x/*.ts', './y/*.ts']],
  ["// import './x.ts';\nconst a = \"import './x.ts'\";", []],
  ["import a from './x.ts';\nexport * from './y.ts';\nconst b = import('./z.ts');", ['./x.ts', './y.ts', './z.ts']],
])('what is taken from another file is seen however it is written: %s', (text, from) => {
  expect(importsOf('a.ts', text).map((each) => each.from)).toEqual(from);
});

test('a file that can not be read is not passed over', () => {
  expect(() => importsOf('a.ts', 'import from from from')).toThrow("a.ts can't be read: ");
});

test('a circle is told once, by a shortest way round', () => {
  const graph = new Map([
    ['a', ['b', 'd']],
    ['b', ['c']],
    ['c', ['a', 'd']],
    ['d', ['e']],
    ['e', []],
    ['f', ['f']],
  ]);
  expect(circles(graph)).toEqual([
    ['a', 'b', 'c', 'a'],
    ['f', 'f'],
  ]);
});

describe('the map is read from its table', () => {
  const table = (row: string): string =>
    `# x\n\n## The map\n\n| Folder | What it is | May import |\n|---|---|---|\n${row}\n\nWords.\n\n## Next\n\n| \`a\` | b |\n`;

  test('a row names its places and what they may import', () => {
    expect(readMap(table('| `src/a.ts`, `src/b/` | words, `code` | `src/c/`, `lit` |\n| `tests/` | w | anything |\n| `d/` | w | nothing else |'))).toEqual([
      { places: ['src/a.ts', 'src/b/'], may: ['src/c/', 'lit'], anything: false },
      { places: ['tests/'], may: [], anything: true },
      { places: ['d/'], may: [], anything: false },
    ]);
  });

  test.each(['| `src/` | words | `a` and others |', '| src | words | `a` |', '| `src/` | words | |', '| `src/` | `a` |'])(
    'what can not be read is refused: %s',
    (row) => {
      expect(() => readMap(table(row))).toThrow(row);
    },
  );

  test('without a table nothing is allowed unseen', () => {
    expect(() => readMap('# x\n\n## Recipes\n')).toThrow('no table');
  });
});
