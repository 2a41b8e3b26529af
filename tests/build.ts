import { execFileSync } from 'node:child_process';

/** Builds as `npm run build` does, for tests that drive what a user gets; what was built from the sources as they are is taken as it is. */
export function build(part: 'page' | 'command-line'): void {
  execFileSync(process.execPath, ['src/setup/build.mjs', part, '--unless-fresh'], { stdio: 'inherit' });
}
