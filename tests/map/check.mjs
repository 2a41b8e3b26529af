// Judges all imports by the map in DEVELOPERS.md: part of `npm run lint`. Another folder may be named, so that a test can judge a copy.
import { fileURLToPath } from 'node:url';
import { faults } from './faults.mjs';

const found = faults(process.argv[2] ?? fileURLToPath(new URL('../..', import.meta.url)));
for (const fault of found) console.error(fault);
if (found.length > 0) process.exitCode = 1;
