// Finds the programs that share out a batch for the tests, GNU parallel and Dask, or installs them. Node built-ins only.
//   node src/setup/engines.mjs   prints where they are, installing what lacks
// What lacks after that is an error, never a reason to skip tests.
import { spawnSync } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { installPackages, onPath } from './debian.mjs';

const says = (command, args, expected) => {
  const { status, stdout } = spawnSync(command, args, { encoding: 'utf8' });
  return status === 0 && expected.test(stdout);
};

/** Another program of this name is in moreutils, and takes other options. */
function findParallel() {
  const found = onPath('parallel');
  return found !== undefined && says(found, ['--version'], /^GNU parallel/) ? found : undefined;
}

/** A Python that has Dask's scheduler and workers: the first on the path need not be the one that Debian's packages are for. */
const findPython = () =>
  [onPath('python3'), '/usr/bin/python3'].find(
    (python) => python !== undefined && says(python, ['-c', 'import dask, distributed; print("there")'], /^there$/m),
  );

/** Where both are. Throws an error that says in words what lacks. */
export function findEngines() {
  const [parallel, python] = [findParallel(), findPython()];
  const lacks = [parallel ? [] : ['GNU parallel (Debian: parallel)'], python ? [] : ['Dask’s distributed for Python 3 (Debian: python3-distributed)']].flat();
  if (parallel === undefined || python === undefined)
    throw new Error(
      `The tests of other engines need ${lacks.join(' and ')}. As root on Debian it is installed by itself; here it was not: install it, then run this again.`,
    );
  return { parallel, python };
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const packages = [findParallel() ? [] : ['parallel'], findPython() ? [] : ['python3', 'python3-distributed']].flat();
  if (packages.length > 0) installPackages(...packages);
  try {
    const { parallel, python } = findEngines();
    console.log(`GNU parallel: ${parallel}\nPython with Dask: ${python}`);
  } catch (error) {
    console.error(error.message);
    process.exit(1);
  }
}
