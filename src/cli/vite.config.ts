// The command line as one bundle with everything in it, so that it starts quickly and needs no node_modules.
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

const root = fileURLToPath(new URL('../..', import.meta.url));

export default defineConfig({
  root,
  ssr: { noExternal: true },
  build: {
    ssr: 'src/cli/main.ts',
    outDir: 'dist/cli',
    target: 'node20',
    rolldownOptions: {
      output: { entryFileNames: 'overbench.js', chunkFileNames: '[name].js', banner: (chunk) => (chunk.isEntry ? '#!/usr/bin/env node' : '') },
    },
  },
});
