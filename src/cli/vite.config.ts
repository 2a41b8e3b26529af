// The command line, its worker threads and the package's entry, with everything in them, so that they start quickly and need no node_modules.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';
import { notices } from '../setup/notices.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** What the package offers is declared by hand; the compiler holds src/index.ts to it. */
const declarations: Plugin = {
  name: 'declarations',
  generateBundle() {
    this.emitFile({ type: 'asset', fileName: 'index.d.ts', source: readFileSync(`${root}src/overbench.d.ts`, 'utf8') });
  },
};

const { watch, write } = notices('LICENSE');

export default defineConfig({
  root,
  plugins: [declarations, watch(), write()],
  ssr: { noExternal: true },
  build: {
    ssr: true,
    outDir: 'dist',
    // The page is in there too.
    emptyOutDir: false,
    target: 'node20',
    rolldownOptions: {
      input: { 'cli/overbench': 'src/cli/main.ts', 'cli/batch-worker': 'src/cli/batch/worker.ts', index: 'src/index.ts' },
      output: {
        entryFileNames: '[name].js',
        chunkFileNames: 'cli/[name].js',
        banner: (chunk) => (chunk.name === 'cli/overbench' ? '#!/usr/bin/env node' : ''),
      },
    },
  },
});
