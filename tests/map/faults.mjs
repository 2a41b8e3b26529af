import { readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { circles } from './circles.mjs';
import { importsOf } from './imports-of.mjs';
import { readMap } from './read-map.mjs';

/** Every import that the map does not allow and every circle of imports, types counted, as sentences; none where all is well. */
export function faults(root) {
  return judged(readMap(readFileSync(join(root, 'DEVELOPERS.md'), 'utf8')), importsIn(root, sources(root)));
}

/** Of each file what it imports: as it stands from the root, and in which line it says so. */
export function importsIn(root, files) {
  return new Map(
    files.map((file) => {
      const found = importsOf(file, readFileSync(join(root, file), 'utf8'));
      return [file, found.map(({ from, line }) => ({ target: targetOf(file, from), line }))];
    }),
  );
}

export function judged(map, imports) {
  const graph = new Map([...imports].map(([file, found]) => [file, [...new Set(found.map(({ target }) => target))].filter((target) => imports.has(target))]));
  return [
    ...[...imports].flatMap(([file, found]) => refused(file, found, map)),
    ...circles(graph).map((circle) => `${circle.join(' imports ')}: a circle. Move what both need into a file that imports neither.`),
  ];
}

const SOURCE = /\.(?:ts|mts|mjs|js)$/;

export function sources(root) {
  const inside = ['functions', 'src', 'templates', 'tests'].flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true }).map((path) => posix.join(folder, ...path.split(/[\\/]/))),
  );
  return inside.filter((path) => SOURCE.test(path)).sort();
}

/** A file by its path from the root, without what the build is asked of it (`?raw`); a package as it is written. */
function targetOf(file, from) {
  return from.startsWith('.') ? posix.join(posix.dirname(file), from.replace(/\?.*$/, '')) : from;
}

function refused(file, imports, map) {
  const rows = map.filter(({ places }) => places.some((place) => lies(file, place)));
  if (rows.length === 0) return [`${file} stands in no row of the map in DEVELOPERS.md, so nothing says what it may import.`];
  if (rows.some(({ anything }) => anything)) return [];
  const own = rows.flatMap(({ places }) => places);
  const may = rows.flatMap((row) => row.may);
  return imports
    .filter(({ target }) => ![...own, ...may].some((place) => lies(target, place)))
    .map(({ target, line }) => `${file}:${line} imports ${target}. By the map in DEVELOPERS.md it may import ${[...own, ...may].join(', ')}; nothing else.`);
}

/** Whether a file or package is the one named, or lies in it: `src/book/` and `node:` are all that begins so, `lit` is lit and lit/html.js. */
function lies(target, place) {
  return target === place || target.startsWith(/[/:]$/.test(place) ? place : `${place}/`);
}
