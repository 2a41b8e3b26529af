import { execFileSync } from 'node:child_process';

/** Builds as `npm run build` does, for tests that drive what a user gets. */
export function build(config: string): void {
  // The test runner's own settings must not reach the build: it would be another one.
  const env: NodeJS.ProcessEnv = { ...process.env, NODE_ENV: 'production' };
  delete env.VITEST;
  execFileSync(process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--config', config, '--logLevel', 'warn'], { stdio: 'inherit', env });
}
