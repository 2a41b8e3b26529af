/**
 * `node tests/bench/run.mjs field`: bundles tests/bench/field.bench.ts as the product is bundled, so that the times are those of
 * plain code and not of a module runner, and runs it. Nothing is kept.
 */
import { existsSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';

const name = process.argv[2];
if (!name || !/^[a-z-]+$/.test(name)) {
  console.error('say which benchmark: node tests/bench/run.mjs field');
  process.exit(2);
}
// What a benchmark runs in a worker is a file of its own beside it.
const entries = [`${name}.bench.ts`, `${name}.worker.ts`].map((file) => resolve('tests/bench', file)).filter(existsSync);
const folder = await mkdtemp(join(tmpdir(), 'bench-'));
try {
  await build({
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: true,
      rolldownOptions: { input: entries, output: { entryFileNames: '[name].js' } },
      outDir: folder,
      target: 'es2022',
      minify: true,
      emptyOutDir: false,
    },
    ssr: { noExternal: true },
  });
  await writeFile(join(folder, 'package.json'), '{"type":"module"}');
  await import(pathToFileURL(join(folder, `${name}.bench.js`)).href);
} finally {
  await rm(folder, { recursive: true, force: true });
}
