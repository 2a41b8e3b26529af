import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    testTimeout: 30_000,
    projects: [
      { extends: true, test: { name: 'parts', include: ['tests/**/*.test.ts'], exclude: ['tests/cli/**', 'tests/app/**'] } },
      // These drive what `npm run build` makes: it is built once, before the first of them.
      { extends: true, test: { name: 'built', include: ['tests/{cli,app}/**/*.test.ts'], globalSetup: 'tests/built.setup.ts', fileParallelism: false } },
    ],
  },
});
