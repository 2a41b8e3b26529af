import { execFileSync } from 'node:child_process';

const VITE = 'node_modules/vite/bin/vite.js';

/** Builds the app and the command line once for all tests that drive them as a user would. */
export default function build(): void {
  // The test runner's own settings must not reach the build: it would be another one than `npm run build` makes.
  const env: NodeJS.ProcessEnv = { ...process.env, NODE_ENV: 'production' };
  delete env.VITEST;
  for (const config of ['vite.config.ts', 'src/cli/vite.config.ts']) {
    execFileSync(process.execPath, [VITE, 'build', '--config', config, '--logLevel', 'warn'], { stdio: 'inherit', env });
  }
}
