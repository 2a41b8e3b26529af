import { readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { circles } from './circles.mjs';
import { importsOf } from './imports-of.mjs';
import { readMap } from './read-map.mjs';
import { readRooms } from './read-rooms.mjs';

/** Every import that the guide's map, its rooms or a folder's door does not allow and every circle of imports, types counted, as sentences; none where all is well. */
export function faults(root) {
  const guide = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
  return judged(readMap(guide), readRooms(guide), importsIn(root, sources(root)));
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

export function judged(map, rooms, imports) {
  const graph = new Map([...imports].map(([file, found]) => [file, [...new Set(found.map(({ target }) => target))].filter((target) => imports.has(target))]));
  const doors = doorsIn(map, imports);
  return [
    ...[...imports].flatMap(([file, found]) => [...refused(file, found, map), ...climbing(file, found, rooms), ...beside(file, found, doors, map)]),
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

/** Rooms stand one over another: what a lower one needs of a higher one is handed to it. */
function climbing(file, imports, rooms) {
  const room = roomOf(file, rooms);
  if (room < 0) return [];
  const open = rooms[room].still;
  return imports
    .filter(({ target }) => roomOf(target, rooms) > room && !open.some((place) => lies(target, place)))
    .map(({ target, line }) => `${file}:${line} imports ${target}, which stands over ${rooms[room].place} among the rooms in DEVELOPERS.md.`);
}

const roomOf = (file, rooms) => rooms.findIndex(({ place }) => lies(file, place));

/** Folders that have an index: what the map has a row for, or for something in it, is judged by the map alone. */
function doorsIn(map, imports) {
  const mapped = map.flatMap(({ places }) => places);
  return [...imports.keys()]
    .filter((file) => /\/index\.(?:ts|mjs)$/.test(file))
    .map((index) => ({ folder: index.replace(/[^/]*$/, ''), index }))
    .filter(({ folder, index }) => !mapped.some((place) => place.startsWith(folder) && place !== index));
}

function beside(file, imports, doors, map) {
  if (map.some(({ places, anything }) => anything && places.some((place) => lies(file, place)))) return [];
  return imports.flatMap(({ target, line }) => {
    const door = doors.find(({ folder, index }) => lies(target, folder) && !lies(file, folder) && target !== index);
    return door === undefined ? [] : [`${file}:${line} imports ${target}. ${door.folder} has a door: from elsewhere only ${door.index} is imported.`];
  });
}

/** Whether a file or package is the one named, or lies in it: `src/book/` and `node:` are all that begins so, `lit` is lit and lit/html.js. */
function lies(target, place) {
  return target === place || target.startsWith(/[/:]$/.test(place) ? place : `${place}/`);
}
