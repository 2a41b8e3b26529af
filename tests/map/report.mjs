// Prints how the project lies: files a folder, the longest files, folders that import each other, circles. Another checkout may be named.
import { readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { circles } from './circles.mjs';
import { importsIn, sources } from './faults.mjs';

const root = process.argv[2] ?? fileURLToPath(new URL('../..', import.meta.url));
const files = sources(root).filter((file) => /^(?:functions|src)\//.test(file));
const imports = importsIn(root, files);
const graph = new Map([...imports].map(([file, found]) => [file, [...new Set(found.map(({ target }) => target))].filter((target) => imports.has(target))]));

const counts = files.reduce((so, file) => so.set(posix.dirname(file), (so.get(posix.dirname(file)) ?? 0) + 1), new Map());
console.log(`Files a folder (${files.length} in ${counts.size}):`);
for (const [folder, count] of [...counts].sort()) console.log(`  ${String(count).padStart(3)}  ${folder}`);

console.log('Longest files, lines:');
const lines = files.map((file) => [file, readFileSync(join(root, file), 'utf8').split('\n').length - 1]).sort((a, b) => b[1] - a[1]);
for (const [file, long] of lines.slice(0, 12)) console.log(`  ${String(long).padStart(3)}  ${file}`);

const crossing = new Set([...graph].flatMap(([file, found]) => found.map((target) => `${posix.dirname(file)} ${posix.dirname(target)}`)));
const pairs = [...crossing].map((pair) => pair.split(' ')).filter(([a, b]) => a < b && crossing.has(`${b} ${a}`));
console.log(`Folders that import each other: ${pairs.length}`);
for (const [a, b] of pairs.sort()) console.log(`  ${a} and ${b}`);

const found = circles(graph);
console.log(`Circles of files, types counted: ${found.length}`);
for (const circle of found) console.log(`  ${circle.join(' imports ')}`);
